"""Rings bent as plates: the land behind a groove, the lip under an insert, the
plate round a port. The equation of a round plate, (1/r (r φ)')' = -Q/D, is
solved for the slope φ with solve_bvp.

Solves the rows of land_annular_plate.csv, lip_annular_plate.csv and the solved
ones of plates_textbook.csv, and prints how far each value there is off. Needs
scipy:

    python3 annular.py
"""

import csv
import math
import pathlib
import sys

import numpy
from scipy import integrate


def moments(inner, outer, nu, shear, clamped):
    """Bending moments along and round at both edges; D is 1, clamped names the
    edge that does not turn. The other is free, and the plate rests where its
    shear says."""
    slope = lambda r, y: numpy.vstack([y[1], y[0] / r ** 2 - y[1] / r - shear(r)])
    along = lambda r, y: y[1] + nu * y[0] / r
    edge = lambda r, y, name: y[0] if clamped == name else along(r, y)
    ends = lambda a, b: numpy.array([edge(inner, a, "inner"), edge(outer, b, "outer")])
    x = numpy.linspace(inner, outer, 200)
    s = integrate.solve_bvp(slope, ends, x, numpy.zeros((2, x.size)), tol=1e-10, max_nodes=200000)
    assert s.success, s.message
    return [(along(r, s.sol(r)), s.sol(r)[0] / r + nu * s.sol(r)[1]) for r in (inner, outer)]


def land(p, bore, groove, w):
    ri, ro = groove / 2, bore / 2
    (radial, _), _ = moments(ri, ro, .33, lambda r: p * (ro ** 2 - r ** 2) / 2 / r, "inner")
    return 6 * abs(radial) / w ** 2


def lip(p, insert, hole, thick, even):
    ri, ro = hole / 2, insert / 2
    load = p * ro ** 2 / 2  # of the insert, for each radian
    share = (lambda r: (r ** 2 - ri ** 2) / (ro ** 2 - ri ** 2)) if even else (lambda r: 1)
    _, (radial, _) = moments(ri, ro, .33, lambda r: load * share(r) / r, "outer")
    return 6 * abs(radial) / thick ** 2


def port(p, a, h, nu, b):
    (_, tangential), _ = moments(b, a, nu, lambda r: p * r / 2, None)
    return 6 * abs(tangential) / h ** 2


worst = 0
folder = pathlib.Path(__file__).parent.parent
for table in ("land_annular_plate", "lip_annular_plate", "plates_textbook"):
    with open(folder / (table + ".csv"), newline="") as f:
        for r in csv.DictReader(f):
            if "solve_bvp" not in r["source"]:
                continue
            v = {k: float(x) for k, x in (pair.split("=") for pair in r["inputs"].split("; "))}
            if r["id"].startswith("LAND"):
                solved = land(v["p_MPa"], v["Db_mm"], v["Dg_mm"], v["w_mm"])
            elif r["id"].startswith("LIP"):
                solved = lip(v["p_MPa"], v["Di_mm"], v["Dl_mm"], v["l_mm"], r["quantity"].endswith("evenly"))
            else:
                solved = port(v["p_MPa"], v["a_mm"], v["h_mm"], v["nu"], v["b_over_a"] * v["a_mm"])
            off = float(r["value"]) / solved - 1
            worst = max(worst, abs(off))
            print(f"{r['id']:14} {solved:.7g} MPa, the row {r['value']}, off {off:.1e}")
sys.exit(bool(worst > 1e-6))
