"""Types into bash, zsh and fish on a terminal of their own, presses Tab, and
compares what then stands on the command line; then lets the shell split it, so
that a name is known to arrive whole.

usage: shells.py CASEWRIGHT FOLDER_WITH_DESIGNS
"""

import os
import pty
import select
import shutil
import subprocess
import sys
import time

CASEWRIGHT, ROOM = (os.path.realpath(a) for a in sys.argv[1:])
ODD = "Joe's \"best\" #7 $x `y` (bar) \\ 2"
FILE = "my motor's (2).toml"
PATIENCE = 60  # seconds for a shell that has hung; no case waits for it

# What is typed before Tab, and what stands there after: a text is the line, the
# same in every shell but for what a shell's name tells apart; a list is the
# words of the line, however they are quoted.
CASES = [
    ("ch", "check"),  # check and checklist
    ("exp", "explain "),
    ("check --for", "check --format "),
    ("check --format js", "check --format json "),
    ("check --format=js", "check --format=json "),
    ("check --format json --for", "check --format json --for"),  # not twice
    ("check basalt64-h", "check basalt64-hot.toml "),
    ("check my", ["check", FILE]),
    ("check 'my", ["check", FILE]),  # zsh leaves such quotes open, after any command
    ('check "my', ["check", FILE]),
    ("check deep/", "check deep/er/"),
    ("check deep/er/one", "check deep/er/one.toml "),
    ("verify ro", "verify rows.csv "),
    ("draw basalt64.toml -o pict", "draw basalt64.toml -o picture.svg "),
    ("materials 6061", r"materials 6061-T6\ "),
    (r"materials 6061-T6\ dr", ["materials", "6061-T6 drawn tube"]),
    ('materials "6061-T6 dr', 'materials "6061-T6 drawn tube" '),
    ("materials '6061-T6 dr", "materials '6061-T6 drawn tube' "),
    ("materials 6061-T6 dr", ["materials", "6061-T6", "drawn tube"]),
    ("wall --material=7075", ["wall", "--material=7075-T6 bar"]),
    ('wall --material="7075', ["wall", "--material=7075-T6 bar"]),
    ("wall --wall '3 mm' --material 7075", ["wall", "--wall", "3 mm", "--material", "7075-T6 bar"]),
    ("edge --thread M5", "edge --thread M5x0."),
    ("edge --thread M5x0.8", "edge --thread M5x0.8 "),
    (r"edge --thread \#10-2", ["edge", "--thread", "#10-24 UNC"]),
    ('edge --thread "#10-2', ["edge", "--thread", "#10-24 UNC"]),
    ("edge --class A2-5", "edge --class A2-50 "),
    ("groove --size AS568-13", "groove --size AS568-13"),
    ("groove --compound F", "groove --compound FKM "),
    ("screws --file basalt64.toml --end no", "screws --file basalt64.toml --end nozzle "),
    ("screws --file odd.toml --end=no", "screws --file=odd.toml --end=nozzle ".replace("--file=", "--file ")),
    ("methods hole.te", "methods hole.tear_out "),
    ("explain basalt64.toml nozzle/hole.ed", "explain basalt64.toml nozzle/hole.edge "),
    (f"explain '{FILE.split(chr(39))[0]}'\\''s (2).toml' nozzle/hole.ed", ["explain", FILE, "nozzle/hole.edge"]),
    ("explain ~/basalt64.toml bulk", "explain ~/basalt64.toml bulkhead"),  # the part, and its checks
    ("wall --file odd.toml --material Joe", ["wall", "--file", "odd.toml", "--material", ODD]),
    ('wall --file odd.toml --material "Joe', ["wall", "--file", "odd.toml", "--material", ODD]),
    ("wall --file odd.toml --material=Joe", ["wall", "--file", "odd.toml", "--material=" + ODD]),
    ("jig basalt64.toml n", "jig basalt64.toml nozzle "),
    ("help wal", "help wall "),
    ("completion f", "completion fish "),
    ("nothing such", "nothing such"),
]


def write(name, text):
    path = os.path.join(ROOM, name)
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w", encoding="utf-8") as f:
        f.write(text)
    return path


def script(shell):
    return subprocess.run([CASEWRIGHT, "completion", shell], check=True, capture_output=True, text=True).stdout


DUMP = os.path.join(ROOM, "dump")
BASH = f"""
PS1='$ '; PS2='> '; unset HISTFILE
bind 'set bell-style none'; bind 'set completion-query-items 1000'; bind 'set page-completions off'
dump() {{ printf '%s' "$READLINE_LINE" >{DUMP}.new; mv {DUMP}.new {DUMP}; READLINE_LINE=; READLINE_POINT=0; }}
bind -x '"\\C-g": dump'
"""
ZSH = f"""
PS1='$ '; unset HISTFILE; LISTMAX=1000; setopt no_beep
dump() {{ print -rn -- "$BUFFER" >{DUMP}.new; mv {DUMP}.new {DUMP}; BUFFER= }}
zle -N dump; bindkey -e; bindkey '^G' dump
autoload -Uz compinit; compinit -u -D
"""
FISH = f"""
set -g fish_greeting ''
function fish_prompt; echo '$ '; end
function dump; commandline >{DUMP}.new; mv {DUMP}.new {DUMP}; commandline -r ''; commandline -f repaint; end
bind \\cg dump
"""


class Shell:
    """A shell on a terminal of its own."""

    def __init__(self, argv):
        environment = {
            "HOME": ROOM, "ZDOTDIR": ROOM, "TERM": "xterm", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8",
            "PATH": os.path.dirname(CASEWRIGHT) + ":/usr/local/bin:/usr/bin:/bin",
        }
        self.pid, self.terminal = pty.fork()
        if self.pid == 0:
            os.chdir(ROOM)
            os.execve(argv[0], argv, environment)
        self.seen = b""
        until = time.monotonic() + PATIENCE
        while not self.dumped():  # until it listens
            if time.monotonic() > until:
                raise SystemExit(f"{argv}: does not answer: {self.seen[-2000:]!r}")
            self.send("\a")
            self.rest()
        self.rest()
        self.take()

    def send(self, text):
        os.write(self.terminal, text.encode())

    def drain(self, seconds):
        if select.select([self.terminal], [], [], seconds)[0]:
            self.seen += os.read(self.terminal, 65536)

    def rest(self):
        """Lets the shell read what was sent, and print."""
        until = time.monotonic() + 0.5
        while time.monotonic() < until:
            self.drain(0.1)

    def dumped(self):
        return os.path.exists(DUMP)

    def take(self):
        if not self.dumped():
            return None
        with open(DUMP, encoding="utf-8") as f:
            text = f.read()
        os.remove(DUMP)
        return text.removesuffix("\n")

    def line_after(self, keys):
        """The command line after some keys."""
        self.send(keys)
        self.send("\a")
        until = time.monotonic() + PATIENCE
        while not self.dumped():
            if time.monotonic() > until:
                raise SystemExit(f"no answer to {keys!r}: {self.seen[-2000:]!r}")
            self.drain(0.05)
        return self.take()

    def close(self):
        os.close(self.terminal)
        os.waitpid(self.pid, 0)


def words(shell, line):
    """The words of a line, as the shell itself splits it."""
    rest = line.removeprefix("casewright")
    printed = subprocess.run([shell, "-c", "printf '%s\\n'" + rest], capture_output=True, text=True, cwd=ROOM)
    return printed.stdout.splitlines() if printed.returncode == 0 else printed.stderr


def main():
    with open(os.path.join(ROOM, "basalt64.toml"), encoding="utf-8") as f:
        design = f.read()
    write(FILE, design)
    write("deep/er/one.toml", design)
    write("deep/er/other.txt", "")
    write("rows.csv", "")
    write("picture.svg", "")
    quoted = ODD.replace("\\", "\\\\").replace('"', '\\"')
    write("odd.toml", design + f"""
[[material]]
name = "{quoted}"
source = "invented"
form = "drawn tube"
yield = "240 MPa"
ultimate = "260 MPa"
""")
    done = subprocess.run([CASEWRIGHT, "check", "odd.toml"], cwd=ROOM, capture_output=True, text=True)
    if done.returncode != 0:
        raise SystemExit(f"odd.toml does not pass: {done.stderr}")
    setups = [
        ("bash", "bash", ["--noprofile", "--rcfile", write("plain.bash", BASH + script("bash")), "-i"]),
        ("bash with bash-completion", "bash", ["--noprofile", "--rcfile", write("package.bash", "source /usr/share/bash-completion/bash_completion\n" + BASH), "-i"]),
        ("zsh, by fpath", "zsh", ["-i"]),
        ("zsh, sourced", "zsh", ["-i"]),
        ("fish", "fish", ["-i"]),
    ]
    write(".local/share/bash-completion/completions/casewright", script("bash"))
    write("functions/_casewright", script("zsh"))
    write(".config/fish/config.fish", FISH)
    write(".config/fish/completions/casewright.fish", script("fish"))
    faults = 0
    for name, shell, arguments in setups:
        if name == "zsh, by fpath":
            write(".zshrc", f"fpath=({ROOM}/functions $fpath)\n" + ZSH)
        elif name == "zsh, sourced":
            write(".zshrc", ZSH + script("zsh"))
        path = shutil.which(shell)
        terminal = Shell([path, *arguments])
        for typed, want in CASES:
            got = terminal.line_after(f"casewright {typed}\t")
            if isinstance(want, str):
                right = got == "casewright " + want
            else:
                got = words(path, got)
                right = got == want
            if not right and not (shell == "zsh" and typed == "check 'my"):
                faults += 1
                print(f"{name}: {typed}<Tab> gives\n  {got!r}, not\n  {want!r}")
        terminal.seen = b""
        terminal.line_after("casewright check\t\t")
        terminal.rest()
        if b"Every margin of a design" not in terminal.seen:
            faults += 1
            print(f"{name}: check<Tab><Tab> shows no help beside the commands")
        terminal.close()
        print(f"{name}: {len(CASES)} lines completed")
    if faults:
        raise SystemExit(f"{faults} of them wrong")


main()
