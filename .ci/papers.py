"""Holds what casewright writes against what other programs see of it.

usage: papers.py CASEWRIGHT DESIGNS ROOM
"""

import json
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree

import ezdxf
import numpy

CASEWRIGHT, DESIGNS, ROOM = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
DPI = 600
MM = DPI / 25.4  # pixels
PAPERS = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}  # mm, ISO 216 and ANSI Y14.1
STRIPS = ["basalt64", "slate2in"]
PAGES = ["report", "sheet", "checklist"]
faults, held = [], 0


def hold(true, what):
    """Counts what holds and keeps what does not."""
    global held
    held += 1
    if not true:
        faults.append(what)


def casewright(*args):
    """Runs the program; a design that fails its checks is no fault here."""
    done = subprocess.run([CASEWRIGHT, *map(str, args)], capture_output=True, text=True)
    if done.returncode not in (0, 1):
        sys.exit(f"casewright {' '.join(map(str, args))}: {done.stderr}")
    return done.stdout


def tool(*args):
    return subprocess.run(list(map(str, args)), capture_output=True, text=True)


def pixels(pdf):
    """Yields the pages of a PDF, true where ink is."""
    stem = ROOM / "page"
    for old in ROOM.glob("page*.pgm"):
        old.unlink()
    tool("pdftoppm", "-gray", "-r", DPI, pdf, stem)
    for page in sorted(ROOM.glob("page*.pgm")):
        magic, width, height, _ = page.read_bytes()[:40].split(None, 4)[:4]
        assert magic == b"P5"
        w, h = int(width), int(height)
        yield numpy.frombuffer(page.read_bytes()[-w * h:], numpy.uint8).reshape(h, w) < 128


def runs(line):
    """The runs of ink in a line of pixels, as first and one past last."""
    edges = numpy.flatnonzero(numpy.diff(numpy.concatenate(([0], line.astype(numpy.int8), [0]))))
    return list(zip(edges[::2], edges[1::2]))


def square(page, side, what):
    """A square of a side, in mm, stands on the page both ways."""
    for way, turned in (("across", page), ("down", page.T)):
        # Two lines one above the other, about as long as the side.
        lines = []
        for y in numpy.flatnonzero(turned.sum(axis=1) >= (side - 1) * MM):
            for a, b in runs(turned[y]):
                if abs((b - a) / MM - side) < 0.6:
                    lines.append((y, a, b))
        apart = [(q[0] - p[0]) / MM for p in lines for q in lines if abs(p[1] - q[1]) < 3 and abs(p[2] - q[2]) < 3]
        best = min(apart, key=lambda d: abs(d - side), default=0)
        hold(abs(best - side) <= 0.2, f"{what}: {side} mm square {way} measures {best:.2f} mm")


def crosses(page, row, what):
    """The cross-hairs stand where arc and paper put them, from the zero line."""
    strip = row["strip_length"]["value"] * 1e3
    flush = [y for y in numpy.flatnonzero(page.sum(axis=1) > strip * MM) if max(b - a for a, b in runs(page[y])) > strip * MM]
    if not flush:
        hold(False, f"{what}: no edge of a strip")
        return
    # A line just beyond the holes, where of them the cross-hairs alone are
    # left. The strip of the first end lies below its flush edge.
    beyond = (row["edge"]["value"] * 1e3 + row["hole"]["value"] * 500 + 1.5) * MM
    y = int(flush[0] + beyond) if row["first_end"] else int(flush[0] - beyond)
    seen = [(a + b) / 2 / MM for a, b in runs(page[y])]
    zero = seen[0]
    places = {f"hole {hole['number']}": hole["x"]["value"] * 1e3 for hole in row["holes"][1:]}
    for name, x in (places | {"lap line": strip}).items():
        nearest = min((s - zero for s in seen), key=lambda s: abs(s - x))
        hold(abs(nearest - x) <= 0.2, f"{what}: {name} at {nearest:.2f} mm, not {x:.2f} mm")


def strips():
    for name in STRIPS:
        design = DESIGNS / f"{name}.toml"
        told = json.loads(casewright("wrap", "--format", "json", design))
        for paper, size in PAPERS.items():
            pdf = ROOM / f"{name}-{paper}.pdf"
            casewright("wrap", design, "--paper", paper, "-o", pdf)
            info = tool("pdfinfo", pdf).stdout
            points = [float(x) for x in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", info).groups()]
            mm = [p / 72 * 25.4 for p in points]
            hold(max(abs(a - b) for a, b in zip(sorted(mm), sorted(size))) < 0.1, f"{pdf.name}: the page is {mm} mm")
            for number, page in enumerate(pixels(pdf)):
                what = f"{pdf.name}, page {number + 1}"
                square(page, 50.0, what)
                square(page, 50.8, what)
                if number < len(told["rows"]):
                    crosses(page, told["rows"][number], what)


def drawings():
    for name in STRIPS:
        design = DESIGNS / f"{name}.toml"
        files = [("draw", design), ("jig", design, "bulkhead"), ("jig", design, "nozzle")]
        for args in files:
            dxf = ROOM / "drawing.dxf"
            casewright(*args, "-o", dxf)
            audit = ezdxf.readfile(dxf).audit()
            hold(not audit.errors and not audit.fixes, f"{args}: DXF has {len(audit.errors)} errors, {len(audit.fixes)} to be fixed")
            dxf.unlink()


# What tidy does not know: MathML Core has displaystyle, and HTML lets a style
# stand in svg.
KNOWN = re.compile(r'proprietary attribute "displaystyle"|<style> isn\'t allowed in <svg>|discarding unexpected </?style>')


def html(page, what):
    text = page.read_text()
    for line in tool("tidy", "-q", "-e", page).stderr.splitlines():
        hold(KNOWN.search(line), f"{what}: {line}")
    asked = re.findall(r'(?:src|href|action|data)\s*=\s*"(?!#|data:)([^"]*)"|url\((?!#)([^)]*)\)|@import', text)
    hold(not asked, f"{what}: asks for {asked[:3]}")
    hold("<script" not in text, f"{what}: needs a script")
    # Every name leads nowhere: what is on the page after that is its own.
    dump = tool("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--host-resolver-rules=MAP * ~NOTFOUND",
                "--proxy-server=127.0.0.1:9", "--dump-dom", page.as_uri()).stdout
    seen = re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", dump))
    hold("A pass is not permission to fire" in seen, f"{what}: the browser does not show its caution")


def pages():
    for name in ["basalt64", "basalt64-short-edge", "slate2in"]:
        design = DESIGNS / f"{name}.toml"
        for command in PAGES:
            page, pdf = ROOM / f"{command}.html", ROOM / f"{command}.pdf"
            casewright(command, design, "-o", page)
            html(page, f"{command} of {name}, HTML")
            casewright(command, design, "-o", pdf)
            what = f"{command} of {name}, PDF"
            info, text = tool("pdfinfo", pdf), tool("pdftotext", pdf, "-").stdout
            hold(not info.stderr, f"{what}: {info.stderr}")
            hold("permission to fire" in re.sub(r"\s+", " ", text), f"{what}: no caution")
            hold("nozzle" in text and "bulkhead" in text, f"{what}: the ends are not named")
            for line in tool("pdffonts", pdf).stdout.splitlines()[2:]:
                hold(" yes " in line, f"{what}: a font is not in the file: {line}")


# Text that would break a page, a drawing or a line of either.
HOSTILE = """<b>&amp; "quoted" 'so' \u05e9\u05dc\u05d5\u05dd</svg>"""


def hostile():
    text = (DESIGNS / "basalt64.toml").read_text()
    text = re.sub(r'(?m)^name = "Basalt 64"', lambda _: f"name = {json.dumps(HOSTILE, ensure_ascii=False)}", text, count=1)
    design = ROOM / "hostile.toml"
    design.write_text(text)
    for command in ["wrap", "draw"]:
        svg = ROOM / "hostile.svg"
        casewright(command, design, "-o", svg)
        read = "".join(xml.etree.ElementTree.parse(svg).getroot().itertext())
        hold(HOSTILE in read, f"{command} of a hostile name, SVG: the name is not its text")
    page, pdf, dxf = ROOM / "hostile.html", ROOM / "hostile.pdf", ROOM / "hostile.dxf"
    casewright("report", design, "-o", page)
    html(page, "report of a hostile name, HTML")
    hold("<b>" not in page.read_text(), "report of a hostile name, HTML: the name is markup")
    casewright("report", design, "-o", pdf)
    hold('<b>&amp; "quoted"' in tool("pdftotext", pdf, "-").stdout, "report of a hostile name, PDF: the name is not its text")
    casewright("draw", design, "-o", dxf)
    audit = ezdxf.readfile(dxf).audit()
    hold(not audit.errors and not audit.fixes, "draw of a hostile name, DXF: errors")


for part in (strips, drawings, pages, hostile):
    before = held
    part()
    print(f"{part.__name__}: {held - before} held")
if faults:
    sys.exit("\n".join(["not as it must be:"] + faults))
