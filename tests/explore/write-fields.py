# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes the canonical form of the core's structs from their headers: write-fields.py HEADER... -- STRUCT...

Every field is written by its name and type, none by its bytes: padding has no part in it,
and a field that is new has one at once. By the house's names a moment (an int64_t without a unit)
is told from a length (one in _ms); moments are written relative to now, days to today.
"""
import re
import sys

MOMENTS_DESPITE_UNIT = {"last_end_elapsed_ms"}
FILLED = {"had_limit_ms": "n_blocks"}  # where an array's count does not bear its name
NOT_WRITTEN = {"plan", "next_plan"}  # pointers: the explorer opens one plan only
FIELD = re.compile(r"^\s*(?:const\s+)?(\w+)\s+([^;()]+);", re.M)
STRUCT = re.compile(r"typedef struct(?: \w+)?\n\{\n(.*?)\n\} (\w+);", re.S)


def bare(text):
    return re.sub(r"/\*.*?\*/", "", text, flags=re.S)


def fields_of(body):
    for kind, names in FIELD.findall(bare(body)):
        for name in names.split(","):
            match = re.fullmatch(r"\s*\**\s*(\w+)\s*(?:\[(\w+)\])?\s*", name)
            yield kind, match.group(1), match.group(2)


def writer(kind, name, known):
    if kind in known:
        return "out = put_%s (out, &v->%%s, o);" % kind
    if kind == "CarpaceDay":
        return "*out++ = day_from (v->%s, o);"
    if kind == "CarpaceInstant":
        return "*out++ = moment_from (v->%s.elapsed_ms, o);"
    if kind == "double":
        return "*out++ = bits_of (v->%s);"
    if kind == "int64_t" and (name in MOMENTS_DESPITE_UNIT or not re.search(r"(^|_)ms$", name)):
        return "*out++ = moment_from (v->%s, o);"
    return "*out++ = (uint64_t) v->%s;"


def count_of(name, n, fields):
    """Arrays are written as far as they are filled, where the struct says how far."""
    names = [field[1] for field in fields]
    for filled in (FILLED.get(name, "n_" + name), "n_" + name + "s", "n_" + re.sub("_ms$", "", name) + "s"):
        if filled in names:
            return "v->" + filled
    return n


def write_function(struct, fields, known, head, write):
    print(head % (struct, struct))
    for kind, name, n in fields:
        if name in NOT_WRITTEN:
            continue
        index = "" if n is None else "[i]"
        line = write(kind, name, known) % (name + index)
        if n is not None:
            print("  for (int32_t i = 0; i < (int32_t) %s; i++)" % count_of(name, n, fields))
        print("  " + ("" if n is None else "  ") + line)


def show(kind, name, known):
    if kind in known:
        return "show_%s (file, &v->%%s, o);" % kind
    value = writer(kind, name, known).split("=", 1)[1].strip()[:-1]
    return 'fprintf (file, "%s %%%%lld\\n", (long long) (%s));' % (name, value)


def main():
    cut = sys.argv.index("--")
    text = "".join(open(name, encoding="utf-8").read() for name in sys.argv[1:cut])
    bodies = {name: body for body, name in STRUCT.findall(text)}
    structs = sys.argv[cut + 1:]
    print("/* Written by write-fields.py. */")
    for struct in structs:
        fields = list(fields_of(bodies[struct]))
        write_function(struct, fields, structs,
                       "static uint64_t *\nput_%s (uint64_t *out, const %s *v, const Origin *o)\n{", writer)
        print("  return out;\n}\n")
        write_function(struct, fields, structs,
                       "static void\nshow_%s (FILE *file, const %s *v, const Origin *o)\n{", show)
        print("}\n")


main()
