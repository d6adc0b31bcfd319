# SPDX-License-Identifier: GPL-3.0-or-later
"""The top level holds what a newcomer should see first, and nothing else."""
import tree

ALLOWED = {"src", "include", "tests", "icons", "po", "meson.build", "README.md", "DEVELOPERS.md", "LICENSE"}

names = {path.parts[0] for path in tree.files()}
tree.end("top level", len(names), [f"{name}: does not belong at the top level" for name in sorted(names)
                                   if name not in ALLOWED and not name.startswith(".")])
