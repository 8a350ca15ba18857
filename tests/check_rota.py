#!/usr/bin/env python3
"""Puts CP-SAT (PyPI ortools), a general solver that this project does not use, beside ours on clashes in a room.

`rota --format json` tells of each clash what may be changed: starts, arrangements of a session, what each group holds
for which of its seconds, and how many pieces there are. Here the same is written as a job-shop model, with an interval
for each hold and a limit on each thing, and solved anew. Two things must hold:

- where ours is settled, CP-SAT finds no answer whose most burdened client bears less, nor one with as much of that and
  fewer changes in all; and none at all where only gentler changes are allowed;
- where ours says that nothing fits, CP-SAT proves the same.

Usage: check_rota.py FOLDER... WEEKWRIGHT names the program, else the release build is used. Exit code 1 if anything
does not hold.
"""

import json
import os
import pathlib
import subprocess
import sys

from ortools.sat.python import cp_model

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = os.environ.get("WEEKWRIGHT", str(ROOT / "target/release/weekwright"))
REACHES = ["kept", "order", "start", "swap", "more"]


def minute(second):
    """The nearest minute, as the room counts."""
    return (second + 30) // 60


def clipped(holds, pieces):
    """Pieces by thing and minute of a session: what one person holds is never more than there is."""
    held = {}
    for thing, count, begin, end in holds:
        for at in range(begin, end):
            held[thing, at] = min(held.get((thing, at), 0) + count, pieces[thing])
    return held


class Model:
    """A clash with what some reach allows."""

    def __init__(self, case, reach):
        self.model = cp_model.CpModel()
        self.pieces = case["things"]
        self.tasks = {thing: ([], []) for thing in self.pieces}
        self.borne = {visit["client"]: [visit["borne"]] for visit in case["visits"]}
        for span in case["fixed"]:
            self.add(span["thing"], span["pieces"], span["from"], span["to"] - span["from"], None)
        for number, visit in enumerate(case["visits"]):
            self.visit(number, visit, reach)
        for thing, (intervals, demands) in self.tasks.items():
            self.model.add_cumulative(intervals, demands, self.pieces[thing])
        self.most = self.model.new_int_var(0, 1000, "most")
        self.changes = sum(sum(terms) for terms in self.borne.values())
        for terms in self.borne.values():
            self.model.add(self.most >= sum(terms))

    def add(self, thing, count, start, long, presence):
        intervals, demands = self.tasks[thing]
        if presence is None:
            intervals.append(self.model.new_fixed_size_interval_var(start, long, ""))
        else:
            intervals.append(self.model.new_optional_fixed_size_interval_var(start, long, presence, ""))
        demands.append(count)

    def visit(self, number, visit, reach):
        allowed = REACHES.index(reach)
        starts = visit["starts"] if allowed >= REACHES.index("start") else [visit["planned"]]
        start = self.model.new_int_var_from_domain(cp_model.Domain.from_values(starts), f"start {number}")
        late = self.model.new_bool_var("")
        self.model.add(start == visit["planned"]).only_enforce_if(~late)
        self.model.add(start != visit["planned"]).only_enforce_if(late)
        self.borne[visit["client"]].append(late)
        chosen = []
        for arrangement in visit["arrangements"]:
            if REACHES.index(arrangement["reach"]) > allowed:
                continue
            taken = self.model.new_bool_var("")
            chosen.append(taken)
            self.borne[visit["client"]].append(len(arrangement["told"]) * taken)
            at = 0
            for block in arrangement["blocks"]:
                self.block(block, at, start, taken)
                at += block["seconds"]
        self.model.add_exactly_one(chosen)

    def block(self, block, at, start, taken):
        """Exactly one of the ways of a group, where its arrangement is the one that is done."""
        ways = []
        for way in block["ways"]:
            done = self.model.new_bool_var("")
            ways.append(done)
            holds = [
                (hold["thing"], hold["pieces"], minute(at + hold["from_s"]), minute(at + hold["to_s"]))
                for hold in way
                if hold["thing"] in self.pieces
            ]
            for (thing, begin), count in clipped(holds, self.pieces).items():
                self.add(thing, count, start + begin, 1, done)
        self.model.add(sum(ways) == taken)

    def solved(self, goal):
        self.model.minimize(goal)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = 60
        solver.parameters.num_workers = 2
        status = solver.solve(self.model)
        if status == cp_model.INFEASIBLE:
            return None
        assert status == cp_model.OPTIMAL, solver.status_name(status)
        return round(solver.objective_value)


def best(case, reach):
    """The least that the most burdened client bears, and the fewest changes with that; none where nothing fits."""
    model = Model(case, reach)
    most = model.solved(model.most)
    if most is None:
        return None
    model.model.add(model.most <= most)
    return most, model.solved(model.changes)


def faults(clash):
    case, outcome = clash["case"], clash["outcome"]
    told = f"{clash['day']} {', '.join(clash['clients'])}"
    if not outcome["settled"]:
        if outcome["proven"] and best(case, "more") is not None:
            yield f"{told}: we say that nothing fits, and something does"
        return
    reach = REACHES.index(outcome["reach"])
    for gentler in REACHES[:reach]:
        if outcome["proven"] and best(case, gentler) is not None:
            yield f"{told}: {gentler} would have been enough"
    found = best(case, outcome["reach"])
    before = sum({visit["client"]: visit["borne"] for visit in case["visits"]}.values())
    print(f"{told}: {outcome['reach']}, ours {outcome['changes']}, CP-SAT {found and found[1] - before}")
    if found is None:
        yield f"{told}: we settle what cannot be"
    elif outcome["proven"] and (outcome["most"], outcome["changes"]) != (found[0], found[1] - before):
        yield f"{told}: ours {outcome['most']}, {outcome['changes']} and CP-SAT {found[0]}, {found[1] - before}"


def main():
    found = []
    for folder in sys.argv[1:]:
        run = subprocess.run([PROGRAM, "rota", *folder.split(","), "--format", "json"], capture_output=True, text=True)
        assert run.returncode in (0, 3), run.stderr
        for clash in json.loads(run.stdout)["clashes"]:
            found.extend(faults(clash))
    for fault in found:
        print(f"FAULT {fault}")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
