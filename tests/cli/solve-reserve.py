# SPDX-License-Identifier: GPL-3.0-or-later
"""The fatigue model's equations, solved by a general solver (scipy).

usage: solve-reserve.py CALC-ALONE
Outside check of carpace calc over a grid of loads, starts and duty cycles, to
1e-9. The equations are the published ones (Xia, Frey-Law 2008): active,
fatigued and resting shares with a controller that tracks the load. Solved
twice: with the controller's rate without end, switching exactly where the load
can no longer be held, and with finite rates, whose solutions must come to the
first in proportion to 1 / rate.
"""
import sys

from scipy.integrate import solve_ivp

from calc_driver import Calc

# Frey-Law, Looft, Heitsman 2012 (F, R); Looft, Herkert, Frey-Law 2018 (r)
REGIONS = {"hand": (0.00980, 0.00064, 30), "elbow": (0.00912, 0.00094, 15), "shoulder": (0.01820, 0.00168, 15)}
LOADS = (1, 5, 6, 7, 9, 10, 12, 15, 20, 35, 50, 80, 100)
STARTS = (0, 10, 45, 85, 95, 100)
WITHIN = 1e-9


def piece(f, m, seconds, stop=None):
    """(m, time gone by) after @seconds of m' = f(m), or where stop(m) is 0."""
    if seconds <= 0:
        return m, 0.0
    event = None
    if stop:
        def event(_t, y):
            return stop(y[0])
        event.terminal = True
    solved = solve_ivp(lambda _t, y: [f(y[0])], (0, seconds), [m], method="DOP853", rtol=3e-14, atol=1e-16, events=event)
    assert solved.success
    return solved.y[0, -1], solved.t[-1]


def work(region, m, load, seconds):
    """Fatigued share after @seconds of @load; when it was first not held (None: never)."""
    F, R, _r = REGIONS[region]
    most = 1 - load
    rising = F * load - R * most > 0
    gone, failed = 0.0, 0.0 if m > most else None
    while gone < seconds:
        above = m > most or (m == most and rising)
        if above and failed is None:
            failed = gone
        crosses = m != most and above != rising
        rate = (lambda x: F * (1 - x) - R * x) if above else (lambda x: F * load - R * x)
        m, t = piece(rate, m, seconds - gone, (lambda x: x - most) if crosses else None)
        if crosses and t < seconds - gone:
            m = most
        gone += t
    return m, failed


def rest(region, m, seconds):
    _F, R, r = REGIONS[region]
    return piece(lambda x: -r * R * x, m, seconds)[0]


def close(line, key, found, expected):
    assert found is not None and abs(found - expected) <= WITHIN * max(1, abs(expected)), f"{line}: {key} {found}, solver {expected}"


def single_bouts(calc):
    n = 0
    for region in REGIONS:
        for load in LOADS:
            for seconds in (1, 45, 300, 1500, 7200):
                line = f"fatigue --region {region} --load {load}% --work {seconds}s"
                close(line, "fatigued", calc.json(line)["fatigued"], work(region, 0, load / 100, seconds)[0])
                n += 1
    return n


def endurance(calc):
    n = 0
    for region, (F, R, _r) in REGIONS.items():
        for load in LOADS:
            for start in STARTS:
                line = f"endurance --region {region} --load {load}% --from {start}%"
                found = calc.json(line)["endurance_s"]
                failed = work(region, start / 100, load / 100, 40000)[1]
                # near the load that is held without end the moment is ill-conditioned: compared where it was held
                if failed is None:
                    assert found is None, f"{line}: {found}"
                elif failed == 0 or F * load / 100 - R * (1 - load / 100) > 1e-4:
                    close(line, "endurance_s", found, failed)
                n += 1
    return n


def duty_cycles(calc):
    n = 0
    for region in REGIONS:
        for load in (5, 8, 12, 20, 50):
            for seconds, pause in ((10, 10), (45, 15), (120, 30), (600, 30)):
                m, fails = 0, None
                for cycle in range(1, 13):
                    m, failed = work(region, m, load / 100, seconds)
                    fails = fails or (cycle if failed is not None else None)
                    peak, m = m, rest(region, m, pause)
                line = f"fatigue --region {region} --load {load}% --work {seconds}s --rest {pause}s --cycles 12"
                found = calc.json(line)
                close(line, "peak", found["peak"], peak)
                assert found["fails_in_cycle"] == fails, f"{line}: {found}, solver {fails}"
                n += 1
    return n


def rests(calc):
    n = 0
    for region in REGIONS:
        for start, level in ((100, 1), (90, 50), (30, 10), (10, 9)):
            line = f"rest --region {region} --from {start}% --to {level}%"
            assert abs(rest(region, start / 100, calc.json(line)["rest_s"]) - level / 100) <= WITHIN
            n += 1
    return n


def tracking(region, load, rate):
    """Slopes of the active and the fatigued share, the controller tracking at @rate a second."""
    F, R, _r = REGIONS[region]

    def slopes(_t, y):
        active, fatigued = y
        control = rate * min(load - active, 1 - active - fatigued) if active < load else rate * (load - active)
        return [control - F * active, F * active - R * fatigued]

    return slopes


def finite_rate(region, load, seconds, rate):
    """Fatigued share after @seconds, the controller tracking at @rate a second."""
    solved = solve_ivp(tracking(region, load, rate), (0, seconds), [0, 0], method="LSODA", rtol=1e-11, atol=1e-13)
    return solved.y[1, -1]


def finite_rates_come_to_it(calc):
    n = 0
    for region, load, seconds in (("hand", 12, 600), ("hand", 50, 300), ("elbow", 20, 900), ("shoulder", 5, 600)):
        line = f"fatigue --region {region} --load {load}% --work {seconds}s"
        found = calc.json(line)["fatigued"]
        apart = [abs(finite_rate(region, load / 100, seconds, rate) - found) for rate in (10, 100, 1000)]
        assert apart[0] < 5e-3 and apart[1] < apart[0] / 5 and apart[2] < apart[1] / 5, f"{line}: {apart}"
        n += 1
    return n


# Endurance times of the 2012 paper as an open implementation of it tabulates them, s
TABLE = {"hand": {10: "1385", 20: "473", 30: "258", 50: "106", 80: "25.8"},
         "elbow": {10: "2796", 20: "566", 50: "116"}, "shoulder": {10: "1059", 20: "274", 50: "57.7"}}
# A second. The table does not tell its own; this one comes to all of its digits.
TABLE_RATE = 50


def endurance_at_rate(region, load, rate):
    """Time until what rests is less than what the controller asks for, once it has caught up."""
    def ends(t, y):
        return 1.0 if t < 1 else 1 - y[0] - y[1] - (load - y[0])

    ends.terminal = True
    solved = solve_ivp(tracking(region, load, rate), (0, 1e4), [0, 0], method="LSODA", rtol=1e-10, atol=1e-13, max_step=5, events=ends)
    return solved.t[-1]


def the_published_table(calc):
    """Where the closed form is 0.1 to 0.2 % off the table, the table's finite rate is why."""
    n = 0
    for region, row in TABLE.items():
        for load, printed in row.items():
            digit = 0.1 if "." in printed else 1
            solved = endurance_at_rate(region, load / 100, TABLE_RATE)
            found = calc.json(f"endurance --region {region} --load {load}%")["endurance_s"]
            assert abs(solved - float(printed)) <= 0.6 * digit, f"{region} {load} %: {solved}, printed {printed}"
            assert abs(found - solved) <= 2e-3 * solved, f"{region} {load} %: {found}, at a finite rate {solved}"
            n += 1
    return n


calc = Calc(sys.argv[1])
for check in (single_bouts, endurance, duty_cycles, rests, finite_rates_come_to_it, the_published_table):
    print(check.__name__, check(calc))
calc.close()
