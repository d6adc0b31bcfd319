# SPDX-License-Identifier: GPL-3.0-or-later
"""A program started from its desktop entry, as a menu of programs starts it: launch.py NAME.desktop."""
import sys

from gi.repository import Gio

Gio.DesktopAppInfo.new(sys.argv[1]).launch([], None)
