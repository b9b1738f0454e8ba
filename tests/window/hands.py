"""Two pairs of hands for the window: one with the pointer, one with the keyboard alone. Each counts its acts.

An act is one click, one drag, one key that does something where the focus is, or one field filled. What only leads there is counted
apart: turns of the wheel, keys that move the focus.
"""

import time

# The window drops the second half of a double click: whoever means it twice at one spot waits so long, seconds.
SECOND_PRESS = 0.45
# The parts of a screen as F6 goes through them.
PARTS = ["places", "tray", "middle", "beside", "foot"]


def keys(seen):
    """What Tab goes through, without the part of the screen that each is in."""
    return [entry.split(" ", 1)[1] for entry in seen["#order"]]


def parts(seen):
    """The part of the screen that each is in."""
    return {key: part for part, key in (entry.split(" ", 1) for entry in reversed(seen["#order"]))}


class Hands:
    """What is counted."""

    def __init__(self, screen):
        self.screen = screen
        self.acts = self.led = 0

    def answered(self, key, *press):
        """Presses, and waits until what came of it is on the screen: what is looked for next may have stood there before."""
        presses = self.screen.map()["#presses"]
        self.screen.xdo(*press)
        self.screen.until(lambda it: it["#presses"] > presses, f"the press on {key} to be answered")

    def told(self):
        """The counts in words."""
        return f"{self.acts} acts ({self.ACTS}) besides {self.led} {self.LEADING}"


class Pointer(Hands):
    """Presses and carries with the pointer."""

    ACTS = "clicks, drags, fields filled"
    LEADING = "turns of the wheel"

    def __init__(self, screen):
        super().__init__(screen)
        self.at = None
        # Where and when was pressed last.
        self.pressed = (None, 0.0)

    def move(self, at, what):
        """Moves, and waits until that is seen; who is there already moves away and back."""
        for place in ([(at[0] + 1, at[1])] if at == self.at else []) + [at]:
            seen = self.screen.map()["#frame"]
            self.screen.move(*place)
            self.at = place
            self.screen.until(lambda it: it["#frame"] > seen, f"the pointer to be seen {what}")

    def scroll(self, key, seen):
        """Turns the wheel over what is in sight of the same part of the screen, towards what is not."""
        part, order = parts(seen), keys(seen)
        near = [it for it in order if part[it] == part[key] and it in seen]
        x, y, wide, high = seen[near[-1]] if near else (400, 500, 0, 0)
        self.move((round(x + wide / 2), round(y + high / 2)), f"over the {part[key]}")
        down = not near or order.index(key) > order.index(near[-1])
        self.led += 1
        self.screen.xdo("click", "5" if down else "4")
        self.screen.until(lambda it: it["#frame"] > seen["#frame"], "the wheel to be seen")

    def to(self, key):
        """Moves onto something, where it says, and looks again: what was just done may have moved it, a frame after."""
        at = None
        while True:
            seen = self.screen.until(lambda it: key in keys(it), f"{key} to be there")
            if key not in seen:
                self.scroll(key, seen)
                continue
            x, y, wide, high = seen[key]
            if at == (at := (round(x + wide / 2), round(y + high / 2))):
                return at
            self.move(at, f"near {key}")

    def press(self, key):
        at = self.to(key)
        there, then = self.pressed
        if there and all(abs(a - b) < 8 for a, b in zip(at, there)):
            time.sleep(max(0.0, then + SECOND_PRESS - time.monotonic()))
        self.acts += 1
        self.answered(key, "click", "1")
        self.pressed = (at, time.monotonic())

    def write_in(self, field):
        self.press(field)

    def carry(self, thing, target):
        self.acts += 1
        self.to(thing)
        self.screen.xdo("mousedown", "1")
        self.to(target)
        self.screen.xdo("mouseup", "1")

    def draw_along(self, points, answered):
        """Holds the button down from the first point to the last, and rests on each until that is answered."""
        self.acts += 1
        for number, point in enumerate(points, 1):
            self.to(point)
            if number == 1:
                self.screen.xdo("mousedown", "1")
            answered(number)
        self.screen.xdo("mouseup", "1")


class Keyboard(Hands):
    """Does everything with F6 and Tab, Shift with either, and Enter."""

    ACTS = "keys that do something, fields filled"
    LEADING = "keys that only move the focus"

    def __init__(self, screen):
        super().__init__(screen)
        # The pointer is out of it: in a corner where nothing is.
        screen.xdo("mousemove", "2559", "1439")

    def jump(self, key, focus, what, back=False):
        """Presses a key that moves the focus, back with Shift, and waits until it has moved. The engine looks at Shift once a
        frame: it is held until the key is answered."""
        self.led += 1
        self.screen.xdo(*(["keydown", "shift"] if back else []), "key", key)
        self.screen.until(lambda it: it["#focus"] != focus, f"the focus to leave {focus} for {what}")
        if back:
            self.screen.xdo("keyup", "shift")

    def reach(self, key):
        """Moves the focus to something: to its part of the screen by F6, then by Tab, one press and one answer at a time."""
        while True:
            seen = self.screen.until(lambda it: key in keys(it), f"{key} to be reached")
            focus, order, part = seen["#focus"], keys(seen), parts(seen)
            if focus == key:
                return
            if focus not in part:
                self.jump("F6", focus, key)
            elif part[focus] != part[key]:
                there = [it for it in PARTS if it in part.values()]
                ahead = (there.index(part[key]) - there.index(part[focus])) % len(there)
                self.jump("F6", focus, key, back=2 * ahead > len(there))
            else:
                self.jump("Tab", focus, key, back=order.index(key) < order.index(focus))

    def write_in(self, field):
        self.acts += 1
        self.reach(field)

    def press(self, key):
        self.reach(key)
        self.acts += 1
        self.answered(key, "key", "Return")

    def carry(self, end, terminal):
        if end not in self.screen.map()["#on"]:
            self.press(end)
            self.screen.until_on(end)
        self.press(terminal)
