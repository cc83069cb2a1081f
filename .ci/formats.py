"""Holds the formats of check against what other programs make of them.

usage: formats.py CASEWRIGHT TESTDATA ROOM
"""

import json
import os
import pathlib
import pty
import re
import select
import subprocess
import sys
import time
import urllib.parse

import jsonschema
import junitparser
import markdown_it

CASEWRIGHT, TESTDATA, ROOM = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
SCHEMA = json.loads((ROOM / "sarif.json").read_text())
FORMATS = jsonschema.FormatChecker()
VALIDATOR = jsonschema.Draft4Validator(SCHEMA, format_checker=FORMATS)
XSD = ROOM / "jenkins-junit.xsd"
# What editors are told: the README has both.
ERRORFORMAT = r"%f:%l:%c:\ %t%*[^:]:\ %m"
MATCHER = re.compile(r"^(.*):(\d+):(\d+):\s+(error):\s+(.*)$")
# Names and texts that would break a format.
NAMES = ["my motor.toml", "Düse ß.toml", "a&b<c>\"d'.toml", "100 %41.toml", "a|b #c [d](e) `f` *g* $h$ ~i~.toml", "a:b.toml", "ünter/wegs.toml"]
BEYOND = ["two\nlines.toml", "bell\a\x1b[31m.toml", "x:3:4: error: y.toml"]  # no line can have such a name
TEXT = 'A|B & <C> "q" ]]> # $x$ ~~y~~ **z** `c` [l](u) &lt; \\ 密'


def casewright(*args, stdin=None):
    """Runs the program in the room."""
    return subprocess.run([CASEWRIGHT, *args], capture_output=True, text=True, cwd=ROOM, input=stdin, check=False)


def lay():
    """Lays the files out and names them: the designs, the bad files without the
    marks of where they are bad, and some with hostile names and texts."""
    files = []
    for path in sorted(TESTDATA.glob("designs/*.toml")) + sorted(TESTDATA.glob("invalid/*.toml")):
        (ROOM / path.name).write_text(path.read_text().replace("¶", ""))
        files.append(path.name)
    short = (TESTDATA / "designs/basalt64-short-edge.toml").read_text()
    quoted = json.dumps(TEXT, ensure_ascii=False)
    bad = f"format = 1\n{quoted} = 1\n[motor]\nname = {quoted}\npressure = 3\n"
    hostile = re.sub(r'^name = "Basalt.*', lambda _: f"name = {quoted}", short, count=1, flags=re.M)
    hot = re.sub(r'^temperature = "90 °C"', 'temperature = "300 °C"', short, flags=re.M)
    assert hostile != short and hot != short
    for i, name in enumerate(NAMES + BEYOND):
        (ROOM / name).parent.mkdir(exist_ok=True)
        (ROOM / name).write_text([hostile, bad, hot][i % 3])
    files += NAMES + BEYOND + ["there is none.toml"]
    assert len(files) > 150
    return files


def expected(files):
    """What the JSON tells of each file: its findings, as (line, name, text)
    each; a line of None is one that JSON does not tell."""
    done = casewright("check", "--format", "json", *files)
    docs = [json.loads(line) for line in done.stdout.splitlines()]
    assert [d["file"] for d in docs] == files and done.returncode == 2 and not done.stderr
    for d in docs:
        d["bad"] = [("design_file", e.get("line", 1), e.get("column", 1)) for e in d.get("errors", [])]
        for c in d.get("checks", []):
            if c["verdict"] in ("fail", "refused"):
                line = c.get("line") if c["verdict"] == "fail" else None
                d["bad"].append((c["part"] + "/" + c["id"], line, line and column(d["file"], line, c["key"])))
    return docs


def column(file, line, key):
    """Where a key stands in a line of a file, from 1, in code points."""
    return (ROOM / file).read_text().split("\n")[line - 1].index(key.rsplit(".", 1)[-1]) + 1


def placed(file, line, at):
    """Tells whether a key or a table stands at a place of a file."""
    if not (ROOM / file).exists():
        return (line, at) == (1, 1)
    text = (ROOM / file).read_text().split("\n")[line - 1][at - 1 :]
    return re.match(r"[a-z_.]+(\]|\s*=)", text) is not None


def differ(where, got, d):
    """Compares findings, as (name, line, column), with those of JSON."""
    want = d["bad"]
    if [g[0] for g in got] != [w[0] for w in want]:
        yield f"{where} of {d['file']!r}: {[g[0] for g in got]}, not {[w[0] for w in want]}"
        return
    for (name, line, at), (_, want_line, want_column) in zip(got, want):
        if want_line is None:
            if not placed(d["file"], line, at):
                yield f"{where} of {d['file']!r}: {name} stands at {line}:{at}, where no key is"
        elif (line, at) != (want_line, want_column):
            yield f"{where} of {d['file']!r}: {name} stands at {line}:{at}, not {want_line}:{want_column}"


def sarif(text, docs, status=2):
    """What is wrong with a SARIF log."""
    log = json.loads(text)
    for e in VALIDATOR.iter_errors(log):
        yield f"SARIF: {'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
    if "runs" not in log or len(log["runs"]) != 1:
        yield "SARIF: not one run"
        return
    run = log["runs"][0]
    driver = run["tool"]["driver"]
    rules = [rule["id"] for rule in driver["rules"]]
    if len(set(rules)) != len(rules) or driver["version"] != casewright("--version").stdout.strip():
        yield "SARIF: a rule stands twice, or the version is another"
    methods = json.loads(casewright("methods", "--format", "json").stdout)["methods"]
    if [m["id"] for m in methods] != rules[: len(methods)]:
        yield "SARIF: the rules are not the methods"
    found, seen = {d["file"]: [] for d in docs}, set()
    for r in run["results"]:
        place = r["locations"][0]["physicalLocation"]
        uri = place["artifactLocation"]["uri"]
        if not re.fullmatch(r"(?:[A-Za-z0-9\-._~!$&'()*+,;=:@/]|%[0-9A-F]{2})+", uri):
            yield f"SARIF: no URI: {uri}"
        file = urllib.parse.unquote(uri)
        file = file[2:] if file.startswith("./") else file
        if file not in found:
            yield f"SARIF: {uri} is no file"
            continue
        if rules[r["ruleIndex"] :][:1] != [r["ruleId"]]:
            yield f"SARIF: {r['ruleId']} is not the rule {r['ruleIndex']}"
        for key, value in r["partialFingerprints"].items():
            if (file, key, value) in seen:
                yield f"SARIF: {file!r}: {value} stands twice"
            seen.add((file, key, value))
        if r["level"] == "error":
            name = r["partialFingerprints"]["casewright/v1"].rsplit(":", 1)[0]
            if r["ruleId"] == "design_file":
                name = "design_file"
            found[file].append((name, place["region"]["startLine"], place["region"].get("startColumn", 1)))
    for d in docs:
        yield from differ("SARIF", found[d["file"]], d)
    if [(i["exitCode"], i["executionSuccessful"]) for i in run["invocations"]] != [(status, status < 2)]:
        yield f"SARIF: the run ends with {run['invocations']}"


def printable(text):
    """A text as XML may have it."""
    return re.sub("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]", "\ufffd", text)


def junit(text, docs):
    """What is wrong with a JUnit document."""
    file = ROOM / "junit.xml"
    file.write_text(text)
    done = subprocess.run(["xmllint", "--nonet", "--noout", "--schema", XSD, file], capture_output=True, text=True, check=False)
    if done.returncode:
        yield "JUnit: " + done.stderr[:300]
        return
    suites = list(junitparser.JUnitXml.fromfile(str(file)))
    if [s.name for s in suites] != [printable(d["file"]) for d in docs]:
        yield f"JUnit: {len(suites)} suites of {len(docs)} files, or others"
        return
    for s, d in zip(suites, docs):
        cases, got = list(s), []
        faults = d.get("errors", [])
        checks = [(c["part"], c["id"]) for c in d.get("checks", [])]
        if not faults and [(c.classname, c.name) for c in cases] != checks:
            yield f"JUnit of {d['file']!r}: not the checks of the report"
        failures = [c for c in cases if any(isinstance(r, junitparser.Failure) for r in c.result)]
        errors = [c for c in cases if any(isinstance(r, junitparser.Error) for r in c.result)]
        if (s.tests, s.failures, s.errors, s.skipped) != (len(cases), len(failures), len(errors), 0):
            yield f"JUnit of {d['file']!r}: counts {s.tests}, {s.failures}, {s.errors}, {s.skipped} of {len(cases)}, {len(failures)}, {len(errors)}"
        if len(errors) != (1 if faults else 0):
            yield f"JUnit of {d['file']!r}: {len(errors)} errors"
        for c in errors:
            lines = c.result[0].text
            got += ["design_file"] * len(faults)
            for e in faults:
                place = f":{e['line']}: " if "line" in e else ": "
                if printable(d["file"]) + place + printable(e["message"].removesuffix(".")) not in lines:
                    yield f"JUnit of {d['file']!r}: {e['message']!r} is not told at its line"
        for c in failures:
            got.append(f"{c.classname}/{c.name}")
            want = next(x["verdict"] for x in d["checks"] if (x["part"], x["id"]) == (c.classname, c.name))
            if c.result[0].type != want or not c.result[0].message:
                yield f"JUnit of {d['file']!r}: {c.name} is {c.result[0].type}"
        for c in cases:
            if not c.result and not c.system_out:
                yield f"JUnit of {d['file']!r}: {c.name} says nothing"
        if got != [name for name, *_ in d["bad"]]:
            yield f"JUnit of {d['file']!r}: {got}"


def lines(text, docs):
    """What vim, told the README's errorformat, does not find in the lines."""
    (ROOM / "lines.txt").write_text(text)
    script = ROOM / "quickfix.vim"
    script.write_text(
        f"set encoding=utf-8\nset errorformat={ERRORFORMAT}\ncgetfile lines.txt\n"
        "call writefile([json_encode(map(getqflist(), {_, e -> [bufname(e.bufnr), e.lnum, e.col, e.type, e.text, e.valid]}))], 'quickfix.json')\nqall!\n"
    )
    subprocess.run(["vim", "-u", "NONE", "-i", "NONE", "-N", "-n", "-es", "-S", script], cwd=ROOM, stdin=subprocess.DEVNULL, capture_output=True, timeout=60, check=False)
    entries = json.loads((ROOM / "quickfix.json").read_text())
    found = {d["file"]: [] for d in docs}
    for file, line, at, kind, message, valid in entries:
        if not valid or kind != "e" or file not in found:
            yield f"vim: {file!r}, line {line}, type {kind!r}: {message[:80]}"
            continue
        name = "design_file"
        for part in [w[0] for d in docs if d["file"] == file for w in d["bad"]]:
            if message.startswith(part + ": "):
                name = part
        found[file].append((name, line, at))
    for d in docs:
        yield from differ("vim", found[d["file"]], d)
    for line in text.splitlines():
        if not MATCHER.match(line):
            yield f"no match of a problem matcher: {line[:80]}"


MARKS = {
    "heading_open", "heading_close", "paragraph_open", "paragraph_close", "inline", "strong_open", "strong_close", "text",
    *(f"{part}_{end}" for part in ("table", "thead", "tbody", "tr", "th", "td") for end in ("open", "close")),
}  # fmt: skip


def markdown(text, docs):
    """What a CommonMark reader with tables sees that is not meant."""
    tokens = markdown_it.MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(text)
    for t in tokens:
        for one in [t, *(t.children or [])]:
            if one.type not in MARKS and one.type != "text_special":
                yield f"Markdown: {one.type}: {one.content[:60]!r}"
    files, rows = [], []
    for t, before in zip(tokens[1:], tokens):
        plain = "".join(c.content for c in t.children or [])
        if before.type == "heading_open" and before.tag == "h2":
            files.append({"head": plain, "verdict": "", "tables": []})
        elif before.type == "paragraph_open" and not files[-1]["verdict"]:
            files[-1]["verdict"] = plain
        elif before.type == "table_open":
            files[-1]["tables"].append([])
        elif before.type == "tr_open":
            rows = files[-1]["tables"][-1]
            rows.append([])
        if before.type in ("td_open", "th_open"):
            rows[-1].append(plain)
    if len(files) != len(docs):
        yield f"Markdown: {len(files)} summaries of {len(docs)} files"
        return
    for f, d in zip(files, docs):
        name = re.sub("[\r\n\t]", " ", d["file"])
        name = re.sub("[\x00-\x1f\x7f]", "\ufffd", name)
        where = f"Markdown of {d['file']!r}"
        words = {"pass": "✓ PASS", "fail": "✗ FAIL", "refused": "✗ REFUSED", "invalid": "✗ NOT CHECKED"}
        if not f["verdict"].startswith(words[d["verdict"]]):
            yield f"{where}: the verdict is {f['verdict']!r}"
        head = name if d["verdict"] == "invalid" else f"({name})"
        if not f["head"].endswith(head) or d.get("motor", "") not in f["head"]:
            yield f"{where}: the head is {f['head']!r}"
        told = [t for t in f["tables"] if t[0][0] == "line"]
        if sum(len(t) - 1 for t in told) != len(d["bad"]):
            yield f"{where}: {sum(len(t) - 1 for t in told)} rows of {len(d['bad'])} findings"
            continue
        for t in told:
            for row, (name, line, _), e in zip(t[1:], d["bad"], d.get("errors") or [{}] * len(t)):
                if line and row[0] != str(e.get("line", line)) and (e == {} or "line" in e):
                    yield f"{where}: {name} at line {row[0]}, not {line}"
                if e and re.sub(r"\s", " ", e["message"].removesuffix(".")) not in row[1]:
                    yield f"{where}: {row[1]!r} does not tell {e['message']!r}"
                if not e and row[1] != name:
                    yield f"{where}: {row[1]!r} in place of {name!r}"


def hold(true, what):
    """Ends the script where something is not so."""
    if not true:
        sys.exit("not as it must be: " + what)


def told(what, faults):
    faults = list(faults)
    hold(not faults, "\n".join(faults[:20]))
    print(f"{what}: nothing wrong", flush=True)


def formats(files, docs):
    """All formats of all files."""
    made = {}
    simple = [d for d in docs if d["file"] not in BEYOND]
    for name, check, of in (("sarif", sarif, docs), ("junit", junit, docs), ("line", lines, simple), ("markdown", markdown, docs)):
        done = casewright("check", "--format", name, *[d["file"] for d in of])
        hold(done.returncode == 2 and not done.stderr, f"{name} ends with {done.returncode}, {done.stderr[:200]}")
        told(f"{name}, {len(of)} files, {sum(len(d['bad']) for d in of)} findings", check(done.stdout, of))
        made[name] = (check, done.stdout, of)
    return made


def controls(made):
    """Holds that each reader notices what is broken."""
    broken = [
        ("sarif", '"version":"2.1.0"', '"version":"2.2.0"'),
        ("sarif", '"level":"error"', '"level":"fatal"'),
        ("sarif", '"startLine":72', '"startLine":0'),
        ("sarif", '"startLine":72', '"startLine":71'),
        ("sarif", '"startColumn":3', '"startColumn":2'),
        ("sarif", "my%20motor", "my motor"),
        ("sarif", '"ruleIndex":', '"ruleIndex":1'),
        ("sarif", '"columnKind"', '"columnKinds"'),
        ("sarif", '"exitCode":2', '"exitCode":1'),
        ("junit", "&amp;", "&"),
        ("junit", 'classname="tube"', ""),
        ("junit", 'failures="2"', 'failures="3"'),
        ("junit", 'failures="2"', 'fails="2"'),
        ("junit", 'type="fail"', 'type="refused"'),
        ("junit", "</system-out>", "</system-out><verdict/>"),
        ("junit", 'errors="1"', 'errors="0"'),
        ("line", ":72:3:", ":71:3:"),
        ("line", ":72:3:", ":72:4:"),
        ("line", ": error:", ":"),
        ("line", ": error: nozzle/hole.edge", ": error: nozzle/hole.pitch"),
        ("markdown", "\\|", "|"),
        ("markdown", "\\<", "<"),
        ("markdown", "\\[l\\]", "[l]"),
        ("markdown", "\\&", "&"),
        ("markdown", "| 72 |", "| 71 |"),
        ("markdown", "✗ FAIL", "✓ PASS"),
        ("markdown", "\n## ", "\n"),
    ]
    for name, good, bad in broken:
        check, text, docs = made[name]
        hold(good in text, f"{name}: there is no {good!r} to break")
        hold(list(check(text.replace(good, bad, 1) if name != "markdown" else text.replace(good, bad), docs)), f"{name}: {bad!r} in place of {good!r} goes unnoticed")
    # A format that is not looked at would let any address pass.
    hold(not FORMATS.conforms("a b", "uri-reference") and FORMATS.conforms("a%20b", "uri-reference"), "addresses are not looked at")
    print(f"controls: {len(broken)} broken documents noticed", flush=True)


def one_file():
    """A file alone, standard input, and files with a full path."""
    short = (ROOM / "basalt64-short-edge.toml").read_text()
    uris = set()
    for args, stdin in ((["-"], short), ([str(ROOM / "my motor.toml")], None), (["basalt64.toml"], None)):
        done = casewright("check", "--format", "sarif", *args, stdin=stdin)
        log = json.loads(done.stdout)
        faults = [e.message for e in VALIDATOR.iter_errors(log)]
        hold(not faults and log["runs"][0]["invocations"][0]["exitCode"] == done.returncode, f"SARIF of {args}: {faults}")
        uris |= {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in log["runs"][0]["results"]}
    hold(uris == {"standard-input", (ROOM / "my motor.toml").as_uri(), "basalt64.toml"}, f"addresses {uris}")
    print("one file: nothing wrong", flush=True)


def bar():
    """The bar shows on a terminal while a file keeps the program waiting, is
    gone in the end, and shows nowhere else."""
    pipe = ROOM / "slow.toml"
    os.mkfifo(pipe)
    text = (ROOM / "basalt64.toml").read_text()
    args = [CASEWRIGHT, "check", "--format", "json", "basalt64.toml", pipe.name, "slate2in.toml"]
    plain = {k: v for k, v in os.environ.items() if k not in ("CI", "COLUMNS")} | {"TERM": "xterm"}
    for what, watched, env, shows in (("a terminal", True, plain, True), ("CI", True, plain | {"CI": "true"}, False), ("a pipe", False, plain, False)):
        ours, theirs = pty.openpty() if watched else os.pipe()
        with open(ROOM / "out.jsonl", "w+", encoding="utf-8") as out:
            run = subprocess.Popen(args, cwd=ROOM, stdout=out, stderr=theirs, env=env)
            os.close(theirs)
            seen = b""
            until = time.monotonic() + (60 if shows else 3)
            while time.monotonic() < until and b"files" not in seen:
                if select.select([ours], [], [], 0.1)[0]:
                    seen += os.read(ours, 4096)
            hold((b" of 3 files" in seen) == shows, f"on {what}: {seen!r}")
            pipe.write_text(text)
            hold(run.wait(60) == 0, f"on {what} it fails")
            while select.select([ours], [], [], 0.5)[0]:
                try:
                    more = os.read(ours, 4096)
                except OSError:  # of a terminal that nobody writes to
                    break
                if not more:
                    break
                seen += more
            os.close(ours)
            out.seek(0)
            files = [json.loads(line)["file"] for line in out]
        hold(files == ["basalt64.toml", "slow.toml", "slate2in.toml"], f"on {what}: {files}")
        hold(seen.endswith(b"\r\x1b[K") if shows else seen == b"", f"on {what} there stays {seen!r}")
    print("the bar: nothing wrong", flush=True)


FILES = lay()
DOCS = expected(FILES)
MADE = formats(FILES, DOCS)
controls(MADE)
one_file()
bar()
