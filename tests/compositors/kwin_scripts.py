# SPDX-License-Identifier: GPL-3.0-or-later
"""What KWin's windows are, and which one comes to the front."""
import json
import subprocess

from session import wait


class KwinScripts:
    """KWin's own scripts, and what they say. QT_LOGGING_RULES has to have it logged."""
    LOGGED = {"QT_LOGGING_RULES": "kwin_scripting.debug=true"}

    def __init__(self, session):
        self.session, self.n = session, 0

    def call(self, path, method, *words):
        done = subprocess.run(["gdbus", "call", "--session", "--dest", "org.kde.KWin", "--object-path", path, "--method", method,
                               *words], env=self.session.environment, capture_output=True, text=True, check=True)
        return done.stdout.strip("(), \n")

    def said(self, script):
        """All that @script says by say(VALUE)."""
        self.n += 1
        path, mark = self.session.folder / f"script-{self.n}.js", f"SAID {self.n} "
        path.write_text(f'function say(value) {{ print("{mark}" + JSON.stringify([value])); }}\n{script}\nprint("{mark}" + "[]");\n')
        number = self.call("/Scripting", "org.kde.kwin.Scripting.loadScript", str(path))
        self.call(f"/{number}", "org.kde.kwin.Script.run")

        def told():
            log = (self.session.folder / "compositor.log").read_text(errors="replace")
            lines = [json.loads(line.split(mark, 1)[1]) for line in log.splitlines() if mark in line]
            return lines[-1:] == [[]] and lines
        return [value for (value,) in wait("a script of KWin's", told)[:-1]]
