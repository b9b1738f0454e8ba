"""Two pairs of hands for the window: one with the pointer, one with the keyboard alone."""


class Pointer:
    """Presses and carries with the pointer."""

    def __init__(self, screen):
        self.screen = screen

    def to(self, key):
        """Moves onto something, and looks again: what was just done may have moved it, a frame after the file had it."""
        at = None
        while True:
            x, y, wide, high = self.screen.until(lambda it: key in it, f"{key} in sight")[key]
            if at == (at := (round(x + wide / 2), round(y + high / 2))):
                return
            for nudge in 1, 0:
                seen = self.screen.map()["#frame"]
                self.screen.move(at[0] + nudge, at[1])
                self.screen.until(lambda it: it["#frame"] > seen, f"the pointer to be seen near {key}")

    def press(self, key):
        self.to(key)
        self.screen.xdo("click", "1")

    def write_in(self, field):
        self.press(field)

    def carry(self, end, terminal):
        self.to(end)
        self.screen.xdo("mousedown", "1")
        self.to(terminal)
        self.screen.xdo("mouseup", "1")


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

    def write_in(self, field):
        # Enter would leave it again.
        self.reach(field)

    def press(self, key):
        self.reach(key)
        self.key("Return")

    def carry(self, end, terminal):
        self.press(end)
        self.screen.until_on(end)
        self.press(terminal)
