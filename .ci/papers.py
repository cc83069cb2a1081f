"""Holds what casewright writes against what other programs see of it.

usage: papers.py CASEWRIGHT DESIGNS ROOM
"""

import html.parser
import json
import math
import pathlib
import re
import subprocess
import sys
import tomllib
import unicodedata
import xml.etree.ElementTree

import ezdxf
import ezdxf.units
import numpy
from ezdxf.lldxf.encoding import decode_dxf_unicode

CASEWRIGHT, DESIGNS, ROOM = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
DPI = 600
MM = DPI / 25.4  # pixels
INCH = 25.4  # mm
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # mm, ISO 216 and ANSI Y14.1
PAPER = 0.1  # thickness, mm, that wrap takes unless told
LAP = 15.0  # of a strip beyond its lap line, mm
VERDICTS = {"basalt64": "PASS", "slate2in": "PASS", "basalt64-short-edge": "FAIL"}
# No fewer and no more pages than a reader would take for whole and for sound.
PAGES = {"report": (5, 30), "sheet": (5, 16), "checklist": (2, 6)}
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


def tool(*args, ends=(0,)):
    """Runs another program, which must come to one of its ends."""
    done = subprocess.run(list(map(str, args)), capture_output=True, text=True, timeout=300)
    hold(done.returncode in ends, f"{args[0]} {args[-1]} ends with {done.returncode}: {done.stderr[-300:]}")
    return done


def plain(text):
    """A text in one line, joined letters as those that they are joined of,
    without the marks that pdftotext sets round what runs from right to left."""
    return re.sub(r"\s+", " ", re.sub("[\u202a-\u202e]", "", unicodedata.normalize("NFKC", text)))


def pieces(text):
    """The pieces of a text that each run one way: where two meet, pdftotext
    guesses the order of spaces and signs."""
    return [piece.strip() for piece in re.findall("[\u0590-\u06ff]+|[^\u0590-\u06ff]+", text) if piece.strip()]


def length(text):
    """The nominal of a size of a design file, in mm."""
    number, unit = re.match(r"([\d./ ]+?)\s*(?:[±+].*)? (mm|in)$", text).groups()
    value = sum(float(a) / float(b or 1) for a, b in re.findall(r"([\d.]+)(?:/(\d+))?", number))
    return value * (INCH if unit == "in" else 1)


def rows(design):
    """The rows of holes of a design file, reckoned here from the file alone."""
    read = tomllib.loads(design.read_text())
    tube = {key: length(text) for key, text in read["tube"].items() if key in ("outside_diameter", "inside_diameter", "wall")}
    outside = tube.get("outside_diameter") or tube["inside_diameter"] + 2 * tube["wall"]
    for number, end in enumerate(read["end"]):
        screws = end["screws"]
        start = float(screws.get("angle", "0°").rstrip("°"))
        yield {
            "end": end["name"], "first": number == 0, "round": math.pi * (outside + PAPER),
            "edge": length(screws["edge"]), "hole": length(screws["hole"]),
            "turns": [(start / 360 + k / screws["count"]) % 1 for k in range(screws["count"])],
        }


# --- paper ---


def pdf(file, what, size, pages, words):
    """A PDF is whole, of the paper's size, upright or not, brings its fonts and
    tells its words."""
    info = tool("pdfinfo", "-f", 1, "-l", 999, file)
    hold(not info.stderr, f"{what}: {info.stderr}")
    count = int((re.search(r"Pages:\s+(\d+)", info.stdout) or [0, 0])[1])
    hold(pages[0] <= count <= pages[1], f"{what}: {count} pages, not {pages[0]} to {pages[1]}")
    sizes = re.findall(r"Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)", info.stdout)
    hold(len(sizes) == count, f"{what}: {len(sizes)} sizes of {count} pages")
    for across in sizes:
        mm = [float(points) / 72 * INCH for points in across]
        hold(max(abs(a - b) for a, b in zip(sorted(mm), size)) < 0.1, f"{what}: a page is {mm} mm, not {size}")
    fonts = tool("pdffonts", file).stdout.splitlines()[2:]
    hold(fonts, f"{what}: no fonts")
    for font in fonts:  # … emb sub uni, object and its generation
        hold(font.split()[-5] == "yes", f"{what}: a font is not in the file: {font}")
    read = tool("pdftotext", file, "-").stdout
    for number, page in enumerate(read.split("\f")[:-1]):
        hold(page.strip(), f"{what}: page {number + 1} is empty")
    tells(read, words, what)


def tells(read, words, what):
    """The text that pdftotext reads has the words."""
    for piece in (piece for word in words for piece in pieces(word)):
        hold(plain(piece) in plain(read), f"{what}: no {piece!r}")


def pixels(file):
    """Yields the pages of a PDF, true where ink is."""
    for old in ROOM.glob("page*.pgm"):
        old.unlink()
    tool("pdftoppm", "-gray", "-r", DPI, file, ROOM / "page")
    for page in sorted(ROOM.glob("page*.pgm")):
        data = page.read_bytes()
        magic, width, height = data[:40].split(None, 3)[:3]
        assert magic == b"P5"
        w, h = int(width), int(height)
        yield numpy.frombuffer(data[-w * h:], numpy.uint8).reshape(h, w) < 128


def runs(line):
    """The runs of ink in a line of pixels, as first and one past last."""
    edges = numpy.flatnonzero(numpy.diff(numpy.concatenate(([0], line.astype(numpy.int8), [0]))))
    return list(zip(edges[::2], edges[1::2]))


def strokes(page, least):
    """The level lines of a page of a least length, in mm: the middle of the pen, both ends."""
    found = []
    for y in numpy.flatnonzero(page.sum(axis=1) >= least * MM):
        for a, b in runs(page[y]):
            if b - a < least * MM:
                continue
            # Where lines meet, the rows of one pen differ by the width of another.
            pen = next((f for f in found if f[1] == y and max(abs(f[2] - a), abs(f[3] - b)) < 0.4 * MM), None)
            if pen:
                pen[1:] = y + 1, min(pen[2], a), max(pen[3], b)
            else:
                found.append([y, y + 1, a, b])
    return [((top + below) / 2 / MM, a / MM, b / MM) for top, below, a, b in found]


def square(page, side, what):
    """A square of a side, in mm, stands on the page both ways."""
    for way, turned in (("across", page.T), ("down", page)):
        # Two lines one below the other, as long as the side and the pen.
        lines = [line for line in strokes(turned, side - 1) if abs(line[2] - line[1] - side) < 0.6]
        apart = [q[0] - p[0] for p in lines for q in lines if abs(p[1] - q[1]) < 0.15 and q[0] > p[0]]
        best = min(apart, key=lambda d: abs(d - side), default=0)
        hold(abs(best - side) <= 0.2, f"{what}: {side} mm square {way} measures {best:.2f} mm")


def crosses(page, row, what):
    """The cross-hairs stand where turn, tube and paper put them: from the zero
    line along the strip, and from its flush edge."""
    flush = [line for line in strokes(page, row["round"] + 1)]
    if not flush:
        hold(False, f"{what}: no edge of a strip")
        return
    # The strip of the first end lies below its flush edge, that of the other above.
    ends = flush[0] if row["first"] else flush[-1]
    hold(abs(ends[2] - ends[1] - row["round"] - LAP) <= 0.4, f"{what}: the strip is {ends[2] - ends[1]:.2f} mm long")
    into = 1 if row["first"] else -1
    beyond = row["hole"] / 2 + 1.5  # the arms of a cross reach further than its hole by 3 mm
    across = page[round((ends[0] + into * (row["edge"] + beyond)) * MM)]
    seen = [(a + b) / 2 / MM for a, b in runs(across)]
    zero = seen[0]
    places = {f"hole {k + 1}": turn * row["round"] for k, turn in enumerate(row["turns"])} | {"lap line": row["round"]}
    for name, x in places.items():
        nearest = min((s - zero for s in seen), key=lambda s: abs(s - x))
        hold(abs(nearest - x) <= 0.2, f"{what}: {name} at {nearest:.2f} mm, not {x:.2f} mm")
        if name == "lap line":
            continue
        down = page[:, round((zero + x + beyond) * MM)]
        levels = [into * ((a + b) / 2 / MM - ends[0]) for a, b in runs(down)]
        level = min(levels, key=lambda v: abs(v - row["edge"]), default=0)
        hold(abs(level - row["edge"]) <= 0.2, f"{what}: {name} is {level:.2f} mm from the edge, not {row['edge']:.2f} mm")


def vectors(svg, design, what):
    """The circles of a strip in SVG stand there to 0.01 mm, in mm."""
    root = xml.etree.ElementTree.parse(svg).getroot()
    box = [float(x) for x in root.get("viewBox").split()]
    hold([root.get("width"), root.get("height")] == [f"{x:g}mm" if x == int(x) else f"{x}mm" for x in box[2:]] and box[:2] == [0, 0],
         f"{what}: not at true scale: {root.get('width')} for {box}")
    level = []  # y, from, to
    for path in root.iterfind(".//{*}path"):
        line = re.fullmatch(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", path.get("d"))
        if line and line[2] == line[4]:
            level.append((float(line[2]), float(line[1]), float(line[3])))
    for row in rows(design):
        into = 1 if row["first"] else -1
        for k, turn in enumerate(row["turns"]):
            name = f"hole {row['end']} {k + 1}"
            circles = [c for c in root.iterfind(".//{*}circle") if c.get("data-of") == name]
            hold(circles, f"{what}: no {name}")
            for c in circles:
                x, y, r = (float(c.get(key)) for key in ("cx", "cy", "r"))
                hold(abs(2 * r - row["hole"]) < 0.01, f"{what}: {name} is {2 * r} mm wide")
                # Flush edges as long as strip and lap, the edge distance away.
                flush = [v for v in level if abs(into * (y - v[0]) - row["edge"]) < 0.01 and abs(v[2] - v[1] - row["round"] - LAP) < 0.01]
                hold(flush, f"{what}: {name} is not {row['edge']} mm from a flush edge")
                for _, zero, _ in flush:
                    off = (x - zero - turn * row["round"]) / row["round"]  # whole turns
                    hold(abs(off - round(off)) * row["round"] < 0.01, f"{what}: {name} at {x - zero:.3f} mm")


def strips():
    turned = ROOM / "turned.toml"
    turned.write_text((DESIGNS / "basalt64.toml").read_text().replace("  engagement =", '  angle = "11°"\n  engagement ='))
    for design in [*(DESIGNS / f"{name}.toml" for name in VERDICTS), turned]:
        svg = ROOM / "strips.svg"
        casewright("wrap", design, "-o", svg)
        vectors(svg, design, f"wrap of {design.stem}, SVG")
        for paper, size in PAPERS.items():
            if design == turned and paper != "a4":
                continue
            file, what = ROOM / "strips.pdf", f"wrap of {design.stem}, PDF on {paper}"
            casewright("wrap", design, "--paper", paper, "-o", file)
            expected = list(rows(design))
            pdf(file, what, size, [len(expected)] * 2, ["Print at 100 %", *(row["end"] for row in expected)])
            pages = list(pixels(file))
            hold(len(pages) == len(expected), f"{what}: {len(pages)} pages seen")
            for number, (page, row) in enumerate(zip(pages, expected)):
                place = f"{what}, page {number + 1}"
                square(page, 50.0, place)
                square(page, 2 * INCH, place)
                crosses(page, row, place)


# --- drawings ---


def dxf(file, what, *words):
    """A DXF has nothing to mend, is in mm and has its texts; its entities."""
    drawing = ezdxf.readfile(file)
    audit = drawing.audit()
    hold(not audit.errors and not audit.fixes, f"{what}: {len(audit.errors)} errors, {len(audit.fixes)} to be fixed")
    hold(drawing.units == ezdxf.units.MM and drawing.header.get("$MEASUREMENT") == 1, f"{what}: its unit is {drawing.units}, not mm")
    space = drawing.modelspace()
    texts = "\n".join(decode_dxf_unicode(text.dxf.text) for text in space.query("TEXT"))
    for word in words:
        hold(word in texts, f"{what}: no {word!r}")
    return space


def drawings():
    for name in VERDICTS:
        design = DESIGNS / f"{name}.toml"
        file = ROOM / "drawing.dxf"
        casewright("draw", design, "-o", file)
        dxf(file, f"draw of {name}, DXF", "bulkhead", "nozzle")
        for row in rows(design):
            what = f"jig of {name} {row['end']}"
            casewright("jig", design, row["end"], "-o", file)
            ring = json.loads(casewright("jig", "--format", "json", design, row["end"]))
            space = dxf(file, f"{what}, DXF", row["end"], "drilling ring")
            bore = [c for c in space.query("CIRCLE") if abs(2 * c.dxf.radius - ring["bore"]["value"] * 1e3) < 0.001]
            hold(len(bore) == 1, f"{what}, DXF: {len(bore)} circles of the bore")
            # Each hole has a centre line that points away from the middle of the bore.
            middle = bore[0].dxf.center if bore else None
            bearings = [(line.dxf.end - middle).angle_deg for line in space.query('LINE[layer=="CENTRE"]')
                        if middle and (line.dxf.end - middle).normalize().isclose((line.dxf.end - line.dxf.start).normalize(), abs_tol=1e-3)]
            for k, turn in enumerate(row["turns"]):
                # Up at 0°; to the right as it is looked at is either way round here.
                hold(any(abs(math.sin(math.radians(b - 90) / 2 + way * math.pi * turn)) < 1e-4 for b in bearings for way in (1, -1)),
                     f"{what}, DXF: no centre line of hole {k + 1}")
            page = ROOM / "drawing.pdf"
            casewright("jig", design, row["end"], "-o", page)
            hold(not tool("pdfinfo", page).stderr, f"{what}, PDF: a warning")


# --- pages ---

# What tidy does not know: MathML Core has displaystyle, and HTML lets a style
# stand in svg.
KNOWN = re.compile(r'<math> proprietary attribute "displaystyle"|<style> isn\'t allowed in <svg>|discarding unexpected </?style>')


class Asked(html.parser.HTMLParser):
    """What a page would fetch or run."""

    def __init__(self):
        super().__init__()
        self.list, self.text, self.tags = [], [], set()

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        for key, value in attributes:
            if key in ("src", "srcset", "href", "xlink:href", "action", "formaction", "data", "poster", "background", "ping", "manifest"):
                if not (value or "").startswith(("#", "data:")):
                    self.list.append(f"<{tag} {key}={value}>")
            elif key.startswith("on"):
                self.list.append(f"<{tag} {key}>")
            elif key in ("style", "fill", "stroke", "clip-path", "mask", "filter", "marker-end", "marker-start"):
                self.css(value or "")
        if tag in ("script", "iframe", "object", "embed", "link", "base"):
            self.list.append(f"<{tag}>")

    def handle_data(self, data):
        self.text.append(data)
        if self.lasttag == "style":
            self.css(data)

    def css(self, text):
        self.list += re.findall(r"url\(\s*(?![\"']?(?:#|data:))[^)]*\)|@import", text)


def browser(*args):
    """Runs a browser for which every name leads nowhere, and so does the way out."""
    return tool("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--host-resolver-rules=MAP * ~NOTFOUND",
                "--proxy-server=127.0.0.1:9", *args)


def page(file, what, words, printed=True):
    """A page is sound, asks for nothing, shows its words and can be printed."""
    for line in tool("tidy", "-q", "-e", file, ends=(0, 1, 2)).stderr.splitlines():
        hold(KNOWN.search(line), f"{what}: {line}")
    asked = Asked()
    asked.feed(file.read_text())
    asked.close()
    hold(not asked.list, f"{what}: asks for {asked.list[:3]}")
    shown = "".join(asked.text)
    if printed:
        paper = ROOM / "printed.pdf"
        paper.unlink(missing_ok=True)
        browser("--no-pdf-header-footer", f"--print-to-pdf={paper}", file.as_uri())
        hold(paper.exists(), f"{what}: not printed")
        read = tool("pdftotext", paper, "-").stdout if paper.exists() else ""
        tells(read, words, f"{what}, printed by a browser")
        # A long source may break over lines and pages, but loses nothing.
        there, kept = (sum(map(len, re.findall("x{20,}", t))) for t in (shown, read))
        hold(kept >= 0.95 * there, f"{what}, printed by a browser: {kept} of {there} letters without a space")
        fits(file, what)
    for word in words:
        hold(plain(word) in plain(shown), f"{what}: no {word!r}")
    return asked.tags


def fits(file, what):
    """Nothing that a screen would scroll is cut off on A4 with the browser's
    margins of 1 cm: laid out as for print, by a script that is not the page's."""
    copy = ROOM / "fits.html"
    copy.write_text(file.read_text().replace("@media print", "@media all") + """<script>
        const boxes = [...document.querySelectorAll(".sum, .wide")]
        document.title = `cut ${boxes.filter(b => b.scrollWidth > b.clientWidth + 1).length} of ${boxes.length}.`
        </script>""")
    seen = re.search(r"<title>cut (\d+) of (\d+)\.", browser("--window-size=718,1000", "--hide-scrollbars", "--dump-dom", copy.as_uri()).stdout)
    hold(seen and seen[1] == "0", f"{what}: on paper a browser has {seen and seen[0]}")


def pages():
    for name, verdict in VERDICTS.items():
        design = DESIGNS / f"{name}.toml"
        told = f"{verdict}. A pass is not permission to fire"
        for command, count in PAGES.items():
            what, file = f"{command} of {name}", ROOM / f"{command}.html"
            casewright(command, design, "-o", file)
            page(file, f"{what}, HTML", [told, "bulkhead", "nozzle"], printed=name != "slate2in")
            for paper, size in PAPERS.items():
                file = ROOM / f"{command}.pdf"
                casewright(command, design, "--paper", paper, "-o", file)
                pdf(file, f"{what}, PDF on {paper}", size, count, [told, "bulkhead", "nozzle"])
        file = ROOM / "explain.html"
        file.write_text(casewright("explain", "--format", "html", design))
        page(file, f"explain of {name}, HTML", ["permission to fire", "bulkhead", "nozzle"], printed=name == "basalt64-short-edge")


# --- names that would break a page, a drawing or a line of either ---

# Tags that no page of ours has.
MOTOR = """<blink>&amp;"so'</svg> \u05e9\u05dc\u05d5\u05dd"""
END = "\u0645\u062d\u0645\u062f \u05e0\u05d7\u05d9\u05e8"  # letters alone are taken
METAL = "<font>own & 'bar' \u05de\u05ea\u05db\u05ea"
SOURCE = "<marquee>&lt; " + "long words " * 454 + "x" * 4992  # half of it without a space
FILE = """<center>&'".toml"""
TAGS = {"blink", "font", "marquee", "center"}
assert len(SOURCE) == 10_000


def hostile():
    text = (DESIGNS / "basalt64.toml").read_text()
    for old, key, new in [
        ('name = "Basalt 64"', "name", MOTOR),
        ('name = "nozzle"', "name", END),
        ('material = "6061-T6 bar"', "material", METAL),
    ]:
        hold(old in text, f"the example has no {old}")
        text = text.replace(old, f"{key} = {json.dumps(new, ensure_ascii=False)}")
    text += f"\n[[material]]\nname = {json.dumps(METAL, ensure_ascii=False)}\nsource = {json.dumps(SOURCE)}\n"
    text += 'form = "bar"\nyield = "240 MPa"\nultimate = "290 MPa"\nshear = "180 MPa"\nmodulus = "69 GPa"\n'
    design = ROOM / FILE
    design.write_text(text)

    svg, drawn, file, paper = (ROOM / f"hostile.{end}" for end in ("svg", "dxf", "html", "pdf"))
    for command in [["wrap", design], ["draw", design], ["jig", design, END]]:
        what = f"{command[0]} of hostile names"
        casewright(*command, "-o", svg)
        read = "".join(xml.etree.ElementTree.parse(svg).getroot().itertext())
        for word in (MOTOR, END):
            hold(word in read, f"{what}, SVG: no {word!r}")
        casewright(*command, "-o", paper)
        hold(not tool("pdfinfo", paper).stderr, f"{what}, PDF: a warning")
        tells(tool("pdftotext", paper, "-").stdout, [pieces(MOTOR)[0], END], f"{what}, PDF")  # a heading clips what is long
        if command[0] != "wrap":
            casewright(*command, "-o", drawn)
            dxf(drawn, f"{what}, DXF", MOTOR, END)
    for command, (least, _) in PAGES.items():
        what = f"{command} of hostile names"
        words = [MOTOR, END] if command == "checklist" else [MOTOR, END, METAL]
        casewright(command, design, "-o", file)
        tags = page(file, f"{what}, HTML", words, printed=command != "checklist")
        hold(not tags & TAGS, f"{what}, HTML: {tags & TAGS} from a name")
        casewright(command, design, "-o", paper)
        pdf(paper, f"{what}, PDF", PAPERS["a4"], (least, 99), words)  # the source takes its room
    file.write_text(casewright("explain", "--format", "html", design, END))
    tags = page(file, "explain of hostile names, HTML", [END, METAL, SOURCE[:SOURCE.index("long")]])
    hold(SOURCE in html.unescape(file.read_text()), "explain of hostile names, HTML: the source is not whole")
    hold(not tags & TAGS, f"explain of hostile names, HTML: {tags & TAGS} from a name")


for part in (strips, drawings, pages, hostile):
    before = held
    part()
    print(f"{part.__name__}: {held - before} held", flush=True)
if faults:
    sys.exit("\n".join(["not as it must be:"] + faults))
