"""Burst of a closed tube of a metal that hardens as σ = K (e0 + ε)^n, after
Swift: incompressible, without axial strain. Equilibrium is summed over the wall
at large strain, and the greatest pressure sought over the growth of the bore.

Solves the rows of burst_instability.csv that print K, e0 and n, and prints how
far each value there is off. Needs scipy:

    python3 burst.py
"""

import csv
import math
import pathlib
import re
import sys

from scipy import integrate, optimize


def burst(outside, wall, k, e0, n):
    ro, ri = outside / 2, outside / 2 - wall

    def pressure(grown):
        """Where the bore's r² has grown so much, every r² has."""
        def share(r):
            now = math.sqrt(r * r + grown)
            strain = 2 / math.sqrt(3) * math.log(now / r)
            return 2 / math.sqrt(3) * k * (e0 + strain) ** n * r / now ** 2
        return integrate.quad(share, ri, ro, epsrel=1e-11)[0]

    found = optimize.minimize_scalar(lambda g: -pressure(g), bounds=(0, 4 * ri * ri), method="bounded", options={"xatol": 1e-9 * ri * ri})
    return -found.fun


worst = 0
with open(pathlib.Path(__file__).parent.parent / "burst_instability.csv", newline="") as f:
    for r in csv.DictReader(f):
        hardening = re.search(r"K = ([\d.]+) MPa, e0 = ([\d.]+), exponent ([\d.]+)", r["where_in_source"])
        if not hardening:
            continue
        inputs = dict(pair.split("=") for pair in r["inputs"].split("; "))
        solved = burst(float(inputs["OD_mm"]), float(inputs["t_mm"]), *map(float, hardening.groups()))
        off = float(r["value"]) / solved - 1
        worst = max(worst, abs(off))
        print(f"{r['id']:8} {solved:.7g} MPa, the row {r['value']}, off {off:.1e}")
sys.exit(bool(worst > 2e-6))  # K, e0 and n have six digits
