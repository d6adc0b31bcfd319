# SPDX-License-Identifier: GPL-3.0-or-later
"""Windows, pointer and keys of a display, by the X protocol itself."""
from PIL import Image
from Xlib import X, XK, display, error
from Xlib.ext import xtest


class Windows:
    def __init__(self, name):
        self.display = display.Display(name)
        self.root = self.display.screen().root

    def atom(self, name):
        return self.display.intern_atom(name)

    def property(self, window, name):
        try:
            found = window.get_full_property(self.atom(name), X.AnyPropertyType)
        except (error.BadWindow, error.XError):
            return None
        return found.value if found else None

    def is_managed(self):
        check = self.property(self.root, "_NET_SUPPORTING_WM_CHECK")
        if not check:
            return False
        return self.property(self.display.create_resource_object("window", check[0]),
                             "_NET_SUPPORTING_WM_CHECK") is not None

    def has_old_tray(self):
        """Whether somebody owns the XEmbed tray's selection."""
        return self.display.get_selection_owner(self.atom("_NET_SYSTEM_TRAY_S0")) != X.NONE

    # -- looking for windows

    def walk(self, window=None):
        try:
            children = (window or self.root).query_tree().children
        except (error.BadWindow, error.XError):
            return
        for child in children:
            yield child
            yield from self.walk(child)

    def title(self, window):
        for name in ("_NET_WM_NAME", "WM_NAME"):
            value = self.property(window, name)
            if value:
                return value.decode("utf-8", "replace") if isinstance(value, bytes) else str(value)
        return ""

    def class_of(self, window):
        value = self.property(window, "WM_CLASS")
        return value.decode("utf-8", "replace").split("\0") if isinstance(value, bytes) else []

    def visible(self, window):
        try:
            return window.get_attributes().map_state == X.IsViewable
        except (error.BadWindow, error.XError):
            return False

    def of_class(self, word):
        """Windows on screen whose class holds @word (any case)."""
        return [window for window in self.walk() if any(word in name.lower() for name in self.class_of(window))
                and self.visible(window)]

    def titled(self, words):
        return [window for window in self.walk() if words in self.title(window) and self.visible(window)]

    def place(self, window):
        """(x, y, width, height) on the screen."""
        geometry = window.get_geometry()
        corner = window.translate_coords(self.root, 0, 0)
        return -corner.x, -corner.y, geometry.width, geometry.height

    def is_on_top(self, window, x, y):
        """Whether @window, or one inside or around it, is what a click at x, y would meet."""
        return self.top_at(x, y) in self.line_of(window)

    def line_of(self, window):
        line = {window.id}
        while True:
            parent = window.query_tree().parent
            if parent == 0 or parent.id == self.root.id:
                return line
            line.add(parent.id)
            window = parent

    def top_at(self, x, y):
        top = None
        for window in self.root.query_tree().children:
            try:
                geometry, attributes = window.get_geometry(), window.get_attributes()
            except (error.BadWindow, error.BadDrawable):
                continue
            if (attributes.map_state == X.IsViewable and attributes.win_class == X.InputOutput
                    and geometry.x <= x < geometry.x + geometry.width
                    and geometry.y <= y < geometry.y + geometry.height):
                top = window.id
        return top

    def focused(self):
        focus = self.display.get_input_focus().focus
        return focus.id if hasattr(focus, "id") else focus

    def pointer_is_held(self):
        """Whether a program holds the pointer."""
        status = self.root.grab_pointer(False, 0, X.GrabModeAsync, X.GrabModeAsync, X.NONE, X.NONE, X.CurrentTime)
        if status == X.GrabSuccess:
            self.display.ungrab_pointer(X.CurrentTime)
            self.display.sync()
        return status == X.AlreadyGrabbed

    # -- a person's hands

    def click(self, x, y, button=1):
        xtest.fake_input(self.display, X.MotionNotify, x=int(x), y=int(y))
        xtest.fake_input(self.display, X.ButtonPress, button)
        xtest.fake_input(self.display, X.ButtonRelease, button)
        self.display.sync()

    def key(self, *names):
        """Presses a chord, as in key("Control_L", "Alt_L", "r")."""
        codes = [self.display.keysym_to_keycode(XK.string_to_keysym(name)) for name in names]
        for code in codes:
            xtest.fake_input(self.display, X.KeyPress, code)
        for code in reversed(codes):
            xtest.fake_input(self.display, X.KeyRelease, code)
        self.display.sync()

    # -- pictures

    def pixels(self, x, y, width, height):
        return self.root.get_image(x, y, width, height, X.ZPixmap, 0xffffffff).data

    def picture(self, path):
        size = self.root.get_geometry()
        pixels = self.root.get_image(0, 0, size.width, size.height, X.ZPixmap, 0xffffffff)
        Image.frombytes("RGB", (size.width, size.height), pixels.data, "raw", "BGRX").save(path)
