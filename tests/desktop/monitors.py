# SPDX-License-Identifier: GPL-3.0-or-later
"""Two monitors of one X server: a card comes where the full-screen game in front is, wherever the pointer is; beside it
where the player wants that. Xvfb has one monitor; Xorg's driver without a screen has as many as are asked for.

usage: monitors.py SHOW-FACES FOLDER
"""
import os
import pathlib
import shutil
import sys
import time

from Xlib import X, Xutil
from Xlib.protocol import event

from card_places import SIXTH, THIRD, faults_on_monitor, standing
from desktop import Desktop, Failed, no_complaints, wait

WIDTH, HEIGHT = 1280, 800
OUTPUTS = {"DUMMY0": 0, "DUMMY1": WIDTH}  # where each begins
REMOVE, ADD, BY_A_PERSON = 0, 1, 2  # Extended Window Manager Hints
CONFIGURATION = f"""
Section "ServerFlags"
  Option "AutoAddDevices" "false"
  Option "AutoAddGPU" "false"
EndSection
Section "Device"
  Identifier "device"
  Driver "dummy"
  VideoRam 65536
EndSection
Section "Monitor"
  Identifier "monitor"
  HorizSync 5-1000
  VertRefresh 5-200
EndSection
Section "Screen"
  Identifier "screen"
  Device "device"
  Monitor "monitor"
  DefaultDepth 24
  SubSection "Display"
    Depth 24
    Modes "{WIDTH}x{HEIGHT}"
    Virtual {2 * WIDTH} {HEIGHT}
  EndSubSection
EndSection
"""


def skip(why):
    print("skipped:", why)
    sys.exit(77)


class TwoMonitors(Desktop):
    def x_answers(self, number):
        reader, writer = os.pipe()
        self.spawn("xorg", ["Xorg", f":{number}", "-displayfd", writer, "-config", self.write("xorg.conf", CONFIGURATION), "-logfile",
                            self.folder / "xorg-own.log", "-nolisten", "tcp", "-noreset", "-novtswitch", "-dpi", "96"], pass_fds=[writer])
        os.close(writer)
        with os.fdopen(reader) as told:
            answer = told.readline().strip()
        if not answer and self.children["xorg"].wait() and "already active" not in (self.folder / "xorg.log").read_text():
            skip("Xorg does not start here: " + (self.folder / "xorg.log").read_text()[-500:])
        return answer

    def start_bus(self):
        mode = f"{WIDTH}x{HEIGHT}"
        # Its second output is known to be connected once it is asked about in use: programs go by what was known last.
        for words in (["--addmode", "DUMMY1", mode], ["--output", "DUMMY1", "--mode", mode, "--right-of", "DUMMY0"], ["--query"]):
            status, _, said = self.run(["xrandr", *words])
            if status != 0:
                raise Failed(f"no second monitor: {said}")
        super().start_bus()


class Game:
    """A full-screen window in front, on the monitor it was made on."""

    def __init__(self, windows, name):
        self.windows = windows
        display, root = windows.display, windows.root
        left = OUTPUTS[name]
        self.window = root.create_window(left + 100, 100, 400, 400, 0, display.screen().root_depth, background_pixel=0x20303c)
        self.window.set_wm_name("game")
        self.window.set_wm_class("game", "Game")
        self.window.set_wm_normal_hints(flags=Xutil.USPosition | Xutil.PSize)
        self.window.map()
        self.asked = 0.0
        wait("a managed game", lambda: windows.property(self.window, "WM_STATE") is not None)
        wait("a full screen", lambda: windows.place(self.window) == (left, 0, WIDTH, HEIGHT) or self.fill(left))
        wait("the game in front", lambda: list(windows.property(windows.root, "_NET_ACTIVE_WINDOW") or [])[:1] == [self.window.id]
             or self.again_in_a_second() and self.ask("_NET_ACTIVE_WINDOW", BY_A_PERSON, X.CurrentTime))

    def again_in_a_second(self):
        if time.monotonic() < self.asked + 1:
            return False
        self.asked = time.monotonic()
        return True

    def fill(self, left):
        """The monitor that begins at @left: a window that was put on another as it came fills that one, and is brought back."""
        full = self.windows.atom("_NET_WM_STATE_FULLSCREEN")
        if self.again_in_a_second():
            self.ask("_NET_WM_STATE", REMOVE, full, 0, BY_A_PERSON)
            self.window.configure(x=left + 100, y=100)
            self.ask("_NET_WM_STATE", ADD, full, 0, BY_A_PERSON)

    def ask(self, what, *data):
        """Of the window manager, as a person would."""
        asked = event.ClientMessage(window=self.window, client_type=self.windows.atom(what), data=(32, [*data, 0, 0, 0, 0, 0][:5]))
        self.windows.root.send_event(asked, event_mask=X.SubstructureRedirectMask | X.SubstructureNotifyMask)
        self.windows.display.sync()

    def end(self):
        self.window.destroy()
        self.windows.display.sync()


def card(desktop, show_faces, **environment):
    """Where the one card there is stands, once it has stood there for a second."""
    desktop.spawn("carpace", [show_faces, "rating"], environment={"CARDS_ONLY": "1", **environment})
    place = wait("a card that stands still", standing(
        lambda: [desktop.windows.place(window) for window in desktop.windows.of_class("show-faces")]))
    desktop.stop("carpace")
    wait("its end", lambda: not desktop.windows.of_class("show-faces"))
    return place


def must_stand_on(name, place, share, why):
    faults = faults_on_monitor(place, OUTPUTS[name], share, (WIDTH, HEIGHT))
    if faults:
        raise Failed(f"{why}: not on {name}: {faults}")


def main(show_faces, folder):
    missing = [what for what, there in (("Xorg", shutil.which("Xorg")), ("xrandr", shutil.which("xrandr")), (
        "the dummy driver of Xorg", any(pathlib.Path("/usr/lib/xorg/modules/drivers").glob("dummy_drv.so")))) if not there]
    if missing:
        skip("not installed: " + ", ".join(missing))
    with TwoMonitors("xfwm4", folder, tray_host=False, notifications=False) as desktop:
        for name, other in (list(OUTPUTS), list(OUTPUTS)[::-1]):
            game = Game(desktop.windows, name)
            desktop.windows.root.warp_pointer(OUTPUTS[other] + 300, 300)
            desktop.windows.display.sync()
            must_stand_on(name, card(desktop, show_faces), SIXTH, "where the game is")
            must_stand_on(other, card(desktop, show_faces, CARDS_OTHER_MONITOR="1"), THIRD, "beside the game")
            game.end()
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
