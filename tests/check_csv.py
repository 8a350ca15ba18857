#!/usr/bin/env python3
"""Reads tables back with Python's own csv module: tests/check_csv.py TABLE.csv...

Each row has as many cells as the head, no cell of text starts with a sign that a spreadsheet takes
for a formula, and sets, loads and rests are numbers. Exit 1 when a check fails.
"""

import csv
import sys

NUMBERS = ("week", "sets", "load", "rest_s", "rir")


def faults(name):
    with open(name, encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table, strict=True))
    if not rows:
        yield "no rows"
    for place, row in enumerate(rows, 2):
        if None in row or None in row.values():
            yield f"row {place}: not as many cells as the head"
        for key in NUMBERS:
            try:
                float(row[key] or 0)
            except ValueError:
                yield f"row {place}: {key} is {row[key]!r}"
        for key, cell in row.items():
            if key not in NUMBERS and (cell or " ")[0] in "=+-@\t\r":
                yield f"row {place}: {key} starts like a formula: {cell!r}"


def main():
    found = [f"{name}: {fault}" for name in sys.argv[1:] for fault in faults(name)]
    print("\n".join(found) or f"{len(sys.argv) - 1} tables as meant")
    return 1 if found or len(sys.argv) < 2 else 0


if __name__ == "__main__":
    sys.exit(main())
