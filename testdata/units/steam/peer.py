"""States of water and steam by another program for the same formulation. Each line of
the input has MPa and K, zero for saturation; each line of the output has temperature,
volume, enthalpy and entropy, for saturation those of the water and of the steam."""

import sys

from iapws.iapws97 import IAPWS97

for line in sys.stdin:
    p, t = map(float, line.split())
    states = [IAPWS97(P=p, T=t)] if t else [IAPWS97(P=p, x=0), IAPWS97(P=p, x=1)]
    print(*(repr(float(v)) for s in states for v in (s.T, s.v, s.h, s.s)))
