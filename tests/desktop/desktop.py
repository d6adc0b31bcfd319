# SPDX-License-Identifier: GPL-3.0-or-later
"""A private desktop for one test: X server, session bus, window manager, tray host, notification server.

Everything is waited for on a condition, never on time. Every child carries a
marker in its environment, and only what bears it is ended, by its id.
"""
import os
import pathlib
import secrets
import shutil
import signal
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
MARKER = "CARPACE_TEST_DESKTOP"
PATIENCE_S = 150  # only ever reached by a test that fails

WINDOW_MANAGERS = {"xfwm4": ["xfwm4", "--compositor=off"], "openbox": ["openbox"]}

PANEL_HEIGHT = 28
PANEL = """<?xml version="1.0" encoding="UTF-8"?>
<channel name="xfce4-panel" version="1.0">
  <property name="configver" type="int" value="2"/>
  <property name="panels" type="array">
    <value type="int" value="1"/>
    <property name="dark-mode" type="bool" value="false"/>
    <property name="panel-1" type="empty">
      <property name="position" type="string" value="p=6;x=0;y=0"/>
      <property name="position-locked" type="bool" value="true"/>
      <property name="length" type="uint" value="100"/>
      <property name="size" type="uint" value="28"/>
      <property name="plugin-ids" type="array"><value type="int" value="1"/></property>
    </property>
  </property>
  <property name="plugins" type="empty">
    <property name="plugin-1" type="string" value="systray"/>
  </property>
</channel>
"""

NOTIFICATIONS = """[global]
    monitor = 0
    follow = none
    width = 360
    offset = 12x48
    font = Sans 10
    markup = full
    show_indicators = yes
    ignore_dbusclose = no
    dmenu = {chooser}
"""

# dunst asks this program which action is meant; it answers with the line that holds the words it was told.
CHOOSER = """#!/bin/sh
cat > "{folder}/offered.part"
mv "{folder}/offered.part" "{folder}/offered"
grep -F -m 1 -e "$(cat "{folder}/wanted")" "{folder}/offered"
"""


class Failed(Exception):
    """A condition that did not come to hold."""


# Of the tray item's library, at times: only it and the menu's call this. It has its item all the same.
OF_OTHERS = "g_dbus_proxy_new: assertion 'G_IS_DBUS_CONNECTION"
# GTK's own word where libayatana-appindicator moves its item to a tray of the older kind.
GTK_ITSELF = "gdk_window_thaw_toplevel_updates"


def no_complaints(folder, words=("CRITICAL", "WARNING", "Sanitizer"), also_of_others=()):
    """Fails on what the program's libraries and sanitizers said of it in its log."""
    said = [line for line in (folder / "carpace.log").read_text().splitlines()
            if any(word in line for word in words) and not any(text in line for text in (OF_OTHERS, *also_of_others))]
    if said:
        raise Failed("\n".join(said))


def wait(what, condition, patience_s=PATIENCE_S, every_s=0.02):
    """Waits until condition() is true and returns what it gave."""
    end = time.monotonic() + patience_s
    while True:
        found = condition()
        if found:
            return found
        if time.monotonic() > end:
            raise Failed(f"waited {patience_s} s in vain: {what}")
        time.sleep(every_s)


def alive(pid):
    """Whether @pid runs: a zombie has an empty command line."""
    try:
        return pathlib.Path(f"/proc/{pid}/cmdline").read_bytes() != b""
    except OSError:
        return False


class Desktop:
    """with Desktop("xfwm4", folder) as desktop: ..."""

    def __init__(self, window_manager, folder, size="1280x800", tray_host=True, notifications=True, environment=None):
        self.window_manager = window_manager
        self.folder = pathlib.Path(folder)
        self.size = size
        self.with_tray_host = tray_host
        self.with_notifications = notifications
        self.extra_environment = environment or {}
        self.children = {}
        self.pictures = 0
        self.mark = secrets.token_hex(8)

    def __enter__(self):
        signal.signal(signal.SIGTERM, lambda *_: sys.exit("ended from outside"))
        shutil.rmtree(self.folder, ignore_errors=True)
        self.folder.mkdir(parents=True)
        self.home = pathlib.Path(tempfile.mkdtemp(prefix="carpace-test-"))
        try:
            self.environment = self.make_environment()
            self.start_x()
            self.start_bus()
            self.start_window_manager()
            if self.with_notifications:
                self.start_notifications()
            if self.with_tray_host:
                self.start_tray_host()
        except BaseException:
            self.close()
            raise
        return self

    def __exit__(self, kind, *_):
        try:
            if kind is not None:
                self.picture("where-it-failed")
        finally:
            self.close()

    # -- folders and environment

    def make_environment(self):
        kept = {name: os.environ[name] for name in ("PATH", "LD_LIBRARY_PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS")
                if name in os.environ}
        own = {"HOME": self.home, "LANG": "C.UTF-8", "NO_AT_BRIDGE": "0", "GIO_USE_VFS": "local", "GTK_USE_PORTAL": "0",
               "GSETTINGS_BACKEND": "memory", "XDG_SESSION_TYPE": "x11", "GDK_BACKEND": "x11", MARKER: self.mark,
               "XDG_DATA_DIRS": "/usr/local/share:/usr/share", "XDG_CONFIG_DIRS": "/etc/xdg",
               "DBUS_SYSTEM_BUS_ADDRESS": f"unix:path={self.home}/no-system-bus"}
        for name, below in (("CONFIG_HOME", "config"), ("DATA_HOME", "data"), ("STATE_HOME", "state"),
                            ("CACHE_HOME", "cache"), ("RUNTIME_DIR", "run")):
            (self.home / below).mkdir(mode=0o700)
            own[f"XDG_{name}"] = self.home / below
        return {**kept, **{name: str(value) for name, value in own.items()}, **self.extra_environment}

    def write(self, below, text, mode=0o600):
        """Writes a file of the private home."""
        path = self.home / below
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
        path.chmod(mode)
        return path

    # -- children

    def spawn(self, name, argv, environment=None, **popen):
        """Starts a child; what it prints goes into the test's folder."""
        log = open(self.folder / f"{name}.log", "ab")
        popen.setdefault("stdin", subprocess.DEVNULL)
        popen.setdefault("stdout", log)
        child = subprocess.Popen([str(word) for word in argv], env={**self.environment, **(environment or {})},
                                 stderr=log, **popen)
        log.close()
        self.children[name] = child
        return child

    def run(self, argv, patience_s=PATIENCE_S):
        """Runs a command to its end: its exit status, output and complaints."""
        done = subprocess.run([str(word) for word in argv], env=self.environment, stdin=subprocess.DEVNULL,
                              capture_output=True, text=True, timeout=patience_s)
        return done.returncode, done.stdout, done.stderr

    def stop(self, name, how=signal.SIGTERM):
        """Ends a child and waits until it is gone."""
        child = self.children.pop(name)
        if child.poll() is None:
            child.send_signal(how)
            if how == signal.SIGTERM:
                child.send_signal(signal.SIGCONT)
        try:
            return child.wait(PATIENCE_S)
        except subprocess.TimeoutExpired:
            child.kill()
            raise Failed(f"{name} did not end")

    def started(self, name, what, condition):
        """Waits for a condition that a child's life is needed for."""
        def holds():
            if self.children[name].poll() is not None:
                raise Failed(f"{name} ended ({self.children[name].returncode}) before: {what}")
            return condition()
        return wait(what, holds)

    def bearers(self):
        """Processes that bear this desktop's mark."""
        mark = f"{MARKER}={self.mark}".encode()
        for entry in pathlib.Path("/proc").iterdir():
            if entry.name.isdigit() and int(entry.name) != os.getpid() and alive(entry.name):
                try:
                    if mark in (entry / "environ").read_bytes().split(b"\0"):
                        yield int(entry.name)
                except OSError:
                    pass

    def close(self):
        for how, patience_s in ((signal.SIGTERM, 3), (signal.SIGKILL, 5)):
            for pid in list(self.bearers()):
                try:
                    os.kill(pid, how)
                    os.kill(pid, signal.SIGCONT)
                except ProcessLookupError:
                    pass
            end = time.monotonic() + patience_s
            while time.monotonic() < end and any(True for _ in self.bearers()):
                for child in self.children.values():
                    child.poll()
                time.sleep(0.02)
        shutil.rmtree(self.home, ignore_errors=True)

    # -- the parts of a desktop

    def start_x(self):
        # Numbered by the process: servers that begin and end at one moment could take each other's
        # number. One that is taken by something else is passed over.
        for step in range(0, 50000, 9973):
            number = self.x_answers(1000 + (os.getpid() + step) % 50000)
            if number:
                self.environment["DISPLAY"] = os.environ["DISPLAY"] = f":{number}"
                return
        raise Failed("the X server gave no display")

    def x_answers(self, number):
        reader, writer = os.pipe()
        self.spawn("xvfb", ["Xvfb", f":{number}", "-displayfd", writer, "-screen", "0", f"{self.size}x24", "-nolisten", "tcp",
                            "-noreset", "-dpi", "96"], pass_fds=[writer])
        os.close(writer)
        with os.fdopen(reader) as told:
            return told.readline().strip()

    def start_bus(self):
        from bus import Bus
        # No notification server is started by the bus itself: what a test has not started is not there.
        self.write("data/dbus-1/services/org.freedesktop.Notifications.service",
                   "[D-BUS Service]\nName=org.freedesktop.Notifications\nExec=/bin/false\n")
        reader, writer = os.pipe()
        self.spawn("bus", ["dbus-daemon", "--session", "--nofork", "--nosyslog",
                           f"--address=unix:path={self.home}/run/bus", f"--print-address={writer}"], pass_fds=[writer])
        os.close(writer)
        with os.fdopen(reader) as told:
            address = told.readline().strip()
        self.environment["DBUS_SESSION_BUS_ADDRESS"] = os.environ["DBUS_SESSION_BUS_ADDRESS"] = address
        self.bus = Bus(address)

    def start_window_manager(self):
        from windows import Windows
        self.windows = Windows(self.environment["DISPLAY"])
        self.spawn("window-manager", WINDOW_MANAGERS[self.window_manager])
        self.started("window-manager", "a window manager", self.windows.is_managed)

    def start_notifications(self):
        chooser = self.write("chooser/choose", CHOOSER.format(folder=self.home / "chooser"), 0o700)
        self.write("config/dunst/dunstrc", NOTIFICATIONS.format(chooser=chooser))
        self.spawn("notifications", ["dunst"])
        self.started("notifications", "a notification server",
                     lambda: self.bus.has_owner("org.freedesktop.Notifications"))

    def start_tray_host(self):
        self.write("config/xfce4/xfconf/xfce-perchannel-xml/xfce4-panel.xml", PANEL)
        self.spawn("tray-host", ["xfce4-panel", "--disable-wm-check"])
        self.started("tray-host", "a tray host", self.bus.has_tray_host)

    def tray_pixels(self):
        """What the tray host shows: for seeing that it changes, not what it is."""
        return self.windows.pixels(0, 0, 300, PANEL_HEIGHT)

    # -- looking

    def picture(self, name):
        """A picture of the whole screen, numbered, in the test's folder."""
        self.pictures += 1
        path = self.folder / f"{self.pictures:02}-{name}.png"
        self.windows.picture(path)
        return path

    # -- answering notifications as a person does

    def choose_action(self, label, title=None):
        """Takes the action that reads @label in the server's own menu."""
        folder = self.home / "chooser"
        (folder / "wanted").write_text(label)
        (folder / "offered").unlink(missing_ok=True)
        subprocess.run(["dunstctl", "context"], env=self.environment, check=True, stdin=subprocess.DEVNULL)
        offered = wait("the notification's menu", lambda: (folder / "offered").exists() and
                       (folder / "offered").read_text())
        if label not in offered:
            raise Failed(f"no action {label!r} among: {offered!r}")
