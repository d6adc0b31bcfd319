# SPDX-License-Identifier: GPL-3.0-or-later
"""A practice window that runs without X, on sway and on KWin: chosen by its coming to the front, then only what the hand
does while it is there counts. A program of X is chosen the same way, by its class. KWin tells of windows where a desktop
file asks for it, and says so where none does.

usage: window.py COMPOSITOR CARPACE DESKTOP-FILE HAND GAME FOLDER   (sway, kwin)
Run by a user that is not root, with a session bus of its own.
"""
import json
import pathlib
import re
import subprocess
import sys

from hands import Hand
from kwin_scripts import KwinScripts
from session import HERE, Failed, Session, carpace, wait

PATIENCE_S = 40


def status(session, program):
    done = subprocess.run([program, "status", "--format", "json"], env=session.environment, capture_output=True, text=True)
    return json.loads(done.stdout) if done.returncode == 0 else {}


def until(session, program, what, condition):
    return wait(what, lambda: condition(status(session, program)), PATIENCE_S)


def client(session, game, name):
    session.spawn(name, [game, name])
    wait(name, lambda: "ready" in (session.folder / f"{name}.log").read_text(), PATIENCE_S)


class OnSway:
    def __init__(self, session):
        self.session = session

    def go_to(self, name, of_x=False):
        """Whatever is full screen, a person brings another window to the front. @return whether it is there"""
        return subprocess.run(["swaymsg", f'[{"class" if of_x else "app_id"}="{name}"]', "focus"], env=self.session.environment,
                              capture_output=True).returncode == 0

    def listed(self, name, _file, _of_x):
        """As the list of windows says it: this compositor does not tell whose program it is."""
        return name


class OnKwin:
    def __init__(self, session):
        self.scripts = KwinScripts(session)

    def go_to(self, name, of_x=False):
        return self.scripts.said(f"""
        workspace.clientList().forEach(function (window) {{
          if (String(window.resourceClass).toLowerCase() == {json.dumps(name.lower())}) {{
            workspace.activeClient = window;
            say(true);
          }}
        }});""") == [True]

    def listed(self, name, file, of_x):
        """It tells the class of a window of X in small letters."""
        return f"{name.lower() if of_x else name} (program {file})"


def choose(session, desk, program, name, file, of_x=False):
    desk.go_to("other")
    carpace(session, program, "window", "pick")
    wait(f"{name} in front", lambda: desk.go_to(name, of_x), PATIENCE_S)
    listed = desk.listed(name, file, of_x)
    wait(f"{listed} on the list", lambda: listed in carpace(session, program, "window", "list").strip().split(", "), PATIENCE_S)


def counts_only_there(session, desk, program, hand):
    carpace(session, program, "start")
    hand.begin()
    until(session, program, "some practice", lambda now: now.get("active_ms", 0) > 2000)
    desk.go_to("other")
    until(session, program, "a gap", lambda now: now.get("state") == "gap")
    before = status(session, program)["active_ms"]
    desk.go_to("game")
    until(session, program, "more of it", lambda now: now["state"] == "practising" and now["active_ms"] > before + 1000)
    desk.go_to("other")
    until(session, program, "a gap", lambda now: now.get("state") == "gap")
    carpace(session, program, "window", "forget")
    until(session, program, "practice in any window", lambda now: now.get("state") == "practising")
    hand.end()
    carpace(session, program, "end")


def windows_told(session, program):
    """Which ones, and whether something is missing for it."""
    told = json.loads(carpace(session, program, "desktop", "--format", "json"))
    return told["windows"], "windows" in told["missing"]


def declare_all(session, program, desktop_file, hand_program):
    """On KWin: the list is kept back until there is the program's own desktop file, as it is installed but for where the program is."""
    session.declare("hand", f"[Desktop Entry]\nType=Application\nName=Hand\nExec={hand_program}\n"
                            "X-KDE-Wayland-Interfaces=org_kde_kwin_fake_input\n")
    # Whoever is the first to connect waits until KWin has read all desktop files.
    wait("no windows without a desktop file", lambda: windows_told(session, program) == ("x-programs", True), PATIENCE_S)
    own, n = re.subn(r"(?m)^Exec=/.*/carpace$", f"Exec={program}", pathlib.Path(desktop_file).read_text())
    if n != 1:
        raise Failed(f"{n} lines of Exec")
    session.declare("org.carpace.Carpace", own)


def main(compositor, program, desktop_file, hand_program, game, folder):
    session = Session(compositor, folder)
    session.check_permissions()
    session.environment.update(KwinScripts.LOGGED)
    try:
        session.begin()
        desk = {"sway": OnSway, "kwin": OnKwin}[compositor](session)
        if compositor == "kwin":
            declare_all(session, program, desktop_file, hand_program)
        # KWin looks for new desktop files every second or two.
        wait("all windows", lambda: windows_told(session, program) == ("all", False), PATIENCE_S)
        carpace(session, program, "plan", "use", str(HERE / "two-runs.plan.yaml"))
        tray = session.spawn("carpace", [program])
        wait("the tray program", lambda: status(session, program), PATIENCE_S)
        carpace(session, program, "caution", "none")
        client(session, game, "other")
        client(session, game, "game")
        choose(session, desk, program, "game", pathlib.Path(game).name)
        counts_only_there(session, desk, program, Hand(session, hand_program))
        session.spawn("of-x", ["/usr/bin/python3", HERE.parent / "desktop" / "practice_client.py", "OfX", "10", "10"])
        wait("a program of X", lambda: desk.go_to("OfX", of_x=True), PATIENCE_S)
        choose(session, desk, program, "OfX", pathlib.Path("/usr/bin/python3").resolve().name, of_x=True)
        carpace(session, program, "quit")
        if tray.wait(PATIENCE_S) != 0:
            raise Failed(f"the program ended: {tray.returncode}")
        complaints = [line for line in pathlib.Path(session.folder / "carpace.log").read_text().splitlines() if "CRITICAL" in line]
        if complaints:
            raise Failed("\n".join(complaints))
        print("a window without X: chosen, and only what the hand does in it counts; one of X chosen", flush=True)
    finally:
        session.end()


main(*sys.argv[1:])
