# SPDX-License-Identifier: GPL-3.0-or-later
"""What is built for others: hardened, and without a path of the machine that built it.

usage: hardened.py MESON
Builds a module anew, of type `release`: the flags are those of all the program. What packagers take, `plain` with
flags of their own, is looked at in the Debian packages (tests/package/deb.py).
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import tree

BUILT = ("src/forms/carpace-calendar.so", "src/adapters/carpace-club.so")
# A small module may have nothing to guard or to check.
GUARDED, CHECKED = ("carpace", "carpace-calendar.so"), ("carpace",)


def run(words, **more):
    done = subprocess.run(words, capture_output=True, text=True, **more)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, words))}\n{done.stdout[-3000:]}{done.stderr[-3000:]}")
    return done.stdout


def faults_of(path):
    """What a program or a module lacks."""
    dynamic, segments = run(["readelf", "-dW", path]), run(["readelf", "-lW", path])
    symbols, kind = run(["nm", "-D", "--undefined-only", path]), run(["readelf", "-hW", path])
    if not re.search(r"Type:\s+DYN", kind):
        yield "is tied to one address"
    if "GNU_RELRO" not in segments:
        yield "no RELRO"
    if not re.search(r"BIND_NOW|Flags:.*\bNOW\b", dynamic):
        yield "binds when it pleases: RELRO is not full"
    if re.search(r"RPATH|RUNPATH", dynamic):
        yield "looks for libraries in a folder of its own"
    if path.name in GUARDED and "__stack_chk_fail" not in symbols:
        yield "no stack protector"
    if path.name in CHECKED and not re.search(r"__\w+_chk\b", symbols.replace("__stack_chk_fail", "")):
        yield "no checked copies (FORTIFY)"


def paths_in(path, build):
    run(["strip", "--strip-debug", "-o", build / "stripped", path])
    bytes_of = (build / "stripped").read_bytes()
    # The compiler is called with paths from the build's folder: `../../home/…/src/x.c` tells as much.
    for folder in (tree.ROOT, build, os.path.relpath(tree.ROOT, os.path.realpath(build)) + "/"):
        if os.fsencode(str(folder)) in bytes_of:
            yield f"has the path {folder} in it"


def main(meson):
    with tempfile.TemporaryDirectory(prefix="carpace-for-others-") as name:
        build = pathlib.Path(name)
        run([*meson, "setup", build, tree.ROOT, "--buildtype=release"])
        run(["ninja", "-C", build, *BUILT])
        faults = [f"{part} {fault}" for part in BUILT
                  for fault in [*faults_of(build / part), *paths_in(build / part, build)]]
        tree.end("built for others", len(BUILT), faults)


if __name__ == "__main__":
    main(sys.argv[1:])
