"""The whole mechanism as bodies and joints, solved with mpmath.

Nothing of the library's algebra is here: no lap, no formula of a valve's events.
Standard input is one gear a line, lengths in millimetres, angles in degrees:

    stroke connecting_rod travel eccentric_rod advance lever inside
    head_port head_bar middle_port crank_bar crank_port length cavity cavity_offset offset

Shaft at the origin, cylinder on the side of negative x, ports on the line of the
valve with the middle port at zero. Joints: a crank pin and an eccentric pin that
turn with the shaft, two rods of fixed length, two blocks in straight guides, and
between the eccentric's block and the valve a lever of the given ratio (0: none).
Where the sheave sits on the shaft is as T. Bevan, The Theory of Machines, ch. 5, and
every text on reversing levers and piston valves has it: an eccentric ahead of the
crank by 90 degrees and the advance opens the port that the piston leaves; one thing
that turns the motion round wants it behind the crank by 90 degrees less the advance.

Standard output, for each gear, one line: for each end admission, cut-off, release
and compression as crank angle from that end's dead centre in radians and share of
the stroke from that end; "none" twice where the port never opens or never shuts.
Each is a root of the constraints of the whole mechanism, by Newton's method in as
many unknowns as there are moving joints.
"""

import cmath
import math
import sys

from mpmath import mp, mpf

mp.dps = 30


class Gear:
    def __init__(self, line):
        words = line.split()
        (self.stroke, self.rod, self.travel, self.eccentric_rod, self.advance, self.lever, self.inside,
         p1, b1, middle, b2, p2, length, cavity, cavity_offset, self.offset) = map(float, words)
        self.radius = self.stroke / 2
        ratio = self.lever or 1.0
        self.ratio = ratio
        self.eccentricity = self.travel / 2 / abs(ratio)
        ahead = math.radians(self.advance)
        turned = (ratio < 0) != (self.inside != 0)
        self.lead = -(math.pi / 2 - ahead) if turned else math.pi / 2 + ahead
        half = middle / 2
        self.ports = {"head": (-half - b1 - p1, -half - b1), "crank": (half + b2, half + b2 + p2)}
        self.outer = (-length / 2, length / 2)
        self.inner = (cavity_offset - cavity / 2, cavity_offset + cavity / 2)

    def pin(self, lib, angle):
        return -self.eccentricity * lib.cos(angle + self.lead), self.eccentricity * lib.sin(angle + self.lead)

    def valve(self, angle):
        """Where the valve is at a crank angle, in plain floating point, to start from."""
        x, y = self.pin(math, angle)
        block = x - math.sqrt(self.eccentric_rod**2 - y * y)
        return self.ratio * (block + self.eccentric_rod) + self.offset

    def spaces(self, end):
        """The edge of the valve that bounds the steam at an end and the one that bounds
        the exhaust, each with the edge of the port that it uncovers and the way that
        it goes to shut it."""
        low, high = self.ports[end]
        if end == "head":
            outer, inner = (self.outer[0], low, -1), (self.inner[0], high, 1)
        else:
            outer, inner = (self.outer[1], high, 1), (self.inner[1], low, -1)
        return (inner, outer) if self.inside else (outer, inner)


def event(gear, edge, port, start):
    """Crank angle and piston at which the valve's edge is over the port's edge."""
    r, l, R, L = map(mpf, (gear.eccentricity, gear.eccentric_rod, gear.radius, gear.rod))

    def constraints(angle, block, slide, cross):
        x, y = gear.pin(mp, angle)
        cx, cy = -R * mp.cos(angle), R * mp.sin(angle)
        return (
            (x - block) ** 2 + y**2 - l**2,  # the eccentric rod
            slide - mpf(gear.ratio) * (block + l) - mpf(gear.offset),  # the lever
            (cx - cross) ** 2 + cy**2 - L**2,  # the connecting rod
            slide + mpf(edge) - mpf(port),  # edge over edge
        )

    x, y = gear.pin(math, start)
    block = x - math.sqrt(gear.eccentric_rod**2 - y * y)
    cross = -gear.radius * math.cos(start) - math.sqrt(gear.rod**2 - (gear.radius * math.sin(start)) ** 2)
    found = mp.findroot(constraints, (mpf(start), mpf(block), mpf(port) - mpf(edge), mpf(cross)), tol=1e-40)
    angle, _, _, cross = found
    return angle, (cross + R + L) / (2 * R)


def moments(gear, end, edge):
    """When a port opens and shuts to the space behind an edge, or None."""
    at, port, side = edge
    openness = lambda angle: -side * (gear.valve(angle) + at - port)  # above zero: open
    opens = shuts = None
    steps = 1440
    grid = [2 * math.pi * (i + 0.317) / steps for i in range(steps + 1)]
    values = [openness(angle) for angle in grid]
    for a, b, fa, fb in zip(grid, grid[1:], values, values[1:]):
        if fa <= 0 < fb:
            opens = event(gear, at, port, (a + b) / 2)
        if fb <= 0 < fa:
            shuts = event(gear, at, port, (a + b) / 2)
    if opens is None or shuts is None:
        return None
    return opens, shuts


for line in sys.stdin:
    gear = Gear(line)
    out = []
    for end in ("head", "crank"):
        steam, exhaust = gear.spaces(end)
        for edge in (steam, exhaust):
            found = moments(gear, end, edge)
            for moment in found or (None, None):
                if moment is None:
                    out += ["none", "none"]
                    continue
                angle, share = moment
                if end == "crank":
                    angle, share = angle - mp.pi, 1 - share
                out += [mp.nstr(angle % (2 * mp.pi), 20), mp.nstr(share, 20)]
    print(*out)
