"""Loads, areas and stresses of the parts, from statics and geometry alone:
pressure summed over faces, shear over the surfaces that part, Lamé's equation
solved step by step. Nothing here knows the formulas that are to be held.

Prints the rows of parts.csv. Needs scipy:

    python3 parts.py > ../parts.csv
"""

import csv
import math
import sys
from fractions import Fraction

import numpy
from scipy import integrate

ROWS = []
TAU = 2 * math.pi


def row(name, quantity, inputs, value, unit, tolerance, where, note=""):
    text = "; ".join(f"{k}={float(v):.12g}" for k, v in inputs)
    ROWS.append([name, quantity, text, f"{float(value):.10g}", unit, tolerance, "first principles, parts.py", where, "solver", note])


def over_ring(f, inner, outer):
    """f(r) summed over a ring."""
    return integrate.dblquad(lambda r, _: f(r) * r, 0, TAU, inner, outer, epsabs=0, epsrel=1e-11)[0]


# A closed tube: equilibrium and strain of a ring at r, with the axial strain
# such that the axial stress carries the pressure on the ends.
def tube(p, ri, ro, e=70e3, nu=0.33):
    lame, shear = e * nu / ((1 + nu) * (1 - 2 * nu)), e / (2 * (1 + nu))

    def stresses(r, u, du, ez):
        v = du + u / r + ez
        return lame * v + 2 * shear * du, lame * v + 2 * shear * u / r, lame * v + 2 * shear * ez

    def run(u0, du0):
        return integrate.solve_ivp(lambda r, y: [y[1], y[0] / r ** 2 - y[1] / r], (ri, ro), [u0, du0], rtol=1e-11, atol=1e-14, dense_output=True).sol

    parts = [(run(1, 0), 0), (run(0, 1), 0), (lambda r: numpy.zeros(2), 1)]

    def column(s, ez):
        radial = lambda r: stresses(r, *s(r), ez)[0]
        axial = integrate.quad(lambda r: stresses(r, *s(r), ez)[2] * TAU * r, ri, ro, epsrel=1e-11)[0]
        return [radial(ri), radial(ro), axial]

    share = numpy.linalg.solve(numpy.array([column(*q) for q in parts]).T, [-p, 0, p * math.pi * ri ** 2])
    u, du = sum(c * q[0](ri) for c, q in zip(share, parts))
    a, b, c = stresses(ri, u, du, share[2])
    return b, math.sqrt(((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) / 2)


for i, (p, ri, ro) in enumerate([(4.5, 28.565, 31.715), (11., 20., 21.5), (30., 15., 24.)], 1):
    hoop, mises = tube(p, ri, ro)
    row(f"PRT-HOOP-{i}", "demand of tube.hoop", [("p_MPa", p), ("k", ro / ri)], hoop, "MPa", "1e-7", "displacement of a ring, Runge-Kutta")
    row(f"PRT-MISES-{i}", "demand of tube.yield", [("p_MPa", p), ("k", ro / ri)], mises, "MPa", "1e-7", "displacement of a ring, Runge-Kutta")


# The section through the middle of the holes: the ring less each hole's strip,
# whose sides are straight, and less the triangles of its countersink.
def net(bore, wall, n, hole, sink):
    ri, ro = bore / 2, bore / 2 + wall
    strip = integrate.quad(lambda x: math.sqrt(ro ** 2 - x ** 2) - math.sqrt(ri ** 2 - x ** 2), -hole / 2, hole / 2, epsrel=1e-11)[0]
    triangle = integrate.quad(lambda x: sink - x, 0, sink)[0]
    return over_ring(lambda r: 1, ri, ro) - n * (strip + 2 * triangle)


for i, (p, bore, wall, n, hole, sink) in enumerate([(4.5, 57.13, 3.05, 8, 5.6, 0.), (6., 95.1, 2.9, 12, 6.6, 0.), (3., 50., 3.2, 6, 4.4, 1.6)], 1):
    load = p * over_ring(lambda r: 1, 0, bore / 2)
    row(f"PRT-NET-{i}", "demand of tube.net_section",
        [("p_MPa", p), ("D_b_mm", bore), ("t_min_mm", wall), ("N", n), ("h_max_mm", hole), ("s_max_mm", sink)], load / net(bore, wall, n, hole, sink), "MPa",
        "0.002", "pressure on the bore over the section that is left", "a drilled hole takes a little more of a curved wall than h t")


# Holes: distances in fractions, the way round as a polygon of many sides.
for i, (e, h) in enumerate([("11.8", "5.68"), ("14", "6.6"), ("10.8", "4.68")], 1):
    row(f"PRT-EDGE-{i}", "value of hole.edge", [("e_min_mm", Fraction(e)), ("h_max_mm", Fraction(h))], Fraction(e) / Fraction(h), "1", "1e-9", "fractions")
for i, (h, d) in enumerate([("5.5", "5"), ("4.4", "4"), ("5.6", "4.8260")], 1):
    row(f"PRT-ROOM-{i}", "value of hole.clearance", [("h_min_mm", Fraction(h)), ("d_mm", Fraction(d))], Fraction(h) - Fraction(d), "mm", "1e-9", "fractions")
for i, (bore, wall, n, h) in enumerate([(57.07, 3.05, 8, 5.68), (38., 1.5, 6, 4.68), (95., 2.5, 12, 6.82)], 1):
    sides = 100000
    way = sides * (bore + wall) * math.sin(math.pi / n / sides)
    row(f"PRT-PITCH-{i}", "value of hole.pitch", [("D_b,min_mm", bore), ("t_min_mm", wall), ("N", n), ("h_max_mm", h)], way / h, "1", "1e-8",
        "from hole to hole along the middle of the wall, a polygon of 100 000 sides")


# A pin in half a hole under even pressure: the pressure that holds its load.
def bears(load, d, t):
    along = integrate.quad(lambda a: math.cos(a) * d / 2 * t, -math.pi / 2, math.pi / 2, epsrel=1e-12)[0]
    return load / along


for i, (load, share, n, d, t) in enumerate([(11530., 1., 8, 5., 2.9), (42600., 1.25, 12, 6., 2.8), (5900., 1., 6, 4., 1.4)], 1):
    for check, name in [("hole.bearing", "t_b_mm"), ("hole.bearing_yield", "t_b_mm"), ("end.bearing", "L_mm"), ("end.bearing_yield", "L_mm")]:
        row(f"PRT-{check.replace('.', '-')}-{i}".upper().replace("_", "-"), f"demand of {check}",
            [("F_N", load), ("share", share), ("N", n), ("d_mm", d), (name, t)], bears(load * share / n, d, t), "MPa", "1e-9", "even pressure on half the hole, summed along the load")
    row(f"PRT-EACH-{i}", "demand of screw.shear", [("F_N", load), ("share", share), ("N", n)], Fraction(load) * Fraction(share) / n, "N", "1e-9", "fractions")


def shank(alpha, rm, d):
    """Even shear stress over a round section."""
    return alpha * rm * 4 * integrate.quad(lambda x: math.sqrt(d * d / 4 - x * x), 0, d / 2, epsabs=0, epsrel=1e-12)[0]


for i, (alpha, rm, d) in enumerate([(.6, 800., 5.), (.5, 1220., 4.48), (.6, 700., 6.)], 1):
    row(f"PRT-SHEAR-{i}", "capacity of screw.shear", [("α_v", alpha), ("R_m_MPa", rm), ("A_mm²", math.pi / 4 * d * d), ("d_mm", d), ("t_p_mm", 0)],
        shank(alpha, rm, d), "N", "1e-9", "even shear over a round section")


# Tear-out: shear summed along two planes beside the pin, as thick as the wall
# is there; a chamfer thins it towards the edge.
def planes(t, begin, end, strength, chamfer=0.):
    thick = lambda x: t - max(0., chamfer - (end - x))
    return 2 * strength * integrate.quad(thick, begin, end, points=[end - chamfer] if chamfer else None, epsrel=1e-12)[0]


for i, (t, e, h, strength, chamfer) in enumerate([(2.9, 11.8, 5.68, 180., 0.), (2.4, 14., 6.82, 160., .8), (1.4, 8.8, 4.68, 207., .5)], 1):
    row(f"PRT-TEAR-{i}", "capacity of hole.tear_out",
        [("t_b_mm", t), ("e_min_mm", e), ("h_max_mm", h), ("F_su_MPa", strength), ("A_c_mm²", chamfer ** 2 / 2)], planes(t, h / 2, e, strength, chamfer), "N", "1e-9",
        "shear along two planes, chamfer at the edge")
    row(f"PRT-MEAT-{i}", "capacity of end.hole_land", [("L_mm", t), ("c_min_mm", e), ("d_mm", h), ("F_su_MPa", strength)], planes(t, h / 2, e, strength), "N", "1e-9",
        "shear along two planes")

# Lands and lips: pressure summed over the face, shear over the cylinder.
for i, (p, bore, groove, w, strength) in enumerate([(4.5, 57.13, 53.07, 2.9, 180.), (6., 95.1, 88.9, 3.4, 160.), (10., 30., 26.5, 1.9, 207.)], 1):
    names = [("p_MPa", p), ("D_b,max_mm", bore), ("D_g,min_mm", groove), ("w_min_mm", w), ("F_su_MPa", strength)]
    face = over_ring(lambda r: p, groove / 2, bore / 2)
    side = integrate.dblquad(lambda z, _: strength * groove / 2, 0, TAU, 0, w, epsrel=1e-12)[0]
    row(f"PRT-LAND-{i}", "demand of end.land", names, face, "N", "1e-9", "pressure summed over the face of the land")
    row(f"PRT-ROOT-{i}", "capacity of end.land", names, side, "N", "1e-9", "shear summed over the cylinder at the groove")
    names = [("p_MPa", p), ("D_i,max_mm", groove), ("D_i,min_mm", groove - .2), ("l_min_mm", w), ("F_su_MPa", strength)]
    face = over_ring(lambda r: p, 0, groove / 2)
    side = integrate.dblquad(lambda z, _: strength * (groove - .2) / 2, 0, TAU, 0, w, epsrel=1e-12)[0]
    row(f"PRT-INSERT-{i}", "demand of end.shoulder_shear", names, face, "N", "1e-9", "pressure summed over the insert")
    row(f"PRT-LIP-{i}", "capacity of end.shoulder_shear", names, side, "N", "1e-9", "shear summed over the cylinder at the lip")


def round_length(diameter):
    """Length of a circle, of its curve."""
    return integrate.quad(lambda a: math.hypot(-diameter / 2 * math.sin(a), diameter / 2 * math.cos(a)), 0, TAU, epsrel=1e-13)[0]


# Rings and gaps, worst of every corner within the tolerances.
def worst(f, tolerances, pick):
    corners = numpy.array(numpy.meshgrid(*[[n - t, n + t] for n, t in tolerances])).reshape(len(tolerances), -1).T
    return pick(f(*c) for c in corners)


for i, (ring, groove, cs, end, bore) in enumerate([((52.07, .46), (53.1, .03), (2.62, .08), (56.9, .03), (57.1, .03)), ((26.7, .3), (27.3, .05), (1.78, .08), (29.9, .05), (30.05, .05)),
                                                   ((88.5, .7), (91.9, .05), (3.53, .1), (97.8, .05), (98.05, .05))], 1):
    least, most = lambda s: s[0] - s[1], lambda s: s[0] + s[1]
    longer = lambda g, d: round_length(g) / round_length(d) - 1
    row(f"PRT-STRETCH-{i}", "value of seal.stretch", [("D_g,max_mm", most(groove)), ("ID_min_mm", least(ring))], worst(longer, [groove, ring], max), "1", "1e-7",
        "lengths of circles, over the corners of the tolerances")
    row(f"PRT-LOOSE-{i}", "value of seal.stretch_least", [("D_g,min_mm", least(groove)), ("ID_max_mm", most(ring))], worst(longer, [groove, ring], min), "1", "1e-6",
        "lengths of circles, over the corners of the tolerances")
    pressed = lambda d, g, c: (c - (d - g) / 2) / c
    row(f"PRT-PRESSED-{i}", "value of seal.squeeze_most", [("D_b,min_mm", least(bore)), ("D_g,max_mm", most(groove)), ("CS_max_mm", most(cs))],
        worst(pressed, [bore, groove, cs], max), "1", "1e-8", "ring between wall and groove, over the corners of the tolerances")
    # Pushed against the wall the groove lies as deep below it as below the end.
    row(f"PRT-ASIDE-{i}", "value of seal.squeeze_most_offset", [("D_p,min_mm", least(end)), ("D_g,max_mm", most(groove)), ("CS_max_mm", most(cs))],
        worst(pressed, [end, groove, cs], max), "1", "1e-8", "ring between wall and groove where the end lies against the wall, over the corners of the tolerances")
    heat = integrate.quad(lambda t: 23e-6 * bore[0] / 2 - 12e-6 * end[0] / 2, 20, 90)[0]
    row(f"PRT-GAP-{i}", "value of seal.gap", [("D_b,max_mm", most(bore)), ("D_p,min_mm", least(end)), ("u_mm", .0165), ("u_T_mm", heat)],
        worst(lambda b, e, s: 2 * (b / 2 + s * (.0165 + heat)) - e, [bore, end, (1, 0)], max), "mm", "1e-8", "both walls, over the corners of the tolerances")
    close = integrate.quad(lambda t: 23e-6 * end[0] - 12e-6 * bore[0], 20, 90)[0]
    row(f"PRT-FREE-{i}", "value of end.clearance", [("D_b,min_mm", least(bore)), ("D_p,max_mm", most(end)), ("g_T_mm", close)],
        worst(lambda b, e: (b + 12e-6 * 70 * bore[0]) - (e + 23e-6 * 70 * end[0]), [bore, end], min), "mm", "1e-7", "each part grown by its heat, over the corners of the tolerances")

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
out.writerows(ROWS)
