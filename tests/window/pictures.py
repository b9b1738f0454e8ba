"""Pictures of every screen in both sizes, for eyes: a model attempt by pointer, and a look around on the way.

    pictures.py PROGRAM EXERCISE FOLDER
"""
import os
import sys

from hands import Pointer
from learner import Learner
from screen import Screen

SIZES = (1280, 800), (1920, 1080)


class Photographer(Learner):
    """Takes a picture after the first and the eighth action of each kind."""

    kinds = ()

    def do(self, action):
        super().do(action)
        self.kinds += (action.kind,)
        if self.kinds.count(action.kind) in (1, 8):
            frame = self.screen.map()["#frame"]
            self.screen.move(3, 3)
            self.screen.until(lambda it: it["#frame"] > frame, "the next frame")
            self.screen.picture(f"{self.at:03}-{action.kind}")


def main():
    program, scenario, folder = sys.argv[1:4]
    for size in SIZES:
        with Screen(program, os.path.join(folder, f"{size[0]}x{size[1]}"), size) as screen:
            screen.picture("000-start")
            hands = Pointer(screen)
            hands.press("help")
            screen.until(lambda it: "help-close" in it, "help")
            screen.picture("000-help")
            screen.xdo("key", "Escape")
            screen.until(lambda it: "help" in it, "the exercises")
            Photographer(screen, hands, scenario).everything()
            screen.until(lambda it: "again" in it, "the mark sheet")
            screen.picture("sheet")


if __name__ == "__main__":
    main()
