"""The real window on a virtual display: what is on it, and real pointer and key events into it.

Nothing here waits for time: everything waits until the program's own map (SWITCHDROP_MAP) or its attempt file says so,
and gives up with a picture of the window after a minute.
"""
import glob
import json
import os
import subprocess
import tempfile
import time

PATIENCE = 60.0
NAME = "A. Thornbury"


class Stuck(Exception):
    """What was waited for did not come."""


class Screen:
    """The program in its window, on a display with room for its frame. Use it as a context."""

    def __init__(self, program, folder, size=(1280, 800), theme="Day", text=100):
        os.makedirs(folder, exist_ok=True)
        self.folder, self.size, self.theme, self.text = folder, size, theme, text
        # One of its own each time: what an earlier run left would be taken for this one's.
        self.attempts = tempfile.mkdtemp(prefix="attempts-", dir=folder)
        self.map_file = os.path.join(folder, "map.json")
        self.command = [program, "--attempts", self.attempts, "--seed", "4"]
        self.running = []

    def __enter__(self):
        try:
            self.start()
        except BaseException:
            # What was started ends with what went wrong.
            self.stop()
            raise
        return self

    def start(self):
        """Starts a display, a window manager and the program, and waits for its window."""
        read, write = os.pipe()
        server = ["Xvfb", "-displayfd", str(write), "-screen", "0", "2560x1440x24", "-nolisten", "tcp"]
        self.running.append(subprocess.Popen(server, pass_fds=[write], stderr=subprocess.DEVNULL))
        os.close(write)
        with os.fdopen(read) as answer:
            display = ":" + answer.readline().strip()
        self.env = {**os.environ, "DISPLAY": display, "SWITCHDROP_MAP": self.map_file, "SWITCHDROP_TIMES": "1"}
        # This run has settings of its own, in which the learner's name stands already.
        self.env["XDG_DATA_HOME"] = self.attempts
        settings = os.path.join(self.attempts, "switchdrop", "settings.ron")
        os.makedirs(os.path.dirname(settings))
        with open(settings, "w") as it:
            it.write(f'(learner:"{NAME}",theme:{self.theme},text:{self.text})\n')
        self.env.pop("WAYLAND_DISPLAY", None)
        # Without a window manager no window gets the keyboard.
        self.running.append(subprocess.Popen(["openbox"], env=self.env, stderr=subprocess.DEVNULL))
        said = open(os.path.join(self.folder, "said"), "w")
        self.program = subprocess.Popen(self.command, env=self.env, stdout=said, stderr=said)
        self.running.append(self.program)
        self.until(lambda _: "first frame presented" in self.said(), "a first frame")
        # Its first frame may be there before the window can be found.
        self.until(lambda _: self.windows(), "a window")
        self.window = self.windows()[-1]
        self.xdo("windowactivate", "--sync", self.window)
        self.xdo("windowsize", "--sync", self.window, *map(str, self.size))
        self.xdo("windowmove", "--sync", self.window, "0", "0")

    def windows(self):
        """The program's windows that can be seen."""
        return self.xdo("search", "--onlyvisible", "--pid", str(self.program.pid)).split()

    def __exit__(self, kind, error, trace):
        if kind is not None:
            print("the window stuck:", self.picture("stuck"))
            print(self.said()[-2000:])
        self.stop()

    def stop(self):
        """Ends everything that was started, the last first."""
        for it in reversed(self.running):
            it.terminate()
            it.wait()

    def xdo(self, *arguments):
        done = subprocess.run(["xdotool", *arguments], env=self.env, capture_output=True, text=True)
        return done.stdout

    def move(self, x, y):
        """Moves the pointer to a place of the window, which its frame sets off from that of the screen."""
        self.xdo("mousemove", "--window", self.window, str(x), str(y))

    def said(self):
        """What the program wrote on its standard streams, its own times among it."""
        with open(os.path.join(self.folder, "said")) as it:
            return it.read()

    def map(self):
        """What is on the screen; empty before the first frame."""
        try:
            with open(self.map_file) as it:
                return json.load(it)
        except FileNotFoundError:
            return {"#frame": 0, "#on": [], "#order": [], "#typed": {}, "#focus": None, "#actions": 0, "#said": "", "#presses": 0}

    def until(self, holds, what):
        """The map once something holds of it."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            seen = self.map()
            if holds(seen):
                return seen
            if self.program.poll() is not None:
                raise Stuck(f"the program ended ({self.program.returncode}) before: {what}")
            time.sleep(0.005)
        raise Stuck(f"never came: {what}; on: {seen['#on']}; focus: {seen['#focus']}; order: {seen['#order']}")

    def attempt(self):
        """The one attempt file."""
        (path,) = glob.glob(os.path.join(self.attempts, "*.attempt.ron"))
        return path

    def until_on(self, key):
        """Waits until something is chosen, ticked, selected or under a probe."""
        self.until(lambda it: key in it["#on"], f"{key} on")

    def until_typed(self, field, text):
        """Waits until that stands in a field."""
        self.until(lambda it: it["#typed"].get(field) == text, f"{text} in {field}")

    def until_done(self, count, what):
        """Waits until the attempt has so many actions and the window shows what came of them."""
        return self.until(lambda it: it["#actions"] >= count, f"action {count}: {what}")

    def picture(self, name):
        path = os.path.join(self.folder, name + ".png")
        subprocess.run(["import", "-window", self.window, path], env=self.env, check=False)
        return path

    def close(self):
        """Closes the window as its user would; what the program ended with."""
        # On a busy machine the keys can come before the window manager listens: if the window is still there, they are pressed again.
        for _ in range(6):
            self.xdo("key", "alt+F4")
            try:
                return self.program.wait(PATIENCE / 6)
            except subprocess.TimeoutExpired:
                continue
        raise Stuck("the window does not close")
