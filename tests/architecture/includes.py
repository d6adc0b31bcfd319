# SPDX-License-Identifier: GPL-3.0-or-later
"""Who includes whom: the dependency table of DEVELOPERS.md, read from the sources."""
import os
import pathlib
import re

import tree

PURE_C = {"float.h", "inttypes.h", "limits.h", "math.h", "stdalign.h", "stdarg.h", "stdbool.h", "stddef.h", "stdint.h",
          "stdnoreturn.h", "string.h"}
PARTS = ("core", "app", "text", "forms", "files", "adapters", "draw", "planner", "ui", "cli")

PARTS += ("team",)

# part: (parts it may use, prefixes of outside headers it may use, whether it may do I/O by the C library)
TABLE = {
    "core": ((), (), False),
    "app": ((), ("stdlib.h",), False),
    "text": ((), ("glib.h", "glib/", "glib-object.h", "libintl.h", "locale.h"), True),
    "team": ((), ("glib.h", "sodium.h", "errno.h", "stdlib.h"), False),
    "files": (("text",), ("glib.h", "glib/"), True),
    "draw": (("text",), ("glib.h", "glib/", "glib-object.h", "cairo", "pango/"), True),
    "forms": (("text",), ("glib.h", "glib/", "glib-object.h", "errno.h", "locale.h", "stdlib.h", "csv.h", "json-glib/",
                          "libfyaml.h", "libical/", "qrencode.h"), False),
    "adapters": (("text", "forms", "files"), ("",), True),
    "planner": (("text", "forms"), ("glib.h", "glib/", "glib-object.h", "math.h"), False),
    "ui": (("app", "text", "draw", "planner"), ("glib", "gio/", "gtk/", "gdk/", "gdk-pixbuf/", "atk/", "cairo", "pango/",
                                     "libayatana-appindicator/", "gtk-layer-shell/"), True),
    "cli": (("app", "text", "forms", "files", "team", "draw"), ("glib", "gio/", "cairo", "pango/"), True),
}

# Outside libraries an adapter or a form can be about, by their headers. GLib, GIO and the C library are nobody's.
LIBRARIES = {
    "X": ("X11/", "xcb/"), "libnotify": ("libnotify/",), "SQLite": ("sqlite3.h",), "libfyaml": ("libfyaml.h",),
    "json-glib": ("json-glib/",), "libical": ("libical/",), "libcsv": ("csv.h",), "GSound": ("gsound", "canberra"), "libsodium": ("sodium.h",), "libqrencode": ("qrencode.h",),
    "libpq": ("libpq-fe.h",), "libsecret": ("libsecret/",),
    "Wayland": ("wayland-", "ext-idle-notify", "idle-", "wlr-foreign-toplevel", "windows-kde"),
    "ayatana": ("libayatana-appindicator/",), "GTK": ("gtk/", "gdk/", "gtk-layer-shell/"),
}
NOT_IN_ADAPTERS = ("GTK", "ayatana")
C_AND_GLIB = re.compile(r"(glib|gio|gmodule|sys|linux|bits)[/.-]|gio/|[a-z]+\.h$")
INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.M)


def library_of(header):
    for library, prefixes in LIBRARIES.items():
        if header.startswith(prefixes):
            return library
    return None


def part_of(path):
    return path.parts[1] if len(path.parts) > 2 and path.parts[1] in PARTS else None


def resolved(path, header, own_headers):
    """The project's file that @header names in @path, or None."""
    for folder in (path.parent, pathlib.Path("src"), pathlib.Path("include")):
        own = pathlib.Path(os.path.normpath(folder / header))
        if own in own_headers:
            return own
    beside = [own for own in own_headers if own.name == header]
    return beside[0] if len(beside) == 1 else None


def port_and_technology(path):
    return path.stem.split("-")[:2]


def same_adapter(header, path):
    """Of one technology, or the header that a port's technologies or a technology's ports share."""
    own = port_and_technology(path)
    return port_and_technology(header) in (own, own[:1], own[1:])


def faults_of(path, own_headers):
    part = part_of(path)
    uses, outside, does_io = TABLE[part]
    libraries = set()
    for bracket, header in INCLUDE.findall(tree.without_comments(tree.text_of(path))):
        own = resolved(path, header, own_headers) if bracket == '"' or header.startswith("carpace/") else None
        if own is not None:
            other = part_of(own)
            if own.parts[0] == "include" or other == part:
                if part == "adapters" and other == part and not same_adapter(own, path):
                    yield f"{path}: an adapter uses another adapter, {header}"
            elif other not in uses:
                yield f"{path}: {part} may not use {other or own.parent} ({header})"
            continue
        if header in ("config.h", "carpace-config.h"):
            continue
        library = library_of(header)
        if library and part in ("adapters", "forms"):
            libraries.add(library)
        if part == "adapters" and library in NOT_IN_ADAPTERS:
            yield f"{path}: adapters may not use {library} ({header})"
        elif part == "adapters":
            if not library and not C_AND_GLIB.match(header):
                yield f"{path}: {header} belongs to no library that includes.py knows of"
        elif header in PURE_C or (outside and header.startswith(outside)):
            pass
        elif not does_io or library or not re.fullmatch(r"(sys/|linux/)?[a-z]+\.h", header):
            yield f"{path}: {part} may not use {header}"
    if len(libraries) > 1:
        yield f"{path}: a file of {part} is about one outside library, not {len(libraries)}: {', '.join(sorted(libraries))}"


INSIDE_A_SESSION = re.compile(r"\bsession\s*(?:\.|->)\s*(?!h\b)[a-z_]+")


def look_into_the_session(paths):
    """Outside the core a session is read through its functions and view.h."""
    for path in paths:
        for found in INSIDE_A_SESSION.finditer(tree.without_comments(tree.text_of(path))):
            yield f"{path}: looks into a session, {found[0]}"


def main():
    every = tree.files()
    own_headers = {path for path in every if path.suffix == ".h" and path.parts[0] in ("src", "include")}
    sources = [path for path in every if path.suffix in (".c", ".h") and path.parts[0] == "src" and part_of(path)]
    sources_outside = [path for path in every if path.suffix == ".c" and path.parts[0] == "src" and not part_of(path)]
    faults = [fault for path in sources for fault in faults_of(path, own_headers)]
    faults += look_into_the_session([path for path in sources + sources_outside if part_of(path) != "core"])
    for path in sources_outside:
        if path.name != "main.c" and not path.name.startswith("program"):
            faults.append(f"{path}: only main.c and program*.c stand outside the parts")
    tree.end("includes", len(sources), faults)


main()
