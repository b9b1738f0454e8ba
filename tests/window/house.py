"""The see-through house in the real window, from its door to the exercise behind it, and the glossary over it.

    house.py PROGRAM pointer|keyboard

Every step is gone through and does what it is there for; the window says each time the sentence that is worked out by hand in
src/workshop/tests/curious.rs.
"""
import sys
import tempfile

from hands import Keyboard, Pointer
from screen import Screen

ALWAYS_ON = "Now the lamp is always on."
WITHOUT_BLACK = "Now the far switch works it only while the near one is down; with the near one up the lamp stays off."

# What is pressed, and what the window says then: how it begins.
STEPS = [
    ("curious", ""),
    ("switch:far", "The lamp is lit"),
    ("switch:near", "The lamp is out"),
    ("plate:far", ""),
    ("plate:near", "You have seen all four"),
    ("curious:next", ""),
    ("curious:no", ""),
    ("curious:next", "Take any one"),
    ("core:black", "Supply off:"),
    ("curious:close", WITHOUT_BLACK),
    ("core:black", "Supply off:"),
    ("curious:close", "Take any one"),
    ("curious:next", ""),
    ("light/brown@near", "You hold"),
    ("near.L1", "Supply off:"),
    ("curious:close", ALWAYS_ON),
    ("curious:next", ""),
    ("curious:count-2", ""),
    ("curious:next", ""),
    ("plate:far", ""),
    ("curious:next", ""),
    ("curious:true", ""),
    ("curious:next", ""),
    ("what-if:bare-earth", ""),
    ("curious:hand", ""),
    ("what-if:opposite", ""),
    ("curious:neighbour", ""),
    ("what-if:third", ""),
    ("what-if:where", ""),
]


def main():
    program, hands = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder, Screen(program, folder) as screen:
        hands = {"pointer": Pointer, "keyboard": Keyboard}[hands](screen)
        for number, (key, said) in enumerate(STEPS, 1):
            hands.press(key)
            screen.until(lambda it: it["#said"].startswith(said), f"step {number}, {key}: {said}")
        # The volts and milliamps were those of a picture; the glossary opens over it and closes to it.
        screen.xdo("key", "F2")
        screen.until(lambda it: "words-close" in it, "the glossary")
        hands.press("word:word-neutral")
        screen.until_on("word:word-neutral")
        screen.xdo("key", "Escape")
        screen.until(lambda it: "curious:exercise" in it, "the house again")
        hands.press("curious:exercise")
        screen.until(lambda it: "go:kiln" in it, "the exercise")
        print(f"the house by {sys.argv[2]}: {hands.told()}")


if __name__ == "__main__":
    main()
