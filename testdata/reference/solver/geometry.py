"""Distances between parts, found by search over every corner of their
tolerances and not by the formulas that are to be held.

Prints the rows of geometry.csv. Needs scipy:

    python3 geometry.py > ../geometry.csv
"""

import csv
import itertools
import math
import sys

from scipy import integrate, optimize

ROWS = []


def row(name, quantity, inputs, value, unit, where):
    text = "; ".join(f"{k}={v:.12g}" if isinstance(v, float) else f"{k}={v}" for k, v in inputs)
    ROWS.append([name, quantity, text, f"{value:.12g}", unit, "1e-9", "search over the corners of the tolerances, geometry.py", where, "solver", ""])


def corners(*sizes):
    """Every combination of the ends of sizes with tolerances."""
    return itertools.product(*[(n - lower, n + upper) for n, lower, upper in sizes])


def gap(f, h, g):
    """Least distance along the axis between the groove's end at g and the circle of a hole."""
    found = optimize.minimize_scalar(lambda a: f + h / 2 * math.cos(a) - g, bounds=(0, 2 * math.pi), method="bounded",
                                     options={"xatol": 1e-12})
    return found.fun


for i, (f, h, g) in enumerate([((22, .1, .1), (5.5, .1, .1), (13.6, .3, .45)), ((20, .2, .2), (6.6, 0, .22), (11, .1, .2)),
                               ((15, .05, .05), (3.4, 0, .18), (9, .1, .1))], 1):
    least = min(gap(*c) for c in corners(f, h, g))
    row(f"GEO-SEAL-{i}", "value of hole.outside_seal", [("f_min_mm", f[0] - f[1]), ("h_max_mm", h[0] + h[2]), ("g_max_mm", g[0] + g[2])],
        least, "mm", "least axial distance of a hole's circle from the last groove")

for i, (di, dl) in enumerate([((38, .05, 0), (32, .1, .1)), ((25, .1, .1), (22, .2, .2)), ((50.8, 0, .02), (49, .1, .05))], 1):
    least = min(c[0] - c[1] for c in corners(di, dl))
    row(f"GEO-LIP-{i}", "value of end.lip_reach", [("D_i,min_mm", di[0] - di[1]), ("D_l,max_mm", dl[0] + dl[2])], least, "mm",
        "least overlap of two circles, on the diameter")

for i, (dp, di, zd) in enumerate([((57, .05, 0), (32, .05, 0), (11, .2, .2)), ((44.58, .05, 0), (22.86, .05, 0), (9.73, 0, .1)),
                                  ((98, .1, .1), (60, 0, .1), (14, .5, .5))], 1):
    least = min(optimize.minimize_scalar(lambda a: (c[0] / 2 - c[2]) - c[1] / 2 * math.cos(a), bounds=(-1, 1), method="bounded",
                                         options={"xatol": 1e-12}).fun for c in corners(dp, di, zd))
    row(f"GEO-INSERT-{i}", "value of end.insert_wall", [("D_p,min_mm", dp[0] - dp[1]), ("D_i,max_mm", di[0] + di[2]), ("z_d,max_mm", zd[0] + zd[2])],
        least, "mm", "least distance from the bottom of a hole to the circle of the insert")

for i, (le, d) in enumerate([((9, .2, .2), 5.0), ((7.5, 0, .3), 6.0), ((4.5, .1, .1), 4.1656)], 1):
    least = min(c[0] for c in corners(le)) / d
    row(f"GEO-DEPTH-{i}", "value of end.engagement", [("l_e,min_mm", le[0] - le[1]), ("d_mm", d)], least, "1", "least depth over diameter")


def mouth(bore, lead, angle):
    """Diameter where a line at an angle to the axis, begun on the bore, meets the plane of the tube's end."""
    run = optimize.brentq(lambda s: s * math.cos(angle) - lead, 0, 100 * lead, xtol=1e-14)
    return bore + 2 * run * math.sin(angle)


for i, (bore, lead, angle, dg, cs) in enumerate([((57.1, .03, .03), (3, .1, .1), 15, (53.1, .03, .03), (2.62, .08, .08)),
                                                 ((50, 0, .1), (4, .2, .2), 20, (46, .05, .05), (2.4, .09, .09)),
                                                 ((98, .1, .1), (6, .3, .3), 12, (91, .1, .1), (3.53, .1, .1))], 1):
    least = min(mouth(b, l, math.radians(angle)) for b, l in corners(bore, lead))
    ring = max(g + 2 * c for g, c in corners(dg, cs))
    inputs = [("D_b,min_mm", bore[0] - bore[1]), ("l_i,min_mm", lead[0] - lead[1]), ("θ_°", angle), ("D_g,max_mm", dg[0] + dg[2]), ("CS_max_mm", cs[0] + cs[2])]
    row(f"GEO-MOUTH-{i}", "value of seal.insertion", inputs, least, "mm", "mouth of the lead-in, line against plane")
    row(f"GEO-RING-{i}", "limit of seal.insertion", inputs, ring, "mm", "greatest ring on its groove, over the corners")


def redistributes(alpha, rm, area, fbru, d, t, e, h, fsu):
    """Screw shear over what the hole bears: pressure of a pin summed over its half circle, shear summed along two planes."""
    diameter = math.sqrt(4 * area / math.pi)
    shear = alpha * rm * 4 * integrate.quad(lambda x: math.sqrt(max(0, diameter ** 2 / 4 - x * x)), 0, diameter / 2)[0]
    bearing = 2 * integrate.quad(lambda a: fbru * math.cos(a) * t * d / 2, 0, math.pi / 2)[0]
    tear = 2 * integrate.quad(lambda x: fsu * t, h / 2, e)[0]
    return shear / min(bearing, tear)


for i, v in enumerate([(.5, 1220., 14.183, 540., 5., 3.35, 14.2, 5.4, 156.), (.6, 800., 8.78, 540., 4., 1.6, 6., 4.4, 160.),
                       (.5, 700., 20.1, 608., 6., 2.5, 18., 6.4, 180.)], 1):
    names = ["α_v", "R_m_MPa", "A_mm²", "F_bru_MPa", "d_mm", "t_max_mm", "e_max_mm", "h_min_mm", "F_su_MPa"]
    row(f"GEO-SHARE-{i}", "value of joint.redistributes", list(zip(names, v)), redistributes(*v), "1",
        "screw shear by integration over its section, bearing over the pin, tear-out along two planes")

def fill(cs, swell, alpha, heat, width, bore, groove):
    """Ring, warmed and swollen, over its groove: the ring's section as a sum of
    thin strips, its volume grown by three equal stretches and the swell."""
    section = 2 * integrate.quad(lambda x: math.sqrt(cs * cs / 4 - x * x), -cs / 2, cs / 2, epsabs=0, epsrel=1e-12)[0]
    return section * (1 + swell) * (1 + 3 * alpha * heat) / (width * (bore - groove) / 2)


for i, (cs, swell, alpha, heat, width, bore, groove) in enumerate([(2.7, .05, 16.2e-5, 70., 3.6, 57.07, 53.13), (1.86, .1, 26.3e-5, 0., 2.6, 30.0, 27.2),
                                                                   (3.63, .05, 23e-5, 40., 4.9, 98.0, 91.8)], 1):
    names = [("CS_max_mm", cs), ("ψ", swell), ("α_r_/K", alpha), ("ΔT_K", heat), ("w_min_mm", width), ("D_b,min_mm", bore), ("D_g,max_mm", groove)]
    row(f"GEO-FILL-{i}", "value of seal.fill", names, fill(cs, swell, alpha, heat, width, bore, groove), "1", "section of the ring summed over strips")


def squeeze(bore, groove, cs, aside, grow, heat):
    """Share by which a ring is pressed flat where its groove lies farthest from the wall."""
    across = bore / 2 + 2 * grow + 2 * heat + aside - groove / 2
    return (cs - across) / cs


for i, (bore, groove, cs, aside, grow, heat) in enumerate([(57.13, 53.07, 2.53, .09, .0165, .012), (30.1, 27.2, 1.72, .05, .004, 0.), (98.2, 91.6, 3.4, .1, .02, .03)], 1):
    names = [("p_MPa", 4.5), ("D_b,max_mm", bore), ("D_g,min_mm", groove), ("δ_mm", aside), ("u_mm", grow), ("u_T_mm", heat), ("CS_e_mm", cs)]
    row(f"GEO-ASIDE-{i}", "value of seal.squeeze_least_offset", names, squeeze(bore, groove, cs, aside, grow, heat), "1", "ring between the far sides of wall and groove")
    row(f"GEO-CONCENTRIC-{i}", "value of seal.squeeze_least", [names[1], names[2], names[6]], squeeze(bore, groove, cs, 0, 0, 0), "1", "ring between wall and groove")

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
out.writerows(ROWS)
