"""Where the current goes, in the real window: the table of positions, the two drawings, a hand.

    current.py PROGRAM pointer|keyboard

The model of an exercise is opened as it stands before its hand-in, so that power is on.
"""
import sys
import tempfile

from hands import Keyboard, Pointer
from pictures import PASSAGE, Album, attempt
from screen import Screen


def main():
    program, hands = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder, Screen(program, folder) as screen:
        Album(screen).put(attempt(PASSAGE, "HandIn", {}, []))
        # The list is read again when one comes to it.
        screen.until(lambda it: "curious" in it, "the first screen")
        hands = {"pointer": Pointer, "keyboard": Keyboard}[hands](screen)
        hands.press("curious")
        hands.press("leave")
        hands.press("open:1")
        done = screen.until(lambda it: "go:circuit" in it, "the attempt to be opened")["#actions"]
        hands.press("go:circuit")
        # The fourth position and the one that stands now differ in some rocker; pressed again, none is left to press.
        hands.press("position:3")
        now = screen.until(lambda it: it["#actions"] > done and "position:3" in it["#on"], "rockers")["#actions"]
        hands.press("place:switch:clay")
        screen.until_done(now + 1, "a switch of the place beneath the diagram")
        hands.press("hands")
        screen.until_on("hands")
        hands.press("hand:clay.box.earth")
        screen.until_on("hand:clay.box.earth")
        print(f"the current by {sys.argv[2]}: {hands.told()}")


if __name__ == "__main__":
    main()
