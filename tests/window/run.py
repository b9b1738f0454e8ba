"""Does the model attempt of the two-way exercise in the real window, from start to hand-in, and has it marked.

    run.py PROGRAM pointer|keyboard [FOLDER]

The actions come from the model; each is done by what a learner would touch, and the next begins when the attempt file
has it. In the end the command line must give the file full marks. Pictures are kept in FOLDER if one is named.
"""
import json
import re
import subprocess
import sys
import tempfile

from hands import Keyboard, Pointer
from screen import Screen

MODEL = "exercises/two-way-stairs/model.attempt.ron"
SCENARIO = "two-way-stairs"
LEARNER = "A. Thornbury"
DEVICE = {"PowerOff": "off", "LockOff": "lock", "Unlock": "unlock", "PowerOn": "on"}


def place(address):
    """The location that an address is at."""
    return address.split("@")[1] if "@" in address else address.split(".")[0]


class Learner:
    """Turns each action of the model into what is touched."""

    def __init__(self, screen, hands, actions):
        self.screen, self.hands, self.actions = screen, hands, actions
        self.done = 0
        self.answers = 0

    def press(self, key):
        """Presses what stays on, and waits until it is."""
        self.hands.press(key)
        self.screen.until_on(key)

    def go(self, where):
        if f"go:{where}" not in self.screen.map()["#on"]:
            self.press(f"go:{where}")

    def take(self, tool):
        if f"hand:{tool}" not in self.screen.map()["#on"]:
            self.press(f"hand:{tool}")

    def begin(self):
        self.hands.write_in("name")
        self.screen.until(lambda it: it["#focus"] == "name", "the name's field to be written in")
        self.screen.xdo("type", "--delay", "20", LEARNER)
        self.press("set")
        self.hands.press(f"begin:{SCENARIO}")
        self.screen.until_on("go:place")

    @classmethod
    def of_the_model(cls, screen, hands):
        with open(MODEL) as it:
            lines = it.read().splitlines()[2:]
        return cls(screen, hands, [re.match(r"Did\(ms:\d+,action:(.*)\)$", line).group(1) for line in lines])

    def everything(self, stop=None):
        """Does the actions, up to the first of a kind if one is given."""
        self.begin()
        for index, action in enumerate(self.actions):
            kind = re.match(r"\w+", action).group(0)
            if kind == stop:
                return
            fields = dict(re.findall(r'(\w+):"([^"]*)"', action))
            if self.do(index, kind, fields, action):
                self.done += 1
                self.screen.until_lines(self.done, action)
                got = self.screen.lines()[-1]
                assert kind in got, f"wanted {action}, the file has {got}"

    def do(self, index, kind, fields, action):
        """Touches what does an action; whether there was anything to do."""
        if kind == "Identify":
            self.go(fields["location"])
            # Named once, the devices of a second box are named too.
            if "identify" not in self.screen.map():
                return False
            for device in re.findall(r'"(board\.\d)"', action):
                self.press(f"feeds:{device}")
            self.hands.press("identify")
        elif kind == "Agree":
            self.hands.press("todo:agree")
        elif kind in DEVICE:
            self.go("board")
            self.press(fields["device"])
            self.hands.press(DEVICE[kind])
        elif kind in ("RemoveCover", "FitCover"):
            self.go(fields["location"])
            self.take("tools")
            self.hands.press("cover")
        elif kind == "ProveIndicator":
            if "TestDead" not in self.actions[index - 1]:
                test = next(it for it in self.actions[index:] if "TestDead" in it)
                self.go(place(re.search(r'a:"([^"]*)"', test).group(1)))
                self.take("indicator")
            self.hands.press("prove")
        elif kind == "Operate":
            self.go("place")
            self.hands.press(f"switch:{fields['switch']}")
        elif kind == "TestDead":
            self.go("east" if "east" in action else "west")
            self.take("indicator")
            self.press("next-pair")
            self.hands.press("read")
        elif kind == "Continuity":
            self.go("west")
            self.take("meter")
            self.press("drop/brown@west")
            self.press("drop/blue@west")
            self.hands.press("read")
        elif kind == "MakeUp":
            self.go(fields["location"])
            self.take("tools")
            self.hands.press("make-up:green-yellow")
        elif kind == "Mark":
            self.go(place(fields["end"]))
            self.take("tools")
            self.press(fields["end"])
            self.hands.press("mark:brown" if "Brown" in action else "mark:green-yellow")
        elif kind == "Connect":
            self.go(place(fields["end"]))
            self.take("tools")
            self.hands.carry(fields["end"], fields["terminal"])
        elif kind == "Tighten":
            self.go(place(fields["terminal"]))
            self.take("tools")
            self.press(fields["terminal"])
            self.hands.press("tighten")
        elif kind in ("RemoveLamp", "FitLamp"):
            self.go("lamp")
            self.take("tools")
            self.press("lamp:lamp")
            self.hands.press("lamp")
        elif kind == "Predict":
            self.go("prediction")
            for it in re.findall(r'"([^"]*)"', action):
                self.press(f"predict:{self.answers}:{it}")
            self.hands.press(f"lock-answer:{self.answers}")
            self.answers += 1
        elif kind == "Confirm":
            self.hands.press("todo:nobody" if "Nobody" in action else "todo:told")
        elif kind == "HandIn":
            self.hands.press("todo:hand-in")
        else:
            raise AssertionError(f"this learner does not know how to do {action}")
        return True


def main():
    program, way = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as spare:
        folder = sys.argv[3] if len(sys.argv) > 3 else spare
        with Screen(program, folder) as screen:
            hands = {"pointer": Pointer, "keyboard": Keyboard}[way](screen)
            learner = Learner.of_the_model(screen, hands)
            learner.everything()
            screen.until(lambda it: "again" in it, "the mark sheet")
            screen.picture("sheet")
            assert screen.close() == 0, "the window did not close in peace"
            marked = subprocess.run([program, "mark", "--json", screen.attempt()], capture_output=True, text=True)
            sheet = json.loads(marked.stdout)
    print(f"{way}: {learner.done} actions, {getattr(hands, 'presses', 'no')} keys; {sheet['marks']} of {sheet['out_of']}")
    assert (sheet["outcome"], sheet["marks"], sheet["learner"]) == ("pass", sheet["out_of"], LEARNER), marked.stdout


if __name__ == "__main__":
    main()
