# SPDX-License-Identifier: GPL-3.0-or-later
"""What is built for others: hardened, and without a path of the machine that built it.

usage: hardened.py MESON BUILD-TYPE
Builds the program and its module anew, of that type, in a folder of its own. `plain` is what packagers take, with
flags of their own: here -O1, so that it takes half the time.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import tree

BUILT = ("src/carpace", "src/forms/carpace-calendar.so", "src/adapters/carpace-club.so")


def run(words, **more):
    done = subprocess.run(words, capture_output=True, text=True, **more)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, words))}\n{done.stdout[-3000:]}{done.stderr[-3000:]}")
    return done.stdout


def faults_of(path, build):
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
    if "__stack_chk_fail" not in symbols:
        yield "no stack protector"
    if path.name == "carpace" and not re.search(r"__\w+_chk\b", symbols.replace("__stack_chk_fail", "")):
        yield "no checked copies (FORTIFY)"
    run(["strip", "--strip-debug", "-o", build / "stripped", path])
    bytes_of = (build / "stripped").read_bytes()
    # The compiler is called with paths from the build's folder: `../../home/…/src/x.c` tells as much.
    for folder in (tree.ROOT, build, os.path.relpath(tree.ROOT, os.path.realpath(build)) + "/"):
        if os.fsencode(str(folder)) in bytes_of:
            yield f"has the path {folder} in it"


def main(meson, build_type):
    with tempfile.TemporaryDirectory(prefix="carpace-for-others-") as name:
        build = pathlib.Path(name)
        env = dict(os.environ, CFLAGS="-O1") if build_type == "plain" else dict(os.environ)
        run([*meson, "setup", build, tree.ROOT, "--buildtype=" + build_type], env=env)
        run(["ninja", "-C", build, *BUILT])
        faults = [f"{part} of type {build_type} {fault}" for part in BUILT for fault in faults_of(build / part, build)]
        tree.end(f"built for others, {build_type}", len(BUILT), faults)


main(sys.argv[1:-1], sys.argv[-1])
