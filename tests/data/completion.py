# SPDX-License-Identifier: GPL-3.0-or-later
"""What bash, zsh and fish themselves offer: every command of the table, every option of each, every word it may have.

usage: completion.py SHELL SOURCE CARPACE
The table is read from its source here, and each command says itself what options it has.
"""
import os
import pathlib
import pty
import re
import select
import subprocess
import sys
import tempfile
import time

SHELL, SOURCE, CARPACE = sys.argv[1], pathlib.Path(sys.argv[2]).resolve(), os.path.abspath(sys.argv[3])
SHELLS = SOURCE / "src" / "data" / "shells"
PATIENCE_S = 60  # only ever reached by a test that fails
OWN = {"--help", "--version"}


# ---- what is to be offered

def table():
    text = re.sub(r'"\s*\n\s*"', "", (SOURCE / "src" / "cli" / "table.c").read_text())
    rows = re.findall(r'\{ "([a-z-]+)", carpace_cli_\w+,\s*"((?:[^"\\]|\\.)*)"', text)
    return {word: forms.split("\\n") for word, forms in rows}


def typed(form):
    """The words of a form before its first option or bracket, something in place of what is in capitals."""
    words = re.split(r" (?:\[|--)", form)[0].replace("...", "").split()
    return " ".join(word if word[0].islower() and "|" not in word else "x" for word in words)


def cases():
    """(line, the words that must be offered, all there are or only some)."""
    forms = table()
    assert len(forms) > 20, forms
    yield "", set(forms), True
    for lines in forms.values():
        for form in lines:
            options = set(re.findall(r"--[a-z-]+", form))
            begun = typed(form)
            alike = [other for other in lines if typed(other) == begun]
            if options:
                yield f"{begun} --", {name for other in alike for name in re.findall(r"--[a-z-]+", other)}, True
            for name, words in re.findall(r"(--[a-z-]+) ([a-z0-9][a-z0-9|]*)(?=[\] ]|\|N)", form):
                yield f"{begun} {name} ", set(words.split("|")), True
            for words in re.findall(r" \[?([a-z-]+(?:\|[a-z-]+)+)\]?", re.sub(r"--[a-z-]+ \S+", "", form)):
                yield f"{form.split()[0]} ", set(words.split("|")), False
    # A word that is begun, words of the program's own lists, and a player's plans.
    yield "sta", {"start", "status"}, True
    yield "rate 2 pa", {"palm-side"}, True
    yield "caution n", {"numb", "night-pain", "not-better", "none"}, True
    yield "rehearse two-halves --player s", {"steady", "sensitive", "silent"}, True
    yield "plan use tw", {"two-halves"}, True
    yield "plan check mine", {"mine.plan.yaml"}, True  # a file
    yield "report --with ratings,s", {"ratings,sites"}, True
    yield "status --format=j", {"json"} if SHELL == "bash" else {"--format=json"}, True


def options_of(form, environment):
    """What the command itself says it knows."""
    said = subprocess.run([CARPACE, *typed(form).split(), "--xyzzy"], env=environment, capture_output=True, text=True).stderr
    found = re.search(r"there are: (.*)\.$", said)
    return set(found[1].split(", ")) if found and found[1].startswith("--") else None


def faults_of_table(environment):
    asked = 0
    for lines in table().values():
        for form in lines:
            known = options_of(form, environment)
            asked += known is not None
            listed = {name for other in lines if typed(other) == typed(form) for name in re.findall(r"--[a-z-]+", other)}
            if known is not None and known != listed:
                yield f"the table's “{form}” and what it knows differ by {sorted(known ^ listed)}"
    if asked < 20:
        yield f"only {asked} commands said what options they know"


# ---- the shells

def fish(lines, folder, environment):
    (folder / "lines").write_text("".join(line + "\n" for line in lines))
    script = f"source {SHELLS}/carpace.fish; while read -l line; echo \"> $line\"; complete -C \"$line\"; end < {folder}/lines"
    done = subprocess.run(["fish", "--no-config", "-c", script], env=environment, cwd=folder / "home", capture_output=True,
                          text=True, timeout=PATIENCE_S, check=True)
    # A word ends at a tab; what fish itself would write behind an option's "=" stands there, too.
    return [{row.split("\t")[0].rstrip() for row in part.splitlines()[1:]} for part in ("\n" + done.stdout).split("\n> ")[1:]]


class Terminal:
    """A shell that believes a person sits before it."""

    def __init__(self, words, environment, folder):
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.chdir(folder)
            os.execvpe(words[0], words, environment)

    def until(self, condition):
        end, seen = time.monotonic() + PATIENCE_S, b""
        while not condition():
            if time.monotonic() > end:
                sys.exit(f"{SHELL} did not answer: {seen[-2000:].decode(errors='replace')}")
            if select.select([self.fd], [], [], 0.01)[0]:
                seen += os.read(self.fd, 65536)

    def type(self, text):
        os.write(self.fd, text.encode())

    def close(self):
        os.close(self.fd)
        os.waitpid(self.pid, 0)


def bash(lines, folder, environment):
    """Readline writes all that it would offer into the line, and the line is said instead of run."""
    out = folder / "said"
    out.write_text("")
    (folder / "rc").write_text(f". {SHELLS}/carpace.bash\nPS1='$ '\nbind '\"\\C-t\": insert-completions'\n"
                               f"said () {{ printf '%s ' \"$@\" >>{out}; echo >>{out}; }}\necho ready >>{out}\n")
    terminal = Terminal(["bash", "--noprofile", "--rcfile", str(folder / "rc"), "-i"], environment, folder / "home")
    terminal.until(lambda: out.read_text())
    offered = []
    for i, line in enumerate(lines):
        terminal.type(f"{line}\x14\x01said \n")
        terminal.until(lambda: out.read_text().count("\n") == i + 2)
        words = out.read_text().splitlines()[-1].split()
        stem = line.split(" ")[-1]
        words = [word.split("=", 1)[1] if "=" in stem and "=" in word else word for word in words[len(line.split(" ")) - 1:]]
        offered.append(set(words) - ({stem} if stem in ("--",) else set()))
    terminal.type("exit\n")
    terminal.close()
    return offered


def zsh(lines, folder, environment):
    """Whatever is handed to the line editor as a match is written down, too."""
    out = folder / "said"
    out.write_text("")
    (folder / "lines").write_text("".join(line + "\n" for line in lines))
    (folder / ".zshrc").write_text(f"""fpath=({SHELLS} $fpath)
autoload -Uz compinit; compinit -u -d {folder}/dump
compadd () {{
  local -a hits
  if [[ " $* " != *" -"[OAD]" "* ]]; then builtin compadd -O hits "$@"; (( $#hits )) && print -rl -- $hits >>{out}; fi
  builtin compadd "$@"
}}
each () {{
  local line
  for line in "${{(@f)$(<{folder}/lines)}}"; do
    BUFFER=$line CURSOR=$#line
    print -r -- "> $line" >>{out}
    zle complete-word
  done
  print -- END >>{out}
}}
zle -N each; bindkey '^T' each
""")
    terminal = Terminal(["zsh", "-d", "-i"], dict(environment, ZDOTDIR=str(folder)), folder / "home")
    terminal.until(lambda: (folder / "dump").exists())
    terminal.type("\x14")
    terminal.until(lambda: "END" in out.read_text())
    terminal.close()
    return [set(part.splitlines()[1:]) for part in ("\n" + out.read_text().replace("\nEND", "")).split("\n> ")[1:]]


# ----

def main():
    with tempfile.TemporaryDirectory(prefix="carpace-completion-") as name:
        folder = pathlib.Path(name)
        (folder / "bin").mkdir()
        (folder / "home").mkdir()
        (folder / "home" / "mine.plan.yaml").write_text("")
        (folder / "bin" / "carpace").symlink_to(CARPACE)
        environment = {"PATH": f"{folder}/bin:/usr/bin:/bin", "HOME": f"{folder}/home", "LC_ALL": "C.UTF-8", "TERM": "dumb",
                       "XDG_CONFIG_HOME": f"{folder}/config", "XDG_DATA_HOME": f"{folder}/data",
                       "DBUS_SESSION_BUS_ADDRESS": "unix:path=/nowhere",
                       **{key: os.environ[key] for key in ("ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS") if key in os.environ}}
        asked = list(cases())
        answered = {"bash": bash, "zsh": zsh, "fish": fish}[SHELL](["carpace " + line for line, _, _ in asked], folder, environment)
        assert len(answered) == len(asked), (len(answered), len(asked))
        faults = list(faults_of_table(environment))
        for (line, expected, all_of_it), offered in zip(asked, answered):
            if expected - offered or (all_of_it and offered - expected - OWN):
                faults.append(f"{SHELL}, “carpace {line}”: offered {sorted(offered)}, not {sorted(expected)}")
    print(f"{SHELL}: {len(asked)} lines")
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


main()
