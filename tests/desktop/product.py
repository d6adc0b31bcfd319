# SPDX-License-Identifier: GPL-3.0-or-later
"""The built program on a test's desktop: started, ended, commanded, read back."""
import json
import signal

from desktop import HERE, Failed, wait

SHORT_RUNS = HERE / "faults.plan.yaml"
ASKED_EVERY_S = 0.15  # each time by a command, a program of its own: more often, that is most of what a test computes


# A rest that is due is taken by keeping still: here it lasts longer than any machine needs to look at its offer.
LONGER = {"length: 5 s": "length: 150 s",
          "  - {limit: 10 min, drills: [corners]}": "  - {limit: 5 min, drills: [corners]}\n" * 2}


def long_rests(desktop):
    """A plan of two blocks with them."""
    text = SHORT_RUNS.read_text()
    for shorter, longer in LONGER.items():
        assert shorter in text, text
        text = text.replace(shorter, longer)
    return desktop.write("longer.plan.yaml", text)


def prepared(desktop, program, plan=SHORT_RUNS):
    """It runs on a plan, and all that is asked on a first day is answered."""
    carpace = Carpace(desktop, program)
    carpace.told("plan", "use", plan)
    carpace.start()
    carpace.told("caution", "none")  # the card of a first run would lie above what is looked for
    carpace.command("morning", "0", "usual", "--now", "0")
    return carpace


class Carpace:
    def __init__(self, desktop, program, environment=None):
        self.desktop, self.program, self.environment = desktop, program, environment or {}
        self.starts = 0

    # -- the tray program

    def start(self):
        """Starts it and waits until it answers."""
        self.starts += 1
        self.desktop.spawn("carpace", [self.program], environment=self.environment)
        self.desktop.started("carpace", "carpace on the bus", lambda: self.desktop.bus.has_owner("org.carpace.Carpace"))
        wait("carpace's answer", lambda: self.command("status")[0] == 0)

    @property
    def pid(self):
        return self.desktop.children["carpace"].pid

    def item(self):
        return wait("carpace's tray item", lambda: self.desktop.bus.tray_item())

    def row(self, words):
        """Waits for a row of the tray's menu and clicks it."""
        item = self.item()
        wait(f"{words!r} in the menu", lambda: self.enabled(item, words))
        item.click(words)

    @staticmethod
    def enabled(item, words):
        found = item.find(words)
        return found and found[1].get("enabled", True)

    def kill(self):
        self.desktop.stop("carpace", signal.SIGKILL)
        wait("its name to be free", lambda: not self.desktop.bus.has_owner("org.carpace.Carpace"))

    def gone(self):
        """Waits until the program has ended by itself; its exit status."""
        return self.desktop.children.pop("carpace").wait(30)

    # -- commands

    def command(self, *words):
        return self.desktop.run([self.program, *words])

    def told(self, *words):
        """A command that must be done; its output."""
        status, out, err = self.command(*words)
        if status != 0:
            raise Failed(f"carpace {' '.join(map(str, words))}: exit {status}: {err.strip()}")
        return out

    def status(self):
        return json.loads(self.told("status", "--format", "json"))

    def until(self, what, condition, **patience):
        """Waits until condition(status) is true; that status."""
        last = {}

        def holds():
            last.update(self.status())
            return condition(last) and dict(last)
        try:
            return wait(what, holds, every_s=ASKED_EVERY_S, **patience)
        except Failed as failed:
            raise Failed(f"{failed}; the last status was {last}") from None

    def until_state(self, *states, **patience):
        return self.until(f"the state {' or '.join(states)}", lambda status: status["state"] in states, **patience)

    def diary(self, kind=None):
        rows = [json.loads(line) for line in self.told("diary", "--format", "json").splitlines()]
        return [row for row in rows if kind in (None, row["kind"])]
