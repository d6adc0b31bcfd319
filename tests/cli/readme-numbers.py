# SPDX-License-Identifier: GPL-3.0-or-later
"""The numbers of the README's table, as carpace calc has them.

usage: readme-numbers.py CALC-ALONE README.md
The command is the one the README shows.
"""
import pathlib
import re
import sys

from calc_driver import Calc

text = pathlib.Path(sys.argv[2]).read_text()
command = re.search(r"^carpace calc (strain-index .*)$", text, re.M).group(1)
shown = re.findall(r"^\| .* \| .* \| ([0-9.]+) \|$", text, re.M)
product = re.search(r"× [0-9.]+ = ([0-9.]+) \(Garg", text).group(1)

calc = Calc(sys.argv[1])
found = calc.json(command)
calc.close()
assert len(shown) == 5, shown
for name, number in zip(("im", "em", "dm", "pm", "hm"), shown):
    assert f"{found[name]:.{len(number.split('.')[1])}f}" == number, f"{name}: {found[name]}, the README has {number}"
assert f"{found['strain_index']:.2f}" == product, found
print(len(shown), "factors and their product")
