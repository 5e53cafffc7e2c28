"""The events of many valve gears at once, with numpy.

The closed form of the valve's and the piston's motion, each step on all gears
together. It shares no code with the library and takes another road: the
eccentric's angle by its cosine, from the triangle of eccentric, rod and line of
stroke; the piston by the slant of its rod.

    closed_form.py events <gears   columns of the events of each gear, then the
                                   percentiles of each column
    closed_form.py roots           how far the closed form is from scipy's Brent
    closed_form.py times           how long it takes, in nanoseconds a gear

Gears are columns of float64, in millimetres and radians, in the order of FIELDS.
The answer has for the head and the crank end: admission, cut-off, release and
compression, each crank angle and share of the stroke, then lead, opening, exhaust
opening. All ports are thought to open and close, with admission outside, direct
drive, and an advance near what the laps ask for.
"""

import cmath
import math
import sys
import time

import numpy as np
from scipy.optimize import brentq

FIELDS = (
    "stroke rod travel eccentric_rod advance steam bar middle crank_steam crank_bar "
    "valve cavity offset cavity_offset lost"
).split()
SHARES = [5, 50, 95]

# The engine and the tolerances of BenchmarkRandom.
DRAWN = dict(
    stroke=25, rod=63, travel=6.4, eccentric_rod=60, advance=math.radians(26), steam=2, bar=2.5, middle=4,
    valve=15.4, cavity=9, offset=0, cavity_offset=0, lost=0,
)
TOLERANCES = dict(
    advance=math.radians(1), valve=0.05, cavity=0.05, steam=0.05, bar=0.05, middle=0.05, travel=0.05, offset=0.05,
    stroke=0.1, rod=0.1, eccentric_rod=0.1,
)


def events(g):
    """The columns of gears, each size of which is one number or an array."""
    r, l, late = g["travel"] / 2, g["eccentric_rod"], g["lost"] / 2
    n = 2 * g["rod"] / g["stroke"]
    outer, inner = (g["valve"] - g["middle"]) / 2, (g["middle"] - g["cavity"]) / 2
    lead, across = r * np.sin(g["advance"]), r * np.cos(g["advance"])
    slant = l - np.sqrt(l * l - across * across)
    squares, n2, quarter = r * r - l * l, n * n, math.pi / 2 + g["advance"]
    columns = []
    for end, port, bar in (1, g["steam"], g["bar"]), (-1, g["crank_steam"], g["crank_bar"]):
        shift = end * g["offset"]
        steam = outer - bar - port - shift
        exhaust = inner + bar + end * g["cavity_offset"] + shift

        def angle(c):  # of the eccentric from its place furthest from opening the end to steam
            lc = end * l - c
            return np.arccos((squares + lc * lc) / (2 * r * lc))

        def stroke(t):
            cos, sin = np.cos(t), np.sin(t)
            return (1 - cos + end * (n - np.sqrt(n2 - sin * sin))) / 2

        if np.any(late):
            p = [angle(steam + late), angle(steam - late), angle(-exhaust - late), angle(late - exhaust)]
        else:
            p = [angle(steam)] * 2 + [angle(-exhaust)] * 2
        back = 2 * math.pi - quarter
        for t in p[0] - quarter, back - p[1], back - p[2], back + p[3]:
            columns += [t, stroke(t)]
        columns.append(lead - late + end * slant - steam)
        columns.append(np.clip(r - late - steam, 0, port))
        columns.append(np.clip(r - late - exhaust, 0, port))
    return columns


def roots(g):
    """The crank angles of one gear's events, from the mechanism, without lost motion."""
    found = []
    for end, port, bar in (1, g["steam"], g["bar"]), (-1, g["crank_steam"], g["crank_bar"]):

        def valve(t):  # towards opening the end to steam, from its own dead centre
            at = t + g["advance"] + math.pi / 2 + (0 if end == 1 else math.pi)
            pin = g["travel"] / 2 * cmath.exp(1j * (math.pi - at))
            rod = math.sqrt(g["eccentric_rod"] ** 2 - pin.imag**2)
            return end * (pin.real + g["eccentric_rod"] - rod + g["offset"])

        edge = g["middle"] / 2 + bar
        outer = g["valve"] / 2 - edge - port
        inner = edge + end * g["cavity_offset"] - g["cavity"] / 2
        for lap, low, high in (outer, -1.5, 1), (outer, 1, 3), (-inner, 1, 4), (-inner, 4, 7):
            found.append(brentq(lambda t: valve(t) - lap, low, high, xtol=4e-16, rtol=8.9e-16))
    return found


def draw(rng, n):
    """Gears of normal distributions, drawn again beyond three standard deviations."""
    g = dict(DRAWN)
    for name, tolerance in TOLERANCES.items():
        z = rng.standard_normal(n)
        while (beyond := np.flatnonzero(np.abs(z) > 3)).size:
            z[beyond] = rng.standard_normal(beyond.size)
        g[name] = DRAWN[name] + tolerance / 3 * z
    g["crank_steam"], g["crank_bar"] = g["steam"], g["bar"]
    return g


def part(g, some):
    return {name: size[some] if np.ndim(size) else size for name, size in g.items()}


def best(job, times):
    took = []
    for _ in range(times):
        start = time.perf_counter()
        job()
        took.append(time.perf_counter() - start)
    return min(took)


def main(job=""):
    rng, n = np.random.default_rng(1), 100_000
    if job == "events":
        table = np.frombuffer(sys.stdin.buffer.read()).reshape(len(FIELDS), -1)
        columns = np.array(events(dict(zip(FIELDS, table))))
        sys.stdout.buffer.write(columns.tobytes())
        sys.stdout.buffer.write(np.percentile(columns, SHARES, axis=1).T.tobytes())
    elif job == "roots":
        g = draw(rng, 1000)
        closed = np.array([c for i, c in enumerate(events(g)) if i % 11 < 8 and i % 11 % 2 == 0])
        print(max(np.max(np.abs(closed[:, i] - roots(part(g, i)))) for i in range(1000)))
    elif job == "times":
        g = draw(rng, n)

        def parts():
            for i in range(0, n, 4096):
                events(part(g, slice(i, i + 4096)))

        def run():
            for column in events(draw(rng, n)):
                np.percentile(column, SHARES, overwrite_input=True)

        print(best(lambda: events(g), 30) / n * 1e9, best(parts, 30) / n * 1e9, best(run, 10) / n * 1e9)
    else:
        sys.exit(__doc__)


main(*sys.argv[1:])
