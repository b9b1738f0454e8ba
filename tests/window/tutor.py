"""Set work in the real window, from the assignment to the pages that are released, by pointer or by keyboard.

    tutor.py PROGRAM pointer|keyboard [PICTURES]

The tutor sets the work on the first screen. Learner 3 does the model by typed actions, learner 7 hands in a blank bench, learner 9 nothing: so 7
needs help and stands first. The tutor opens the class, reads a sheet, decides about it, and releases two pages. PICTURES: a folder in which each
screen is kept, in both sizes.
"""
import glob
import os
import re
import subprocess
import sys
import tempfile
import time

from hands import Keyboard, Pointer
from screen import Screen

EXERCISE = "wire-a-switch"
HERE = os.path.dirname(os.path.abspath(__file__))


def run(program, folder, *arguments, typed=""):
    """Runs a command in the folder; what is wrong with it ends everything."""
    return subprocess.run([program, *arguments], cwd=folder, input=typed, text=True, check=True, capture_output=True).stdout


def model():
    """The actions of the shipped model, a line each."""
    with open(os.path.join(HERE, "..", "..", "exercises", EXERCISE, "model.attempt.ron")) as it:
        return re.findall(r"Did\(ms:\d+,action:(.*),sum:", it.read())


def hand_in(program, assignment, folder):
    """What two of the three learners hand in, into that folder."""
    for learner, actions in [("3", model()), ("7", ["HandIn"])]:
        run(program, folder, "record", folder, "--assignment", assignment, "--learner", learner, "--exercise", EXERCISE,
            typed="\n".join(actions) + "\n")


def fill(hands, field, text):
    """Fills an empty field in."""
    screen = hands.screen
    hands.write_in(field)
    screen.until(lambda it: it["#focus"] == field, f"the keyboard in {field}")
    screen.xdo("type", "--delay", "20", text)
    screen.until_typed(field, text)


def look(screen, pictures, name):
    """Keeps a picture of the screen, in both sizes, where somebody wants to look at it."""
    if not pictures:
        return
    for size in [(1920, 1080), screen.size]:
        frame = screen.map()["#frame"]
        screen.xdo("windowsize", "--sync", screen.window, *map(str, size))
        screen.until(lambda it: it["#frame"] > frame, "the other size")
        # The picture is of what is presented, which is some frames later.
        time.sleep(1)
        screen.xdo("mousemove_relative", "1", "1")
        time.sleep(1)
        subprocess.run(["import", "-window", screen.window, os.path.join(pictures, f"{name}-{size[0]}.png")],
                       env=screen.env, check=False)


def main():
    program, hands, *pictures = sys.argv[1:]
    pictures = pictures[0] if pictures else None
    program = os.path.abspath(program)
    with tempfile.TemporaryDirectory() as folder, Screen(program, folder) as screen:
        home = os.path.join(screen.attempts, "switchdrop")
        set_there = os.path.join(home, "classes", "week-3")
        hands = {"pointer": Pointer, "keyboard": Keyboard}[hands](screen)
        look(screen, pictures, "start")
        hands.press("tutor")
        screen.until(lambda it: "tutor:write" in it, "the tutor's side")
        for field, text in [("tutor:id", "week-3"), ("tutor:group", "Group 2"), ("tutor:learners", "3,7,9")]:
            fill(hands, field, text)
        hands.press(f"tutor:exercise:{EXERCISE}")
        fill(hands, "tutor:due", "2099-12-04 16:00")
        hands.press("tutor:preview")
        look(screen, pictures, "preview")
        hands.press("tutor:write")
        screen.until(lambda it: "tutor:open-this" in it, "the assignment to be written")
        look(screen, pictures, "written")
        assignment = os.path.join(set_there, "week-3.ron")
        hand_in(program, assignment, os.path.join(set_there, "handed-in"))
        hands.press("tutor:open-this")
        first = screen.until(lambda it: f"read:7:{EXERCISE}" in it, "the class")
        assert first[f"read:7:{EXERCISE}"][1] < first[f"read:3:{EXERCISE}"][1], "7 needs help first"
        look(screen, pictures, "class")
        hands.press("help:7")
        screen.until(lambda it: f"read:3:{EXERCISE}" not in it, "learner 7 alone")
        hands.press("class:everyone")
        hands.press(f"read:3:{EXERCISE}")
        screen.until(lambda it: "next-finding" in it or "look" in it, "the sheet of learner 3")
        hands.press("leave")
        screen.until(lambda it: f"read:7:{EXERCISE}" in it, "the class again")
        hands.press(f"decide:3:{EXERCISE}")
        screen.until(lambda it: "decide:write" in it, "what is decided about it")
        fill(hands, "decide:by", "A. Reed")
        fill(hands, "decide:marks", "90")
        fill(hands, "decide:why", "the cover was left off at the bench")
        look(screen, pictures, "decision")
        hands.press("decide:write")
        screen.until(lambda it: "written down" in it["#said"], "the decision to be kept")
        assert not glob.glob(os.path.join(set_there, "pages", "*")), "nothing is shown before its release"
        hands.press("class:release")
        screen.until(lambda it: "release:go" in it, "what is to be released")
        look(screen, pictures, "release")
        hands.press("release:go")
        screen.until(lambda it: "Pages written: 2" in it["#said"], "the release")
        look(screen, pictures, "released")
        with open(os.path.join(set_there, "pages", f"week-3_3_{EXERCISE}.html")) as it:
            assert "90 marks, pass, out of 100" in it.read()
        hands.press("leave")
        screen.until(lambda it: "tutor:open" in it, "the tutor's side again")
        hands.press("tutor:open")
        screen.until(lambda it: "tutor:again:0" in it, "the class that was open")
        look(screen, pictures, "opening")
        print(f"set, reviewed, decided and released by {sys.argv[2]}: {hands.told()}")


if __name__ == "__main__":
    main()
