"""Does the model attempt of an exercise in the real window, from start to hand-in, and has it marked.

    run.py PROGRAM pointer|keyboard EXERCISE [FOLDER]

In the end the command line must give the file full marks. Pictures are kept in FOLDER if one is named.
"""
import json
import subprocess
import sys
import tempfile

from hands import Keyboard, Pointer
from learner import NAME, Learner
from screen import Screen


def main():
    program, way, scenario = sys.argv[1:4]
    with tempfile.TemporaryDirectory() as spare:
        folder = sys.argv[4] if len(sys.argv) > 4 else spare
        with Screen(program, folder) as screen:
            hands = {"pointer": Pointer, "keyboard": Keyboard}[way](screen)
            learner = Learner(screen, hands, scenario)
            learner.everything()
            screen.until(lambda it: "again" in it, "the mark sheet")
            screen.picture("sheet")
            assert screen.close() == 0, "the window did not close in peace"
            marked = subprocess.run([program, "mark", "--json", screen.attempt()], capture_output=True, text=True)
            sheet = json.loads(marked.stdout)
    done = f"{len(learner.actions)} actions in {hands.told()}"
    print(f"{scenario} by {way}: {done}; {sheet['marks']} of {sheet['out_of']}")
    assert (sheet["outcome"], sheet["marks"], sheet["learner"]) == ("pass", sheet["out_of"], NAME), marked.stdout


if __name__ == "__main__":
    main()
