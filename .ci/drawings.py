"""Readers of drawings that share no code with this repository, for .ci/sheets and
.ci/book: bars of 100 mm measured in a raster, files checked. Needs the Debian packages
python3-numpy, poppler-utils and qpdf."""

import math, re, struct, subprocess, sys, tempfile, zlib
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy

scratch = Path(tempfile.mkdtemp(dir=sys.argv[1]))
failed = 0


def check(name, good, seen=""):
    global failed
    failed += not good
    print(f"{'ok  ' if good else 'FAIL'} {name}{': ' + str(seen) if seen != '' else ''}")


def run(*command):
    done = subprocess.run([str(c) for c in command], capture_output=True, text=True)
    return done.returncode, done.stdout + done.stderr


SVG = "{http://www.w3.org/2000/svg}"
MM = 72 / 25.4
WITHIN = 0.02  # mm, of a bar of 100 mm


def bars_of_svg(path):
    """The two bars as x1, y1, x2, y2 in millimetres of the sheet, with the size of the sheet."""
    root = ET.parse(path).getroot()
    scale, group = (1, 1), root.find(f"{SVG}g")
    if "transform" in group.attrib:
        scale = tuple(float(v) for v in re.findall(r"[\d.]+", group.get("transform")))
    lines = []
    for g in root.iter(f"{SVG}g"):
        if g.get("class") == "SCALE":
            for line in g.findall(f"{SVG}line"):
                v = [float(line.get(k)) * scale[i % 2] for i, k in enumerate(("x1", "y1", "x2", "y2"))]
                lines.append(v)
    across = max((v for v in lines if v[1] == v[3]), key=lambda v: abs(v[2] - v[0]))
    up = max((v for v in lines if v[0] == v[2]), key=lambda v: abs(v[3] - v[1]))
    return across, up, (float(root.get("width")[:-2]), float(root.get("height")[:-2]))


def tick(pdf, page, at, along_x):
    """Where the tick at one end of a bar stands along the bar, in millimetres, from a raster of 1000 dots to the inch."""
    dpi, reach = 1000, 1.0
    px = dpi / 25.4
    x, y = at
    x0, x1, y0, y1 = x - reach, x + reach, y - reach, y + reach
    if along_x:  # look beside the bar, where the end ticks reach 2 mm
        y0, y1 = y + 0.5, y + 1.3
    else:
        x0, x1 = x - 1.3, x - 0.5
    left, top = round(x0 * px), round(y0 * px)
    out = scratch / "tick"
    code, text = run("pdftocairo", "-r", dpi, "-png", "-gray", "-antialias", "best", "-f", page, "-l", page, "-singlefile", "-x", left, "-y", top, "-W", round((x1 - x0) * px), "-H", round((y1 - y0) * px), pdf, out)
    if code:
        raise RuntimeError(text)
    gray = png(out.with_suffix(".png"))
    dark = (255.0 - gray).sum(axis=0 if along_x else 1)
    if dark.sum() == 0:
        return math.nan
    middle = (dark * (numpy.arange(len(dark)) + 0.5)).sum() / dark.sum()
    return (middle + (left if along_x else top)) / px


def png(path):
    """A gray picture of 8 bits to the dot, as poppler writes it."""
    data = path.read_bytes()
    at, body = 8, b""
    while at < len(data):
        size, kind = struct.unpack(">I4s", data[at : at + 8])
        chunk = data[at + 8 : at + 8 + size]
        if kind == b"IHDR":
            width, height, depth, colour = struct.unpack(">IIBB", chunk[:10])
            assert (depth, colour) == (8, 0), (depth, colour)
        elif kind == b"IDAT":
            body += chunk
        at += size + 12
    raw = numpy.frombuffer(zlib.decompress(body), dtype=numpy.uint8).reshape(height, width + 1)
    rows, last = [], numpy.zeros(width, dtype=numpy.int64)
    for filter_type, row in zip(raw[:, 0], raw[:, 1:].astype(numpy.int64)):
        if filter_type == 0:
            line = row
        elif filter_type == 1:
            line = numpy.cumsum(row) % 256
        elif filter_type == 2:
            line = (row + last) % 256
        else:
            line = row.copy()
            for i in range(width):
                a, b, c = (line[i - 1] if i else 0), last[i], (last[i - 1] if i else 0)
                if filter_type == 3:
                    line[i] = (row[i] + (a + b) // 2) % 256
                else:
                    p = a + b - c
                    best = min((abs(p - a), 0, a), (abs(p - b), 1, b), (abs(p - c), 2, c))[2]
                    line[i] = (row[i] + best) % 256
        rows.append(line)
        last = line
    return numpy.array(rows, dtype=float)


def measure(name, pdf, page, svg, want_x, want_y):
    """Measure both bars of a page in the raster; the SVG tells where to look."""
    across, up, _ = bars_of_svg(svg)
    y, x = across[1], up[0]
    got_x = tick(pdf, page, (max(across[0], across[2]), y), True) - tick(pdf, page, (min(across[0], across[2]), y), True)
    got_y = tick(pdf, page, (x, max(up[1], up[3])), False) - tick(pdf, page, (x, min(up[1], up[3])), False)
    check(f"{name}: bars in a raster of 1000 dpi within {WITHIN} mm", abs(got_x - want_x) <= WITHIN and abs(got_y - want_y) <= WITHIN, f"{got_x:.4f} x {got_y:.4f} mm of {want_x:.4f} x {want_y:.4f}")


def page_sizes(pdf):
    code, text = run("pdfinfo", "-f", 1, "-l", 99, pdf)
    return [(float(w) / MM, float(h) / MM) for w, h in re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", text)]


def done(good):
    """End the program: with 1 where a check failed."""
    print(good if not failed else f"{failed} checks failed")
    sys.exit(failed > 0)
