"""Screws in bending, threads that strip, tightening, fit: from first
principles, by integration, by the root of an equation or by search, and not by
the formulas that are to be held. Prints the rows of screws.csv. Needs scipy:

    python3 screws.py > ../screws.csv
"""

import csv
import itertools
import math
import sys

from scipy import integrate, optimize

ROWS = []


def row(name, quantity, inputs, value, unit, where, tolerance="1e-6"):
    text = "; ".join(f"{k}={v:.12g}" if isinstance(v, float) else f"{k}={v}" for k, v in inputs)
    ROWS.append([name, quantity, text, f"{value:.12g}", unit, tolerance, "first principles, screws.py", where, "solver", ""])


# Bending: the moment of a load at an arm over the second moment of a round
# section, which is integrated strip by strip.
def bending(load, arm, d):
    second = 2 * integrate.quad(lambda y: 2 * math.sqrt(d * d / 4 - y * y) * y * y, 0, d / 2, epsabs=0, epsrel=1e-12)[0]
    return load * arm * d / 2 / second


# Bending and shear together: how much of both a screw bears at once, found as a
# root, and the bending stress that uses as much of 1.5 R_p alone.
def together(load, arm, d, rp, rm):
    area = 2 * integrate.quad(lambda y: 2 * math.sqrt(d * d / 4 - y * y), 0, d / 2, epsabs=0, epsrel=1e-12)[0]

    def left(more):
        return 1 - (more * bending(load, arm, d) / (1.5 * rp)) ** 2 - (more * load / (.6 * area * rm)) ** 2

    return 1.5 * rp / optimize.brentq(left, 0, 1e3, xtol=1e-14, rtol=1e-14)


for i, (f, share, n, t, d, gap, core, rp, rm) in enumerate([
        (11535., 1., 8, 3.35, 5., .18, 4.019, 1100., 1220.), (9000., 1.2, 6, 1.2, 4., .1, 3.141, 640., 800.), (20000., 1., 10, 6., 6., 0., 4.773, 450., 700.)], 1):
    arm = (t / 2 if t / 2 > .35 * d else .35 * d) + gap
    names = [("F_N", f), ("share", share), ("N", n), ("t_max_mm", t), ("d_mm", d), ("t_p_mm", gap), ("d_3_mm", core), ("R_p_MPa", rp), ("R_m_MPa", rm)]
    row(f"SCR-BEND-{i}", "demand of screw.bending", names, together(f * share / n, arm, core, rp, rm), "MPa", "bending and shear of a round section, integrated")

# A screw as it is tightened: the wrench turns it against the thread's slope and
# the friction of its flanks, 60 degrees apart, and of its head. The preload is
# found as the root of that balance, small angles not being taken as small.
def torque(f, pitch, d2, d, mu):
    slope = math.atan(pitch / math.pi / d2)
    flank = math.atan(mu / math.cos(math.radians(30)))
    return f * (d2 / 2 * math.tan(slope + flank) + 1.3 * d / 2 * mu)


for i, (t, pitch, d2, d, mu) in enumerate([(4000., .8, 4.4804, 5., .08), (25000., 1.25, 7.1881, 8., .12), (8000., 1., 5.3505, 6., .1)], 1):
    f = optimize.brentq(lambda f: torque(f, pitch, d2, d, mu) - t, 1, 1e6, xtol=1e-9)
    row(f"SCR-PRELOAD-{i}", "preload at a torque", [("T_N m", t / 1e3), ("P_mm", pitch), ("d2_mm", d2), ("d_mm", d), ("mu", mu)], f, "N",
        "balance of the wrench with slope and friction", "0.015")


# Tension and torsion together, the torsion of a section that yields all
# through integrated ring by ring.
def tightening(f, d0, d2, pitch, mu):
    plastic = integrate.quad(lambda r: 2 * math.pi * r * r, 0, d0 / 2, epsabs=0, epsrel=1e-12)[0]
    twist = f * d2 / 2 * (pitch / math.pi / d2 + mu / math.cos(math.radians(30)))
    return math.hypot(f / (math.pi * d0 * d0 / 4), math.sqrt(3) * twist / plastic)


for i, (f, d0, d2, pitch, mu, rp) in enumerate([(6500., 4.25, 4.4804, .8, .08, 1100.), (18600., 6.827, 7.1881, 1.25, .12, 640.), (9000., 5.06, 5.3505, 1., .1, 940.)], 1):
    names = [("F_M_N", f), ("d_0_mm", d0), ("d_2_mm", d2), ("P_mm", pitch), ("μ", mu), ("R_p_MPa", rp)]
    row(f"SCR-TIGHT-{i}", "value of screw.preload", names, tightening(f, d0, d2, pitch, mu) / rp, "1", "tension and plastic torsion, integrated")


# The tapped thread is cut by the screw's crests: what stands there of each
# turn is the pitch less the gap of the hole's profile at that diameter.
def strip(pitch, major, pitch_hole):
    def width(diameter):
        # A sharp profile of 60 degrees is half a pitch wide on its pitch diameter.
        return pitch / 2 + (diameter - pitch_hole) / 2 * 2 * math.tan(math.radians(30))

    turn = integrate.quad(lambda a: width(major) * major / 2, 0, 2 * math.pi)[0]
    return turn / pitch


for i, (pitch, major, pitch_hole, deep, fsu, rm) in enumerate([(.8, 4.826, 4.605, 8.8, 156., 1220.), (1., 5.794, 5.5, 7., 200., 800.), (.5, 2.874, 2.775, 4., 180., 400.)], 1):
    a = strip(pitch, major, pitch_hole)
    row(f"SCR-STRIP-{i}", "capacity of thread.strip", [("a_n_mm", a), ("L_mm", deep), ("P_mm", pitch), ("F_su_MPa", fsu), ("R_m_MPa", rm)],
        a * (deep - .8 * pitch) * min(fsu, .37 * rm), "N", "shear along the crests, summed turn by turn")
for i, (thread, pitch, major, pitch_hole) in enumerate([("M5x0.8", .8, 4.826, 4.605), ("M6x1", 1., 5.794, 5.5), ("M3x0.5", .5, 2.874, 2.775), ("M8x1.25", 1.25, 7.76, 7.348)], 1):
    row(f"SCR-AREA-{i}", "shear area of a tapped thread", [("thread", thread), ("l_mm", 1.)], strip(pitch, major, pitch_hole), "mm²",
        "profile of 60 degrees; limits of ISO 965-1 from memory, as printed to 0.001 mm", "0.001")


# Every screw at every rotation: each hole and each thread stands on the rim of
# its zone in the direction that hurts; the room left is searched for.
def room(h, d, t):
    angles = [2 * math.pi * i / 24 for i in range(24)]
    most = max(math.hypot(t / 2 * math.cos(a) - t / 2 * math.cos(b), t / 2 * math.sin(a) - t / 2 * math.sin(b)) for a, b in itertools.product(angles, angles))
    return h - d - 2 * most


for i, (h, d, t) in enumerate([(5.4, 5., .1), (6.6, 6., .25), (4.5, 4., .3)], 1):
    row(f"SCR-FIT-{i}", "value of hole.fit", [("h_min_mm", h), ("d_mm", d), ("T_mm", t)], room(h, d, t), "mm", "search over the places of hole and thread", "1e-9")

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
out.writerows(ROWS)
