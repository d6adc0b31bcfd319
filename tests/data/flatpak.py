# SPDX-License-Identifier: GPL-3.0-or-later
"""The Flatpak manifest has a module for each library that the build needs and the runtime has not, each with its sum, and
nothing that flatpak-builder would pass over.

usage: flatpak.py SOURCE-FOLDER
"""
import pathlib
import re
import sys

import yaml

# Debian's names of .ci/packages. The first are in org.gnome.Platform; the optional ones are left out of a Flatpak.
RUNTIME = {"libc6-dev", "libglib2.0-dev", "libgtk-3-dev", "libnotify-dev", "libsecret-1-dev", "libsqlite3-dev", "libjson-glib-dev", "libx11-dev",
           "libxcb1-dev", "libxcb-sync-dev", "libwayland-dev", "libcairo2-dev", "libpango1.0-dev"}
OPTIONAL = {"libpq-dev", "libgsound-dev"}
MODULES = {"libayatana-appindicator3-dev": "libayatana-appindicator", "libgtk-layer-shell-dev": "gtk-layer-shell",
           "libfyaml-dev": "libfyaml", "libcsv-dev": "libcsv", "libical-dev": "libical", "libsodium-dev": "libsodium",
           "libqrencode-dev": "qrencode", "libxcb-keysyms1-dev": "xcb-util-keysyms"}

# flatpak-builder passes over what it does not know, with a warning.
KEYS = {"id", "runtime", "runtime-version", "sdk", "command", "finish-args", "cleanup", "modules"}
MODULE_KEYS = {"name", "buildsystem", "build-options", "config-opts", "sources"}
SOURCE_KEYS = {"archive": {"type", "path", "sha256"}, "dir": {"type", "path"}}
BUILD_SYSTEMS = {"autotools", "cmake-ninja", "meson"}

root = pathlib.Path(sys.argv[1])
rows = [line.split() for line in (root / ".ci/packages").read_text().splitlines()]
libraries = {row[1] for row in rows if row and row[0] == "build" and re.fullmatch(r"lib.*-dev", row[1])}
manifest = yaml.safe_load((root / "src/data/flatpak/org.carpace.Carpace.yaml").read_text())
modules = {module["name"]: module["sources"] for module in manifest["modules"]}

assert len(libraries) > 15, libraries
for library in sorted(libraries - RUNTIME - OPTIONAL):
    assert library in MODULES, f"{library}: in the runtime, or a module?"
    assert MODULES[library] in modules, f"{library}: no module {MODULES[library]}"
assert list(modules)[-1] == "carpace", list(modules)
assert set(manifest) <= KEYS, set(manifest) - KEYS
for module in manifest["modules"]:
    assert set(module) <= MODULE_KEYS and module["buildsystem"] in BUILD_SYSTEMS, module
for name, sources in modules.items():
    for source in sources:
        assert set(source) <= SOURCE_KEYS[source["type"]], (name, source)
        assert source["type"] == "dir" or re.fullmatch("[0-9a-f]{64}", source["sha256"]), (name, source)
