# SPDX-License-Identifier: GPL-3.0-or-later
"""A compositor without a screen, for a test: what runs in it, a hand on its pointer, and the program's commands."""
import os
import pathlib
import shutil
import subprocess
import sys
import threading
import time

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "desktop"))
from desktop import Failed, wait  # noqa: E402

LEFT_SHIFT = 42  # the kernel's KEY_LEFTSHIFT
COMMANDS = {
    "sway": ["sway", "--config", "{folder}/sway.conf"],
    "kwin": ["{kwin}", "--virtual", "--width", "1280", "--height", "800", "--no-lockscreen", "--xwayland",
             "--socket", "wayland-kwin"],
    "mutter": ["mutter", "--wayland", "--headless", "--virtual-monitor", "1280x800", "--no-x11"],
}


class Session:
    """A compositor, and what runs in it."""

    def __init__(self, compositor, folder, held):
        self.compositor, self.folder, self.held = compositor, pathlib.Path(folder), held
        self.children = []
        self.game = None
        self.settings = ""  # more of sway's
        self.folder.mkdir(parents=True, exist_ok=True)
        self.kwin = self.folder / "kwin_wayland"
        if compositor == "kwin":
            # A copy has none of the installed one's capabilities, which a container may not grant.
            shutil.copyfile("/usr/bin/kwin_wayland", self.kwin)
            self.kwin.chmod(0o700)
        self.environment = {**os.environ, "LANG": "C.UTF-8", "XDG_SESSION_TYPE": "wayland", "GDK_BACKEND": "wayland",
                            "GSETTINGS_BACKEND": "memory", "NO_AT_BRIDGE": "1", "GTK_USE_PORTAL": "0",
                            "WLR_BACKENDS": "headless", "WLR_RENDERER": "pixman", "WLR_LIBINPUT_NO_DEVICES": "1",
                            "KWIN_WAYLAND_NO_PERMISSION_CHECKS": "1", "QT_QPA_PLATFORM": "offscreen"}
        for name in ("DISPLAY", "WAYLAND_DISPLAY"):
            self.environment.pop(name, None)
        for name in ("CONFIG_HOME", "DATA_HOME", "STATE_HOME", "CACHE_HOME", "RUNTIME_DIR"):
            path = self.folder / name.lower()
            path.mkdir(mode=0o700)
            self.environment[f"XDG_{name}"] = str(path)

    def spawn(self, name, argv, **popen):
        with open(self.folder / f"{name}.log", "ab") as log:
            child = subprocess.Popen([str(word) for word in argv], env=self.environment, stderr=log,
                                     **{"stdin": subprocess.DEVNULL, "stdout": log, **popen})
        self.children.append(child)
        return child

    def sockets(self, folder, pattern):
        return sorted(path for path in pathlib.Path(folder).glob(pattern) if path.is_socket())

    def begin(self):
        (self.folder / "sway.conf").write_text("output HEADLESS-1 resolution 1280x800\nfocus_follows_mouse no\n"
                                               f"exec echo $DISPLAY > {self.folder}/display\n{self.settings}\n")
        child = self.compositor_child = self.spawn("compositor", [word.format(folder=self.folder, kwin=self.kwin) for word in COMMANDS[self.compositor]])

        def socket():
            if child.poll() is not None:
                raise Failed(f"{self.compositor} ended: {(self.folder / 'compositor.log').read_text()[-2000:]}")
            return self.sockets(self.environment["XDG_RUNTIME_DIR"], "wayland-*")
        self.environment["WAYLAND_DISPLAY"] = wait("a compositor's socket", socket)[0].name
        if self.compositor == "sway":
            self.environment["SWAYSOCK"] = str(self.sockets(self.environment["XDG_RUNTIME_DIR"], "sway-ipc.*")[0])
        if self.compositor != "mutter":
            self.environment["DISPLAY"] = wait("a display of X", lambda: self.display(child.pid))

    def begin_anew(self):
        """The compositor dies, and another comes in its place."""
        self.compositor_child.kill()
        self.compositor_child.wait()
        self.children.remove(self.compositor_child)
        for left in pathlib.Path(self.environment["XDG_RUNTIME_DIR"]).glob("*"):
            if left.is_socket() and left.name.startswith(("wayland-", "sway-ipc")):
                left.unlink()
        (self.folder / "display").unlink(missing_ok=True)
        before = self.environment.pop("WAYLAND_DISPLAY")
        self.begin()
        if self.environment["WAYLAND_DISPLAY"] != before:
            raise Failed("the compositor came back at another place")

    def display(self, pid):
        """The display of X that the compositor has beside it."""
        told = self.folder / "display"
        if self.compositor == "sway":
            return told.exists() and told.read_text().strip()
        for entry in pathlib.Path("/proc").iterdir():
            try:
                words = (entry / "cmdline").read_bytes().split(b"\0")
                if words[0].endswith(b"Xwayland") and f"PPid:\t{pid}\n" in (entry / "status").read_text():
                    return words[1].decode()
            except (OSError, IndexError):
                pass
        return None

    def bring_the_game(self):
        """What holds the screen awake has begun with the hand, or begins here."""
        if self.held and self.compositor == "mutter":
            self.ready("holder", self.spawn("holder", ["/usr/bin/python3", HERE / "hold-gnome-awake.py"], stdout=subprocess.PIPE))
        elif self.held:
            self.game = self.spawn("x-program", ["/usr/bin/python3", HERE / "x-program.py"], stdin=subprocess.PIPE,
                                   stdout=subprocess.PIPE)

    def play(self, playing):
        """A person clicks on the game, or lets it be."""
        if self.game is None:
            return
        self.game.stdin.write(b"play\n" if playing else b"rest\n")
        self.game.stdin.flush()
        if playing:
            self.ready("x-program", self.game)

    def ready(self, name, child):
        if child.stdout.readline() != b"ready\n":
            raise Failed(f"{name}: {(self.folder / f'{name}.log').read_text()}")

    def end(self):
        for child in reversed(self.children):
            child.terminate()
        for child in reversed(self.children):
            try:
                child.wait(5)
            except subprocess.TimeoutExpired:
                child.kill()


class Hand:
    """By a protocol of the compositor's."""

    def __init__(self, session, program):
        self.child = session.spawn("hand", [program] + (["--awake"] if session.held else []), stdin=subprocess.PIPE,
                                   stdout=subprocess.PIPE)
        if self.child.stdout.readline() != b"ready\n":
            raise Failed("no hand: " + (session.folder / "hand.log").read_text())

    def say(self, word):
        self.child.stdin.write(word.encode() + b"\n")
        self.child.stdin.flush()

    def begin(self):
        self.say("move")

    def end(self):
        self.say("still")

    def click(self, x, y):
        self.say(f"click {x} {y}")


class MutterHand:
    """By the bus; what holds the screen awake is a session manager of the test's own."""

    def __init__(self):
        import gi
        gi.require_version("Gio", "2.0")
        from gi.repository import Gio, GLib
        self.bus, self.variant = Gio.bus_get_sync(Gio.BusType.SESSION), GLib.Variant
        path = self.call("/org/gnome/Mutter/RemoteDesktop", "org.gnome.Mutter.RemoteDesktop", "CreateSession").unpack()[0]
        self.path = path
        self.call(path, "org.gnome.Mutter.RemoteDesktop.Session", "Start")

    def press_a_key(self):
        """And with it there is a keyboard."""
        for down in (True, False):
            self.call(self.path, "org.gnome.Mutter.RemoteDesktop.Session", "NotifyKeyboardKeycode",
                      self.variant("(ub)", (LEFT_SHIFT, down)))

    def call(self, path, interface, method, arguments=None):
        return self.bus.call_sync("org.gnome.Mutter.RemoteDesktop", path, interface, method, arguments, None, 0, 10000, None)

    def begin(self):
        self.moving = threading.Event()
        self.moving.set()
        self.thread = threading.Thread(target=self.move, daemon=True)
        self.thread.start()

    def move(self):
        step = 1.0
        while self.moving.is_set():
            step = -step
            self.call(self.path, "org.gnome.Mutter.RemoteDesktop.Session", "NotifyPointerMotionRelative",
                      self.variant("(dd)", (step, 0.0)))
            time.sleep(0.02)

    def end(self):
        self.moving.clear()
        self.thread.join()


def carpace(session, program, *words):
    done = subprocess.run([program, *words], env=session.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          timeout=60)
    if done.returncode != 0:
        raise Failed(f"carpace {' '.join(words)}: exit {done.returncode}: {done.stderr.strip()}")
    return done.stdout
