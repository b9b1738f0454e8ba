"""Pictures of every screen in both sizes, for eyes: the model attempt by pointer, and a look around on the way.

    pictures.py PROGRAM FOLDER
"""
import os
import sys

from hands import Pointer
from run import Learner
from screen import Screen

SIZES = (1280, 800), (1920, 1080)


class Photographer(Learner):
    """Takes a picture after the first and the eighth action of each kind."""

    def __init__(self, screen, hands, actions):
        super().__init__(screen, hands, actions)
        self.kinds = []

    def do(self, index, kind, fields, action):
        if self.kinds and self.kinds.count(self.kinds[-1]) in (1, 8):
            frame = self.screen.map()["#frame"]
            self.screen.move(3, 3)
            self.screen.until(lambda it: it["#frame"] > frame, "the next frame")
            self.screen.picture(f"{index:03}-{self.kinds[-1]}")
        self.kinds.append(kind)
        return super().do(index, kind, fields, action)


def main():
    program, folder = sys.argv[1:3]
    for size in SIZES:
        with Screen(program, os.path.join(folder, f"{size[0]}x{size[1]}"), size) as screen:
            screen.picture("000-start")
            hands = Pointer(screen)
            hands.press("help")
            screen.picture("000-help")
            screen.xdo("key", "Escape")
            learner = Photographer.of_the_model(screen, hands)
            learner.everything()
            screen.until(lambda it: "again" in it, "the mark sheet")
            screen.picture("sheet")


if __name__ == "__main__":
    main()
