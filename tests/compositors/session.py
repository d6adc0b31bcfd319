# SPDX-License-Identifier: GPL-3.0-or-later
"""A compositor or an X server without a screen, for a test: what runs in it, and the program's commands."""
import json
import os
import pathlib
import select
import shutil
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "desktop"))
from desktop import PATIENCE_S, WINDOW_MANAGERS, Failed, wait  # noqa: E402
from windows import Windows  # noqa: E402

NO_LOCK = "--no-lockscreen"
COMMANDS = {
    "sway": ["sway", "--config", "{folder}/sway.conf"],
    "kwin": ["{kwin}", "--virtual", "--width", "1280", "--height", "800", NO_LOCK, "--xwayland", "--socket", "wayland-kwin"],
    "mutter": ["mutter", "--wayland", "--headless", "--virtual-monitor", "640x480", "--no-x11"],
    "x11": ["Xvfb", "-displayfd", "1", "-screen", "0", "1280x800x24", "-nolisten", "tcp", "-noreset"],
}
# Debian's place for it; a session of it without a component.
GNOME_SESSION = pathlib.Path("/usr/libexec/gnome-session-binary")
BARE_SESSION = "[GNOME Session]\nName=Bare\nRequiredComponents=\n"


class Session:
    """A compositor, and what runs in it.

    held: a game holds the screen awake. sound: a sound player does, over the session bus; what a desktop has that
    takes such a wish runs then."""

    def __init__(self, compositor, folder, held=False, sound=False):
        self.compositor, self.folder, self.held, self.sound = compositor, pathlib.Path(folder), held, sound
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
                            "KWIN_WAYLAND_NO_PERMISSION_CHECKS": "1", "QT_QPA_PLATFORM": "offscreen",
                            # Painted in threads of their own, Mutter's pictures pile up on a busy machine until it stands still
                            # for 10 to 30 s.
                            "LP_NUM_THREADS": "0"}
        if compositor == "x11":
            self.environment.update(XDG_SESSION_TYPE="x11", GDK_BACKEND="x11")
        for name in ("DISPLAY", "WAYLAND_DISPLAY"):
            self.environment.pop(name, None)
        for name in ("CONFIG_HOME", "DATA_HOME", "STATE_HOME", "CACHE_HOME", "RUNTIME_DIR"):
            path = self.folder / name.lower()
            path.mkdir(mode=0o700)
            self.environment[f"XDG_{name}"] = str(path)

    def check_permissions(self):
        """To be called before the beginning: KWin then keeps some of what it has from programs that no desktop file speaks for."""
        del self.environment["KWIN_WAYLAND_NO_PERMISSION_CHECKS"]

    def declare(self, name, text):
        """Puts a desktop file where desktops look for the user's own."""
        folder = pathlib.Path(self.environment["XDG_DATA_HOME"]) / "applications"
        folder.mkdir(exist_ok=True)
        (folder / f"{name}.desktop").write_text(text)

    def spawn(self, name, argv, environment=None, **popen):
        with open(self.folder / f"{name}.log", "ab") as log:
            child = subprocess.Popen([str(word) for word in argv], env={**self.environment, **(environment or {})}, stderr=log,
                                     **{"stdin": subprocess.DEVNULL, "stdout": log, **popen})
        self.children.append(child)
        return child

    def sockets(self, folder, pattern):
        return sorted(path for path in pathlib.Path(folder).glob(pattern) if path.is_socket())

    def begin(self):
        if self.compositor == "x11":
            self.begin_x11()
            return
        (self.folder / "sway.conf").write_text("output HEADLESS-1 resolution 1280x800\nfocus_follows_mouse no\n"
                                               f"exec echo $DISPLAY > {self.folder}/display\n{self.settings}\n")
        # KWin's lock screen is what takes wishes for a screen that stays awake.
        words = [word.format(folder=self.folder, kwin=self.kwin) for word in COMMANDS[self.compositor]
                 if not (self.sound and word == NO_LOCK)]
        child = self.compositor_child = self.spawn("compositor", words)

        def socket():
            if child.poll() is not None:
                raise Failed(f"{self.compositor} ended: {(self.folder / 'compositor.log').read_text()[-2000:]}")
            return self.sockets(self.environment["XDG_RUNTIME_DIR"], "wayland-*")
        self.environment["WAYLAND_DISPLAY"] = wait("a compositor's socket", socket)[0].name
        if self.compositor == "sway":
            self.environment["SWAYSOCK"] = str(self.sockets(self.environment["XDG_RUNTIME_DIR"], "sway-ipc.*")[0])
        if self.compositor != "mutter":
            self.environment["DISPLAY"] = wait("a display of X", self.display)

    def begin_x11(self):
        server = self.spawn("server", COMMANDS["x11"], stdout=subprocess.PIPE)
        self.environment["DISPLAY"] = ":" + self.line_of("server", server)
        self.spawn("window-manager", WINDOW_MANAGERS["xfwm4"])
        windows = Windows(self.environment["DISPLAY"])
        wait("a window manager", windows.is_managed)

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

    def x_servers(self):
        """All the X servers beside compositors: their ids, displays, and what is known of them."""
        for entry in pathlib.Path("/proc").iterdir():
            try:
                words = (entry / "cmdline").read_bytes().split(b"\0")
                if words[0].endswith(b"Xwayland"):
                    yield int(entry.name), words[1].decode(), (entry / "status").read_text()
            except (OSError, IndexError):
                pass

    def x_server(self):
        """The id of the one on this desktop's display."""
        return next((pid for pid, display, _ in self.x_servers() if display == self.environment["DISPLAY"]), None)

    def display(self):
        """The display of X that the compositor has beside it."""
        told = self.folder / "display"
        if self.compositor == "sway":
            return told.exists() and told.read_text().strip()
        return next((display for _, display, known in self.x_servers() if f"PPid:\t{self.compositor_child.pid}\n" in known), None)

    def bring_the_game(self):
        """One of X. It holds the screen awake itself on X11; on a compositor the hand's program has done so already."""
        if self.held:
            self.game = self.spawn("x-program", ["/usr/bin/python3", HERE / "x-program.py"] + ["--awake"] * (self.compositor == "x11"),
                                   stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def bring_the_sound(self, takers):
        """@takers: by whom it shall be heard"""
        if "org.gnome.SessionManager" in takers:
            self.bring_gnome_session()
        player = self.spawn("sound-player", ["/usr/bin/python3", HERE / "sound-player.py", *takers], stdout=subprocess.PIPE)
        line = self.line_of("sound-player", player)
        heard = json.loads(line) if line else (self.folder / "sound-player.log").read_text()
        print("a sound player's wish for a screen that stays awake:", heard, flush=True)
        if {name for name, became in heard.items() if became == "held"} != set(takers):
            raise Failed(f"not taken by {takers} alone: {heard}")

    def bring_gnome_session(self):
        """The real one where it is installed; it wants a system bus, and gets an empty one."""
        if not GNOME_SESSION.exists():
            print("gnome-session is not installed: a session manager of the test's own", flush=True)
            self.spawn("session-manager", ["/usr/bin/python3", HERE / "session-manager.py"])
            return
        bus = self.spawn("system-bus", ["dbus-daemon", "--session", "--nofork", "--print-address=1"], stdout=subprocess.PIPE)
        sessions = self.folder / "config_home" / "gnome-session" / "sessions"
        sessions.mkdir(parents=True)
        (sessions / "bare.session").write_text(BARE_SESSION)
        (self.folder / "empty").mkdir()
        self.spawn("session-manager", [GNOME_SESSION, "--builtin", "--session=bare", "--disable-acceleration-check"],
                   environment={"DBUS_SYSTEM_BUS_ADDRESS": self.line_of("system-bus", bus),
                                "XDG_CONFIG_DIRS": str(self.folder / "empty")})  # and with it nothing that starts by itself

    def play(self, playing):
        """A person clicks on the game, or lets it be."""
        if self.game is None:
            return
        self.game.stdin.write(b"play\n" if playing else b"rest\n")
        self.game.stdin.flush()
        if playing:
            self.ready("x-program", self.game)

    def line_of(self, name, child):
        """What a child says next."""
        if not select.select([child.stdout], [], [], PATIENCE_S)[0]:
            raise Failed(f"{name} said nothing for {PATIENCE_S} s")
        return child.stdout.readline().decode().strip()

    def ready(self, name, child):
        if self.line_of(name, child) != "ready":
            raise Failed(f"{name}: {(self.folder / f'{name}.log').read_text()}")

    def take_down(self, child):
        child.terminate()
        child.wait()
        self.children.remove(child)

    def end(self):
        for child in reversed(self.children):
            child.terminate()
        for child in reversed(self.children):
            try:
                child.wait(5)
            except subprocess.TimeoutExpired:
                child.kill()


def carpace(session, program, *words):
    done = subprocess.run([program, *words], env=session.environment, stdin=subprocess.DEVNULL, capture_output=True, text=True,
                          timeout=PATIENCE_S)
    if done.returncode != 0:
        raise Failed(f"carpace {' '.join(words)}: exit {done.returncode}: {done.stderr.strip()}")
    return done.stdout
