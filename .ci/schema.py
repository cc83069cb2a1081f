"""Holds the schema of design files against other programs' validators.

usage: schema.py CASEWRIGHT SCHEMA TAPLO
"""

import json
import pathlib
import re
import subprocess
import sys
import tomllib

import jsonschema

CASEWRIGHT, SCHEMA, TAPLO = sys.argv[1], pathlib.Path(sys.argv[2]), sys.argv[3]
ROOM = SCHEMA.parent
GOOD = [*pathlib.Path("testdata/designs").glob("*.toml"), *pathlib.Path("cmd/casewright/internal/schema/testdata").glob("*.toml")]
BAD = sorted(pathlib.Path("testdata/invalid").glob("*.toml"))
# What a slip in an editor looks like, each in one line of the example.
EXAMPLE = pathlib.Path("testdata/designs/basalt64.toml").read_text()
SLIPS = {
    "a miscased key": ("  edge = ", "  Edge = "),
    "a key misspelt": ("wall = ", "wal = "),
    "no unit": ('"4.5 MPa"', '"4.5"'),
    "a unit of another kind": ('"36 mm"', '"36 kg"'),
    "a decimal comma": ('"36 mm"', '"36,5 mm"'),
    "a number without quotes": ('"36 mm"', "36"),
    "an unknown thread": ('"M5x0.8"', '"M5x0.7"'),
    "an unknown material": ('"6061-T6 bar"', '"6061-T5 bar"'),
    "too many screws": ("count = 8", "count = 800"),
    "a plate of a nozzle": ('kind = "nozzle"', 'kind = "nozzle"\nplate = "12 mm"'),
    "three sizes of the tube": ("[tube]", '[tube]\noutside_diameter = "63.5 mm"'),
    "one groove with a spacing": ("  count = 2 ", "  count = 1 "),
    "no fraction of inches": ('"36 mm"', '"1/3 in"'),
    "a table misspelt": ("[motor]", "[motr]"),
}
faults, held = [], 0


def hold(true, what):
    """Counts what holds and keeps what does not."""
    global held
    held += 1
    if not true:
        faults.append(what)


def reader(file):
    """The reader takes a design; what becomes of it is another matter."""
    return subprocess.run([CASEWRIGHT, "check", file], capture_output=True).returncode in (0, 1)


def slips():
    """Yields the example with one slip each."""
    for name, (right, wrong) in SLIPS.items():
        if right not in EXAMPLE:
            sys.exit(f"{name}: the example has no {right!r}")
        file = ROOM / "slip.toml"
        file.write_text(EXAMPLE.replace(right, wrong))
        hold(not reader(file), f"the reader takes {name}")
        yield name, file


def python():
    """By the meta-schema, and on the files as Python reads them."""
    schema = json.loads(SCHEMA.read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for file in GOOD:
        for error in validator.iter_errors(tomllib.loads(file.read_text())):
            hold(False, f"{file}: {list(error.absolute_path)}: {error.message[:200]}")
        hold(True, "")
    for name, file in slips():
        hold(not validator.is_valid(tomllib.loads(file.read_text())), f"{name} is valid")
    refused = 0
    for file in BAD:
        text = file.read_text().replace("¶", "")
        try:
            valid = validator.is_valid(tomllib.loads(text))
        except tomllib.TOMLDecodeError:
            continue
        if not valid:
            (ROOM / "bad.toml").write_text(text)
            hold(not reader(ROOM / "bad.toml"), f"{file}: the schema alone refuses it")
            refused += 1
    hold(refused > 80, f"{refused} of {len(BAD)} invalid designs are refused")


def patterns(of):
    """Yields the regular expressions of a schema."""
    if isinstance(of, dict):
        yield from of.get("patternProperties", {})
        if isinstance(of.get("pattern"), str):
            yield of["pattern"]
        for value in of.values():
            yield from patterns(value)
    elif isinstance(of, list):
        for value in of:
            yield from patterns(value)


def ecmascript():
    """The patterns are sound in the language of the specification, and find the
    names and samples of the schema itself."""
    schema = json.loads(SCHEMA.read_text())
    texts = [*schema["$defs"]["thread"]["anyOf"][0]["enum"], *schema["$defs"]["ring"]["anyOf"][0]["enum"],
             "2 1/2 +-1/64 in", "57.0 +0/-0.05 mm", "120 degC", "23.6e-6 1/K", "5 N·m", "1/3 in", "2 5/4 in", "5 mm\u2003", "14,5 mm", "M5x0.7"]
    program = "const [ps, ts] = JSON.parse(require('fs').readFileSync(0)); console.log(JSON.stringify(ps.map(p => ts.map(t => new RegExp(p, 'u').test(t)))))"
    asked = [list(patterns(schema)), texts]
    done = subprocess.run(["node", "-e", program], input=json.dumps(asked), capture_output=True, text=True)
    hold(done.returncode == 0, done.stderr[-500:])
    for pattern, found in zip(asked[0], json.loads(done.stdout or "[]")):
        for text, matches in zip(texts, found):
            hold(matches == bool(re.search(pattern, text)), f"{text!r}: ECMAScript and Python differ on {pattern[:60]}")


def lint(file, schema=True):
    """What the engine of editors says of a file."""
    of = ["--schema", SCHEMA.resolve().as_uri()] if schema else []
    return subprocess.run([TAPLO, "lint", *of, file.resolve()], capture_output=True, text=True)


def editor():
    for file in GOOD:
        done = lint(file)
        hold(done.returncode == 0, f"{file}: {done.stderr[-500:]}")
    for name, file in slips():
        done = lint(file)
        hold(done.returncode != 0 and "slip.toml:" in done.stderr, f"an editor does not mark {name}")
    # As the README tells: a first line, and the schema beside the file.
    for name, text in ("hinted.toml", EXAMPLE), ("slipped.toml", EXAMPLE.replace("  edge = ", "  Edge = ")):
        (ROOM / name).write_text("#:schema ./casewright.schema.json\n" + text)
        hold(reader(ROOM / name) == (text == EXAMPLE), f"{name}: the reader stumbles over the first line")
        hold((lint(ROOM / name, schema=False).returncode == 0) == (text == EXAMPLE), f"{name}: the first line does not bring the schema")


for part in (python, ecmascript, editor):
    before = held
    part()
    print(f"{part.__name__}: {held - before} held", flush=True)
if faults:
    sys.exit("\n".join(["not as it must be:"] + faults))
