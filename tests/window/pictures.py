"""Pictures of every screen in both sizes, for eyes.

    pictures.py PROGRAM FOLDER [NAME...]

SIZES names other sizes, THEME another theme (day, evening, projector), TEXT another text size (percent). SEEN_BY names eyes that see
other colours (protan, deutan, tritan): each picture is made for them too, `NAME.EYES.png`.

Each picture is of an attempt that is opened from the list: the beginning of a model, with its actions left out, changed or
followed by others, and then a few presses. Named ones alone are taken if any are named.
"""
import hashlib
import os
import re
import subprocess
import sys
import time

from hands import Pointer
from screen import Screen

SIZES = tuple(tuple(map(int, it.split("x"))) for it in os.environ.get("SIZES", "1280x800 1920x1080").split())
THEME, TEXT = os.environ.get("THEME", "day").capitalize(), int(os.environ.get("TEXT", "100"))
# What is seen without one kind of cone, of linear light: Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of
# color vision deficiency", IEEE Trans. Vis. Comput. Graph. 15 (2009), severity 1.0. From memory; each row comes to 1.
EYES = {
    "protan": "0.152286 1.052583 -0.204868 0.114503 0.786281 0.099216 -0.003882 -0.048116 1.051998",
    "deutan": "0.367322 0.860646 -0.227968 0.280085 0.672501 0.047413 -0.011820 0.042940 0.968881",
    "tritan": "1.255528 -0.076749 -0.178779 -0.078411 0.930809 0.147602 0.004733 0.691367 0.303900",
}
SEEN_BY = os.environ.get("SEEN_BY", "").split()
TESTED, PASSAGE = "one-way-tested", "two-way-passage"

# What goes wrong at one box: a jaw too small, a bare end too long, a screw driven too hard, one left slack, a core in the way.
BAD_HAND = [
    'Strip(end:"feed/brown@switch",mm:15,jaw:75)', 'Connect(end:"feed/brown@switch",terminal:"switch.COM")',
    'Tighten(terminal:"switch.COM",feel:Crushed)',
    'Cut(end:"light/brown@switch",mm:120)', 'Strip(end:"light/brown@switch",mm:9,jaw:100)',
    'Connect(end:"light/brown@switch",terminal:"switch.L1")', 'Tighten(terminal:"switch.L1",feel:Slack)',
    'Strip(end:"feed/blue@switch",mm:24,jaw:75)', 'Fold(end:"feed/blue@switch")', 'Cut(end:"light/blue@switch",mm:70)',
    'Strip(end:"light/blue@switch",mm:11,jaw:100)',
]
LONG_SHEATH = {"mm:160": "mm:190"}
COVER_AND_BACK = ['FitCover(location:"switch")', 'RemoveCover(location:"switch")']
IN_THE_BOX = ['FitCover(location:"switch")']

# A core without its mark, a screw left slack, an earth left slack; and the plate's tail in the line. What stands after is put
# in the place of what stands before; an action with nothing in its place is left out.
FAULTY = {'Mark(end:"link/grey@kiln"': "", 'Tighten(terminal:"clay.COM"': "", 'Tighten(terminal:"kiln.box.earth"': ""}
SHORTED = {**FAULTY, 'Tighten(terminal:"clay.plate.earth"': "", 'terminal:"clay.plate.earth"': 'terminal:"clay.L2"'}
# Takes the lamp for dark, the link's brown for dead; and where it is dark its black for live.
MISTAKEN = {'lit:["lamp"],live:["link/brown",': 'lit:[],live:[', 'live:["link/grey"]': 'live:["link/black"]'}
SAID = ["say:1:lamp", "say:1:link/brown", "say:1:light/brown"]
NO_LINK_OUT = {"TakeLink": ""}

# Name, model, up to which of its actions (all of them where none is named), what is changed in them, what is done after them,
# what is pressed.
PICTURES = [
    ("first-place", "wire-a-switch", "RemoveCover", {}, [], []),
    ("first-switch", "wire-a-switch", "Connect", {}, [], ["go:switch"]),
    ("first-screw", "wire-a-switch", "Tighten", {}, [], ["go:switch", "switch.COM"]),
    ("first-supply", "wire-a-switch", "BringSupply", {}, [], ["go:place"]),
    ("place", PASSAGE, "Conclude", {}, [], []),
    ("identify", TESTED, "Identify", {}, [], ["go:switch"]),
    ("card", TESTED, "Identify", {}, [], ["go:board", "board.1"]),
    ("loads", PASSAGE, "PowerOn", {}, [], ["go:board", "board.1"]),
    ("show-earth", PASSAGE, "Continuity", {}, [], ["go:kiln", "hand:meter", "show-earth"]),
    ("lights", PASSAGE, "ProveIndicator", {}, [], ["go:kiln", "hand:indicator", "prove"]),
    ("touched", PASSAGE, "Conclude", {}, [], ["go:kiln", "hand:indicator", *2 * ["kiln.box.earth"], "kiln.1.COM"]),
    ("parked", PASSAGE, "Conclude", {}, [], ["go:clay", "hand:indicator"]),
    ("in-connectors", "one-way-rose", "Connect", {}, [], ["go:rose"]),
    ("tied-back", TESTED, "Grommet", {}, [], ["go:board"]),
    ("reporting", TESTED, "RemoveCover", {}, [], ["go:board", "report"]),
    ("chart", TESTED, "LockOff", {}, [], ["go:board", "board.1"]),
    ("indicator", TESTED, "TestDead", {}, [], ["go:switch", "hand:indicator", "next-pair"]),
    ("in-sheath", TESTED, "Grommet", {}, [], ["go:switch"]),
    ("strippers", TESTED, "Strip", {}, [], ["go:switch", "feed/brown@switch"]),
    ("made-off", TESTED, "Dress", {}, [], ["go:switch", "switch.connector.1"]),
    ("bad-hand", TESTED, "Cut", LONG_SHEATH, BAD_HAND + COVER_AND_BACK, ["go:switch", "feed/brown@switch"]),
    ("plate-proud", TESTED, "Cut", LONG_SHEATH, BAD_HAND + IN_THE_BOX, ["go:switch"]),
    ("asked", PASSAGE, "Conclude", {}, [], ["go:kiln", "todo:hand-in"]),
    ("stopped", PASSAGE, "Agree", {}, [], ["go:kiln", "cover"]),
    ("proved", TESTED, "Grommet", {}, [], ["go:switch", "hand:indicator"]),
    ("choosing", "two-way-to-choose", "Choose", {}, [], ["go:tack"]),
    ("passage-wiring", PASSAGE, "RemoveLamp", {}, [], ["go:kiln"]),
    ("inspection", TESTED, "Inspect", {}, [], ["go:rose"]),
    ("tester-link", TESTED, "FitLink", {}, [], ["go:board", "hand:meter", "next-reading", "read"]),
    ("tester-ranges", TESTED, "Measure(function:Insulation", {}, [], ["go:board", "hand:meter", "next-reading", "read"]),
    ("tester-rcd", TESTED, "Measure(function:Rcd", {}, [], ["go:board", "hand:meter", "fn:rcd"]),
    ("cut", TESTED, "Cut(", {}, [], ["go:switch", "hand:indicator"]),
    ("closed-board", PASSAGE, "Conclude", {}, [], ["go:board", "hand:tools"]),
    ("written", TESTED, "Reset(", {}, [], ["go:tests"]),
    ("test-sheet", TESTED, "Record(test:InsulationLineEarth", {}, [], ["go:tests"]),
    ("prediction", TESTED, "Predict", {}, [], ["go:prediction"]),
    ("prediction-said", PASSAGE, "Predict", {}, [], ["go:prediction", "setting:on", *SAID]),
    ("prediction-rose", "one-way-rose", "Predict", {}, [], ["go:prediction", "say:0:drop/brown"]),
    ("prediction-chosen", "two-way-to-choose", "Predict", {}, [], ["go:prediction"]),
    ("prediction-locked", PASSAGE, "FitLamp", {}, [], ["go:prediction", "setting:on"]),
    ("prediction-right", PASSAGE, "HandIn", {}, [], ["go:prediction", "setting:on"]),
    ("prediction-wrong", PASSAGE, "HandIn", MISTAKEN, [], ["go:prediction", "setting:on"]),
    ("trip", TESTED, "Measure(function:Voltage", NO_LINK_OUT, [], ["go:board"]),
    ("circuit", PASSAGE, "HandIn", {}, [], ["go:circuit"]),
    ("current-place", PASSAGE, "HandIn", {}, [], ["go:place", "switch:clay"]),
    ("current-hand", PASSAGE, "HandIn", {}, [], ["go:place", "hands", "hand:clay.box.earth"]),
    ("current-over", PASSAGE, "", FAULTY, [], ["look", "go:kiln", "hands", "kiln.1.COM"]),
    ("sheet-full", TESTED, "", {}, [], []),
    ("sheet", PASSAGE, "", FAULTY, [], []),
    ("sheet-story", PASSAGE, "", SHORTED, [], ["would:1"]),
    ("fault-in-place", PASSAGE, "", FAULTY, [], ["show:1"]),
    ("played", PASSAGE, "", SHORTED, [], ["would:1", "play:1"]),
    ("played-place", PASSAGE, "", SHORTED, [], ["would:1", "play:1", "go:place"]),
]


def attempt(scenario, until, changes, then):
    """The text of an attempt: the model's beginning, with some actions changed and some added."""
    with open(f"exercises/{scenario}/model.attempt.ron") as it:
        head, drawn, *actions = it.read().splitlines()
    ends = [at for at, line in enumerate(actions) if until and f"action:{until}" in line]
    kept = []
    for line in actions[: ends[0] if ends else len(actions)]:
        for before, after in changes.items():
            if before in line:
                line = line.replace(before, after) if after else ""
        kept += [line] if line else []
    ms = 1000 * (len(kept) + 1)
    kept += [f"Did(ms:{ms + 1000 * number},action:{action})" for number, action in enumerate(then)]
    # In free practice: of set work that is not handed in nothing of this is told.
    head = re.sub('learner:"[^"]*"', 'learner:"A. Thornbury"', head).replace("mode:Set", "mode:Practice")
    return sealed([head, drawn, *kept])


def sealed(lines):
    """The lines of an attempt, each with its sum: over the one before and the line without it."""
    text, last = "", ""
    for line in lines:
        line = re.sub(',sum:"[0-9a-f]{16}"\\)$', ")", line)
        last = hashlib.sha256((last + line).encode()).hexdigest()[:16]
        text += f'{line[:-1]},sum:"{last}")\n'
    return text


class Album:
    """Puts attempts in the folder, opens them and takes pictures."""

    def __init__(self, screen):
        self.screen, self.hands, self.number = screen, Pointer(screen), 0

    def take(self, name):
        self.screen.move(3, 3)
        # Until nothing has changed for a while: what was pressed last may not be on the screen yet.
        frame, still = -1, 0
        while still < 6:
            time.sleep(0.2)
            now = self.screen.map()["#frame"]
            frame, still = now, still + 1 if now == frame else 0
        path = self.screen.picture(name)
        for eyes in SEEN_BY:
            light = ["-colorspace", "RGB", "-color-matrix", EYES[eyes], "-colorspace", "sRGB"]
            subprocess.run(["convert", path, *light, path.replace(".png", f".{eyes}.png")], check=True)

    def put(self, text):
        """Writes an attempt, the newest of the folder."""
        self.number += 1
        path = os.path.join(self.screen.attempts, f"{self.number:03}.attempt.ron")
        with open(path, "w") as it:
            it.write(text)
        # Newer than whatever was written in the same moment.
        later = time.time() + self.number
        os.utime(path, (later, later))

    def of(self, name, scenario, until, changes, then, presses):
        self.put(attempt(scenario, until, changes, then))
        self.hands.press("leave")
        self.hands.press("open:1")
        self.screen.until(lambda it: "leave" in it, f"{name} to be opened")
        for it in presses:
            self.hands.press(it)
        self.take(name)


def main():
    program, folder, *named = sys.argv[1:]
    # Arrows that walk would be waited for.
    os.environ.setdefault("SWITCHDROP_STILL", "1")
    for size in SIZES:
        with Screen(program, os.path.join(folder, f"{size[0]}x{size[1]}"), size, THEME, TEXT) as screen:
            album = Album(screen)
            album.take("start-empty")
            album.hands.press("help")
            album.take("help")
            screen.xdo("key", "Escape")
            album.hands.press("words")
            album.hands.press("word:muddle-l1-l2")
            album.take("words")
            screen.xdo("key", "Escape")
            album.hands.press("begin:one-way-rose")
            for it in PICTURES:
                if not named or it[0] in named:
                    album.of(*it)
            for number in range(24):
                album.put(attempt([TESTED, PASSAGE][number % 2], 5 * number, {}, []))
            album.hands.press("leave")
            album.take("start-full")


if __name__ == "__main__":
    main()
