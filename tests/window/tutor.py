"""Set work in the real window, from the assignment to the mark sheet that the tutor opens, by pointer or by keyboard.

    tutor.py PROGRAM pointer|keyboard

Learner 3 does the model by typed actions, learner 7 hands in a blank bench, learner 9 nothing: so 7 needs help and stands first.
"""
import os
import re
import subprocess
import sys
import tempfile

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


def hand_in(program, folder):
    """The assignment, and what two of its three learners hand in."""
    program = os.path.abspath(program)
    run(program, folder, "assign", "week-3.ron", "--id", "week-3", "--group", "Group 2", "--exercise", EXERCISE,
        "--learners", "3,7,9", "--due", "2099-12-04T16:00")
    for learner, actions in [("3", model()), ("7", ["HandIn"])]:
        run(program, folder, "record", "in", "--assignment", "week-3.ron", "--learner", learner, "--exercise", EXERCISE,
            typed="\n".join(actions) + "\n")


def main():
    program, hands = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder:
        hand_in(program, folder)
        screen = Screen(program, folder)
        screen.command = [program, "review", f"{folder}/week-3.ron", f"{folder}/in", "--window"]
        with screen:
            hands = {"pointer": Pointer, "keyboard": Keyboard}[hands](screen)
            first = screen.until(lambda it: f"read:7:{EXERCISE}" in it, "the class")
            assert first[f"read:7:{EXERCISE}"][1] < first[f"read:3:{EXERCISE}"][1], "7 needs help first"
            hands.press("help:7")
            screen.until(lambda it: f"read:3:{EXERCISE}" not in it, "learner 7 alone")
            hands.press("class:everyone")
            hands.press(f"read:3:{EXERCISE}")
            screen.until(lambda it: "next-finding" in it or "look" in it, "the sheet of learner 3")
            hands.press("leave")
            screen.until(lambda it: f"read:7:{EXERCISE}" in it, "the class again")
            print(f"the class by {sys.argv[2]}: {hands.told()}")


if __name__ == "__main__":
    main()
