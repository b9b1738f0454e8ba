"""What a learner touches to test: the indicator, the tester with its dial and leads, the test link, the sheet."""
from handwork import place, words

# What the dial is turned to, and then the range, for each function as the files name it.
DIAL = {
    "Continuity": ["fn:continuity"],
    "Insulation(V500)": ["fn:insulation", "range:insulation-500"],
    "Insulation(V250)": ["fn:insulation", "range:insulation-250"],
    "Voltage": ["fn:voltage"],
    "Loop(NoTrip)": ["fn:loop", "range:loop-no-trip"],
    "Loop(High)": ["fn:loop", "range:loop-high"],
    "Rcd(Half)": ["fn:rcd", "range:rcd-half"],
    "Rcd(Rated)": ["fn:rcd", "range:rcd-rated"],
    "Rcd(FiveTimes)": ["fn:rcd", "range:rcd-five-times"],
}
LEAD = {"Short": "lead:short", "Long": "lead:long"}


def prove(learner, _):
    """Before a round of tests one goes to where it begins, and so does who finds the indicator flat; after it one is there."""
    if learner.after().kind in ("TestDead", "Park") or not learner.can("prove"):
        learner.go(place(learner.after("TestDead")["a"]), "indicator")
    learner.press("prove")
    learner.parked = None


def park(learner, action):
    """A probe is parked for what is touched next, in this place or another of the round."""
    learner.go(place(learner.after("TestDead")["a"]), "indicator")
    learner.parked = action["at"]
    if learner.can(action["at"]):
        # On the thing itself: once puts the probe on it, twice parks it.
        learner.hands.press(action["at"])
        learner.screen.until_on(action["at"])
        learner.press(action["at"])
    else:
        learner.press("park")


def unpark(learner, _):
    """Where the parked probe can be seen, it is taken off there."""
    learner.press(learner.parked if learner.can(learner.parked) else "unpark")
    learner.parked = None


def test_dead(learner, action):
    """With a probe parked one touch each; a pair that is still to be tested is offered."""
    learner.go(place(action["a"]), "indicator")
    if learner.parked == action["b"]:
        learner.press(action["a"])
        return
    learner.press("next-pair")


def probes(learner, action):
    """Puts the two probes on their points. One that is there already is moved when the other point takes its probe."""
    pair = action["a"], action["b"]
    while missing := [it for it in pair if not learner.is_on(it)]:
        learner.set(missing[0])


def shows_earth(learner, action):
    """From the reference to what is to be shown to be an earth, as it is offered; whether that was what was wanted."""
    learner.go(place(action["b"]), "meter")
    if not learner.can("show-earth"):
        return False
    learner.press("show-earth")
    return True


def continuity(learner, action):
    if shows_earth(learner, action):
        return ()
    learner.go(place(action["a"]), "meter")
    # Read as the second probe touches; the same pair once more by the button.
    if all(learner.is_on(action[it]) for it in "ab"):
        learner.press("read")
    else:
        # Seen before the next key: of Enter and Tab in one slow frame, egui takes Enter for what Tab comes to.
        for it in "ab":
            # From place to place the long lead comes along.
            if not learner.can(action[it]):
                learner.go(place(action[it]), "meter")
            learner.hands.press(action[it])
            learner.screen.until_on(action[it])
    # On an end that is in a terminal, a probe is on the terminal.
    return "a", "b"


def inspect(learner, action):
    learner.go(action["location"])
    learner.press("inspect")


def null(learner, action):
    learner.set("hand:meter", "fn:continuity", LEAD[action.fields.get("lead", "Short")])
    learner.press("null")


def fit_link(learner, action):
    learner.go(place(action["a"]), "meter")
    probes(learner, action)
    learner.press("fit-link")


def measure(learner, action):
    """By dial and probes where the points can be seen; behind a cover, as the next reading is offered."""
    if action.fields.get("lead") == "Long" and shows_earth(learner, action):
        return ()
    learner.go(place(action["a"]), "meter")
    if all(learner.can(action[it]) for it in "ab"):
        learner.set(*DIAL[action["function"]], LEAD[action.fields.get("lead", "Short")])
        probes(learner, action)
        learner.press("read")
        return ()
    learner.set("next-reading")
    learner.press("read")
    return "a", "b"


def record(learner, action):
    """What is written is what the tester showed: the highest, of several. A sum with the card's figure is worked out."""
    line = f"{words(action['test'])}:{action['at']}"
    learner.go("tests")
    if action.fields.get("source") == "Card":
        # Worked out: what the card has and what was read.
        learner.set(f"card:{line}")
        learner.type(f"figure:{line}", action["reading"])
    elif "reading" in action.fields:
        highest = max(learner.figures, key=lambda it: ("<" not in it and ">" not in it, float(it.strip("<> "))))
        learner.type(f"figure:{line}", highest)
    learner.figures.clear()
    learner.press({"true": "accept", "false": "reject"}[action["accepted"]] + f":{line}")
    return ("reading",)


def report(learner, action):
    learner.go(action["at"])
    learner.set("report")
    learner.press(f"report:{words(action['what'])}")


def change(learner, _):
    learner.set("hand:indicator")
    learner.press("change-indicator")


WAYS = {
    "ProveIndicator": prove,
    "TestDead": test_dead,
    "Park": park,
    "Unpark": unpark,
    "Conclude": lambda learner, action: learner.press("dead" if action["dead"] == "true" else "not-dead"),
    "Continuity": continuity,
    "Inspect": inspect,
    "Null": null,
    "FitLink": fit_link,
    "TakeLink": lambda learner, _: learner.press("take-link:1"),
    "Measure": measure,
    "Record": record,
    "Report": report,
    "Change": change,
}
