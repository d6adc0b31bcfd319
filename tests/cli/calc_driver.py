# SPDX-License-Identifier: GPL-3.0-or-later
"""Asks `carpace calc` many things at once."""
import json
import subprocess


class Calc:
    """calc-alone, one process: a line in, a line out."""

    def __init__(self, program, env=None):
        self.process = subprocess.Popen([program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=env)

    def ask(self, line):
        """(exit status, standard output, standard error)"""
        self.process.stdin.write(line + "\n")
        self.process.stdin.flush()
        status, out, err = self.process.stdout.readline().rstrip("\n").split("\t")
        return int(status), out.replace("|", "\n"), err.replace("|", "\n")

    def json(self, line):
        status, out, err = self.ask(line + " --format json")
        assert status == 0, f"{line}: exit status {status}, {err}"
        assert out.count("\n") == 1 and err == "", f"{line}: {out!r} {err!r}"
        return json.loads(out)

    def close(self):
        self.process.stdin.close()
        assert self.process.wait() == 0
