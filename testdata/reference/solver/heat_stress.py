"""Stress at the bore of a tube that is hotter inside than outside: the equation
of radial equilibrium solved as a boundary value problem (scipy), the ends free
to move along, and written as testdata/reference/heat_stress.csv.

    python3 heat_stress.py > ../heat_stress.csv
"""

import csv
import sys

import numpy
from scipy import integrate, optimize

# bore and wall in mm, modulus in MPa, expansion in 1/K, difference in K
CASES = [(57.1, 3.2, 70000, 23.6e-6, 5.0, 0.33), (50.8, 1.6, 70000, 23.6e-6, 40.0, 0.33), (30.0, 7.5, 70000, 23.6e-6, 25.0, 0.33), (40.0, 12.0, 200000, 12e-6, 60.0, 0.29)]


def bore_stress(bore, wall, modulus, alpha, difference, nu):
    a, b = bore / 2, bore / 2 + wall
    slope = -difference / numpy.log(b / a)
    lame = modulus / ((1 + nu) * (1 - 2 * nu))

    def stresses(r, u, du, along):
        t = difference + slope * numpy.log(r / a)
        heat = alpha * t * (1 + nu)
        radial = lame * ((1 - nu) * du + nu * (u / r + along) - heat)
        hoop = lame * ((1 - nu) * u / r + nu * (du + along) - heat)
        axial = lame * ((1 - nu) * along + nu * (u / r + du) - heat)
        return radial, hoop, axial

    def solved(along):
        def equations(r, y):
            return numpy.vstack((y[1], -y[1] / r + y[0] / r**2 + (1 + nu) / (1 - nu) * alpha * slope / r))

        def ends(left, right):
            return numpy.array([stresses(a, *left, along)[0], stresses(b, *right, along)[0]]) / modulus

        r = numpy.linspace(a, b, 60)
        found = integrate.solve_bvp(equations, ends, r, numpy.zeros((2, r.size)), tol=1e-10, max_nodes=200000)
        assert found.success
        return found.sol

    def force(along):
        sol = solved(along)
        return integrate.quad(lambda r: stresses(r, *sol(r), along)[2] * r, a, b, epsrel=1e-10)[0]

    # The force is linear in the strain along the tube.
    low, high = force(0.0), force(alpha * difference)
    along = alpha * difference * low / (low - high)
    radial, hoop, axial = stresses(a, *solved(along)(a), along)
    assert abs(radial) < 1e-5 * abs(hoop) and abs(hoop - axial) < 1e-4 * abs(hoop)
    return abs(hoop)


def main():
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
    for bore, wall, modulus, alpha, difference, nu in CASES:
        stress = bore_stress(bore, wall, modulus, alpha, difference, nu)
        inputs = f"Db_mm={bore}; t_mm={wall}; E_MPa={modulus}; alpha={alpha}; dT_K={difference}; nu={nu}"
        out.writerow([f"HS-{bore:g}-{wall:g}", "stress at the bore by heat through the wall", inputs, f"{stress:.5f}", "MPa", "0.0001",
                      "scipy, radial equilibrium as a boundary value problem", "testdata/reference/solver/heat_stress.py", "solver", "along and around alike; radial stress 0 at both faces, no force along"])


main()
