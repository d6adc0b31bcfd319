# SPDX-License-Identifier: GPL-3.0-or-later
"""sql-as-c.py OUT FILE.sql...: the files as strings in C, in the order of their numbers."""
import pathlib
import sys

files = sorted(map(pathlib.Path, sys.argv[2:]), key=lambda path: int(path.name.split("-")[0]))
out = ['#pragma GCC diagnostic ignored "-Woverlength-strings"', '#include "adapters/roster-postgres-private.h"', "", "const CarpaceClubStep carpace_club_steps[] = {"]
for path in files:
    out.append(f'  {{ "{path.name}",')
    for line in path.read_text(encoding="utf-8").splitlines():
        out.append('    "' + line.replace("\\", "\\\\").replace('"', '\\"') + '\\n"')
    out.append("  },")
out += ["};", f"const int32_t carpace_club_n_steps = {len(files)};", ""]
pathlib.Path(sys.argv[1]).write_text("\n".join(out), encoding="utf-8")
