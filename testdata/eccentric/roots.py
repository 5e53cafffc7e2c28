"""Solve for valve events with scipy, sharing no code with the library.

Standard input: one gear a line, "r l offset advance steam_lap exhaust_lap", in
millimetres and radians. Standard output: for each, the crank angles, in
radians from -pi to pi of the head-end dead centre, at which the head port
opens and shuts to steam and to exhaust, found with Brent's method on the
mechanism itself: an eccentric pin on a circle, a rod, and a line of stroke.
"""

import cmath
import math
import sys

from scipy.optimize import brentq


def position(t, r, l, offset, advance):
    """Distance of the valve from mid-travel towards the crank."""
    pin = r * cmath.exp(1j * (math.pi - (t + advance + math.pi / 2)))
    return pin.real + l - math.sqrt(l * l - pin.imag**2) + offset


def crossings(f):
    steps = 720
    found = []
    grid = [-math.pi + 2 * math.pi * i / steps + 1e-9 for i in range(steps + 1)]
    values = [f(t) for t in grid]
    for a, b, fa, fb in zip(grid, grid[1:], values, values[1:]):
        if fa * fb < 0:
            found.append((brentq(f, a, b, xtol=4e-16, rtol=8.9e-16), fa < 0))
    return found


for line in sys.stdin:
    r, l, offset, advance, steam, exhaust = map(float, line.split())
    out = []
    for lap in (steam, -exhaust):
        f = lambda t: position(t, r, l, offset, advance) - lap
        up = [t for t, rising in crossings(f) if rising]
        down = [t for t, rising in crossings(f) if not rising]
        out += [up[0], down[0]] if up and down else [math.inf, math.inf]
    print(*(repr(v) for v in out))
