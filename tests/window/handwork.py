"""What a learner touches for everything but tests: the board, covers, ends and terminals, the prediction, the checks."""
import re

FEEL = {None: "tighten", "Slack": "tighten:slack", "Crushed": "tighten:crushed"}


def place(address):
    """The location that an address is at."""
    return address.split("@")[1] if "@" in address else address.split(".")[0]


def words(name):
    """A name of the files as a key has it: `green-yellow` for `GreenYellow`."""
    return re.sub(r"(?<=.)(?=[A-Z])", "-", name).lower()


def identify(learner, action):
    learner.go(action["location"])
    learner.set(*(f"feeds:{it}" for it in action.names()[1:]))
    learner.press("identify")


def device(learner, action):
    learner.go("board")
    learner.press(action["device"])


def lock(learner, action):
    learner.go("board")
    learner.press(f"lock:{action['device']}")


def main_switch(learner, _):
    learner.go("board")
    learner.press("main-switch")


def cover(learner, action):
    learner.go(action["location"], "tools")
    learner.press("cover")


def operate(learner, action):
    """Where the next reading wants another setting, a button sets it."""
    if learner.after().kind in ("TestDead", "Measure") and learner.can("set-switches"):
        learner.press("set-switches")
    else:
        learner.go("place")
        learner.press(f"switch:{action['switch']}")


def lamp(learner, action):
    learner.go(action["lamp"], "tools")
    learner.press(f"lamp:{action['lamp']}")


def at_location(key):
    def way(learner, action):
        learner.go(action["location"], "tools")
        learner.press(key)

    return way


def sheath(learner, action):
    learner.go(action["location"], "tools")
    learner.type("mm:sheath", action["mm"])
    learner.press(f"sheath:{action['cable']}")


def choose(learner, action):
    """The run's panel stands at either of its places; the list leads there."""
    run = action["cable"]
    if not learner.can(f"take:{run}"):
        learner.press(f"todo:choose:{run}")
    learner.set(f"choose:{run}:{action['kind']}:{action['mm2']}", f"reason:{run}:{words(action['reason'])}")
    learner.press(f"take:{run}")


def make_up(learner, action):
    learner.go(action["location"], "tools")
    learner.press(f"make-up:{words(action['colour'])}")


def take(learner, end):
    """Takes an end in hand; from the terminal that it is in, if that is selected."""
    learner.go(place(end), "tools")
    if learner.can(f"select:{end}"):
        learner.press(f"select:{end}")
        learner.screen.until_on(end)
    learner.set(end)


def cut(learner, action):
    take(learner, action["end"])
    learner.type("mm:cut", action["mm"])
    learner.press("cut")


def strip(learner, action):
    take(learner, action["end"])
    learner.type("mm:strip", action["mm"])
    learner.set(f"jaw:{action['jaw']}")
    learner.press("strip")


def at_end(key):
    def way(learner, action):
        take(learner, action["end"])
        learner.press(key)

    return way


def mark(learner, action):
    take(learner, action["end"])
    material, colour = re.match(r"(\w+)\((\w+)\)", action["mark"]).groups()
    learner.set(f"material:{words(material)}")
    learner.press(f"mark:{words(colour)}")


def connect(learner, action):
    learner.go(place(action["end"]), "tools")
    learner.hands.carry(action["end"], action["terminal"])


def tighten(learner, action):
    learner.go(place(action["terminal"]), "tools")
    learner.set(action["terminal"])
    learner.press(FEEL[action.fields.get("feel")])


def predict(learner, action):
    learner.go("prediction")
    # On the drawing itself, where each lamp and each core stays on once it is pressed.
    learner.set(*(f"say:{learner.answers}:{it}" for it in action.names()))
    learner.press(f"lock-answer:{learner.answers}")
    learner.answers += 1


def name(learner, action):
    """On the list of what has no mark at its place, by what it is called there."""
    at = action["at"]
    learner.go(at.split("@")[1] if "@" in at else at.split(".")[0])
    learner.press(f"name:{at}:{action['called']}")


def diagnose(learner, action):
    """On the page of the faults that may be there, by what the action names."""
    learner.go("diagnosis")
    learner.press(f"suspect:{action['what']}:{'+'.join(action.names())}")


def observe(learner, action):
    """What is wrong, of the end, terminal or place that is selected."""
    learner.go(place(action["at"]), "tools")
    if "." in action["at"] or "@" in action["at"]:
        learner.set(action["at"])
    learner.press(f"observe:{words(action['what'])}")


def confirm(learner, action):
    learner.press({"NobodyAtWork": "todo:nobody", "PeopleTold": "todo:told"}[action["check"]])


WAYS = {
    "Identify": identify,
    "Agree": lambda learner, _: learner.press("todo:agree"),
    **dict.fromkeys(["PowerOff", "PowerOn", "Reset"], device),
    **dict.fromkeys(["LockOff", "Unlock"], lock),
    "MainSwitch": main_switch,
    "RemoveCover": cover,
    "FitCover": cover,
    "Operate": operate,
    "RemoveLamp": lamp,
    "FitLamp": lamp,
    "Grommet": at_location("grommet"),
    "Dress": at_location("dress"),
    "Sheath": sheath,
    "Choose": choose,
    "MakeUp": make_up,
    "Cut": cut,
    "Strip": strip,
    "Fold": at_end("fold"),
    "Unfold": at_end("unfold"),
    "Tug": at_end("tug"),
    "Disconnect": at_end("disconnect"),
    "Mark": mark,
    "Connect": connect,
    "Tighten": tighten,
    "BringSupply": lambda learner, _: learner.press("todo:supply"),
    "Predict": predict,
    "Name": name,
    "Diagnose": diagnose,
    "Observe": observe,
    "Confirm": confirm,
    "HandIn": lambda learner, _: learner.press("todo:hand-in"),
}
