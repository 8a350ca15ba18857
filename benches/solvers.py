#!/usr/bin/env python3
"""HiGHS, CBC, GLPK and CP-SAT beside ours on the exported weekly models: a table in Markdown.

    cargo bench --bench process -- DIR
    benches/solvers.py DIR [--seconds 60] [CASE...]

Each solver has one thread. Told are our value and whole-process seconds, and for each solver the seconds until it has a
week worth as much as ours (as a multiple of ours) and the best value it has at the end. The models hold tiers 1 and 2 at the values we
reached, so every value is one of tier 3. Needs PyPI highspy and ortools, and Debian coinor-cbc and glpk-utils.
"""

import argparse
import json
import pathlib
import re
import subprocess
import time


def follow(command, pattern, sign, seconds):
    """Best values with the seconds after which a solver printed them."""
    begin = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    found = []
    try:
        for line in process.stdout:
            if match := re.search(pattern, line):
                found.append((time.monotonic() - begin, sign * float(match.group(1))))
            if time.monotonic() - begin > seconds + 10:
                break
    finally:
        process.kill()
        process.wait()
    return found


def cbc(model, seconds):
    command = ["stdbuf", "-oL", "cbc", str(model), "-threads", "0", "-seconds", str(seconds), "-solve", "-quit"]
    return follow(command, r"(?:Integer solution of|Search completed - best objective) (-?[\d.e+]+)", -1.0, seconds)


def glpk(model, seconds):
    command = ["stdbuf", "-oL", "glpsol", "--freemps", str(model), "--tmlim", str(int(seconds)), "--cuts"]
    return follow(command, r"^\+\s*\d+: mip =\s*(-?[\d.e+]+) ", -1.0, seconds)


HIGHS = """
import highspy, sys
highs = highspy.Highs()
for option, value in [("threads", 1), ("time_limit", float(sys.argv[2])), ("mip_rel_gap", 0.0), ("mip_min_logging_interval", 0.0)]:
    highs.setOptionValue(option, value)
highs.readModel(sys.argv[1])
def improved(event):
    print("IMPROVED", event.data_out.objective_function_value, flush=True)
highs.cbMipImprovingSolution += improved
highs.run()
"""


def highs(model, seconds):
    command = ["python3", "-c", HIGHS, str(model), str(seconds)]
    return follow(command, r"IMPROVED (-?[\d.e+]+)", -1.0, seconds)


CP_SAT = """
import sys
from ortools.linear_solver.python import model_builder
model = model_builder.Model()
model.import_from_mps_file(sys.argv[1])
solver = model_builder.Solver("sat")
solver.set_solver_specific_parameters(
    f"num_workers: 1 mip_var_scaling: 1000 log_search_progress: true log_to_stdout: true max_time_in_seconds: {sys.argv[2]}")
solver.solve(model)
"""


def cp_sat(model, seconds):
    command = ["stdbuf", "-oL", "python3", "-c", CP_SAT, str(model), str(seconds)]
    return follow(command, r"^#\d+\s+[\d.]+s best:(-?[\d.e+]+)", -1.0, seconds)


SOLVERS = {"HiGHS": highs, "CBC": cbc, "GLPK": glpk, "CP-SAT": cp_sat}


def cell(found, ours, ours_s):
    """`12x, 585` is: as good as ours after 12 times our seconds, 585 in the end."""
    if not found:
        return "no week"
    best = max(value for _, value in found)
    reached = [at for at, value in found if value >= ours - 1e-3]
    until = f"{min(reached) / ours_s:.0f}x" if reached else "never"
    return f"{until}, {best:g}"


def main():
    parser = argparse.ArgumentParser(description="Other solvers on the exported models.")
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("cases", nargs="*")
    parser.add_argument("--seconds", type=float, default=60.0)
    arguments = parser.parse_args()
    print("| model | ours | seconds | " + " | ".join(SOLVERS) + " |\n| --- | --- | --- | " + " | ".join("---" for _ in SOLVERS) + " |")
    for model in sorted(arguments.folder.glob("*.mps")):
        if arguments.cases and model.stem not in arguments.cases:
            continue
        ours = json.loads(model.with_suffix(".json").read_text())["solve"]["objective"]
        ours_s = float(model.with_suffix(".seconds").read_text())
        cells = [cell(solve(model, arguments.seconds), ours, ours_s) for solve in SOLVERS.values()]
        print(f"| {model.stem} | {ours:g} | {ours_s:.2f} | " + " | ".join(cells) + " |", flush=True)


if __name__ == "__main__":
    main()
