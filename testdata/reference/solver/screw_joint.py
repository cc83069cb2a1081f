"""Screws that join tube and end, without the formulas that are to be held: a
beam in two elastic beds, threads cut along a cylinder, springs that touch one
after the other, and the worst places of holes. Needs scipy:

    python3 screw_joint.py > ../screw_joint.csv
"""

import csv
import math
import sys

import numpy as np
from scipy.optimize import brentq, minimize

ROWS = []


def row(name, quantity, inputs, value, unit, tolerance, where, note=""):
    text = "; ".join("%s=%.9g" % (k, v) if not isinstance(v, str) else "%s=%s" % (k, v) for k, v in inputs)
    ROWS.append([name, quantity, text, "%.9g" % value, unit, tolerance, "first principles, screw_joint.py", where, "solver", note])


# A screw in single lap is a beam of its core. The beds of wall and thread have
# the bearing flexibility of sheet and bolt, 1/E + 1/E_f for each unit of length
# (Tate and Rosenfeld); the head is free to lean.
def beam(core, wall, gap, depth, plate=68900.0, steel=205000.0, n=400):
    bed = 1 / (1 / plate + 1 / steel)
    h = (depth + gap + wall) / n
    inertia = math.pi / 64 * core ** 4
    size = 2 * (n + 1)
    k = steel * inertia / h ** 3 * np.array([
        [12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
        [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    m = bed * h / 420 * np.array([
        [156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
        [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    v = bed * np.array([h / 2, h * h / 12, h / 2, -h * h / 12])
    a, f = np.zeros((size + 1, size + 1)), np.zeros(size + 1)
    for e in range(n):
        dof = list(range(2 * e, 2 * e + 4))
        a[np.ix_(dof, dof)] += k
        middle = (e + 0.5) * h
        if middle < depth or middle > depth + gap:
            a[np.ix_(dof, dof)] += m
        if middle > depth + gap:  # the wall moves as one, the last freedom
            a[dof, size] -= v
            a[size, dof] -= v
            a[size, size] += bed * h
    f[size] = 1.0
    u = np.linalg.solve(a, f)
    most = 0.0
    for e in range(n):
        w = u[2 * e:2 * e + 4]
        for bend in ((-6, -4 * h, 6, -2 * h), (6, 2 * h, -6, 4 * h)):
            most = max(most, abs(steel * inertia / h ** 2 * np.dot(bend, w)))
    return most, 1 / u[size]


for i, (d, core, wall, gap, depth) in enumerate([
        (3, 2.386565, 1.6, .1, 5), (4, 3.141191, 1.6, .1, 6), (5, 4.018504, 1.6, 0, 7.5), (5, 4.018504, 2, .1, 8), (5, 4.018504, 3.2, .1, 7.5),
        (5, 4.018504, 3.2, 1, 7.5), (6, 4.77313, 2.5, .15, 9), (6, 4.77313, 4, .15, 9), (8, 6.466413, 3, .2, 12)], 1):
    moment, stiffness = beam(core, wall, gap, depth)
    where = "beam in two elastic beds, wall %.2g d" % (wall / d)
    row("JNT-BEND-%d" % i, "moment of a screw over its load", [("t_mm", wall), ("d_mm", d), ("gap_mm", gap), ("low", 1), ("high", 1.15)], moment, "mm", "0.001", where, "greatest moment over the load")
    if gap <= 0.2:
        # Huth's is a fit to tests of sheet joints, this a beam: no more than the order is held.
        row("JNT-STIFF-%d" % i, "stiffness of a screw in single lap", [("t_mm", wall), ("L_mm", depth), ("d_mm", d), ("E_MPa", 68900), ("low", 0.8), ("high", 1.3)],
            stiffness * 1.0, "N", "0.001", where, "load that moves the wall by 1 mm")


# The area at which a cylinder cuts a thread of 60 degrees, for each unit of
# length: places along the pitch are counted that lie in its metal.
def cut(pitch, cylinder, pitch_diameter, screw, n=400001):
    z = np.linspace(-pitch / 2, pitch / 2, n)
    out = (np.abs(z) - pitch / 4) / math.tan(math.radians(30))
    metal = cylinder / 2 <= pitch_diameter / 2 - out if screw else cylinder / 2 >= pitch_diameter / 2 + out
    return math.pi * cylinder * metal.mean()


# Least major and greatest tapped pitch diameter, greatest minor diameter of the
# hole and least pitch diameter of the screw: as printed, ISO 965-1 and ASME B1.1.
LIMITS = [
    ("M3x0.5", .5, 2.874, 2.775, 2.599, 2.580), ("M5x0.8", .8, 4.826, 4.605, 4.334, 4.361), ("M6x1", 1, 5.794, 5.5, 5.153, 5.212),
    ("4-40 UNC", 25.4 / 40, 25.4 * .1061, 25.4 * .0991, 25.4 * .0939, 25.4 * .0925),
    ("10-32 UNF", 25.4 / 32, 25.4 * .1831, 25.4 * .1736, 25.4 * .1640, 25.4 * .1658),
    ("1/4-20 UNC", 25.4 / 20, 25.4 * .2408, 25.4 * .2224, 25.4 * .2067, 25.4 * .2127),
]
for name, pitch, major, tapped, minor, screw in LIMITS:
    end, own = cut(pitch, major, tapped, False), cut(pitch, minor, screw, True)
    row("JNT-CUT-" + name.split(" ")[0], "shear area of a tapped thread", [("thread", name), ("l_mm", 1.0)], end, "mm²", "0.004", "cylinder through the profile, places counted", "limits from memory, some seen")
    row("JNT-SOFT-" + name.split(" ")[0], "strength of a screw's thread over the end's", [("thread", name), ("low", 0.85), ("high", 1)], 0.6 * own / end, "1", "0.002",
        "0.6 R_m on the screw's area, over the area of the end", "limits from memory, some seen")


# Springs of which one touches at once and the others after a slack.
def share(n, stiffness, slack, load):
    def over(x):
        return stiffness * x + (n - 1) * stiffness * max(0.0, x - slack) - load
    return stiffness * brentq(over, 0, load / stiffness + slack, xtol=1e-15) * n / load


# The same, the places of all holes drawn at random and at the worst corner.
def worst(n, stiffness, position, spread, load, draws=400):
    rng, most = np.random.default_rng(1), 0.0
    for trial in range(draws + 1):
        off, hole = rng.uniform(-position, position, n), rng.uniform(0, spread, n)
        if trial == 0:
            off, hole = np.array([-position] + [position] * (n - 1)), np.array([0.0] + [spread] * (n - 1))
        gap = off + hole / 2
        gap -= gap.min()
        x = brentq(lambda x: np.sum(stiffness * np.maximum(0, x - gap)) - load, 0, load / stiffness + gap.max(), xtol=1e-15)
        most = max(most, stiffness * x * n / load)
    return most


for i, (n, k, slack, load) in enumerate([(4, 25e6, 5e-5, 5600), (8, 40e6, 1e-4, 11500), (6, 30e6, 2e-4, 9000), (6, 60e6, 3e-4, 9000)], 1):
    row("JNT-SHARE-%d" % i, "overload while elastic", [("N", n), ("F_N", load), ("F1_N", k * slack)], share(n, k, slack, load), "1", "1e-8", "springs, balanced by root finding")
for i, (n, k, position, spread, load) in enumerate([(8, 40e6, 2e-5, 4e-5, 11500), (6, 30e6, 1e-4, 0, 9000)], 1):
    first = k * (2 * position + spread / 2)
    row("JNT-WORST-%d" % i, "overload while elastic", [("N", n), ("F_N", load), ("F1_N", first)], worst(n, k, position, spread, load), "1", "1e-8",
        "position %g mm, holes alike to %g mm, worst of 401 draws and corners" % (1e3 * position, 1e3 * spread))


# The least hole that lets every screw in: the end may turn and slide as it
# likes, and still two screws can stand off in opposite senses.
def needed(n, d, position, tries=100):
    rng = np.random.default_rng(2)

    def hole(angles):
        off = position / 2 * (np.exp(1j * angles[:n]) - np.exp(1j * angles[n:]))
        best = minimize(lambda s: np.max(np.abs(off - s[0] - 1j * s[1])), [off.real.mean(), off.imag.mean()],
                        method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-13, "maxiter": 4000})
        return d + 2 * best.fun

    corner = np.zeros(2 * n)
    corner[1], corner[n] = math.pi, math.pi
    return max([hole(corner)] + [hole(rng.uniform(0, 2 * math.pi, 2 * n)) for _ in range(tries)])


for i, (n, d, position) in enumerate([(2, 5, .1), (3, 5, .2), (8, 4.826, .254)], 1):
    least = needed(n, d, position)
    row("JNT-HOLE-%d" % i, "value of hole.fit", [("h_min_mm", least + 1), ("d_mm", d), ("T_mm", position)], 1.0, "mm", "1e-8",
        "%d screws; hole 1 mm larger than the least that lets every screw in" % n)

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
out.writerows(ROWS)
