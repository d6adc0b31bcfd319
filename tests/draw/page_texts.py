# SPDX-License-Identifier: GPL-3.0-or-later
"""What the clinician's page has to say of an export's days, sentence by sentence."""
import collections
import datetime
import fractions
import math
import re

from scipy.stats import linregress, t

from exported_days import Day, exactly, mean, minutes, s, short
from held_plans import held
from scripted_season import SITES


def counted(days, of):
    return sum(of(d) for d in days)


def planned_text(days):
    asked = [d for d in days if d.dose > 0 and d.done > 0]
    practised = counted(days, lambda d: d.done > 0)
    opened = counted(days, Day.was_opened)
    blocks = [b for d in days for b in d.blocks if not b["dropped"]]
    n = sum(not b["match"] for b in blocks)
    text = s(practised, "Practice on {} day", "Practice on {} days") + s(n, " in {} block", " in {} blocks")
    if opened > practised:
        text += s(opened - practised, "; {} more day was opened and not practised on",
                  "; {} more days were opened and not practised on")
    none = counted(days, lambda d: d.no_practice)
    if none:
        text += s(none, "; {} day was set without practice", "; {} days were set without practice")
    text += "."
    doses = [d.dose for d in days if d.dose > 0]
    if doses:
        text += (f" Planned for a practice day: first {minutes(doses[0])}, last {minutes(doses[-1])}"
                 f" (least {minutes(min(doses))}, most {minutes(max(doses))}).")
    planned, done = counted(asked, lambda d: d.dose), counted(asked, lambda d: d.done)
    if planned:
        text += f" Done on these days: {minutes(done)} of {minutes(planned)} planned ({100 * done // planned} %)."
    beside = counted(days, lambda d: d.done) - done
    if beside:
        text += f" Done with nothing planned: {minutes(beside)}."
    over = sum(b["over"] for b in blocks)
    if over >= 60000:
        text += f" Past the blocks' limits: {minutes(over)}."
    early, beyond = sum(b["early"] > 0 for b in blocks), sum(b["beyond"] for b in blocks)
    if early:
        text += s(early, " {} block was started before its wait was over.", " {} blocks were started before their wait was over.")
    if beyond:
        text += s(beyond, " {} block was beyond the plan.", " {} blocks were beyond the plan.")
    return text


def weeks_text(ratings, before):
    n, b = len(ratings), len(before)
    if not n:
        return "No block was rated."
    if not b:
        return s(n, "Mean of {} block rating", "Mean of {} block ratings") + f": {mean(sum(ratings), n)}; none the week before."
    text = f"Mean of {n} block ratings: {mean(sum(ratings), n)}; the week before {mean(sum(before), b)} of {b}. "
    if n < 6 or b < 6:
        return (text if n != 1 else text.replace("ratings:", "rating:", 1)) + "Too few to compare (6 in each)."
    return text + ("More than 0.5 higher." if 2 * (sum(ratings) * b - sum(before) * n) > n * b else "Not more than 0.5 higher.")


def hand_text(all_days, days, until):
    ratings = [r for d in days for r in d.ratings()]
    stop = ([x["stop_above"] for d in days for _, x in d.decisions if x["stop_above"]] or [5])[-1]
    text = "Discomfort, 0 none to 10 worst imaginable."
    if ratings:
        text += (f" After blocks: mean {mean(sum(ratings), len(ratings))}, highest {max(ratings)}, from "
                 + s(len(ratings), "{} rating", "{} ratings") + f"; above {stop}: {sum(r > stop for r in ratings)}.")
    else:
        text += " No block was rated."
    checks = [d.morning for d in days if d.morning]
    waking = [d.waking() for d in days if d.waking() >= 0]
    if not waking:
        text += " No morning check told of waking."
    else:
        text += (f" On waking: mean {mean(sum(waking), len(waking))}, highest {max(waking)}, from "
                 + s(len(waking), "{} morning.", "{} mornings."))
        text += (f" Stiffer than usual on {sum(c['stiffness'] == 'more' for c in checks)},"
                 f" less on {sum(c['stiffness'] == 'less' for c in checks)}.")
        load, relief = sum(c["other_load"] for c in checks), sum(c["pain_relief"] for c in checks)
        if load + relief:
            text += f" Another unusual load the day before: {load}; pain relief taken: {relief}."
    week = [r for d in all_days.values() if until - datetime.timedelta(7) < d.day <= until for r in d.ratings()]
    before = [r for d in all_days.values()
              if until - datetime.timedelta(14) < d.day <= until - datetime.timedelta(7) for r in d.ratings()]
    return (text + (" Last 7 days: " + weeks_text(week, before) if week else "") + at_least_text(all_days, until)
            + sites_text(days))


def needed(worse):
    """Answered days from which @worse of them leave 30 % worse mornings out: Clopper and Pearson, one-sided 97.5 %."""
    share, n = fractions.Fraction(3, 10), worse
    while sum(math.comb(n, i) * share**i * (1 - share)**(n - i) for i in range(worse + 1)) >= fractions.Fraction(1, 40):
        n += 1
    return n


def answered(all_days, until):
    """(dose to the minute, whether the morning was worse) of the practice days of 84 dates that were answered."""
    last, found, usual = None, [], 0
    for day in sorted(d for d in all_days if until - datetime.timedelta(84) <= d <= until):
        d = all_days[day]
        usual = d.decision()["usual"] if d.decision() else usual
        if not d.was_opened():
            continue
        said = d.morning and (d.waking() >= 0 or d.morning["stiffness"] != "unsaid")
        worse = said and (d.morning["stiffness"] == "more" or d.waking() >= usual + 2)
        if last and said and (worse or not d.morning["pain_relief"]) and (day - last.day).days <= 3:
            found.append(((min(last.dose, last.done) + 30000) // 60000 * 60000, bool(worse)))
        last = d if d.done > 0 and d.dose > 0 else None
    return found


def at_least_text(all_days, until):
    decided = [x for d in sorted(all_days) if until - datetime.timedelta(84) <= d <= until
               for _, x in all_days[d].decisions if x["scope"] == "day"]
    downs = sum(x["level_down"] for d in all_days if until - datetime.timedelta(28) < d <= until
                for _, x in all_days[d].decisions if x["scope"] == "day")
    found, width = answered(all_days, until), decided[-1]["first_dose_ms"] // 20
    best = None
    for low in sorted({dose // width for dose, _ in found}):
        for high in sorted({dose // width for dose, _ in found if dose // width >= low}):
            run = [x for x in found if low <= x[0] // width <= high]
            worse = sum(w for _, w in run)
            if worse <= 8 and len(run) >= needed(worse):
                best = min(run)[0], max(run)[0], len(run), worse
    if best is None or downs >= 2:
        return ""
    least, most, n, worse = best
    return (f" At least {exactly(least)}: {n} answered days at {exactly(least)}"
            + (f" to {exactly(most)}" if most > least else "") + f", {worse or 'none'} of them worse. That leaves out, with 97.5"
            " percent certainty, that 30 percent of such mornings are worse; of more practice it says nothing.")


def sites_text(days):
    named = collections.Counter(b["site"] for d in days for b in d.blocks if not b["dropped"] and (b["rating"] or 0) >= 0)
    named.update(d.morning["site"] for d in days if d.morning)
    places = {site: site.replace("-", " ").capitalize() for site in SITES} | {
        "little-finger-side": "Little-finger side", "back-of-forearm": "Back of the forearm"}
    listed = ", ".join(f"{places[site]} {named[site]}" for site in SITES if named[site])
    return f" Where, by count: {listed}." if listed else ""


def dated(day):
    return f"{day.day} {day:%b} {day.year}"


def plan_text(plans, since, until):
    """The plan that holds by then, and what holds from the next day on, once a day tells what it began with; all that holds
    of what is fixed, by which plan, and whether that was released in the period."""
    released = holds = since_day = coming = None
    day_told = False
    by_then = []
    for r in plans:
        day = datetime.datetime.fromisoformat(r["at"]).date()
        if day > until:
            break
        said = (r["name"], r["version"], r.get("text"))
        if r["what"] == "given" and day_told:
            coming = said if said != holds else None
        elif r["what"] != "released":
            coming = None
            since_day = day if said != holds or (r["what"] == "day" and not day_told) else since_day
            holds = said
        day_told = day_told or r["what"] == "day"
        released = (day if day >= since else None) if r["what"] == "released" else released
        by_then.append((day, r))
    name = f"“{holds[0]}”, version {holds[1]}, since {dated(since_day)}."
    if coming and coming[:2] == holds[:2]:
        name += " Changed since, which holds from the next practice day on."
    elif coming:
        name += f" “{coming[0]}”, version {coming[1]}, from the next practice day on."
    return (name + "".join(f" Fixed by “{plan}”, version {version}, since {dated(fixed_since)}: {'; '.join(lines)}."
                           for plan, version, fixed_since, lines in held(by_then) if lines)
            + (f" On {dated(released)} the player released what was fixed." if released else ""))


SIGN_NAMES = {
    "injury": "An injury within the last week",
    "deformed": "The hand or a finger looks misshapen",
    "cannot-move": "The hand or a finger cannot be moved",
    "cold-or-pale": "Fingers icy cold, pale or blue",
    "hot-and-feverish": "A hot, red swelling, or one with fever",
    "numb": "Numbness, or pins and needles",
    "night-pain": "Discomfort that wakes you at night",
    "dropping-things": "Dropping things",
    "weak": "The hand is weaker than usual",
    "locking": "A finger or a joint locks",
    "swollen": "Swelling",
    "not-better": "Not better after two weeks of less load",}


def closed_text(r):
    """How, by whom, when, and what practice goes on with: in numbers of this record."""
    by = {"unsaid": "seen", "physiotherapist": "seen by a physiotherapist", "doctor": "seen by a doctor"}[r["by"]]
    how = "gone, three days on" if r["how"] == "gone" else by
    if r["seen_on"]:
        on = datetime.date.fromisoformat(r["seen_on"])
        how += f", {short(on)} {on.year}"
    after, before = exactly(r["after_ms"]), exactly(r["before_ms"])
    if r["after_ms"] <= 0:
        return f"closed by the player: {how}."
    text = f"The caution was closed ({how}): practice goes on the next practice day with {after}"
    if r["after_ms"] >= r["before_ms"]:
        return text + ", as until then."
    if r["after_ms"] == r["dose_ms"]:
        return text + f" instead of {before}, the most that was allowed to begin with; settled days lead up from there."
    if r["after_ms"] == r["first_dose_ms"] // 2:
        return text + f" instead of {before}, half of the plan's {exactly(r['first_dose_ms'])}."
    return text + f" instead of {before}."


def cautions_text(days):
    lines = []
    for d in days:
        for r in d.cautions:
            named = "; ".join(SIGN_NAMES[sign] for sign in r["signs"]) or "raised by the numbers"
            said = {"opened": f"opened, {named}.", "none": "asked, no sign answered yes.", "asked": None,
                    "closed": closed_text(r) if r["what"] == "closed" else None}[r["what"]]
            if said:
                lines.append(f"{short(d.day)}: {said}")
    return lines or ["None opened or closed in this period."]


def decisions_text(days):
    rules = collections.Counter(d.decision()["rule"] for d in days if d.decision())
    kinds = ((rules["cut"] + rules["cut-once"], "{} cut", "{} cuts"), (rules["rest-day"], "{} rest day", "{} rest days"),
             (rules["caution"], "{} day with a caution open", "{} days with a caution open"),
             (rules["way-back"], "{} rise back towards the aim", "{} rises back towards the aim"),
             (rules["step-up"], "{} step up", "{} steps up"), (rules["take-back"], "{} step taken back", "{} steps taken back"),
             (rules["after-time-off"], "{} step lower after time off", "{} times lower after time off"),
             (rules["no-answers"], "{} step lower for want of answers", "{} steps lower for want of answers"),
             (rules["keep-week"], "{} day kept for a rising week", "{} days kept for a rising week"),
             (counted(days, Day.shortened), "{} block played shortened", "{} blocks played shortened"),
             (counted(days, Day.stopped), "{} day stopped by ratings", "{} days stopped by ratings"))
    return (", ".join(s(*kind) for kind in kinds if kind[0]) or "Nothing changed in this period") + "."


def rest_text(days, other):
    declined = counted(days, lambda d: d.declined)
    matches = sum(b["match"] and not b["dropped"] for d in days for b in d.blocks)
    return (f"Rests: {counted(days, lambda d: d.offered)} offered, {counted(days, lambda d: d.taken)} taken"
            + (f", {declined} declined" if declined else "")
            + s(matches, ". {} match, ", ". {} matches, ") + f"{minutes(counted(days, lambda d: d.match))} in all."
            + other_text(other))


def other_text(other):
    if not other:
        return " Mouse input outside practice is not known."
    return (f" Mouse input outside practice: {minutes(sum(other) // len(other))} a day, from "
            + s(len(other), "{} day.", "{} days."))


def habit_text(days):
    ratings = [r for d in days for r in d.ratings()]
    late = sum(b["late"] and (b["rating"] or 0) >= 0 for d in days for b in d.blocks if not b["dropped"])
    opened = counted(days, Day.was_opened)
    zeros = ratings.count(0)
    text = (f"Ratings: {len(ratings)} of {len(ratings) + counted(days, Day.unanswered)} answered, {late} of them late; "
            f"{zeros} were 0. Morning checks: {counted(days, lambda d: d.morning is not None)} of {opened} days.")
    taps = sorted(b["tap"] for d in days for b in d.blocks if b["tap"] is not None and not b["dropped"])
    if taps:
        text += f" Median time from question to tap: {exactly(taps[(len(taps) - 1) // 2])}."
    if ratings and zeros == len(ratings):
        text += " Every answer was 0."
    blocks = [b for d in days for b in d.blocks if not b["dropped"]]
    return (text + f" Corrected: {sum(b['corrected'] for b in blocks)}; lowered after the number had decided:"
            f" {sum(b['lowered'] for b in blocks)}.")


def day_text(d):
    text = f"{d.day:%a} {d.day.day} {d.day:%b} {d.day.year}."
    if d.dose > 0:
        text += f" Practice: {d.done // 60000} of {d.dose // 60000} min."
    elif d.done > 0:
        text += f" Practice: {d.done // 60000} min."
    elif d.no_practice:
        text += " A day without practice."
    if d.morning is None:
        text += " No morning check."
    elif d.waking() >= 0:
        text += f" On waking: discomfort {d.waking()}."
    if d.morning and d.morning["now"] is not None and d.morning["now"] >= 0:
        text += f" At the check: discomfort {d.morning['now']}."
    if d.ratings():
        text += s(len(d.ratings()), " {} block rating", " {} block ratings") + f", the highest {max(d.ratings())}."
    if d.unanswered():
        text += f" {d.unanswered()} not answered."
    return text + (f" Rests: {d.offered} offered, {d.taken} taken." if d.offered + d.taken else "")


def week_text(all_days, monday):
    days = [d for d in all_days.values() if monday <= d.day < monday + datetime.timedelta(7)]
    asked = [d for d in days if d.dose > 0 and d.done > 0]
    done, waking = counted(asked, lambda d: d.done), [d.waking() for d in days if d.waking() >= 0]
    text = (f"Week to {short(monday + datetime.timedelta(6))}: "
            + s(counted(days, lambda d: d.done > 0), "{} practice day", "{} practice days")
            + f", {minutes(counted(asked, lambda d: d.dose))} planned, {minutes(done)} done; rests: "
            f"{counted(days, lambda d: d.offered)} offered, {counted(days, lambda d: d.taken)} taken")
    beside = counted(days, lambda d: d.done) - done
    return text + (f"; and {minutes(beside)} with nothing planned" if beside else "") + f"; mean on waking {mean(sum(waking), len(waking))}"


def rules_text(plan):
    """The rules' own numbers are 2, 3 and 85 %, two weeks and a week; the others are those of the plan in use."""
    if plan is None:
        return ("The next dose is decided when the next practice day opens, from what is told on waking, from the ratings since"
                " and from what was done.")

    def has(key):
        return re.search(rf"^  {key}: (.*)$", plan, re.M)[1]

    return (f"The next dose is decided when the next practice day opens. Stiffer than usual, or waking 2 or more above the usual"
            f" {has('usual-discomfort')}: cut to {has('cut-to')} of what was done, and back after a settled day. Above"
            f" {has('stop-above')} (no practice that day), a third such morning in two weeks, or one after a rating 3 or more"
            f" above usual: what practice time is led to comes down to 85 %, too. {has('after-good-days')} good days in a row, a"
            f" week after its last change: up by {has('step-up-by')} of the first dose, to {has('at-most')} at most. Otherwise"
            f" it stays. (Numbers of the plan in use now.)")


def caption_text(all_days, since, until):
    """Mornings told of the day after a practice day, and the line of least squares through them."""
    drawn = [all_days[d] for d in sorted(all_days) if since - datetime.timedelta(14) <= d <= until]
    points = [(b.done / 60000, a.waking()) for b, a in zip(drawn, drawn[1:]) if a.waking() >= 0 and a.day >= since
              and (a.day - b.day).days == 1]
    n = len(points)
    if n == 0:
        return "No two days in a row with practice and a morning check."
    if n < 10:
        return s(n, "{} morning.", "{} mornings.") + " No line through fewer than ten."
    x, y = zip(*points)
    if max(x) == min(x):
        return f"{n} mornings, all after the same practice time: no line."
    line = linregress(x, y)
    within = t.ppf(0.975, n - 2) * line.stderr
    slope, low, high = (f"{round(10 * v, 2) + 0.0:+.2f}" for v in (line.slope, line.slope - within, line.slope + within))
    if float(low) <= 0 <= float(high):
        return (f"{n} mornings. Line of least squares: {slope} for 10 min more, but anything from {low} to {high} fits (95 %):"
                " whether it rises or falls cannot be told. It shows no cause.")
    return (f"{n} mornings. Line of least squares: {slope} for 10 min more (95 %: {low} to {high}, dashed). An estimate; it shows"
            " no cause, and practice time itself followed the mornings.")
