# SPDX-License-Identifier: GPL-3.0-or-later
"""Installed and uninstalled again by the build: nothing is left.

usage: uninstalled.py MESON BUILD-FOLDER
"""
import pathlib
import subprocess
import sys
import tempfile

ICONS = pathlib.Path(__file__).resolve().parents[2] / "icons"


def run(words, **more):
    done = subprocess.run([str(word) for word in words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **more)
    if done.returncode != 0:
        sys.exit(f"{words}: {done.returncode}\n{done.stdout[-3000:]}")


def files(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if not path.is_dir())


def main(meson, build):
    with tempfile.TemporaryDirectory(prefix="carpace-uninstalled-") as name:
        there = pathlib.Path(name)
        run([*meson, "install", "-C", build, "--no-rebuild", "--destdir", there])
        installed = files(there)
        # Without a staging folder around it this runs, too; it makes no file that nobody takes away.
        for icons in there.rglob("hicolor"):
            run([ICONS / "update-cache", icons])
        run(["ninja", "-C", build, "uninstall"])
        left = files(there)
    print(f"{len(installed)} files installed, {len(left)} left")
    for file in left:
        print(f"left: {file}")
    sys.exit(1 if left or len(installed) < 25 else 0)


main(sys.argv[1:-1], sys.argv[-1])
