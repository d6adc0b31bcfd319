# SPDX-License-Identifier: GPL-3.0-or-later
"""A pass phrase in the desktop's keyring, by the built program and a keyring of the test's own.

usage: kept_phrase.py PROGRAM        on a session bus on which nothing is started by itself
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

PROGRAM = os.path.abspath(sys.argv[1])
FAKE = pathlib.Path(__file__).with_name("secret_service.py")
PHRASE = "five dull lamps hum"
faults = []


def check(what, good, more=""):
    if not good:
        faults.append(f"{what}: {more}")


class Keyring:
    """The service; what it keeps is told at each word."""

    def __init__(self):
        self.service = subprocess.Popen([sys.executable, FAKE], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        assert self.service.stdout.readline() == "ready\n"

    def tell(self, word="items"):
        self.service.stdin.write(word + "\n")
        self.service.stdin.flush()
        return json.loads(self.service.stdout.readline())

    def end(self):
        self.service.stdin.close()
        assert self.service.wait() == 0


def main(home):
    env = dict(os.environ, HOME=str(home), LC_ALL="C.UTF-8")
    for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "DISPLAY", "WAYLAND_DISPLAY"):
        env.pop(name, None)

    def run(*words, typed=""):
        return subprocess.run([PROGRAM, *words], env=env, input=typed, capture_output=True, text=True)

    plan = home / "week.plan.yaml"
    plan.write_text(run("plan", "show", "two-halves").stdout)

    def opens(what, typed="", says=None):
        """Does what needs the secret."""
        done = run("plan", "sign", str(plan), str(home / "signed"), "--force", typed=typed)
        good = done.returncode == 0 and done.stderr == "" if says is None else says in done.stderr
        check(what, good, f"{done.returncode} {done.stderr}")
        return done

    check("keys", run("key", "new", "K7", "--role", "coach", typed=PHRASE + "\n").returncode == 0)
    shelf = home / ".local/share/carpace/team"

    # No keyring: one sentence, and all is as before.
    done = run("key", "keep", typed=PHRASE + "\n")
    check("none there", done.returncode == 1 and done.stderr.count("\n") == 1 and "did not take it" in done.stderr, done.stderr)
    check("then none is asked", not (shelf / "keyring").exists())
    opens("asked for", PHRASE + "\n")

    keyring = Keyring()
    done = run("key", "keep", typed="another phrase\n")
    check("only what opens the key is kept", done.returncode == 1 and "does not open" in done.stderr and keyring.tell() == [], done.stderr)
    done = run("key", "keep", typed=PHRASE + "\n")
    check("kept", done.returncode == 0 and "pass phrase of the key of K7" in done.stdout and "other programs" in done.stdout, done.stderr)
    kept = keyring.tell()
    check("one entry, with a name", [item["label"] for item in kept] == ["Carpace: pass phrase of the key of K7"], kept)
    check("found by the key", kept and len(kept[0]["attributes"]["key"]) >= 16 and kept[0]["secret"] == PHRASE, kept)
    check("nothing of it among the files", not any(PHRASE.encode() in path.read_bytes() for path in shelf.iterdir()))
    check("kept anew is one entry", run("key", "keep", typed=PHRASE + "\n").returncode == 0 and len(keyring.tell()) == 1)
    opens("not asked for")

    # Locked, and left so: told, and asked for.
    keyring.tell("lock")
    opens("locked", says="gave no pass phrase that opens")
    check("and the phrase does", opens("locked, typed", PHRASE + "\n", "gave no pass phrase").returncode == 0)
    done = run("key", "keep", typed=PHRASE + "\n")
    check("a locked one takes nothing", done.returncode == 1 and "did not take it" in done.stderr, done.stderr)
    keyring.tell("unlock")
    keyring.end()
    done = opens("gone", PHRASE + "\n", "keyring did not answer")
    check("gone, typed", done.returncode == 0 and done.stderr.count("\n") == 1, done.stderr)
    check("from a file nothing is looked up", "keyring" not in run("plan", "sign", str(plan), str(home / "other"), "--phrase-file", "/dev/null").stderr)

    # Another keyring, which has none of it; taken out.
    keyring = Keyring()
    opens("not in it", says="gave no pass phrase that opens")
    check("kept there", run("key", "keep", typed=PHRASE + "\n").returncode == 0)
    done = run("key", "keep", "--remove")
    check("taken out", done.returncode == 0 and "any more" in done.stdout and keyring.tell() == [], done.stderr)
    check("it is asked for again", opens("asked", says="does not open").stderr.count("\n") == 1)
    check("once is enough", "did not keep" in run("key", "keep", "--remove").stdout)
    keyring.end()
    check("none to take it from", run("key", "keep", "--remove").returncode == 1)


with tempfile.TemporaryDirectory() as folder:
    main(pathlib.Path(folder))
print("\n".join(faults) if faults else "kept, found, taken out")
sys.exit(bool(faults))
