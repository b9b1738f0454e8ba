"""A learner who does the actions of a model attempt in the window, each by what a learner would touch.

The next begins when the window shows what came of the last, and the attempt file must have the very same.
"""
import re

import handwork
import testing
from screen import NAME

WAYS = {**handwork.WAYS, **testing.WAYS}


class Action:
    """One action as a file words it, its sum apart."""

    def __init__(self, line):
        self.text = re.match(r"Did\(ms:\d+,action:(.*)\)$", line).group(1)
        self.kind = re.match(r"\w+", self.text).group(0)
        fields = re.findall(r'(\w+):("[^"]*"|\[[^\]]*\]|[\w.]+(?:\([^)]*\))?)', self.text)
        self.fields = {name: value.strip('"') for name, value in fields}

    def __getitem__(self, field):
        return self.fields[field]

    def names(self):
        """Every text in it, in order."""
        return re.findall(r'"([^"]*)"', self.text)

    def but(self, free):
        """What it is but for some fields; which of two probes is where says nothing."""
        fields = {name: value for name, value in self.fields.items() if name not in free}
        return self.kind, sorted(fields.pop(it, "") for it in "ab"), fields


def read(path):
    """The exercise that a file's attempt is at, and its actions. The sums hang on who did it and when, and are left out."""
    with open(path) as it:
        lines = [re.sub(r',sum:"[0-9a-f]{16}"\)$', ")", line) for line in it.read().splitlines()]
    exercise = lines[1]
    return exercise, [Action(line) for line in lines if line.startswith("Did(")]


class Learner:
    """Turns each action into what is touched."""

    def __init__(self, screen, hands, scenario):
        self.screen, self.hands, self.scenario = screen, hands, scenario
        self.exercise, self.actions = read(f"exercises/{scenario}/model.attempt.ron")
        self.at = 0
        self.answers = 0
        # Where a probe of the indicator is parked.
        self.parked = None
        # What the tester showed since a line of the test sheet was written.
        self.figures = []

    def is_on(self, key):
        return key in self.screen.map()["#on"]

    def can(self, key):
        """Whether something can be pressed now."""
        return any(it.endswith(f" {key}") for it in self.screen.map()["#order"])

    def set(self, *wanted):
        """Presses what stays on, unless it is, and waits until it is."""
        for key in wanted:
            if not self.is_on(key):
                self.hands.press(key)
                self.screen.until_on(key)

    def press(self, key):
        """Presses what does an action; `everything` waits for that."""
        self.hands.press(key)

    def type(self, field, text):
        """Types in a field, in place of what is there."""
        if self.screen.map()["#typed"].get(field) != text:
            self.hands.write_in(field)
            self.screen.until(lambda it: it["#focus"] == field, f"{field} to be written in")
            self.screen.xdo("type", "--delay", "20", text)
            self.screen.until_typed(field, text)

    def go(self, where, hand=None):
        """Goes somewhere and takes something in hand there."""
        self.set(f"go:{where}", *([f"hand:{hand}"] if hand else []))

    def after(self, kind=None):
        """The action after this one, or the next of a kind."""
        return next(it for it in self.actions[self.at + 1 :] if kind in (None, it.kind))

    def everything(self, stop=None):
        """Begins and does the actions, up to the first of a kind if one is given."""
        self.type("name", NAME)
        self.set("set")
        self.press(f"begin:{self.scenario}")
        self.screen.until_on("go:place")
        for self.at, action in enumerate(self.actions):
            if action.kind == stop:
                return
            self.do(action)

    def do(self, action):
        # A way names the fields in which it may differ from the model.
        free = WAYS[action.kind](self, action) or ()
        said = self.screen.until_done(self.at + 1, action.text)["#said"]
        if action.kind == "Measure" and (shown := re.search(r": ([<>]? ?[\d.]+) (Ω|MΩ|ms)", said)):
            self.figures.append(shown.group(1))
        exercise, done = read(self.screen.attempt())
        assert exercise == self.exercise, "this is not the exercise of the model"
        assert done[-1].but(free) == action.but(free), f"wanted {action.text}, the file has {done[-1].text}"
