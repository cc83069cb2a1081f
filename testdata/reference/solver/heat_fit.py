"""Film coefficient and conductivity of the liner from what a test measured.

A motor half-way along: liner and wall, hollow cylinders of linear finite
elements across the radius, the time solved exactly by the eigenvectors of each
part, while it burns and afterwards. The readings are made with known numbers
and noise of a fixed seed, rounded to 0.1 K, and stand in the rows; both numbers
are then fitted to them by scipy.optimize.least_squares, in their logarithms.

    python3 heat_fit.py            prints the rows of heat_fit.csv
    python3 heat_fit.py converge   the same on half the elements, as a check

Needs numpy and scipy.
"""

import csv
import sys

import numpy
import scipy
from scipy.linalg import eigh
from scipy.optimize import least_squares

SHARE = 2 if "converge" in sys.argv else 1


class Motor:
    def __init__(self, bore, wall, liner, burn, gas, soak, outside, density, heat, tube):
        self.burn, self.gas, self.soak, self.outside, self.start = burn, gas, soak, outside, 295.0
        r0, r1, r2 = bore / 2 - liner, bore / 2, bore / 2 + wall
        inner = r0 + liner * numpy.linspace(0, 1, 240 // SHARE + 1) ** 1.5
        outer = numpy.linspace(r1, r2, 16 // SHARE + 1)
        self.r = numpy.concatenate([inner, outer[1:]])
        self.first = len(inner) - 1
        self.density, self.heat, self.tube = density, heat, tube

    def matrices(self, k):
        n = len(self.r)
        mass, stiff = numpy.zeros((n, n)), numpy.zeros((n, n))
        for i in range(n - 1):
            a, b = self.r[i], self.r[i + 1]
            h = b - a
            solid = (k, self.density, self.heat) if i < self.first else self.tube
            stiff[i : i + 2, i : i + 2] += solid[0] * (a + b) / 2 / h * numpy.array([[1, -1], [-1, 1]])
            m = h / 12 * numpy.array([[3 * a + b, a + b], [a + b, a + 3 * b]])
            mass[i : i + 2, i : i + 2] += solid[1] * solid[2] * m
        return mass, stiff

    def part(self, mass, stiff, film):
        """Eigenvalues and vectors, and where all ends, of one part."""
        s, load = stiff.copy(), numpy.zeros(len(self.r))
        for node, (h, t) in ((0, film), (-1, self.outside)):
            s[node, node] += h * self.r[node]
            load[node] += h * self.r[node] * t
        rates, v = eigh(s, mass)
        return rates, v, numpy.linalg.solve(s, load)

    def run(self, film, k, times):
        """Temperatures of all nodes at times after ignition, ascending."""
        mass, stiff = self.matrices(k)
        now, done, out = numpy.full(len(self.r), self.start), 0.0, []
        for until, gas in ((self.burn, (film, self.gas)), (numpy.inf, self.soak)):
            rates, v, rest = self.part(mass, stiff, gas)
            amount = v.T @ (mass @ (now - rest))
            at = lambda t: rest + v @ (amount * numpy.exp(-rates * (t - done)))
            out += [at(t) for t in times if done <= t < until]
            if until < numpy.inf:
                now = at(until)
                done = until
        return numpy.array(out)


def course(m, film, k, times):
    return m.run(film, k, times)[:, -1]


def maxima(m, film, k, times):
    """Highest of the hot face and of the outside: the one at burnout, the other
    by a parabola through its highest three of many times."""
    face = m.run(film, k, [m.burn * (1 - 1e-12)])[0, 0]
    t = numpy.linspace(m.burn, 60 * m.burn, 1201)
    x = m.run(film, k, t)[:, -1]
    i = int(numpy.argmax(x))
    a, b, c = x[i - 1 : i + 2]
    return numpy.array([face, b - (c - a) ** 2 / (8 * (a - 2 * b + c))])


ALUMINIUM = (167.0, 2700.0, 896.0)
STEEL = (45.0, 7850.0, 480.0)
CASES = {
    # name: motor, film, conductivity, times, sigma, what is read
    "A": (Motor(0.0508, 0.0016, 0.0016, 2.5, 2500, (0, 295), (10, 295), 1150, 1400, ALUMINIUM),
          1100, 0.12, [3, 5, 8, 12, 16, 20, 25, 30, 40, 55, 70, 90, 120], 0.5, course),
    "B": (Motor(0.072, 0.002, 0.003, 4.0, 2800, (0, 295), (15, 290), 1400, 1100, STEEL),
          1500, 0.3, [4, 8, 12, 18, 25, 35, 50, 70, 100, 150, 220], 0.5, course),
    "C": (Motor(0.0508, 0.0016, 0.0016, 2.5, 2500, (0, 295), (10, 295), 1150, 1400, ALUMINIUM),
          700, 0.2, None, 5.0, maxima),
}


def main():
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow("id,quantity,inputs,value,unit,tolerance_rel,source,where_in_source,status,note".split(","))
    random = numpy.random.default_rng(7)
    for name, (m, film, k, times, sigma, read) in CASES.items():
        fine = read(m, film, k, times)
        readings = numpy.round(fine + sigma * random.standard_normal(len(fine)), 1)
        found = least_squares(lambda x: (read(m, *numpy.exp(x), times) - readings) / sigma, numpy.log([800, 0.2]),
                              xtol=1e-10, ftol=1e-12, gtol=1e-12, x_scale=0.1)
        inputs = {
            "bore_mm": (m.r[m.first] * 2000), "wall_mm": (m.r[-1] - m.r[m.first]) * 1000, "liner_mm": (m.r[m.first] - m.r[0]) * 1000,
            "burn_s": m.burn, "gas_K": m.gas, "outside_W/(m² K)": m.outside[0], "ambient_K": m.outside[1], "start_K": m.start,
            "density_kg/m³": m.density, "heat_J/(kg K)": m.heat,
            "tube_W/(m K)": m.tube[0], "tube_density_kg/m³": m.tube[1], "tube_heat_J/(kg K)": m.tube[2], "sigma": sigma,
        }
        text = [f"{a}={b:.6g}" for a, b in inputs.items()]
        if times:
            text += [f"t{i}_s={t:g}; T{i}_K={x:.1f}" for i, (t, x) in enumerate(zip(times, readings))]
        else:
            text += [f"face_K={readings[0]:.1f}; top_K={readings[1]:.1f}"]
        what = "13 readings" if name == "A" else "11 readings" if name == "B" else "two maxima"
        for quantity, i, unit in (("fitted film coefficient", 0, "W/(m² K)"), ("fitted conductivity", 1, "W/(m K)")):
            out.writerow([f"FIT-{name}-{'hk'[i]}", quantity, "; ".join(text), f"{numpy.exp(found.x[i]):.5g}", unit, 0.002,
                          f"finite elements and eigenvectors, SciPy {scipy.__version__} least_squares", "testdata/reference/solver/heat_fit.py", "solver",
                          f"from {what} with noise, made with {(film, k)[i]:g}"])


main()
