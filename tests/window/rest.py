"""Clicks after a pause, the pointer resting where it is: each counts.

    rest.py PROGRAM

The one check here that must let time pass: the engine's clock stands still while its window rests.
"""
import sys
import tempfile
import time

from hands import Pointer
from screen import Screen

PAUSE = 1.5
CLICKS = 4


def main():
    with tempfile.TemporaryDirectory() as folder, Screen(sys.argv[1], folder) as screen:
        hands = Pointer(screen)
        hands.press("begin:one-way-rose")
        screen.until_on("go:place")
        hands.to("switch:switch")
        for count in range(1, CLICKS + 1):
            time.sleep(PAUSE)
            screen.xdo("click", "1")
            screen.until_done(count, "a click after a pause")
    print(f"{CLICKS} clicks after a pause: {CLICKS} counted")


if __name__ == "__main__":
    main()
