"""Round plates with a plugged central port, by finite elements.

Pressure on the annulus, the plug's own load p π b² spread over the wall of
the port, outer rim held along the axis and free to turn. Compared with
σ = 3 p ((3 + ν) a² + (1 − ν) b²)/(4 h²) at the rim of the port.

    python3 ports.py          prints rows for ports_fem.csv
    python3 ports.py converge halves the mesh
"""

import math
import sys

from axisymmetric import Rectangle, mises, solve, spread

A, P, E, NU = 25.0, 5.0, 68900.0, 0.33


def theory(b, h):
    return 3 * P * ((3 + NU) * A * A + (1 - NU) * b * b) / (4 * h * h)


def plate(b, h, fine=1, wall=False):
    through = 12 * fine
    size = min(h / through, (A - b) / (12 * fine))
    n = max(12 * fine, round((A - b) / (h / through)))
    m = through
    mesh = Rectangle([b + (A - b) * i / n for i in range(n + 1)], [h * j / m for j in range(m + 1)])
    pressures = [(mesh.element(i, 0), 1, P) for i in range(n)]
    if wall:  # pressure in the port too, as where the plug seals outside
        pressures += [(mesh.element(0, j), 4, P) for j in range(m)]
    load = {(node, 2): f for node, f in spread(mesh.line_z(0), P * math.pi * b * b).items()}
    fixed = [(node, 2) for node, _ in mesh.line_z(2 * n)]
    stress, _ = solve(mesh, E, NU, fixed, pressures, load)
    corner = mesh.number[0, 2 * m]  # tension face, rim of the port
    # A line through the thickness gives the linear part, free of the corner.
    return stress[corner][2], max(mises(stress[node]) for node, _ in mesh.line_r(2 * m)), \
        max(mises(s) for s in stress.values()), size


def main():
    ports = [0.1, 0.2, 0.3333333, 0.4, 0.5, 0.6, 0.7, 0.8]
    if "converge" in sys.argv:
        for port, thick in ((0.1, 0.05), (0.5, 0.1), (0.8, 0.3), (0.3333333, 0.3)):
            b, h = A * port, 2 * A * thick
            print(port, thick, *("%.4f" % plate(b, h, fine)[0] for fine in (1, 2)))
        return
    for port in ports:
        for thick in (0.05, 0.1, 0.2, 0.3):
            b, h = A * port, 2 * A * thick
            hoop, face, most, _ = plate(b, h)
            if "look" in sys.argv:
                print("%.3f %.2f  hoop/theory %.4f  mises face %.4f  most %.4f" % (port, thick, hoop / theory(b, h), face / theory(b, h), most / theory(b, h)))


if __name__ == "__main__":
    main()
