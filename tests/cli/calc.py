# SPDX-License-Identifier: GPL-3.0-or-later
"""carpace calc: every form, its keys, its digits, and what it refuses.

usage: calc.py CALC-ALONE
"published": read on the result page of an open ergonomics calculator or in the
table of an open implementation of the model; "computed": from the papers'
formulas, worked apart from this program. Papers: Garg, Moore, Kapellusch 2017
(strain index); Frey-Law, Looft, Heitsman 2012 and Looft, Herkert, Frey-Law 2018
(fatigue); Foster 1998, 2001 (load of a week).
"""
import math
import os
import sys

from calc_driver import Calc

NO = None
# (command, {key: (value, within)})
FORMS = [
    # published HM(8) = 1.0001; the rest computed
    ('strain-index --intensity 12% --efforts 60/min --lasts 0.3s --wrist "25 deg extension" --hours 2',
     dict(strain_index=(9.13493, 5e-6), im=(1.7872, 1e-9), em=(15.1, 1e-9), dm=(0.543, 1e-9), pm=(1, 0), hm=(0.623383, 5e-7))),
    ("strain-index --intensity 10% --efforts 1/min --lasts 1s --hours 8",
     dict(strain_index=(0.418747, 5e-7), im=(1.574, 1e-9), em=(0.35, 1e-9), dm=(0.76, 1e-9), pm=(1, 0), hm=(1.0001, 5.1e-5))),
    ('strain-index --intensity=30% --efforts 5/min --lasts 2s --wrist "15 deg flexion" --hours 4',
     dict(strain_index=(5.35412 / 1.00015 * 0.7698 * 1.17344, 5e-4), im=(3.706, 1e-9), em=(1.35, 1e-9), dm=(1.07, 1e-9),
          pm=(1.17344, 5e-6), hm=(0.7698, 5e-5))),
    ("strain-index --intensity 0% --efforts 60/min --lasts 0.3s --hours 2",
     dict(strain_index=(0, 0), im=(0, 0), em=(15.1, 1e-9), dm=(0.543, 1e-9), pm=(1, 0), hm=(0.623383, 5e-7))),
    # published, 1 in the last digit
    ("endurance --region hand --load 10%", dict(endurance_s=(1385, 1))),
    ("endurance --region shoulder --load 50%", dict(endurance_s=(57.7, 0.1))),
    ("endurance --region hand --load 12% --from 30%", dict(endurance_s=(math.log((1.8375 - 0.3) / (1.8375 - 0.88)) / 0.00064, 1e-6))),
    ("endurance --region hand --load 5%", dict(endurance_s=NO)),
    ("endurance --region elbow --load 0%", dict(endurance_s=NO)),
    ("endurance --region hand --load 80% --from 30%", dict(endurance_s=(0, 0))),
    # computed
    ("fatigue --region hand --load 12% --work 45s --rest 15s --cycles 20",
     dict(peak=(0.191780, 5e-7), steady=(0.192120, 5e-7), fails_in_cycle=NO)),
    ("fatigue --region hand --load 50% --work 30s --rest 10s --cycles 20",
     dict(peak=(0.636336669, 1e-8), steady=NO, fails_in_cycle=(6, 0))),
    ("fatigue --region hand --load 50% --work 30s --rest 10s --cycles 5",
     dict(peak=(0.498731, 5e-7), steady=NO, fails_in_cycle=NO)),
    ("fatigue --region hand --load 12% --work 600s", dict(fatigued=(0.585921, 5e-7))),
    ("fatigue --region hand --load 12% --work 20min", dict(fatigued=(0.929873, 5e-7))),
    ("rest --region hand --from 30% --to 10%", dict(rest_s=(57.2194, 5e-5))),
    ("rest --region hand --from 10% --to 30%", dict(rest_s=(0, 0))),
    ("rest --region hand --from 10% --to 0%", dict(rest_s=NO)),
    # plain arithmetic: 90 x 70 / 100 = 63
    ('cut --done "90 min" --to 70%', dict(dose_ms=(3780000, 0))),
    ('cut --done "15 min" --to 65%', dict(dose_ms=(540000, 0))),
    # geometry
    ('travel --view-turn "90 deg" --cm-per-turn 30', dict(travel_cm=(7.5, 1e-12), movement="large-turn")),
    ('travel --view-turn "180 deg" --cm-per-turn 40', dict(travel_cm=(20, 1e-12), movement="large-turn")),
    ('travel --view-turn "20 deg" --cm-per-turn 30', dict(travel_cm=(5 / 3, 1e-12), movement="small-turn")),
    # computed
    ("training-load 420 0 300 540 0 360 180",
     dict(load=(1800, 0), training_monotony=(1.242118, 5e-7), training_strain=(2235.812, 5e-4))),
    ("training-load 60 60 60 60 60 60 60", dict(load=(420, 0), training_monotony=NO, training_strain=NO)),
    ("training-load 0 0 0 0 0 0 0", dict(load=(0, 0), training_monotony=NO, training_strain=NO)),
]

# (command, what the one sentence must name)
REFUSED = [
    ("", "training-load"),
    ("streak", "strain-index"),
    ("endurance --region hand", "--load"),
    ("endurance --load 12%", "hand, elbow, shoulder"),
    ("endurance --region knee --load 12%", "hand, elbow, shoulder"),
    ("endurance --region hand --load 12", "unit"),
    ("endurance --region hand --load 101%", "0 % to 100 %"),
    ("endurance --region hand --load -1%", "0 % to 100 %"),
    ("endurance --region hand --load nan%", "12%"),
    ("endurance --region hand --load 1e999%", "12%"),
    ("endurance --region hand --load", "value"),
    ("endurance --region hand --load 12% --weight 3", "--weight"),
    ("endurance --region hand --load 12% more", "more"),
    ("endurance --region hand --load 12% --format xml", "xml"),
    ("fatigue --region hand --load 12% --work 45", "unit"),
    ("fatigue --region hand --load 12% --work 45s --rest 15s", "--cycles"),
    ("fatigue --region hand --load 12% --work 45s --cycles 20", "--rest"),
    ("fatigue --region hand --load 12% --work 45s --rest 15s --cycles 0", "1 to 1000000"),
    ("fatigue --region hand --load 12% --work 45s --rest 15s --cycles 2.5", "20"),
    ("fatigue --region hand --load 12% --work 25h", "24 h"),
    ("rest --region hand --from 30%", "--to"),
    ("strain-index --intensity 12% --efforts 601/min --lasts 0.01s --hours 2", "600 /min"),
    ("strain-index --intensity 12% --efforts 61/min --lasts 1s --hours 2", "60 s a minute"),
    ('strain-index --intensity 12% --efforts 60/min --lasts 0.3s --wrist "91 deg flexion" --hours 2', "90"),
    ('strain-index --intensity 12% --efforts 60/min --lasts 0.3s --wrist "25 deg sideways" --hours 2', "extension"),
    ("strain-index --intensity 12% --efforts 60/min --lasts 0.3s --hours 25", "24"),
    ('cut --done "90" --to 70%', "unit"),
    ('cut --done "90 min" --to 170%', "100 %"),
    ('travel --view-turn "721 deg" --cm-per-turn 30', "720 deg"),
    ('travel --view-turn "90 deg" --cm-per-turn 1', "2 to 200"),
    ("training-load 420 0 300", "seven"),
    ("training-load 420 0 300 540 0 360 180 60", "60"),
    ("training-load 420 0 300 540 0 360 -180", "day 7"),
    ("training-load 420 0 300 540 0 360 much", "day 7"),
]


def check_forms(calc):
    for line, expected in FORMS:
        print(line)
        found = calc.json(line)
        assert list(found) == list(expected), f"keys {list(found)}"
        for key, value in expected.items():
            if value is None or isinstance(value, str):
                assert found[key] == value, f"{key}: {found[key]}"
            else:
                assert found[key] is not None and abs(found[key] - value[0]) <= value[1], f"{key}: {found[key]}"
        status, out, err = calc.ask(line)
        assert status == 0 and out and not err
        assert "unlimited" not in out.lower()


def check_refusals(calc):
    for line, names in REFUSED:
        print("refused:", line)
        for ending in ("", " --format json") if line and "--format" not in line and not line.endswith("--load") else ("",):
            status, out, err = calc.ask(line + ending)
            assert status == 2 and out == "", (status, out)
            assert err.count("\n") == 1 and names in err, err


def check_digits(calc):
    value = calc.ask("endurance --region hand --load 12% --format json")[1]
    digits = value.split(":")[1].strip("}\n").replace(".", "")
    assert len(digits) >= 9, value


program = sys.argv[1]
for language in ("C.UTF-8", "de_DE.UTF-8"):
    calc = Calc(program, dict(os.environ, LC_ALL=language, LANGUAGE="en"))
    check_forms(calc)
    check_refusals(calc)
    check_digits(calc)
    status, out, _err = calc.ask("endurance --region hand --load 5%")
    assert "hurt" in out
    calc.close()
