"""Points of the valve's and the piston's motion, for the drawn curves.

A line of input is a gear with direct drive: half the stroke, connecting rod, half the
travel, eccentric rod, valve set off towards the crank, angle of advance in radians. The
cylinder lies on the negative side of the shaft. A joint on the axis is found where its
distance from the pin is the length of the rod. A line of output has, for each five
degrees of a turn from the head-end dead centre, the piston's distance from that centre
and the valve's from mid-travel towards the crank.
"""
import sys

import numpy as np
from scipy.optimize import brentq


def joint(pin, rod, reach):
    """Place on the axis, on the negative side, of the far end of a rod from a pin."""
    return brentq(lambda x: np.hypot(*(pin - [x, 0])) - rod, pin[0] - rod - reach, pin[0], xtol=1e-13)


for line in sys.stdin:
    half, rod, sheave, eccentric, off, advance = map(float, line.split())
    out = []
    for turned in np.radians(np.arange(0, 360, 5)):
        crank = half * np.array([-np.cos(turned), np.sin(turned)])
        out.append(joint(crank, rod, half) + half + rod)
        ahead = turned + np.pi / 2 + advance
        pin = sheave * np.array([-np.cos(ahead), np.sin(ahead)])
        out.append(joint(pin, eccentric, sheave) + eccentric + off)
    print(*(format(v, ".12g") for v in out))
