# SPDX-License-Identifier: GPL-3.0-or-later
"""A language of 40 % longer words: every string of the program with its vowels drawn out.

usage: longer.py FOLDER   (for bindtextdomain(), under the name en_XA)
"""
import math
import pathlib
import re
import subprocess
import sys

LANGUAGE = "en_XA"
POT = pathlib.Path(__file__).resolve().parents[2] / "po" / "carpace.pot"
# formats, fields and access keys stay as they are
KEPT = re.compile(r"(%[-+ #0-9.$']*(?:l|ll|h|z)?[a-zA-Z%]|\{[^}]*\}|_.|\\.)")
VOWELS = "aeiouAEIOU"
STRING = re.compile(r'"((?:\\.|[^"\\])*)"')


def longer(text, by=0.4):
    """@text with its vowels drawn out, evenly, until it is long enough."""
    parts = KEPT.split(text)
    vowels = sum(letter in VOWELS for part in parts[::2] for letter in part)
    more, seen = math.ceil(by * sum(len(part) for part in parts[::2])), 0
    for i in range(0, len(parts), 2):
        drawn = ""
        for letter in parts[i]:
            times = 1
            if letter in VOWELS:
                times += (seen + 1) * more // vowels - seen * more // vowels
                seen += 1
            drawn += letter * times
        parts[i] = drawn
    return "".join(parts)


def quoted(lines):
    return "".join(STRING.search(line).group(1) for line in lines if STRING.search(line))


def translated(block):
    """A block of a .pot with its strings filled in."""
    lines = [line for line in block.splitlines() if not line.startswith("#")]
    at = [i for i, line in enumerate(lines) if line.startswith("msg")]
    texts = {lines[i].split(" ", 1)[0]: quoted(lines[i:j]) for i, j in zip(at, at[1:] + [len(lines)])}
    if texts.get("msgid", "") == "":
        return None
    out = [f'{key} "{texts[key]}"' for key in ("msgctxt", "msgid", "msgid_plural") if key in texts]
    if "msgid_plural" in texts:
        out += [f'msgstr[0] "{longer(texts["msgid"])}"', f'msgstr[1] "{longer(texts["msgid_plural"])}"']
    else:
        out.append(f'msgstr "{longer(texts["msgid"])}"')
    return "\n".join(out)


def make(folder):
    """Writes the language for bindtextdomain() into @folder."""
    place = pathlib.Path(folder) / LANGUAGE / "LC_MESSAGES"
    place.mkdir(parents=True, exist_ok=True)
    head = ('msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n'
            '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"')
    blocks = [head] + [block for block in map(translated, POT.read_text("utf-8").split("\n\n")) if block]
    subprocess.run(["msgfmt", "--check-format", "-o", str(place / "carpace.mo"), "-"],
                   input="\n\n".join(blocks), text=True, check=True)


if __name__ == "__main__":
    make(sys.argv[1])
