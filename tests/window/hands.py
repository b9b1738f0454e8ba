"""Two pairs of hands for the window: one with the pointer, one with the keyboard alone."""


class Pointer:
    """Presses and carries with the pointer."""

    def __init__(self, screen):
        self.screen = screen

    def to(self, key):
        """Moves onto something, where it says, and looks again: what was just done may have moved it, a frame after the file had it."""
        at = None
        while key not in (seen := self.screen.until(lambda it: key in keys(it), f"{key} to be there")):
            # What is on the screen but out of sight is scrolled to.
            self.screen.move(400, 500)
            self.screen.xdo("click", "5")
            self.screen.until(lambda it: it["#frame"] > seen["#frame"], "the wheel to be seen")
        while True:
            x, y, wide, high = self.screen.until(lambda it: key in it, f"{key} in sight")[key]
            if at == (at := (round(x + wide / 2), round(y + high / 2))):
                return at
            for nudge in 1, 0:
                seen = self.screen.map()["#frame"]
                self.screen.move(at[0] + nudge, at[1])
                self.screen.until(lambda it: it["#frame"] > seen, f"the pointer to be seen near {key}")

    def press(self, key):
        self.to(key)
        seen = self.screen.map()["#frame"]
        self.screen.xdo("click", "1")
        # A press and what moves the pointer on in one frame would be a press somewhere else.
        self.screen.until(lambda it: it["#frame"] > seen, f"the click on {key} to be seen")

    def write_in(self, field):
        self.press(field)

    def carry(self, end, terminal):
        self.to(end)
        self.screen.xdo("mousedown", "1")
        self.to(terminal)
        self.screen.xdo("mouseup", "1")


def keys(seen):
    """What Tab goes through, without the part of the screen that each is in."""
    return [entry.split(" ", 1)[1] for entry in seen["#order"]]


class Keyboard:
    """Does everything with F6, Tab, Shift with Tab, and Enter."""

    def __init__(self, screen):
        self.screen = screen
        self.presses = 0
        # The pointer is out of it: in a corner where nothing is.
        screen.xdo("mousemove", "2559", "1439")

    def jump(self, focus, what, *keys):
        """Presses keys that move the focus, and waits until it has moved."""
        self.presses += len(keys)
        self.screen.xdo("key", *keys)
        self.screen.until(lambda it: it["#focus"] != focus, f"the focus to leave {focus} for {what}")

    def back(self, focus, what):
        """Tab with Shift: the engine looks at the modifiers once a frame, so Shift is held for one before Tab comes."""
        seen = self.screen.map()["#frame"]
        self.screen.xdo("keydown", "shift")
        self.screen.until(lambda it: it["#frame"] > seen, "Shift to be seen")
        self.jump(focus, what, "Tab")
        seen = self.screen.map()["#frame"]
        self.screen.xdo("keyup", "shift")
        self.screen.until(lambda it: it["#frame"] > seen, "Shift to be let go")

    def reach(self, key):
        """Moves the focus to something: to its part of the screen by F6, then by Tab, one press and one answer at a time."""
        while True:
            seen = self.screen.until(lambda it: key in keys(it), f"{key} to be reached")
            focus, order = seen["#focus"], keys(seen)
            if focus == key:
                return
            part = {key: entry.split(" ")[0] for key, entry in zip(order, seen["#order"])}
            if focus not in part or part[focus] != part[key]:
                self.jump(focus, key, "F6")
            elif order.index(key) > order.index(focus):
                self.jump(focus, key, "Tab")
            else:
                self.back(focus, key)

    def write_in(self, field):
        # Enter would leave it again.
        self.reach(field)

    def press(self, key):
        self.reach(key)
        self.presses += 1
        self.screen.xdo("key", "Return")

    def carry(self, end, terminal):
        self.press(end)
        self.screen.until_on(end)
        self.press(terminal)
