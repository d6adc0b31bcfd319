# SPDX-License-Identifier: GPL-3.0-or-later
"""A switch over the states names every one: none hides behind a default."""
import re

import tree

paths = [path for path in tree.files() if path.parts[:2] == ("src", "core") and path.name.startswith("session")
         and path.suffix == ".c"]
faults = []
for path in paths:
    for number, line in enumerate(tree.without_comments(tree.text_of(path)).splitlines(), 1):
        if re.search(r"\bdefault\s*:", line):
            faults.append(f"{path}:{number}: a default in a switch of the session")
tree.end("switches of the session", len(paths), faults)
