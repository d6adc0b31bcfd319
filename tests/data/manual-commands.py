#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""manual-commands.py SOURCE: carpace(1) tells every command of the table, and every option of each."""
import os
import re
import sys

SOURCE = sys.argv[1]


def read(*path):
    return open(os.path.join(SOURCE, *path), encoding='utf-8').read()


# Strings that stand beside one another are one.
table = re.sub(r'"\s*\n\s*"', '', read('src', 'cli', 'table.c'))
rows = re.findall(r'\{ "([a-z-]+)", carpace_cli_\w+,\s*"((?:[^"\\]|\\.)*)"', table)
manual = read('src', 'data', 'carpace.1')
faults = []


def items_of(word):
    return [line for line in manual.split('\n') if word and re.match(r'\.It Cm (?:[a-z-]+ , (?:Cm )?)*%s(?![\w-])' % re.escape(word), line)]


if len(rows) < 20:
    faults.append('only %d rows of the table were understood' % len(rows))
for word, forms in rows:
    if not items_of(word):
        faults.append('carpace.1 lacks ' + word)
    for form in forms.split('\\n'):
        items = items_of(word) + items_of((form.split() + [''])[1])
        for option in re.findall(r'--([a-z-]+)', form):
            if not any('Fl -' + option in item for item in items):
                faults.append('carpace.1 lacks --%s of %s' % (option, form))
print('%d commands' % len(rows))
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
