"""Axisymmetric finite elements with CalculiX (ccx on the path, version 2.20).

A rectangle in the r-z plane is filled with eight-node elements (CAX8R).
Lengths are mm, stresses MPa, forces N for the whole circumference.
"""

import math
import os
import subprocess
import tempfile


class Rectangle:
    """Nodes at the positions given; the lists hold the corners of elements."""

    def __init__(self, rs, zs):
        self.rs, self.zs = _with_middles(rs), _with_middles(zs)
        self.number = {}
        self.nodes, self.elements = [], []
        for j, z in enumerate(self.zs):
            for i, r in enumerate(self.rs):
                if i % 2 and j % 2:
                    continue
                self.nodes.append((r, z))
                self.number[i, j] = len(self.nodes)
        n = self.number
        for j in range(0, len(self.zs) - 1, 2):
            for i in range(0, len(self.rs) - 1, 2):
                self.elements.append((n[i, j], n[i + 2, j], n[i + 2, j + 2], n[i, j + 2],
                                      n[i + 1, j], n[i + 2, j + 1], n[i + 1, j + 2], n[i, j + 1]))
        self.across, self.along = (len(self.rs) - 1) // 2, (len(self.zs) - 1) // 2

    def element(self, i, j):
        """Number of the element in column i (along r) and row j (along z)."""
        return j * self.across + i + 1

    def line_r(self, j):
        """Nodes of grid row j (in halves of elements), with r."""
        return [(self.number[i, j], self.rs[i]) for i in range(len(self.rs)) if (i, j) in self.number]

    def line_z(self, i):
        """Nodes of grid column i (in halves of elements), with z."""
        return [(self.number[i, j], self.zs[j]) for j in range(len(self.zs)) if (i, j) in self.number]


def _with_middles(corners):
    out = [corners[0]]
    for a, b in zip(corners, corners[1:]):
        out += [(a + b) / 2, b]
    return out


def spread(nodes, total):
    """A force spread evenly over a line of quadratic edges of one radius."""
    length = nodes[-1][1] - nodes[0][1]
    load = {}
    for k in range(0, len(nodes) - 2, 2):
        part = total * (nodes[k + 2][1] - nodes[k][1]) / length
        for m, share in ((0, 1 / 6), (1, 4 / 6), (2, 1 / 6)):
            load[nodes[k + m][0]] = load.get(nodes[k + m][0], 0) + share * part
    return load


def solve(mesh, young, poisson, fixed, pressures, forces):
    """Returns the stresses (r, z, hoop, rz) and displacements at each node.

    fixed: (node, direction) at 0; pressures: (element, face, MPa);
    forces: {(node, direction): N}, direction 1 is r, 2 is z.
    """
    lines = ["*NODE, NSET=ALL"]
    lines += ["%d, %.12g, %.12g, 0" % (k + 1, r, z) for k, (r, z) in enumerate(mesh.nodes)]
    lines.append("*ELEMENT, TYPE=CAX8R, ELSET=ALL")
    lines += ["%d, %s" % (k + 1, ", ".join(map(str, e))) for k, e in enumerate(mesh.elements)]
    lines += ["*MATERIAL, NAME=M", "*ELASTIC", "%g, %g" % (young, poisson), "*SOLID SECTION, ELSET=ALL, MATERIAL=M"]
    lines.append("*BOUNDARY")
    lines += ["%d, %d, %d" % (n, d, d) for n, d in fixed]
    lines += ["*STEP", "*STATIC"]
    if pressures:
        lines.append("*DLOAD")
        lines += ["%d, P%d, %.12g" % p for p in pressures]
    if forces:
        lines.append("*CLOAD")
        lines += ["%d, %d, %.12g" % (n, d, f) for (n, d), f in forces.items()]
    lines += ["*NODE FILE, OUTPUT=2D", "U", "*EL FILE", "S", "*NODE PRINT, NSET=ALL, TOTALS=ONLY", "RF", "*END STEP"]
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "job.inp"), "w") as f:
            f.write("\n".join(lines) + "\n")
        run = subprocess.run(["ccx", "job"], cwd=folder, capture_output=True, text=True, env=dict(os.environ, OMP_NUM_THREADS="1"))
        if run.returncode != 0:
            raise RuntimeError(run.stdout[-2000:] + run.stderr[-2000:])
        with open(os.path.join(folder, "job.frd")) as f:
            return _read(f)


def _read(lines):
    stress, moved, kind = {}, {}, None
    for line in lines:
        if line.startswith(" -4"):
            kind = line.split()[1]
        elif line.startswith(" -3"):
            kind = None
        elif line.startswith(" -1") and kind in ("STRESS", "DISP"):
            node = int(line[3:13])
            x = [float(line[13 + 12 * k:25 + 12 * k]) for k in range((len(line.rstrip("\n")) - 13) // 12)]
            if kind == "STRESS":
                stress[node] = (x[0], x[1], x[2], x[3])
            else:
                moved[node] = (x[0], x[1])
    return stress, moved


def mises(s):
    r, z, t, rz = s
    return math.sqrt(((r - z) ** 2 + (z - t) ** 2 + (t - r) ** 2) / 2 + 3 * rz * rz)
