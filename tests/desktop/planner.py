# SPDX-License-Identifier: GPL-3.0-or-later
"""The planner as its user has it: a plan for a left hand made by the mouse and by keys, saved, checked, broken, mended;
a crash that takes nothing away; a tray that does not pay for any of it; and how all of it looks.

usage: planner.py make|crash|tray CARPACE FOLDER
       planner.py look SHOW-PLANNER FOLDER PLAN LOOK...   (a look: dark, double, german, mirrored, large-text)
"""
import difflib
import pathlib
import re
import sys
import time

from Xlib import X
from Xlib.ext import xtest

from desktop import Desktop, Failed, no_complaints, wait
from faces import Faces
from letters import letters_stand_out
from product import Carpace
from today import Person, controls_have_names_and_room

TEMPLATE = "two-halves"
KEYS = {" ": ["space"], ",": ["comma"], "/": ["slash"], ".": ["period"], "-": ["minus"], "_": ["Shift_L", "underscore"]}
LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}, "german": {"LANGUAGE": "de"}, "mirrored": {"MIRRORED": "1"},
         "large-text": {"LARGE_TEXT": "1"}}
TABS = 5
INKED = ("label", "push button", "toggle button", "radio button", "check box", "text", "spin button", "page tab", "drawing area")
# Of GTK 3's own file dialog, at times: it goes while the key that took its path is still down.
OF_FILE_DIALOG = "gtk_widget_event: assertion 'WIDGET_REALIZED_FOR_EVENT"
MODULE = "carpace-planner.so"  # all of the planner, loaded by the process that shows it
COMMANDS = "carpace-commands.so"  # by the process of a command
STEADY_S = 2


class Planner:
    """One who plans, by the mouse where that is quick and by keys elsewhere."""

    def __init__(self, desktop, program, file):
        self.desktop, self.program, self.file = desktop, program, file
        self.mouse, self.keys = Person(desktop, "mouse"), Person(desktop, "keys")
        self.faces = self.mouse.faces
        self.starts = 0

    def start(self, *words):
        self.starts += 1
        self.desktop.spawn("carpace", [self.program, "planner", *(words or [self.file])])
        self.desktop.started("carpace", "the planner", lambda: self.faces.find("Save", "push button"))

    def gone(self):
        return self.desktop.children.pop("carpace").wait(60)

    def page(self, name):
        self.desktop.windows.click(*self.faces.middle(self.mouse.see(name, "page tab")))

    def says(self, words, *roles):
        return wait(words, lambda: self.faces.find(words, *roles))

    def focused(self):
        return self.keys.focused()

    def tab_to(self, name):
        """By Tab, one step at a time: the next only once the last one was seen."""
        for _ in range(120):
            before = wait("the focus", lambda: self.focused() or ["nowhere"])
            if any(name in other for other in before):
                return
            self.desktop.windows.key("Tab")
            try:
                wait("the focus to move", lambda: self.focused() not in ([], before), 2)
            except Failed:
                continue
        raise Failed(f"{name!r} is not reached by Tab")

    def press_by_keys(self, name):
        self.tab_to(name)
        self.desktop.windows.key("space")

    def typed(self, name, text):
        """Into the entry of that name, by keys alone; Return takes it."""
        self.tab_to(name)
        self.desktop.windows.key("Control_L", "a")
        self.desktop.windows.key("Delete")
        self.write(text)
        self.desktop.windows.key("Return")

    def write(self, text):
        for letter in text:
            self.desktop.windows.key(*KEYS.get(letter, ["Shift_L", letter.lower()] if letter.isupper() else [letter]))

    def reads(self, text):
        """Whether an entry has @text."""
        return any(widget.get_text(0, -1) == text for role, _name, widget in self.faces.widgets() if role == "text")

    def open(self, file):
        """By the desktop's own dialog, whose keys take a path."""
        self.desktop.windows.key("Control_L", "o")
        wait("the dialog", lambda: self.faces.find("Open a plan", "file chooser") or self.faces.find("Open a plan", "dialog"))
        self.write("/")
        wait("where a path is written", lambda: self.reads("/"))
        self.write(str(file)[1:])
        wait("the path", lambda: self.reads(str(file)))
        self.desktop.windows.key("Return")

    def focus_rail(self):
        """It is called by what is chosen on it, with its times."""
        self.tab_to(" to ")

    def rail(self):
        return wait("the rail", lambda: self.faces.find("Block", "drawing area"))

    def rail_name(self):
        return self.rail().get_name()

    def value(self, words):
        """The figure of the label that begins with @words."""
        return float(re.search(r": ([0-9.]+)$", self.says(words, "label").get_name())[1])

    def changed(self):
        return self.faces.find(", changed", "label")

    def undone(self):
        """Everything: until there is nothing left to undo."""
        self.desktop.windows.key("Control_L", "z")

    # -- the mouse, held

    def hold(self, x, y):
        xtest.fake_input(self.desktop.windows.display, X.MotionNotify, x=int(x), y=int(y))
        xtest.fake_input(self.desktop.windows.display, X.ButtonPress, 1)
        self.desktop.windows.display.sync()

    def drag_to(self, x, y):
        xtest.fake_input(self.desktop.windows.display, X.MotionNotify, x=int(x), y=int(y))
        self.desktop.windows.display.sync()

    def let_go(self):
        xtest.fake_input(self.desktop.windows.display, X.ButtonRelease, 1)
        self.desktop.windows.display.sync()


def make(desktop, program):
    carpace = Carpace(desktop, program)
    file = desktop.home / "team.plan.yaml"
    carpace.told("plan", "new", file, TEMPLATE)
    template = file.read_text()
    planner = Planner(desktop, program, file)
    planner.start()
    controls_have_names_and_room(planner.faces)
    desktop.picture("opened")

    # the hand, by the mouse and by keys
    planner.page("Player and week")
    planner.mouse.press("Mouse hand: left hand", "radio button")
    planner.tab_to("Grip: Palm")
    for grip in ("Grip: Claw", "Grip: Fingertips"):
        desktop.windows.key("Right")
        wait(grip, lambda: any(grip in name for name in planner.focused()))
    desktop.windows.key("space")
    controls_have_names_and_room(planner.faces)
    wait("that it is changed", planner.changed)

    # four quarters, by keys
    planner.page("Blocks")
    planner.press_by_keys("Quarters")
    planner.says("Proven")
    desktop.picture("before-and-after")
    planner.press_by_keys("Use these blocks")
    wait("four blocks", lambda: planner.faces.find("Strain index, Block 4", "label"))
    desktop.picture("quarters")

    # a block's end by keys and by the mouse: the numbers follow before it is let go
    before = planner.value("Strain index, Day")
    planner.focus_rail()
    desktop.windows.key("Home")
    wait("the first block", lambda: planner.rail_name().startswith("Block 1"))
    limit = re.match(r"Block 1, ([^,]+),", planner.rail_name())[1]
    desktop.windows.key("Shift_L", "Right")
    wait("half a minute more", lambda: re.match(r"Block 1, ([^,]+),", planner.rail_name())[1] != limit)
    assert planner.value("Strain index, Day") > before
    planner.undone()
    wait("what it was", lambda: re.match(r"Block 1, ([^,]+),", planner.rail_name())[1] == limit)
    drag(planner, before)

    # saved, and checked by the command line
    desktop.windows.key("Control_L", "s")
    wait("the file", lambda: "side: left" in file.read_text())
    wait("that it is saved", lambda: not planner.changed())
    differs_only_where_it_should(template, file.read_text())
    checked = carpace.told("plan", "check", file)
    assert "Block 4" in checked and "Block 5" not in checked, checked
    assert "left" in carpace.told("plan", "show", file) and "fingertip" in carpace.told("plan", "show", file)

    # broken: told in its place and in the list, which leads there; undone
    saved = file.read_text()
    planner.page("Blocks")
    planner.typed("Limit of block 1", "5 h")
    fault = planner.says("Fault, line", "push button")
    desktop.picture("broken")
    assert "4 h" in fault.get_name(), fault.get_name()
    planner.page("Rules")
    planner.mouse.press("Fault, line")
    wait("the place of the fault", lambda: any("Limit of block 1" in name for name in planner.keys.focused()))
    planner.undone()
    wait("no fault", lambda: not planner.faces.find("Fault, line", "push button"))
    wait("nothing changed", lambda: not planner.changed())
    assert file.read_text() == saved

    # what another program wrote meanwhile stays
    planner.typed("Limit of block 1", "17 min")
    wait("that it is changed", planner.changed)
    file.write_text(saved + "# by somebody else\n")
    desktop.windows.key("Control_L", "s")
    planner.says("another program")
    assert file.read_text().endswith("# by somebody else\n")
    desktop.picture("changed-meanwhile")

    # what is unsaved is asked about
    desktop.windows.key("Control_L", "q")
    planner.says("Save the changes")
    desktop.picture("asked")
    planner.mouse.press("Throw away")
    assert planner.gone() == 0
    assert file.read_text() == saved + "# by somebody else\n"


def drag(planner, before):
    """The first block's last bar, found as a hand finds it: by trying where something moves."""
    box, name = planner.rail().get_extents(0), planner.rail_name()
    y = box.y + box.height // 4
    for x in range(box.x + box.width // 12, box.x + box.width // 3, 6):
        planner.hold(x, y)
        planner.drag_to(x + 10, y)
        planner.drag_to(x + 30, y)
        try:
            wait("a higher index", lambda: planner.value("Strain index, Day") > before, 0.7)
        except Failed:
            planner.desktop.windows.key("Escape")
            planner.let_go()
            continue
        planner.desktop.picture("held")
        planner.let_go()
        wait("that it is taken", lambda: planner.rail_name() != name)
        planner.undone()
        wait("what it was", lambda: planner.value("Strain index, Day") <= before)
        return
    raise Failed(f"no end to drag in {name}")


def differs_only_where_it_should(before, after):
    """Outside of the hand and the blocks not one line; and no comment is lost."""
    head, blocks = before.split("\nblocks:\n")
    new_head, new_blocks = after.split("\nblocks:\n")
    lines = [line for line in difflib.ndiff(head.splitlines(), new_head.splitlines()) if line[0] in "+-"]
    assert lines == ["- hand: {side: right, grip: palm}", "+ hand: {side: left, grip: fingertip}"], lines
    assert new_blocks.count("limit:") == 4 and new_blocks != blocks, new_blocks
    assert re.findall("#.*", after) == re.findall("#.*", before)


def crash(desktop, program):
    carpace = Carpace(desktop, program)
    file = desktop.home / "team.plan.yaml"
    other = desktop.home / "other.plan.yaml"
    drafts = desktop.home / "state" / "carpace" / "drafts"
    carpace.told("plan", "new", file, TEMPLATE)
    before = file.read_text()
    planner = Planner(desktop, program, file)
    planner.start()
    planner.typed("Limit of block 1", "25 min")
    kept = wait("the draft", lambda: next((path for path in drafts.glob("*.plan.yaml") if "25 min" in path.read_text()), None))
    assert kept.stat().st_mode & 0o777 == 0o600
    desktop.stop("carpace", 9)
    assert file.read_text() == before
    planner.start()
    planner.says("was not saved")
    desktop.picture("offered")
    # another plan opened meanwhile is not asked about it, and its own changes are kept
    carpace.told("plan", "new", other, TEMPLATE)
    planner.open(other)
    wait("the other plan", lambda: planner.faces.find("other.plan.yaml", "label"))
    wait("no question", lambda: not planner.faces.find("was not saved"))
    planner.typed("Limit of block 1", "24 min")
    wait("its draft", lambda: any("24 min" in path.read_text() for path in drafts.glob("*.plan.yaml")))
    desktop.windows.key("Control_L", "s")
    wait("the other file", lambda: "24 min" in other.read_text())
    planner.open(file)
    planner.says("was not saved")
    planner.mouse.press("Go on with it")
    wait("the change", lambda: "25 min" in planner.rail_name())
    wait("that it is changed", planner.changed)
    desktop.windows.key("Control_L", "s")
    wait("the file", lambda: "25 min" in file.read_text())
    wait("no draft", lambda: not list(drafts.glob("*.plan.yaml")))
    desktop.windows.key("Control_L", "q")
    assert planner.gone() == 0


def resident_kib(pid):
    return int(re.search(r"^VmRSS:\s+(\d+)", pathlib.Path(f"/proc/{pid}/status").read_text(), re.M)[1])


def steady_kib(pid):
    """The size of @pid's memory once it has been the same for STEADY_S."""
    last, since = resident_kib(pid), time.monotonic()

    def steady():
        nonlocal last, since
        now = resident_kib(pid)
        if now != last:
            last, since = now, time.monotonic()
        return time.monotonic() - since >= STEADY_S

    wait(f"the memory of {pid} to be steady", steady)
    return last


def modules(pid):
    return pathlib.Path(f"/proc/{pid}/maps").read_text()


def has_the_keys(desktop, window):
    focused = desktop.windows.focused()
    return focused > X.PointerRoot and window.id in desktop.windows.line_of(desktop.windows.display.create_resource_object("window", focused))


def tray(desktop, program):
    """The tray program beside it loads nothing of it and knows nothing of it; what it holds before and after is printed."""
    carpace = Carpace(desktop, program)
    file = desktop.home / "team.plan.yaml"
    carpace.told("plan", "use", TEMPLATE)
    carpace.told("plan", "new", file, TEMPLATE)
    carpace.start()
    carpace.told("caution", "none")
    carpace.told("morning", "0", "usual", "--now", "0")
    before = steady_kib(carpace.pid)
    planner = desktop.spawn("planner", [program, "planner", file])
    window = wait("the planner", lambda: desktop.windows.titled("Planner"))[0]
    assert planner.pid != carpace.pid and MODULE in modules(planner.pid) and COMMANDS in modules(planner.pid)
    assert MODULE not in modules(carpace.pid) and COMMANDS not in modules(carpace.pid)
    wait("the planner to have the keys", lambda: has_the_keys(desktop, window))
    desktop.picture("both")
    desktop.windows.key("Control_L", "q")
    assert planner.wait(60) == 0
    assert MODULE not in modules(carpace.pid)
    print(f"resident: {before} KiB before the planner, {steady_kib(carpace.pid)} KiB after it")
    carpace.told("quit")
    assert carpace.gone() == 0


def look(desktop, program, plan, looks):
    scale = 2 if "double" in looks else 1
    faces = Faces(scale)
    desktop.spawn("carpace", [program, plan])
    tabs = wait("its pages", lambda: [widget for role, _name, widget in faces.widgets() if role == "page tab"], 60)
    assert len(tabs) >= TABS
    for number, tab in enumerate(tabs):
        desktop.windows.click(*faces.middle(tab))
        wait("the page", lambda: "selected" in {state.value_nick for state in tab.get_state_set().get_states()})
        controls_have_names_and_room(faces)
        letters_stand_out(desktop, faces, f"page-{number}", roles=INKED, also_grey=False)


def main(scenario, program, folder, *more):
    environment = {name: value for way in more[1:] for name, value in LOOKS[way].items()}
    size = "2560x1600" if "double" in more else "1280x800"
    with Desktop("xfwm4", folder, size=size, environment=environment, tray_host=scenario == "tray", notifications=False) as desktop:
        if scenario == "look":
            look(desktop, program, more[0], more[1:])
        else:
            {"make": make, "crash": crash, "tray": tray}[scenario](desktop, program)
        no_complaints(desktop.folder, also_of_others=(OF_FILE_DIALOG,))


if __name__ == "__main__":
    main(*sys.argv[1:])
