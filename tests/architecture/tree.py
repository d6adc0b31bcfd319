# SPDX-License-Identifier: GPL-3.0-or-later
"""The project's own files, and how an architecture test ends."""
import pathlib
import re
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD_FOLDER = re.compile(r"build")


def names_by_git():
    if not shutil.which("git"):
        return None
    git = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard", "-z"],
                         capture_output=True, text=True)
    return [name for name in git.stdout.split("\0") if name] if git.returncode == 0 else None


def files():
    """Every file of the project, relative to its root. In a git checkout: what
    git holds or would hold; in an unpacked tree: all but build folders."""
    names = names_by_git()
    if names is None:
        names = [str(path.relative_to(ROOT)) for path in ROOT.rglob("*") if path.is_file()]
        names = [name for name in names if not name.startswith(".git/") and not BUILD_FOLDER.match(name)]
    return sorted(pathlib.Path(name) for name in names if (ROOT / name).is_file())


def text_of(path):
    """A file's text, or None where it is no text."""
    try:
        return (ROOT / path).read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return None


def without_comments(code):
    """C code with its comments blanked out; lines keep their numbers."""
    return re.sub(r"/\*.*?\*/|//[^\n]*", lambda found: re.sub(r"[^\n]", " ", found[0]), code, flags=re.S)


def end(what, looked_at, faults):
    """Ends the test. Looking at nothing is a fault too."""
    if not looked_at:
        faults = faults + ["nothing was looked at"]
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"{what}: {looked_at} looked at, {len(faults)} faults")
    sys.exit(1 if faults else 0)
