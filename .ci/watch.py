"""Holds what a browser and a terminal show of casewright watch.

usage: watch.py CASEWRIGHT DESIGN ROOM [PICTURES]
"""

import base64
import functools
import html
import http.server
import json
import os
import pathlib
import re
import signal
import subprocess
import sys
import threading
import time
import urllib.request

import websocket

CASEWRIGHT, DESIGN, ROOM = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
PICTURES = pathlib.Path(sys.argv[4]) if sys.argv[4:] and sys.argv[4] else None
PATIENCE = 60  # s, before what is waited for counts as never to come
SAVES = 1000
SPARE = 12 * 1024  # kB that a second burst may add to the memory in use
faults, held = [], 0


def hold(true, what):
    """Counts what holds and keeps what does not."""
    global held
    held += 1
    if not true:
        faults.append(what)
        print("✗", what, flush=True)


def until(true, what):
    """Waits for what must come to hold."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        if true():
            return hold(True, what)
        time.sleep(0.05)
    hold(False, what)


# The ways in which editors save.
def in_place(file, text):
    with open(file, "r+") as f:
        f.write(text)
        f.truncate()


def renamed(file, text):
    beside = file.with_name(file.name + "~")
    beside.write_text(text)
    beside.rename(file)


def recreated(file, text):
    file.unlink()
    file.write_text(text)


def halved(file, text):
    with open(file, "w") as f:
        f.write(text[: len(text) // 2])
        f.flush()
        f.write(text[len(text) // 2 :])


WAYS = (in_place, renamed, recreated, halved)


class Tab:
    """A page of the browser, driven over the DevTools protocol."""

    def __init__(self, port):
        ask = urllib.request.Request(f"http://127.0.0.1:{port}/json/new?about:blank", method="PUT")
        with urllib.request.urlopen(ask) as answer:
            address = json.load(answer)["webSocketDebuggerUrl"]
        self.socket = websocket.create_connection(address, suppress_origin=True, timeout=PATIENCE)
        self.count, self.told = 0, []
        for domain in ("Page", "Runtime", "Log", "Network"):
            self(f"{domain}.enable")

    def __call__(self, method, **params):
        self.count += 1
        self.socket.send(json.dumps({"id": self.count, "method": method, "params": params}))
        while True:
            message = json.loads(self.socket.recv())
            if message.get("id") == self.count:
                return message.get("result", message)
            self.told.append(message)

    def run(self, script):
        done = self("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in done:
            return f"exception: {done['exceptionDetails'].get('exception', {}).get('description')}"
        return done["result"].get("value")

    def open(self, address):
        self("Page.navigate", url=address)
        until(lambda: self.run("location.href !== 'about:blank' && document.readyState") == "complete", f"{address[:24]}… opens")

    def complaints(self):
        """What stands in the console as wrong."""
        self.run("0")
        return [
            m["params"] for m in self.told
            if m.get("method") == "Runtime.exceptionThrown"
            or m.get("method") == "Log.entryAdded" and m["params"]["entry"]["level"] in ("error", "warning")
            or m.get("method") == "Runtime.consoleAPICalled" and m["params"]["type"] in ("error", "warning", "assert")
        ]

    def answers(self, address):
        """The status of each request of what is below the address."""
        self.run("0")
        ours = {m["params"]["requestId"] for m in self.told if m.get("method") == "Network.requestWillBeSent" and m["params"]["request"]["url"].startswith(address)}
        got = {}
        for m in self.told:
            if m.get("method") in ("Network.responseReceived", "Network.responseReceivedExtraInfo") and m["params"]["requestId"] in ours:
                got[m["params"]["requestId"]] = m["params"].get("statusCode") or m["params"]["response"]["status"]
        return list(got.values())

    def picture(self, name):
        if PICTURES:
            self("Page.bringToFront")
            shot = self("Page.captureScreenshot", format="png")
            (PICTURES / name).write_bytes(base64.b64decode(shot["data"]))


def memory(process, key="VmRSS"):
    return int(re.search(rf"{key}:\s+(\d+)", pathlib.Path(f"/proc/{process.pid}/status").read_text())[1])


STRANGER = """<!DOCTYPE html><meta charset="utf-8"><title>stranger</title><iframe id="frame"></iframe><script>
const address = new URLSearchParams(location.search).get("address");
const first = (...made) => Promise.race([...made, new Promise((done) => setTimeout(done, 3000, "nothing came"))]);
const load = (tag, key) => { const e = document.createElement(tag); e[key] = address; const end = new Promise((done) => { e.onload = () => done("loaded"); e.onerror = () => done("error"); }); document.body.append(e); return first(end); };
const get = (path, mode) => first(fetch(address + path, {mode}).then(async (a) => a.type + " " + (await a.text()).length, () => "error"));
async function attack() {
  const got = {};
  for (const mode of ["cors", "no-cors"]) for (const path of ["", "picture", "events"]) got["fetch " + mode + " " + path] = await get(path, mode);
  const stream = new EventSource(address + "events");
  got.stream = await first(new Promise((done) => { stream.onopen = () => done("open"); stream.onmessage = () => done("read"); stream.onerror = () => done("error"); }));
  stream.close();
  got.image = await load("img", "src");
  got.script = await load("script", "src");
  const frame = document.getElementById("frame");
  frame.src = address;
  await first(new Promise((done) => { frame.onload = done; }));
  try { got.frame = frame.contentDocument ? frame.contentDocument.body.textContent : "closed"; } catch { got.frame = "error"; }
  got.form = await first(fetch(address, {method: "POST", mode: "no-cors", body: "x"}).then(async (a) => a.type + " " + (await a.text()).length, () => "error"));
  if (location.protocol !== "file:") got.own = await fetch(location.href).then((a) => a.text()).then((t) => t.length > 100 ? "read" : "short");
  return JSON.stringify(got);
}
</script>"""


def strangers(browser, address):
    """Pages of others, which know the address and must still learn nothing."""
    folder = ROOM / "stranger"
    folder.mkdir()
    (folder / "page.html").write_text(STRANGER)
    serve = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=folder))
    threading.Thread(target=serve.serve_forever, daemon=True).start()
    for name, page in (("another port", f"http://127.0.0.1:{serve.server_port}/page.html"), ("another name", f"http://localhost:{serve.server_port}/page.html"), ("a file", (folder / "page.html").as_uri())):
        tab = Tab(browser)
        tab.open(f"{page}?address={address}")
        got = json.loads(tab.run("attack()"))
        if name != "a file":
            hold(got.pop("own") == "read", f"{name}: it cannot even read its own page")
        hold(len(got) == 11, f"{name}: tried only {list(got)}")
        for way, came in got.items():
            hold(came in ("error", "closed", "opaque 0"), f"{name}: {way} gives {came}")
        statuses = tab.answers(address)
        hold(len(statuses) >= 10 and set(statuses) == {403}, f"{name}: the answers are {statuses}")
        # A link of a stranger's.
        tab("Runtime.evaluate", expression=f"location.href = {json.dumps(address)}")
        until(lambda: tab.run("location.href") == address, f"{name}: goes to the address")
        hold("Basalt" not in tab.run("document.documentElement.textContent"), f"{name}: a link opens the page")
    for host in ("localhost", "rebound.example"):
        tab = Tab(browser)
        tab.open(re.sub("127.0.0.1", host, address))
        hold("Forbidden" in tab.run("document.body.textContent"), f"{host}: the page answers to another name")
    serve.shutdown()


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


def page(browser):
    text = DESIGN.read_text()
    broken = text.replace('hole = "5.5 ±0.1 mm"', 'hole = "5.5 ±0.1"', 1)
    line = text[: text.index('hole = "5.5')].count("\n") + 1
    at = lambda pressure: text.replace('"4.5 MPa"', f'"{pressure} MPa"')
    file = ROOM / "my.toml"
    file.write_text(text)
    watch = subprocess.Popen([CASEWRIGHT, "watch", "my.toml"], cwd=ROOM, stdout=subprocess.PIPE, text=True)
    address = watch.stdout.readline().strip()
    hold(re.fullmatch(r"http://127\.0\.0\.1:\d+/[A-Z2-7]{26}/", address), f"the address is {address!r}")

    tab = Tab(browser)
    tab("Emulation.setDeviceMetricsOverride", width=1000, height=900, deviceScaleFactor=1, mobile=False)
    tab.open(address)
    title = lambda: tab.run("document.querySelector('h1')?.textContent") or ""
    status = lambda: tab.run("document.getElementById('status').textContent")
    told = lambda: tab.run("document.getElementById('faults').textContent")
    stale = lambda: tab.run("getComputedStyle(document.getElementById('picture')).filter + getComputedStyle(document.getElementById('picture')).opacity")
    until(lambda: status().startswith("Live"), "the page is live")
    report = subprocess.run([CASEWRIGHT, "report", "--format", "html", "my.toml"], cwd=ROOM, capture_output=True, text=True).stdout
    main = lambda page: re.search(r"<main.*</main>.*?</footer>", page, re.S)[0]
    with urllib.request.urlopen(address) as answer:
        hold(main(answer.read().decode()) == main(report), "the page is not what report writes")
    tab.picture("good.png")

    # A reader opens a fold that was shut, shuts one that was open, and goes down
    # to it; all stays as the file changes, and so does the page.
    tab.run("""window.mark = 'here'
      var shut = document.querySelector('details:not([open])'), open = document.querySelector('details[open]')
      var names = [shut.dataset.name, open.dataset.name]
      shut.open = true; open.open = false; shut.scrollIntoView(); window.scrollBy(0, -120)""")
    fold = "document.querySelector(`details[data-name='${names[%d]}']`)"
    place = lambda: tab.run(fold % 0 + ".getBoundingClientRect().top")
    before, scrolled = place(), tab.run("scrollY")
    hold(scrolled > 500, f"the page is only scrolled by {scrolled}")

    def stays(what):
        hold(tab.run("window.mark") == "here", f"{what}: the page was loaded anew")
        hold(abs(place() - before) < 3, f"{what}: what is read moves from {before} to {place()}")
        hold(tab.run(fold % 0 + ".open") is True and tab.run(fold % 1 + ".open") is False, f"{what}: folds do not stay as they were set")

    in_place(file, at("4.6"))
    until(lambda: title().endswith("4.6 MPa"), "saved in place, the page changes")
    stays("saved")

    renamed(file, broken)
    until(lambda: "has no unit" in told(), "the fault is told")
    stays("broken")
    near = [row.strip() for row in broken.split("\n")[line - 2 : line + 1]]  # before, at and after
    hold(all(row in told() for row in near), f"the lines round the fault are not shown: {told()!r}")
    hold(str(line) in told() and 'Write "5.5 ±0.1 mm"' in told(), f"line or remedy is missing: {told()!r}")
    hold(stale() == "grayscale(1)0.4" and title().endswith("4.6 MPa"), f"the last good picture is not kept, greyed: {stale()} {title()}")
    hold(tab.run("document.getElementById('faults').getBoundingClientRect().top >= 0"), "the fault is out of sight")
    tab.picture("broken-below.png")
    tab.run("scrollTo(0, 0)")
    tab.picture("broken.png")

    file.unlink()
    until(lambda: "no such file" in told(), "a file that vanishes is told")
    file.write_text(at("4.7"))
    until(lambda: title().endswith("4.7 MPa") and told() == "", "mended, it comes back")
    hold(stale() == "none1", f"mended, the picture has no colour: {stale()}")
    hold(tab.run("window.mark") == "here", "mended: the page was loaded anew")
    tab.picture("mended.png")

    plain = Tab(browser)
    plain("Emulation.setScriptExecutionDisabled", value=True)
    plain.open(address)
    for pressure in ("4.8", "4.9"):
        recreated(file, at(pressure))
        until(lambda: title().endswith(f"{pressure} MPa"), f"{pressure} MPa")
        plain("Page.reload")
        until(lambda: (plain.run("document.querySelector('h1')?.textContent") or "").endswith(f"{pressure} MPa"), "without script a reload shows the newest")
    hold("load the page again" in plain.run("document.getElementById('status').textContent"), "without script the page does not say to reload")
    plain("Page.navigate", url="about:blank")

    # So many pages at once, and no more: a browser would wait for ever.
    several = [Tab(browser) for _ in range(5)]
    for one in several:
        one.open(address)
    state = lambda one: one.run("document.getElementById('status').textContent")
    until(lambda: state(several[-1]).startswith("✗ Not live: too many"), "the sixth page says that it is not live")
    hold(all(state(one).startswith("Live") for one in several[:-1]), "five pages are not live")
    for one in several:
        one("Page.navigate", url="about:blank")

    strangers(browser, address)

    used = []
    for burst in range(3):
        for i in range(SAVES):
            WAYS[i % len(WAYS)](file, broken if i % 7 == 3 else at(f"{4 + i / 1000:.3f}"))
        WAYS[burst % len(WAYS)](file, at(f"5.{burst}1"))
        until(lambda: title().endswith(f"5.{burst}1 MPa") and told() == "" and stale() == "none1", f"burst {burst}: the last state stands")
        used.append(memory(watch))
    print(f"memory in use after each {SAVES} saves, kB: {used}, most {memory(watch, 'VmHWM')}; threads {memory(watch, 'Threads')}")
    hold(used[2] < used[0] + SPARE, f"memory grows with saves: {used} kB")
    hold(tab.run("window.mark") == "here", "the page was loaded anew")

    hold(tab.complaints() == [], f"the console has {tab.complaints()}")
    watch.send_signal(signal.SIGINT)
    until(lambda: status().startswith("✗ No longer live"), "the page tells that the program has ended")
    tab.picture("ended.png")
    hold(watch.wait(PATIENCE) == 0, f"it ends with {watch.returncode}")


def terminal():
    text = DESIGN.read_text()
    file = ROOM / "tty.toml"
    file.write_text(text)
    name = f"casewright-{os.getpid()}"
    tmux = lambda *args: subprocess.run(["tmux", "-L", name, "-f", "/dev/null", *args], capture_output=True, text=True).stdout
    seen = lambda: tmux("capture-pane", "-p", "-t", "w")
    colours = lambda: tmux("capture-pane", "-p", "-e", "-t", "w")
    tmux("new-session", "-d", "-s", "w", "-x", "84", "-y", "44", "-c", str(ROOM), "env", "PS1=ready ", "TERM=xterm-256color", "sh")
    try:
        tmux("send-keys", "-t", "w", "echo what stood before", "Enter", f"{CASEWRIGHT} watch --terminal tty.toml; echo ended with $?", "Enter")
        until(lambda: "FAIL: 2 of 69 checks" in seen(), "the terminal has the table")
        hold("what stood before" not in seen(), "the table is not alone")
        shot("terminal-good.png", colours())
        renamed(file, text.replace('hole = "5.5 ±0.1 mm"', 'hole = "5.5 ±0.1"', 1))
        until(lambda: "has no unit" in seen() and "As it last read well" in seen(), "the terminal tells the fault")
        until(lambda: "FAIL: 2 of 69 checks" in seen().split("As it last read well")[-1], "the last table stands below the fault")
        hold("\x1b[2m" in colours(), "the last table is not dimmed")
        shot("terminal-broken.png", colours())
        tmux("resize-window", "-t", "w", "-x", "84", "-y", "24")
        until(lambda: "lines left out" in seen() and "SAFETY.md" in seen() and "has no unit" in seen(), "in a low window fault and verdict stay")
        renamed(file, text.replace('"4.5 MPa"', '"4.6 MPa"'))
        until(lambda: "4.6 MPa" in seen() and "has no unit" not in seen(), "the terminal comes back")
        tmux("send-keys", "-t", "w", "C-c")
        until(lambda: "ended with 0" in seen() and "what stood before" in seen() and "69 checks" not in seen(), "the terminal is as before, and the status 0")
        hold(tmux("display-message", "-p", "-t", "w", "#{cursor_flag}").strip() == "1", "the cursor stays hidden")
    finally:
        tmux("kill-server")


def shot(name, screen):
    """Draws what a terminal shows."""
    if not PICTURES:
        return
    text = html.escape(screen, quote=False)
    for code, style in (("2", "opacity:.45"), ("31", "color:#ff7b72"), ("32", "color:#7fd19a"), ("33", "color:#e2c46a")):
        text = re.sub(rf"\x1b\[{code}m", f'</span><span style="{style}">', text)
    text = re.sub(r"\x1b\[[0-9;]*m", "</span><span>", text)
    (ROOM / "terminal.html").write_text(f'<!DOCTYPE html><meta charset="utf-8"><body style="margin:0;background:#15191d;color:#e6eaee"><pre style="font:14px/1.35 DejaVu Sans Mono;padding:14px"><span>{text}</span></pre>')
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", f"--screenshot={PICTURES / name}", "--window-size=760,900", (ROOM / "terminal.html").as_uri()], capture_output=True)


def main():
    profile = ROOM / "profile"
    browser = subprocess.Popen(
        ["chromium", "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--remote-debugging-port=0", f"--user-data-dir={profile}", "--host-resolver-rules=MAP rebound.example 127.0.0.1", "about:blank"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )
    try:
        port = profile / "DevToolsActivePort"
        until(lambda: port.exists() and port.read_text().count("\n") > 0, "the browser starts")
        page(int(port.read_text().split("\n")[0]))
    finally:
        browser.terminate()
        browser.wait()
    terminal()
    print(f"{held} things held of the page and the terminal, {len(faults)} did not")
    sys.exit(bool(faults))


main()
