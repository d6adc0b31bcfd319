# SPDX-License-Identifier: GPL-3.0-or-later
"""Things that slip in unseen: paths of one machine, downloads, merge marks, words the program does not say."""
import re

import tree

ANYWHERE = {
    "a path of one person's machine": re.compile(r"(?<![\w.~$}-])/(?:home|Users|root|work|mnt|media)/[a-z]"),
    "a merge mark": re.compile(r"^(?:<{7}|>{7}) ", re.M),
    "a trailing blank": re.compile(r"[ \t]+$", re.M),
}
SCRIPTS = {"a download": re.compile(r"\b(?:curl|wget|git clone)\s+\S")}
TEXT_KEEPS_BLANKS = {".md", ".po", ".pot", ".svg", ".json", ".csv", ".patch", ".txt"}

# What the program must not say: to be scored, put off, frightened, or promised anything.
UNSAID = re.compile(r"\b(snooz\w*|postpon\w*|skip\w*|streaks?|scores?|achievements?|injury-free|cures?|heals?|"
                    r"prevents?|diagnos\w+)\b", re.I)
SAID_TO_DENY = re.compile(r"\b(not|never|no|nor|cannot|does not|nothing)\b", re.I)
MARKED = re.compile(r'(?<![\w])(?:_|N_|C_|Q_|ngettext|g_dngettext)\s*\(\s*((?:"(?:[^"\\]|\\.)*"\s*,?\s*)+)')


def is_script(path):
    text = tree.text_of(path) or ""
    return path.name in ("meson.build", "packages") or path.parts[0] == ".ci" or text.startswith("#!")


def main():
    faults = []
    paths = [path for path in tree.files() if path.name != "LICENSE" and tree.text_of(path) is not None]
    for path in paths:
        text = tree.text_of(path)
        checks = dict(ANYWHERE, **(SCRIPTS if is_script(path) else {}))
        if path.suffix in TEXT_KEEPS_BLANKS:
            del checks["a trailing blank"]
        for what, pattern in checks.items():
            for found in pattern.finditer(text):
                faults.append(f"{path}:{text.count(chr(10), 0, found.start()) + 1}: {what}: {found[0].strip()!r}")
        if path.suffix == ".c" and path.parts[0] == "src":
            for found in MARKED.finditer(text):
                word = UNSAID.search(found[1])
                if word and not SAID_TO_DENY.search(found[1]):
                    faults.append(f"{path}:{text.count(chr(10), 0, found.start()) + 1}: says {word[0]!r}")
    tree.end("stray things", len(paths), faults)


main()
