"""Two pairs of hands for the window: one with the pointer, one with the keyboard alone."""


class Pointer:
    """Presses and carries with the pointer."""

    def __init__(self, screen):
        self.screen = screen

    def middle(self, key):
        x, y, wide, high = self.screen.until(lambda it: key in it, f"{key} in sight")[key]
        return str(round(x + wide / 2)), str(round(y + high / 2))

    def press(self, key):
        self.screen.xdo("mousemove", "--sync", *self.middle(key), "click", "1")

    def carry(self, end, terminal):
        (x, y), (to_x, to_y) = self.middle(end), self.middle(terminal)
        halfway = str((int(x) + int(to_x)) // 2), str((int(y) + int(to_y)) // 2)
        self.screen.xdo("mousemove", "--sync", x, y, "mousedown", "1", "mousemove", "--sync", *halfway)
        self.screen.xdo("mousemove", "--sync", to_x, to_y, "mouseup", "1")


class Keyboard:
    """Does everything with Tab, Shift with Tab, the key that jumps between panels, and Enter."""

    def __init__(self, screen):
        self.screen = screen
        self.presses = 0
        # The pointer is out of it: in a corner where nothing is.
        screen.xdo("mousemove", "1919", "1079")

    def key(self, key, count=1):
        self.presses += count
        self.screen.xdo("key", key)

    def reach(self, key):
        """Moves the focus to something, one press and one answer at a time."""
        seen = self.screen.until(lambda it: key in it["#order"], f"{key} to be reached")
        while seen["#focus"] != key:
            order, focus = seen["#order"], seen["#focus"]
            way = order.index(key) - (order.index(focus) if focus in order else -1)
            if way < 0:
                # The engine looks at the modifiers once a frame: Shift must have been seen before Tab comes.
                self.screen.xdo("keydown", "shift")
                self.screen.until(lambda it: it["#frame"] > seen["#frame"], "Shift to be seen")
            self.key("Tab")
            after = self.screen.until(lambda it: it["#focus"] != focus, f"the focus to leave {focus} for {key}")
            if way < 0:
                self.screen.xdo("keyup", "shift")
                self.screen.until(lambda it: it["#frame"] > after["#frame"], "Shift to be let go")
            seen = self.screen.map()

    def press(self, key):
        self.reach(key)
        self.key("Return")

    def carry(self, end, terminal):
        self.press(end)
        self.screen.until_on(end)
        self.press(terminal)
