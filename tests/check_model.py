#!/usr/bin/env python3
"""Puts HiGHS and CP-SAT (PyPI highspy, ortools), solvers that this project does not use, beside ours on the weekly models.

For every demo profile of up to three days and ten small weeks drawn here, the program plans and writes its weekly
model. HiGHS then has 20 seconds and one thread, and four things must hold:

- the best week that HiGHS finds is worth at most 1 % more than ours;
- where ours misses some of tier 1 or 2, HiGHS finds no week that misses less, with what comes before held;
- the bound that HiGHS proves is not under ours, so ours is no more than what the rows allow;
- with our exercises held on our days, HiGHS reaches at least our value: the plan as printed keeps every row.

CP-SAT, which works in another way, judges the first ten of them as well: the last two must hold by it too.

The file holds the least of the negative points (free MPS minimizes), so its values are turned round here.

Usage: check_model.py [--seconds S] [--weeks N] [--all-demos]. WEEKWRIGHT names the program, else the release build is used.
Exit code 1 if one of the last two does not hold, which would be a fault of ours; 2 if only a better week was found.
"""

import argparse
import json
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import time

import highspy
from ortools.linear_solver.python import model_builder

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = os.environ.get("WEEKWRIGHT", str(ROOT / "target/release/weekwright"))
# The rows that hold tiers 1 and 2 at what ours reaches.
HELD = ["held_coverage", "held_ranges_and_balance"]
# Room for rounding: a plan tells its values to three decimals.
ROUNDING = 2e-3
# CP-SAT counts in whole numbers: a thousandth of a half-set or minute is left over wherever one is no round figure.
SCALE = 1000
GRAIN = 0.1
JUDGED_TWICE = 10

KIT = ["dumbbells", "bench", "kettlebell", "resistance-band", "band-anchor", "pull-up-bar", "mini-band", "barbell",
       "squat-rack", "medicine-ball", "suspension-trainer", "chair"]
LIMITS = ["overhead", "impact", "kneeling", "grip", "deep-knee-flexion", "prone"]


def small_week(number):
    """A profile of little kit and one to three days, or four from the eleventh on. The same number gives the same profile
    on every machine."""
    draw = random.Random(number)
    days = draw.sample(["mon", "tue", "wed", "thu", "fri", "sat", "sun"], draw.randint(1, 3 if number <= 10 else 4))
    return {
        "client": f"small-{number:02}",
        "training_status": draw.choice(["novice", "intermediate"]),
        "goal": draw.choice(["hypertrophy", "strength", "general-fitness", "fat-loss", "endurance"]),
        "equipment": draw.sample(KIT, draw.randint(1, 4)),
        "limits": draw.sample(LIMITS, draw.randint(0, 2)),
        "supersets": draw.choice(["never", "allow", "prefer"]),
        "sessions": [{"day": day, "minutes": draw.choice([25, 30, 40, 45, 60])} for day in days],
    }


def demos(most_days):
    """The demo profiles of at most this many days, which is as many lines `- {day:` as they have."""
    for path in sorted((ROOT / "profiles").glob("*.yaml")):
        sessions = len(re.findall(r"\{day: \w+, at: |\{day: \w+, minutes: ", path.read_text()))
        if sessions <= most_days:
            yield path


def plan(profile, folder):
    """The plan as printed and the file of its model."""
    model = folder / f"{profile.stem}.mps"
    command = [PROGRAM, "plan", str(profile), "--format", "json", "--write-model", str(model)]
    begin = time.monotonic()
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0:
        raise SystemExit(f"{profile.stem}: exit code {done.returncode}\n{done.stderr}")
    return json.loads(done.stdout), model, time.monotonic() - begin


def picks(plan):
    """The names of the columns that the plan's exercises stand for."""
    for session in plan["sessions"]:
        day = "_".join([session["day"], *session.get("at", "").split(":")]).rstrip("_")
        for group in session["groups"]:
            if group["kind"] in ("single", "superset"):
                for item in group["items"]:
                    yield f"do_{item['exercise']}_{day}".replace("-", "_")


def solver(model, seconds):
    highs = highspy.Highs()
    for option, value in [("output_flag", False), ("threads", 1), ("time_limit", float(seconds)), ("mip_rel_gap", 0.0)]:
        highs.setOptionValue(option, value)
    if highs.readModel(str(model)) != highspy.HighsStatus.kOk:
        raise SystemExit(f"HiGHS cannot read {model}")
    return highs


def solve(highs):
    """Best value, bound and whether it is proven, as points to be maximized; no value where nothing was found."""
    highs.run()
    info, status = highs.getInfo(), highs.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, float("-inf"), True
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    proven = status == highspy.HighsModelStatus.kOptimal
    value = -info.objective_function_value if found else None
    return value, (value if proven else -info.mip_dual_bound), proven


def held(model, plan, seconds):
    """The best value with the plan's exercises and no others; sets and pairs stay free."""
    highs = solver(model, seconds)
    columns = list(highs.getLp().col_names_)
    wanted = set(picks(plan))
    strange = wanted - set(columns)
    if strange:
        raise SystemExit(f"{model.stem}: the model has no column {sorted(strange)}")
    for place, name in enumerate(columns):
        if name.startswith("do_"):
            value = float(name in wanted)
            highs.changeColBounds(place, value, value)
    return solve(highs)[0]


def missed_least(model, tiers, seconds):
    """Tiers 1 and 2 of which ours misses something: name, what ours misses, and the least that HiGHS finds."""
    for place, tier in enumerate(tiers[:2], start=1):
        if tier["value"] <= ROUNDING:
            continue
        highs = solver(model, seconds)
        names = list(highs.getLp().row_names_)
        rows = [names.index(held) for held in HELD[place - 1:] if held in names]
        _, columns, costs = highs.getRowEntries(rows[0])
        for column in range(highs.getNumCol()):
            highs.changeColCost(column, 0.0)
        for column, cost in zip(columns, costs):
            highs.changeColCost(int(column), float(cost))
        highs.deleteRows(len(rows), rows)
        value = solve(highs)[0]
        yield tier["name"], tier["value"], None if value is None else -value


def by_cp_sat(model, wanted, seconds):
    """Best value and bound by CP-SAT, in points, with some exercises held and no others where they are given."""
    program = model_builder.Model()
    if not program.import_from_mps_file(str(model)):
        raise SystemExit(f"CP-SAT cannot read {model}")
    for column in program.get_variables() if wanted else []:
        if column.name.startswith("do_"):
            column.lower_bound = column.upper_bound = float(column.name in wanted)
    solver = model_builder.Solver("sat")
    solver.set_solver_specific_parameters(f"num_workers: 1 mip_var_scaling: {SCALE} max_time_in_seconds: {seconds}")
    status = solver.solve(program)
    if status not in (model_builder.SolveStatus.OPTIMAL, model_builder.SolveStatus.FEASIBLE):
        return None, float("inf")
    return -solver.objective_value, -solver.best_objective_bound


def second_judge(model, made, seconds):
    """What does not hold by CP-SAT."""
    ours = made["solve"]["objective"]
    again, _ = by_cp_sat(model, set(picks(made)), seconds)
    if again is None or again < ours - GRAIN:
        yield f"our exercises give {again} in CP-SAT, under our {ours:.3f}"
    _, bound = by_cp_sat(model, None, seconds)
    if bound < ours - GRAIN:
        yield f"CP-SAT proves at most {bound:.3f}, under our {ours:.3f}"


def check(profile, folder, seconds, is_judged_twice):
    """A line of the table, what does not hold, and where a better week was found."""
    made, model, ours_s = plan(profile, folder)
    ours = made["solve"]["objective"]
    highs = solver(model, seconds)
    size = f"{highs.getNumCol()} x {highs.getNumRow()}"
    begin = time.monotonic()
    best, bound, proven = solve(highs)
    theirs_s = time.monotonic() - begin
    again = held(model, made, seconds)
    faults, better = [], []
    if best is not None and best > ours + max(0.01 * abs(ours), ROUNDING):
        better.append(f"HiGHS found {best:.3f}, over 1 % more than our {ours:.3f}")
    if bound < ours - ROUNDING:
        faults.append(f"HiGHS proves at most {bound:.3f}, under our {ours:.3f}")
    if again is None or again < ours - ROUNDING:
        faults.append(f"our exercises give {again} in HiGHS, under our {ours:.3f}")
    for tier, missed, least in missed_least(model, made["solve"]["tiers"], seconds):
        if least is not None and least < missed - ROUNDING:
            better.append(f"HiGHS misses {least:.3f} of {tier}, ours {missed:.3f}")
    if is_judged_twice:
        faults.extend(second_judge(model, made, seconds))
    told = "none" if best is None else f"{best:.1f}"
    line = (f"{profile.stem:<12} {len(made['sessions']):>4} {size:>13} {ours:>9.1f} {made['solve']['status']:>11} {ours_s:>7.2f} s "
            f"{told:>9} {bound:>9.1f} {'proven' if proven else 'stopped':>8} {theirs_s:>7.2f} s")
    return line, *([f"{profile.stem}: {one}" for one in told] for told in (faults, better))


def main():
    parser = argparse.ArgumentParser(description="Puts HiGHS beside ours on the weekly models.")
    parser.add_argument("--seconds", type=float, default=20.0, help="for each model")
    parser.add_argument("--weeks", type=int, default=10, help="small weeks to draw")
    parser.add_argument("--all-demos", action="store_true", help="also demo profiles of more than three days")
    arguments = parser.parse_args()
    faults, better = [], []
    print(f"{'profile':<12} {'days':>4} {'model':>13} {'ours':>9} {'status':>11} {'time':>9} "
          f"{'HiGHS':>9} {'bound':>9} {'':>8} {'time':>9}")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        profiles = list(demos(14 if arguments.all_demos else 3))
        if not profiles:
            raise SystemExit("there are no demo profiles")
        for number in range(1, arguments.weeks + 1):
            path = folder / f"small-{number:02}.yaml"
            path.write_text(json.dumps(small_week(number)))
            profiles.append(path)
        for number, profile in enumerate(profiles):
            line, wrong, found = check(profile, folder, arguments.seconds, number < JUDGED_TWICE)
            print(line, flush=True)
            faults.extend(wrong)
            better.extend(found)
    for fault in faults:
        print(f"FAULT {fault}")
    for one in better:
        print(f"BETTER {one}")
    return 1 if faults else 2 if better else 0


if __name__ == "__main__":
    sys.exit(main())
