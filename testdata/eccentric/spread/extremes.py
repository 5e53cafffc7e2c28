"""Search for the extremes of valve events over boxes of tolerances with scipy,
sharing no code with the library.

Standard input: one box a line, the least and the greatest of each of stroke,
connecting rod, eccentric rod, steam port, bar, middle port, valve, cavity,
offset, travel and advance, in millimetres and radians. Standard output: for
each, for admission, cut-off, release and compression of the head end, the
least and greatest crank angle and the least and greatest share of the stroke,
found by bounded minimisation (L-BFGS-B) from many starts. Each event is found
with Brent's method on the mechanism itself: an eccentric pin on a circle, a
rod, a line of stroke.
"""

import cmath
import math
import random
import sys

from scipy.optimize import brentq, minimize

OUT = {"admission": True, "cut-off": False, "release": False, "compression": True}
STEAM = {"admission": True, "cut-off": True, "release": False, "compression": False}


def crank(event, sizes):
    """Crank angle of an event at the head end, in the turn of its admission."""
    _, _, rod, port, bar, middle, valve, cavity, offset, travel, advance = sizes
    edge = (valve - middle) / 2 - bar - port if STEAM[event] else cavity / 2 - middle / 2 - bar

    def past(p):  # p from the place furthest from the crank
        pin = travel / 2 * cmath.exp(1j * (math.pi - p))
        return pin.real + rod - math.sqrt(rod * rod - pin.imag**2) + offset - edge

    p = brentq(past, 0, math.pi, xtol=1e-14, rtol=1e-14)
    if not OUT[event]:
        p = 2 * math.pi - p
    t = p - math.pi / 2 - advance
    return t + 2 * math.pi if event == "compression" else t


def stroke(event, sizes):
    t, (full, rod) = crank(event, sizes), sizes[:2]
    pin = full / 2 * cmath.exp(1j * t)
    return (full / 2 + rod - pin.real - math.sqrt(rod * rod - pin.imag**2)) / full


random.seed(1)
for line in sys.stdin:
    ends = list(map(float, line.split()))
    low, high = ends[0::2], ends[1::2]

    def sizes(shares):
        return [a + s * (b - a) for s, a, b in zip(shares, low, high)]

    found = []
    for event in OUT:
        for value in (crank, stroke):
            for sign in (1, -1):
                best = math.inf
                for start in range(6):
                    shares = [random.random() for _ in low]
                    got = minimize(
                        lambda x: sign * value(event, sizes(x)), shares, method="L-BFGS-B",
                        bounds=[(0, 1)] * len(low), options={"ftol": 1e-15, "gtol": 1e-10},
                    )
                    best = min(best, got.fun)
                found.append(sign * best)
    print(*(repr(v) for v in found))
