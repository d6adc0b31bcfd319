# SPDX-License-Identifier: GPL-3.0-or-later
"""The first minute: from nothing to practice, by the mouse alone and by keys alone; what stops it; what is only shown.

usage: first_minute.py SCENARIO CARPACE HAND FOLDER LOOK...   (a look: dark, double, large, no-tray; german, where its words are installed)
"""
import sys
import time

from desktop import Desktop, no_complaints, wait
from faces import Faces
from letters import letters_stand_out
from product import Carpace

MINUTE_S = 60
CLICKS = 6
LEAST_PX = 44
LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}, "german": {"LANG": "C.UTF-8", "LANGUAGE": "de"},
         "large": {"GDK_DPI_SCALE": "1.5"}, "no-tray": {}}
ANSWERS = (("None of these", "push button"), ("Age: 16 or over", "toggle button"), ("Usual discomfort: 1", "toggle button"),
           ("Comfortable sitting today: 30 min", "toggle button"), ("None", "toggle button"), ("Start practising", "push button"))


class FirstMinute:
    def __init__(self, desktop, program):
        self.desktop = desktop
        self.carpace = Carpace(desktop, program)
        self.faces = Faces(int(desktop.environment.get("GDK_SCALE", "1")))
        self.clicks = 0

    def step(self, name):
        print(f"- {name}", flush=True)

    def find(self, name, role):
        return wait(f"{name!r} on the screen", lambda: self.faces.find(name, role))

    def click(self, name, role):
        self.clicks += 1
        self.desktop.windows.click(*wait(f"{name!r} to stay in its place", lambda: self.faces.settled(name, role)))

    def is_chosen(self, name):
        import gi
        gi.require_version("Atspi", "2.0")
        from gi.repository import Atspi
        return self.find(name, "toggle button").get_state_set().contains(Atspi.StateType.CHECKED)

    # -- what is to be seen

    def targets_are_large_enough(self):
        for role, name, widget in self.faces.widgets():
            if role in ("push button", "toggle button", "check box") and name:
                from gi.repository import Atspi
                box = widget.get_extents(Atspi.CoordType.SCREEN)
                assert box.height >= LEAST_PX and box.width >= LEAST_PX, (name, box.width, box.height)

    def letters_stand_out(self, name):
        letters_stand_out(self.desktop, self.faces, name)


def by_mouse(minute):
    minute.step("the window comes by itself, with nothing of the body answered")
    begun = time.monotonic()
    minute.carpace.start()
    minute.find("None of these", "push button")
    minute.letters_stand_out("cautions")
    minute.targets_are_large_enough()
    minute.click(*ANSWERS[0])
    minute.find("Age: 16 or over", "toggle button")
    for name in ["Age: Under 16", "Age: 16 or over", "None"] + [f"Usual discomfort: {number}" for number in range(11)]:
        assert not minute.is_chosen(name), name
    assert minute.is_chosen("Mouse hand: Right") and minute.is_chosen("Held with: Palm")
    minute.step("six clicks, one minute")
    for name, role in ANSWERS[1:-1]:
        minute.click(name, role)
    wait("the plan", lambda: minute.faces.find("A first week", "label"))
    minute.letters_stand_out("hand")
    minute.targets_are_large_enough()
    minute.click(*ANSWERS[-1])
    status = minute.carpace.until_state("practising", "gap")
    took_s = time.monotonic() - begun
    print(f"{minute.clicks} clicks, {took_s:.1f} s")
    assert minute.clicks <= CLICKS and took_s < MINUTE_S
    assert status["plan"] == "A first week" and status["block"] == 1, status
    minute.step("the player's own copy says what was answered; nothing was answered for them")
    text = minute.carpace.told("plan", "show", "first-week")
    assert "16-or-over" in text and "usual-discomfort: 1" in text, text
    assert [row["what"] for row in minute.carpace.diary("caution")] == ["none"]
    assert not minute.carpace.diary("rating") and not minute.carpace.diary("morning")
    assert not minute.faces.find("None of these", "push button")
    wait("where Carpace is now", lambda: any("in the tray" in notice.body for notice in minute.desktop.bus.notices))
    assert not minute.faces.find("Rest now", "push button")


def by_keys(minute):
    """Each control by Tab, in reading order; Space chooses."""
    minute.step("by keys alone, on a desktop set for the left hand")
    display = minute.desktop.windows.display
    display.set_pointer_mapping([3, 2, 1] + list(display.get_pointer_mapping())[3:])
    minute.carpace.start()
    minute.find("None of these", "push button")
    for name, role in ANSWERS:
        minute.find(name, role)
        if name.startswith("Age"):
            assert minute.is_chosen("Mouse hand: Left") and not minute.is_chosen("Mouse hand: Right")
        tab_to(minute, name)
        minute.desktop.windows.key("space")
    minute.carpace.until_state("practising", "gap")
    assert [row["what"] for row in minute.carpace.diary("caution")] == ["none"]
    assert "side: left" in minute.carpace.told("plan", "show", "first-week")
    minute.step("there is no tray: the window of today takes the place of the first one")
    minute.find("Rest now", "push button")


def focused(minute):
    from gi.repository import Atspi
    for _role, name, widget in minute.faces.widgets():
        if name and widget.get_state_set().contains(Atspi.StateType.FOCUSED):
            return name
    return None


def tab_to(minute, name):
    for _ in range(60):
        before = wait("the focus", lambda: focused(minute) or "nowhere")
        if before == name:
            return
        minute.desktop.windows.key("Tab")
        wait("the focus to move", lambda: focused(minute) not in (None, before))
    raise AssertionError(f"{name!r} is not reached by Tab")


def caution_ticked(minute):
    minute.step("a caution stops before anything else is asked, and stays over a restart")
    minute.carpace.start()
    minute.click("Is there numbness", "check box")
    minute.click("Yes to those ticked", "push button")
    wait("the caution's own words", lambda: minute.faces.find("see it before more practice"))
    wait("a parent", lambda: minute.faces.find("tell a parent"))
    minute.desktop.picture("caution")
    assert minute.carpace.status()["state"] not in ("practising", "gap")
    wait("no first questions any more: there is a plan", lambda: not minute.carpace.item().find("The first questions…"))
    minute.click("Done", "push button")
    wait("the card to be put away", lambda: not minute.faces.find("see it before more practice"))
    minute.carpace.row("Cautions…")
    minute.find("Seen by a physiotherapist or doctor", "push button")
    assert not minute.faces.find("None of these", "push button")
    assert minute.carpace.command("start")[0] == 1
    minute.carpace.kill()
    minute.carpace.start()
    assert minute.carpace.command("start")[0] == 1
    assert [row["what"] for row in minute.carpace.diary("caution")] == ["opened"]


def put_away(minute):
    minute.step("put away unanswered, it comes again; a start asks for it")
    minute.carpace.start()
    minute.find("None of these", "push button")
    minute.desktop.windows.key("Escape")
    wait("the window to go", lambda: not minute.faces.find("None of these", "push button"))
    assert minute.carpace.command("start")[0] == 1
    minute.find("None of these", "push button")
    minute.carpace.kill()
    minute.carpace.start()
    minute.find("None of these", "push button")
    minute.step("with a plan, the cautions are asked by their card, again at the next start, and before practice")
    minute.carpace.told("plan", "use", "first-week")
    minute.find("None of these", "push button")
    assert not minute.carpace.item().find("The first questions…")
    minute.carpace.kill()
    minute.carpace.start()
    minute.find("None of these", "push button")
    status, _out, err = minute.carpace.command("start")
    assert status == 1 and "Cautions first" in err, (status, err)
    assert minute.carpace.status()["state"] == "waiting"
    minute.click("None of these", "push button")
    minute.carpace.told("start")
    minute.carpace.until_state("practising", "gap")


def evening(minute):
    minute.step("an evening that is only shown")
    minute.carpace.start()
    for name, role in ANSWERS[:-1]:
        minute.click(name, role)
    minute.click("Show me an evening", "push button")
    wait("what it is", lambda: minute.faces.find("Nothing of it is kept"))
    wait("a marked card", lambda: minute.faces.find("Example: nothing of this is kept", "label"))
    minute.desktop.picture("morning")
    wait("a rest's card", lambda: minute.faces.find("Rest now", "push button"))
    minute.desktop.picture("rest")
    assert minute.carpace.status()["state"] == "off"
    minute.desktop.windows.key("Escape")
    minute.find("Start practising", "push button")
    assert not minute.faces.find("Nothing of it is kept")
    assert not minute.carpace.diary()
    minute.step("by a command, beside a session that runs")
    minute.click(*ANSWERS[-1])
    minute.carpace.until_state("practising", "gap")
    before = minute.carpace.diary()
    shown = minute.desktop.spawn("evening", [minute.carpace.program, "rehearse", "two-halves", "--show"])
    wait("a marked card", lambda: any("Example: nothing of this is kept" in name for name in names_of(minute, shown.pid)))
    window, = wait("its window", lambda: minute.desktop.windows.titled("an example evening"))
    minute.desktop.picture("by-command")
    wait("its focus", lambda: minute.desktop.windows.focused() in [window.id] + [child.id for child in minute.desktop.windows.walk(window)])
    minute.desktop.windows.key("Escape")
    assert shown.wait(30) == 0
    assert minute.carpace.diary()[:len(before)] == before
    assert not minute.carpace.diary("rating") and minute.carpace.status()["plan"] == "A first week"


def names_of(minute, pid):
    """What the program of @pid says, whichever of its name it is."""
    from gi.repository import Atspi
    programs = [child for child in minute.faces.walk(Atspi.get_desktop(0), depth=24) if child.get_process_id() == pid]
    return [widget.get_name() or "" for program in programs for widget in minute.faces.walk(program)]


def look(minute):
    """Pictures in a look, for whoever judges them; nothing may be too small."""
    german = "LANGUAGE" in minute.desktop.environment
    none, age = ("Nichts davon" if german else "None of these"), ("Alter: Unter 16" if german else "Age: Under 16")
    minute.carpace.start()
    wait("the window", lambda: any(role == "check box" for role, _name, _widget in minute.faces.widgets()))
    minute.letters_stand_out("cautions")
    minute.targets_are_large_enough()
    minute.click(none, "push button")
    minute.click(age, "toggle button")
    minute.letters_stand_out("hand")
    minute.targets_are_large_enough()


SCENARIOS = {"by-mouse": by_mouse, "by-keys": by_keys, "caution-ticked": caution_ticked, "put-away": put_away,
             "evening": evening, "look": look}


def main(scenario, program, hand_program, folder, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    size = "2560x1600" if "double" in looks else "1280x720"
    with Desktop("xfwm4", folder, size=size, environment=environment, tray_host="no-tray" not in looks) as desktop:
        SCENARIOS[scenario](FirstMinute(desktop, program))
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
