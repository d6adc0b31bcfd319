# SPDX-License-Identifier: GPL-3.0-or-later
"""What the core's object code asks of the world, and what it could change.

usage: symbols.py PART LIBRARY...   The libraries of a part are looked at together.
"""
import re
import subprocess
import sys

import tree

MEMORY = {"memcpy", "memmove", "memset", "memcmp", "memchr"}
STRINGS = {"strlen", "strcmp", "strncmp", "strchr", "strrchr", "strstr", "strspn", "strcspn", "strcpy", "strnlen", "strpbrk"}
MATHS = {"acos", "asin", "atan", "atan2", "cbrt", "ceil", "copysign", "cos", "exp", "exp2", "expm1", "fabs", "floor",
         "fma", "fmax", "fmin", "fmod", "frexp", "hypot", "isfinite", "ldexp", "llrint", "llround", "log", "log10",
         "log1p", "log2", "lrint", "lround", "modf", "nearbyint", "nextafter", "pow", "remainder", "rint", "round",
         "sin", "sqrt", "tan", "tanh", "trunc"}
ALLOCATION = {"malloc", "calloc", "realloc", "free"}
COMPILER = {"_GLOBAL_OFFSET_TABLE_", "__stack_chk_fail"}
CHECKED = {f"__{name}_chk" for name in MEMORY | STRINGS} # what a build for others has in their place
PURE = MEMORY | STRINGS | MATHS | COMPILER | CHECKED

ALLOWED = {"core": PURE, "app": PURE | ALLOCATION}
# Forms get bytes and give bytes: whatever opens, moves or runs something is somebody else's. GLib is theirs otherwise.
REFUSED = {"forms": re.compile(r"_*(f?open|freopen|creat|rename|unlink|remove|socket|popen|system|exec|fork|getenv|"
                               r"g_(f?open|getenv|file_|dir_|mkdir|rename|unlink|spawn|io_channel|key_file_load_from_file|"
                               r"mapped_file))")}
REFUSED["planner"] = REFUSED["forms"]
NEVER_WRITTEN = (".text", ".rodata", ".data.rel.ro", ".init_array", ".eh_frame")

# What is signed and sealed is bytes as well.
REFUSED["team"] = REFUSED["forms"]


def symbols(library):
    """(object, name, class, section) of each symbol, by nm in its System V form."""
    listing = subprocess.run(["nm", "--format=sysv", library], check=True, capture_output=True, text=True).stdout
    member = ""
    for line in listing.splitlines():
        if "[" in line and line.rstrip().endswith("]:"):
            member = line.split("[")[1].split("]")[0]
        elif line.startswith("Symbols from") or line.startswith("Undefined symbols"):
            member = line
        elif line.count("|") == 6:
            name, _value, kind, _type, _size, _line, section = (field.strip() for field in line.split("|"))
            if kind and name != "Name":
                yield member, name, kind, section


def may_use(part, name):
    if part in REFUSED:
        return not REFUSED[part].match(name)
    return name in ALLOWED[part] or name.startswith("carpace_")


def main(part, libraries):
    found = [symbol for library in libraries for symbol in symbols(library)]
    own = {name for _member, name, kind, _section in found if kind.isupper() and kind not in "UC"}
    faults = []
    for member, name, kind, section in found:
        if kind in "Uvw":
            if name not in own and not may_use(part, name):
                faults.append(f"{member}: {name} is not among what the {part} may use")
        elif not section.startswith(NEVER_WRITTEN) and kind not in "aAN":
            faults.append(f"{member}: {name} could be written to (section {section or kind})")
    tree.end(f"symbols of the {part}", len(own), faults)


main(sys.argv[1], sys.argv[2:])
