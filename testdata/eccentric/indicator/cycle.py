"""Follow the cycle of a slide-valve engine with scipy, sharing no code with the library.

Standard input: one engine a line, in metres, pascals and radians:

    crank rod offset_of_sheave eccentric_rod advance
    steam_lap exhaust_lap            of the head end, then of the crank end
    area clearance                   of the head end, then of the crank end
    chest back air index

Standard output, for each: the net work of a turn, and the turning moment at 24
crank angles, 15 degrees apart from 0.1 rad after the head-end dead centre.

Where the valve passes an edge is found with Brent's method on the mechanism: pins on
circles, rods, lines of stroke. The pressure is followed from the last closing, twice
round, and the work is a quadrature of the turning moment.
"""

import cmath
import math
import sys

from scipy.integrate import quad
from scipy.optimize import brentq

TURN = 2 * math.pi


def slider(radius, rod, angle):
    """Distance from the far dead centre of a slider whose pin stands at angle."""
    pin = radius * cmath.exp(1j * angle)
    return radius + rod - pin.real - math.sqrt(rod * rod - pin.imag**2)


class Side:
    def __init__(self, valve, gone, laps, area, clearance, stroke, chest, back, index):
        self.volume = lambda t: area * (gone(t) + clearance * stroke)
        self.index, self.chest, self.back = index, chest, back
        steam, exhaust = laps
        grid = [0.0123 + TURN * i / 1440 for i in range(1441)]
        self.edges = []
        for level in (steam, -exhaust):
            f = lambda t: valve(t) - level
            values = [f(t) for t in grid]
            for a, b, fa, fb in zip(grid, grid[1:], values, values[1:]):
                if fa * fb < 0:
                    self.edges.append(brentq(f, a, b, xtol=4e-16, rtol=8.9e-16))
        self.edges.sort()
        self.laws = []
        law = None
        for lap in range(2):
            for i, start in enumerate(self.edges):
                end = self.edges[(i + 1) % len(self.edges)] + (TURN if i + 1 == len(self.edges) else 0)
                x = valve((start + end) / 2)
                if x > steam:
                    law = (chest, None)
                elif x < -exhaust:
                    law = (back, None)
                elif law is not None and law[1] is None:
                    law = (law[0], self.volume(start))
                if lap:
                    self.laws.append((start, law))

    def pressure(self, t, law=None):
        if law is None:
            turned = self.edges[0] + (t - self.edges[0]) % TURN
            law = [l for start, l in self.laws if start <= turned][-1]
        p, closed = law
        return p if closed is None else p * (closed / self.volume(t)) ** self.index


for line in sys.stdin:
    (crank, rod, offset, eccentric_rod, advance, hs, he, cs, ce, ha, hc, ca, cc, chest, back, air, index) = map(
        float, line.split()
    )
    stroke = 2 * crank
    valve = lambda t: slider(offset, eccentric_rod, t + advance + math.pi / 2) - offset
    piston = lambda t: slider(crank, rod, t)
    head = Side(valve, piston, (hs, he), ha, hc, stroke, chest, back, index)
    tail = Side(lambda t: -valve(t), lambda t: stroke - piston(t), (cs, ce), ca, cc, stroke, chest, back, index)

    def moment(t, h=None, c=None):
        force = head.pressure(t, h) * ha - tail.pressure(t, c) * ca - air * (ha - ca)
        slant = math.asin(crank * math.sin(t) / rod)
        return force * crank * math.sin(t + slant) / math.cos(slant)

    marks = sorted({e % TURN for e in head.edges + tail.edges} | {0.0, TURN})
    work = 0.0
    for a, b in zip(marks, marks[1:]):
        middle = (a + b) / 2
        laws = []
        for side in (head, tail):
            turned = side.edges[0] + (middle - side.edges[0]) % TURN
            laws.append([l for start, l in side.laws if start <= turned][-1])
        work += quad(lambda t: moment(t, *laws), a, b, epsabs=0, epsrel=1e-12)[0]
    print(repr(work), *(repr(moment(0.1 + math.radians(15 * i))) for i in range(24)))
