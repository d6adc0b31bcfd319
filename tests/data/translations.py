#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""translations.py SOURCE: POTFILES names every file with marked strings; every
translation has formats that match (msgfmt --check) and is nearly complete;
nothing is said in words that are not Carpace's."""
import os
import re
import subprocess
import sys
import tempfile

SOURCE = sys.argv[1]
MARK = re.compile(r'(?<![A-Za-z0-9_])(?:_|N_|NN_|C_|NC_|ngettext) *\(')
# Never said, in no sentence of the program (see DEVELOPERS.md, sentences): praise, promises, other programs' words,
# and what has one other word here.
NEVER = re.compile(r"""\b(?: skip | snooz | postpon | streak | score | badge | level\ up\b | unlimited | cures?\b | heal(?:s|ed|ing)?\b
                       | mend | in\ no\ time | clicking | reserve | in\ the\ mean\b | on\ the\ way\ back | way\ back
                       | start\ once\ more | starting\ once\ more | left\b(?=\ (?:to|today|in)\b) | by\ someone | someone\ has\ seen
                       | wrong\ tap | larger\ / | nobody | (?:is|are)\ what\ lets | what\ it\ is\ compared | asks\ for\ a\ change
                       | longer\ pause | letters\ or\ more | healthy: | step\ up\ asks | \d\ up\ on\b | read\ before\ going\ on | has\ no\ meaning | at\ last\b )""", re.I | re.X)
NEVER_IN = {
    'de': re.compile(r"""\b(?: überspr | schlummer | aufschieb | punktestand | abzeichen | unbegrenzt | heil(?:t|en|ung)\b | geschafft
                         | üben?\b | üb(?:e|st|t)\b | übung | geübt | weiterüb | bewert | leiste\b | wettk(?:a|ä)mpf | (?<!plan\ )\w*check(?:s|liste)?\b
                         | kraftakt | passwortsatz | spielend | trainer\b | vormund | verdoppel | mikropaus | gewünscht | rückweg | dichtere | steigerung | stufe | warnung\b(?!:) | sie\ haben
                         | ihre?n?\ hand | mittlere\ zeit | jemand\ hat\ es\ angesehen | womit\ verglichen | verlangt\ eine\ änderung | niemand\ (?:meldet|zeigt) )""", re.I | re.X),
}
# So that one new sentence does not hold up whoever writes it.
COMPLETE = 0.95
faults = []


def run(*words):
    done = subprocess.run(words, cwd=SOURCE, capture_output=True, text=True, env={**os.environ, 'LC_ALL': 'C.UTF-8'})
    return done.returncode, done.stdout, done.stderr


def without_comments_and_strings(text):
    return re.sub(r'/\*.*?\*/|"(?:\\.|[^"\\])*"', '""', text, flags=re.S)


def marked_files():
    for folder, _, names in os.walk(os.path.join(SOURCE, 'src')):
        for name in names:
            path = os.path.join(folder, name)
            if name.endswith('.c') and MARK.search(without_comments_and_strings(open(path, encoding='utf-8').read())):
                yield os.path.relpath(path, SOURCE)


def gathered():
    """The strings of the source as they are now: (singular, plural)."""
    with tempfile.TemporaryDirectory() as folder:
        pot = os.path.join(folder, 'now.pot')
        status, _, errors = run('xgettext', '--from-code=UTF-8', '--keyword=_', '--keyword=N_', '--keyword=C_:1c,2',
                                '--keyword=NC_:1c,2', '--keyword=ngettext:1,2', '--keyword=NN_:1,2', '--files-from=po/POTFILES', '--output=' + pot)
        if status or 'warning' in errors:
            faults.append('xgettext: ' + errors.strip())
        return messages(pot)


def messages(path):
    found = {}
    for entry in open(path, encoding='utf-8').read().split('\n\n'):
        if re.search(r'^#~', entry, re.M):
            continue
        fields, field = {}, None
        for line in entry.split('\n'):
            match = re.match(r'(msgctxt|msgid_plural|msgid|msgstr(?:\[\d\])?) "(.*)"$', line)
            if match:
                field = match.group(1)
                fields[field] = match.group(2)
            elif line.startswith('"') and field:
                fields[field] += line[1:-1]
        if fields.get('msgid'):
            texts = [value for key, value in fields.items() if key.startswith('msgstr')]
            fuzzy = bool(re.search(r'^#,.*fuzzy', entry, re.M))
            found[fields.get('msgctxt', '') + '\4' + fields['msgid']] = (fields, not fuzzy and all(texts))
    return found


listed = {line.strip() for line in open(os.path.join(SOURCE, 'po', 'POTFILES')) if line.strip()}
for path in sorted(set(marked_files()) - listed):
    faults.append('po/POTFILES lacks %s: run po/update' % path)
for path in sorted(listed):
    if not os.path.exists(os.path.join(SOURCE, path)):
        faults.append('po/POTFILES names %s, which is not there: run po/update' % path)

now = gathered()
if len(now) < 100:
    faults.append('only %d strings were gathered' % len(now))
for fields, _ in now.values():
    for said in (fields['msgid'], fields.get('msgid_plural', '')):
        if NEVER.search(said):
            faults.append('not a word of this program (%s): %s' % (NEVER.search(said).group(), said))

languages = open(os.path.join(SOURCE, 'po', 'LINGUAS')).read().split()
if 'de' not in languages:
    faults.append('po/LINGUAS lacks de')
for language in languages:
    path = os.path.join('po', language + '.po')
    status, _, errors = run('msgfmt', '--check', '--output-file=' + os.devnull, path)
    if status:
        faults.append(errors.strip())
    there = messages(os.path.join(SOURCE, path))
    missing = [key for key in now if not there.get(key, (None, False))[1]]
    print('%s: %d of %d strings' % (language, len(now) - len(missing), len(now)))
    for key in missing:
        print('  not yet: ' + key.split('\4')[1][:100])
    never = NEVER_IN.get(language)
    for fields, _ in there.values():
        for said in (value for key, value in fields.items() if key.startswith('msgstr')):
            if never and never.search(said):
                faults.append('%s: not a word of this program (%s): %s' % (language, never.search(said).group(), said))
    if len(missing) > (1 - COMPLETE) * len(now):
        faults.append('%s is less than %d %% complete: run po/update and translate' % (language, 100 * COMPLETE))

for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
