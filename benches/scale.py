#!/usr/bin/env python3
"""What many clients cost: python3 benches/scale.py [--planned N] [--lines N]. WEEKWRIGHT names the program.

Prints profiles per core-hour by class of profile, from the processor time of `plan --lines`; the memory of one run over
more and more lines, most of which are faults, so that their number is what counts; and the time of a rota of four
clients at one hour and of twelve over a week, from plans that are there. The profiles are invented.
"""

import argparse
import json
import os
import pathlib
import resource
import subprocess
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = os.environ.get("WEEKWRIGHT", str(ROOT / "target/release/weekwright"))
DAYS = ["mon", "tue", "wed", "thu", "fri", "sat"]
GYM = ["barbell", "squat-rack", "bench", "dumbbells", "cable-station", "lat-pulldown", "leg-press", "leg-curl-machine"]
CLASSES = {
    "one day of 30 min, body weight and bands": ([(0, 30)], ["resistance-band", "chair"]),
    "two days of 30 min, dumbbells": ([(0, 30), (3, 30)], ["dumbbells", "bench"]),
    "three days of 60 min, a gym": ([(0, 60), (2, 60), (4, 60)], GYM),
    "six days of 60 min, a gym": ([(day, 60) for day in range(6)], GYM),
}


def profile(number, sessions, equipment):
    return {
        "client": f"skiff-{number:04}",
        "training_status": ["novice", "intermediate"][number % 2],
        "goal": ["hypertrophy", "strength", "general-fitness"][number % 3],
        "equipment": equipment,
        "sessions": [{"day": DAYS[(day + number) % 6], "minutes": minutes} for day, minutes in sessions],
    }


def run(lines):
    """Processor seconds and the most memory in MB of a run over some lines."""
    child = subprocess.Popen(
        [PROGRAM, "plan", "--lines", "--quiet"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    for line in lines:
        child.stdin.write(line.encode() + b"\n")
    child.stdin.close()
    _, _, used = os.wait4(child.pid, 0)
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def classes(count):
    print("| class | seconds of a core | profiles a core-hour | memory |\n| --- | ---: | ---: | ---: |")
    for name, (sessions, equipment) in CLASSES.items():
        seconds, memory = run(json.dumps(profile(number, sessions, equipment)) for number in range(count))
        print(f"| {name} | {seconds / count:.2f} | {3600 * count / seconds:.0f} | {memory:.0f} MB |", flush=True)


def memory(most):
    sessions, equipment = CLASSES["one day of 30 min, body weight and bands"]
    good = [json.dumps(profile(number, sessions, equipment)) for number in range(10)]
    lines = 10
    while lines <= most:
        fault = json.dumps(profile(0, [], equipment))
        _, used = run(good[number] if number < len(good) else fault for number in range(lines))
        print(f"{lines} lines: {used:.0f} MB", flush=True)
        lines *= 10


def rota(clients, hours):
    room = ROOT / "tests/fixtures/room"
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "places").symlink_to(room / "places")
        kinds = sorted(room.glob("*.yaml"))
        for number in range(clients):
            text = kinds[number % len(kinds)].read_text()
            head, _ = text.split("sessions:\n")
            code = kinds[number % len(kinds)].stem
            lifts = text.partition("known_lifts:\n")[2]
            days = "".join(f'  - {{day: {day}, at: "{at}", minutes: 60}}\n' for day, at in hours(number))
            text = head.replace(code, f"skiff-{number:02}") + "sessions:\n" + days
            (folder / f"skiff-{number:02}.yaml").write_text(text + (f"known_lifts:\n{lifts}" if lifts else ""))
        plans = folder / "plans"
        subprocess.run([PROGRAM, "plan", folder, "-o", plans, "--quiet"], check=True)
        begin, before = time.monotonic(), resource.getrusage(resource.RUSAGE_CHILDREN)
        ran = subprocess.run(
            [PROGRAM, "rota", plans, "--place", "boathouse", "--date", "2027-01-04", "--quiet", "--format", "json"],
            capture_output=True,
        )
        took, after = time.monotonic() - begin, resource.getrusage(resource.RUSAGE_CHILDREN)
        clashes = [clash["outcome"] for clash in json.loads(ran.stdout)["clashes"]]
        proven = sum(outcome["proven"] for outcome in clashes)
        print(f"rota of {clients}: {took:.2f} s, {after.ru_utime - before.ru_utime:.2f} s of a core, exit {ran.returncode}, "
              f"{len(clashes)} clashes, {proven} proven", flush=True)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--planned", type=int, default=20)
    parser.add_argument("--lines", type=int, default=10_000)
    asked = parser.parse_args()
    rota(4, lambda number: [("mon", "18:30")])
    evenings = [["mon", "thu"], ["tue", "fri"], ["wed", "sat"]]
    rota(12, lambda number: [(day, ["17:30", "18:30", "18:45", "19:30"][number // 3]) for day in evenings[number % 3]])
    classes(asked.planned)
    memory(asked.lines)


if __name__ == "__main__":
    main()
