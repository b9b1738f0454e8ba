"""The program's own times beside an empty window of the same engine, in one run on one virtual display size.

    cargo build --release && cargo build --release --features measure --example empty-window
    measure.py target/release/switchdrop target/release/examples/empty-window

Prints a table; each figure of ours comes with its ratio to, or difference from, the empty window's.
"""
import os
import re
import statistics
import sys
import tempfile
import time

from hands import Pointer
from learner import Learner
from screen import Screen

STARTS = 7
MOVES = 150
REST = 30.0


def mains(text):
    """Times of the main schedule, milliseconds."""
    return [float(it) for it in re.findall(r"main schedule ([\d.]+) ms", text)]


def ticks(pid):
    """Processor time of a process so far, clock ticks."""
    with open(f"/proc/{pid}/stat") as it:
        fields = it.read().rsplit(")", 1)[1].split()
    return int(fields[11]) + int(fields[12])


def memory(pid):
    """Resident memory, MiB."""
    with open(f"/proc/{pid}/status") as it:
        return int(re.search(r"VmRSS:\s+(\d+)", it.read()).group(1)) / 1024


def drag(screen, start):
    """Drags about with the button down, one movement a frame. Times of the main schedule and of whole frames, ms."""
    x, y = start
    screen.move(x, y)
    screen.xdo("mousedown", "1")
    before = len(mains(screen.said()))
    whole = []
    for step in range(MOVES):
        frames = len(mains(screen.said()))
        began = time.monotonic()
        screen.move(x + 3 * (step % 60), y + step % 40)
        while len(mains(screen.said())) == frames:
            time.sleep(0.0005)
        whole.append((time.monotonic() - began) * 1000)
    screen.xdo("mouseup", "1")
    return statistics.median(mains(screen.said())[before:]), statistics.median(whole)


def measured(program, prepare):
    """Start, main schedule, frame, memory and rest of one program."""
    starts = []
    for number in range(STARTS):
        with tempfile.TemporaryDirectory() as folder, Screen(program, folder) as screen:
            starts.append(float(re.search(r"first frame presented after (\d+) ms", screen.said()).group(1)))
            if number < STARTS - 1:
                continue
            main, whole = drag(screen, prepare(screen))
            used = memory(screen.program.pid)
            time.sleep(2)
            before = ticks(screen.program.pid)
            time.sleep(REST)
            rest = 100 * (ticks(screen.program.pid) - before) / os.sysconf("SC_CLK_TCK") / REST
    return statistics.median(starts), main, whole, used, rest, os.path.getsize(program) / 2**20


def at_an_open_box(screen):
    """Goes on with the model attempt until a box is open; where a core's end is."""
    hands = Pointer(screen)
    learner = Learner(screen, hands, "two-way-passage")
    learner.everything(stop="Connect")
    learner.go("kiln", "tools")
    return hands.to("link/grey@kiln")


def main():
    ours, empty = sys.argv[1:3]
    rows = zip(
        ["first frame presented, ms (median of %d)" % STARTS, "main schedule while dragging, ms", "whole frame while dragging, ms",
         "memory, MiB", "processor at rest over %d s, %%" % REST, "size, MiB"],
        measured(ours, at_an_open_box),
        measured(empty, lambda _: (600, 400)),
    )
    print(f"{'':45} {'ours':>9} {'empty':>9} {'ratio':>7} {'more':>8}")
    for name, a, b in rows:
        print(f"{name:45} {a:9.2f} {b:9.2f} {a / b if b else float('nan'):7.2f} {a - b:8.2f}")


if __name__ == "__main__":
    main()
