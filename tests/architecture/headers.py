# SPDX-License-Identifier: GPL-3.0-or-later
"""Each header of the seam compiles alone, as plain C11, with standard headers only.

usage: headers.py COMPILER...
"""
import pathlib
import re
import subprocess
import sys

import tree

STANDARD = {"assert.h", "complex.h", "ctype.h", "errno.h", "fenv.h", "float.h", "inttypes.h", "iso646.h", "limits.h",
            "locale.h", "math.h", "setjmp.h", "signal.h", "stdalign.h", "stdarg.h", "stdatomic.h", "stdbool.h",
            "stddef.h", "stdint.h", "stdio.h", "stdlib.h", "stdnoreturn.h", "string.h", "tgmath.h", "threads.h",
            "time.h", "uchar.h", "wchar.h", "wctype.h"}
IO = {"errno.h", "locale.h", "setjmp.h", "signal.h", "stdio.h", "stdlib.h", "threads.h", "time.h"}
FLAGS = ["-std=c11", "-Wall", "-Wextra", "-pedantic", "-Werror", "-fsyntax-only", "-x", "c", "-Iinclude", "-Isrc", "-"]


def seam(path):
    return path.suffix == ".h" and path.parts[:2] == ("include", "carpace")


def near_seam(path):
    """Headers of parts that promise the same."""
    return path.suffix == ".h" and path.parts[:2] in (("src", "core"), ("src", "app"))


def main(compiler):
    faults = []
    headers = [path for path in tree.files() if seam(path) or near_seam(path) or path == pathlib.Path("src/cli/cli.h")]
    for path in headers:
        code = tree.without_comments(tree.text_of(path))
        for included in re.findall(r'#\s*include\s*[<"]([^>"]+)[>"]', code):
            own = included.startswith(("carpace/", "app/", "core/")) or (tree.ROOT / path.parent / included).is_file()
            if not own and (included not in STANDARD or (seam(path) and included in IO)):
                faults.append(f"{path}: includes {included}")
        result = subprocess.run(compiler + FLAGS, cwd=tree.ROOT, input=f'#include "{tree.ROOT / path}"\n',
                                capture_output=True, text=True)
        if result.returncode != 0:
            faults.append(f"{path}: does not compile alone\n{result.stderr}")
    tree.end("headers alone", len(headers), faults)


main(sys.argv[1:])
