"""Circles through points and the most even lie of castings, with scipy.

A line "points x y x y ..." is answered with the centre and the radius of the geometric
circle, the width of the zone, the radius of the largest inscribed circle near it and of
the smallest enclosing one. A line "casting stocked n sign stock reading ... (n readings),
and so on for each ring" is answered with the least metal, or the greatest zone, of the
most even lie, which scipy's linear programme finds.
"""
import sys

import numpy as np
from scipy.optimize import least_squares, linprog, minimize


def about(points, c):
    return np.hypot(points[:, 0] - c[0], points[:, 1] - c[1])


def best(points, start, unknowns, goal, bounds):
    """Minimise goal(v) with bounds(v) >= 0 over the centre and radii, from nine starts."""
    found = np.inf
    for dx in (-0.01, 0, 0.01):
        for dy in (-0.01, 0, 0.01):
            c = start + np.array([dx, dy])
            d = about(points, c)
            v = np.concatenate([c, unknowns(d)])
            r = minimize(goal, v, method="SLSQP", constraints={"type": "ineq", "fun": bounds},
                         options={"maxiter": 500, "ftol": 1e-15})
            near = np.hypot(*(r.x[:2] - start)) < 5  # SLSQP may run away, or stop there without saying so
            if near and np.min(bounds(r.x)) > -1e-8:
                found = min(found, goal(r.x))
    return found


def circles(points):
    start = points.mean(axis=0)
    fit = least_squares(lambda c: about(points, c) - about(points, c).mean(), start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    c = fit.x
    zone = best(points, c, lambda d: [d.min(), d.max()], lambda v: v[3] - v[2],
                lambda v: np.concatenate([about(points, v) - v[2], v[3] - about(points, v)]))
    inside = -best(points, c, lambda d: [d.min()], lambda v: -v[2], lambda v: about(points, v) - v[2])
    outside = best(points, c, lambda d: [d.max()], lambda v: v[2], lambda v: v[2] - about(points, v))
    return [c[0], c[1], about(points, c).mean(), zone, inside, outside]


def even(stocked, rings):
    """Unknowns: x, y, the aim, and the level of each ring where no stock is known."""
    left, right = [], []
    for k, (sign, stock, readings) in enumerate(rings):
        metal = readings - readings.mean()
        for i, v in enumerate(metal):
            t = 2 * np.pi * i / len(metal)
            row = np.zeros(3 + len(rings))
            row[:2] = sign * np.cos(t), sign * np.sin(t)
            if stocked:  # aim <= stock + metal - sign (x cos + y sin)
                row[2] = 1
                left.append(row), right.append(stock + v)
                continue
            low, high = row.copy(), -row
            low[3 + k], high[3 + k], high[2] = 1, -1, -1
            left.append(low), right.append(v)
            left.append(high), right.append(-v)
    cost = np.zeros(3 + len(rings))
    cost[2] = -1 if stocked else 1
    r = linprog(cost, A_ub=np.array(left), b_ub=np.array(right), bounds=[(None, None)] * len(cost), method="highs")
    assert r.status == 0, r.message
    return [r.x[2]]


for line in sys.stdin:
    word, *rest = line.split()
    numbers = [float(n) for n in rest]
    if word == "points":
        print(*circles(np.array(numbers).reshape(-1, 2)))
        continue
    stocked, numbers, rings = numbers[0] == 1, numbers[1:], []
    while numbers:
        n, sign, stock = int(numbers[0]), numbers[1], numbers[2]
        rings.append((sign, stock, np.array(numbers[3:3 + n])))
        numbers = numbers[3 + n:]
    print(*even(stocked, rings))
