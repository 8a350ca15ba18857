#!/usr/bin/env python3
"""Compares ways of searching by tables of `benches/streams.rs`: a row for each file, in Markdown.

    benches/losses.py [--known FILE...] FILE...

Loss is against the best week of all files and of those under `--known`, as a part of its points or of 100, whichever is
more, as points can be few; it counts 4 % at most, and 4 % where a week costs more than it must in tier 1 or 2.
"""

import argparse
import pathlib

MOST = 4.0


def weeks(path):
    """By week: seconds, costs and points of each stream."""
    table = {}
    for line in pathlib.Path(path).read_text().splitlines():
        words = line.split()
        if len(words) != 6 or not words[1].isdigit():
            continue
        name, _, seconds, coverage, ranges, view = words
        table.setdefault(name, []).append((float(seconds), (-float(coverage), -float(ranges), float(view))))
    return table


def loss(best, value):
    """In percent of the best."""
    if any(abs(one - other) > 1e-3 for one, other in zip(best[:2], value[:2], strict=True)):
        return MOST
    return min(MOST, 100.0 * max(0.0, best[2] - value[2]) / max(100.0, abs(best[2])))


def main():
    parser = argparse.ArgumentParser(description="Ways of searching beside one another.")
    parser.add_argument("files", nargs="+")
    parser.add_argument("--known", nargs="*", default=[])
    parser.add_argument("--by-week", action="store_true")
    arguments = parser.parse_args()
    tables = {path: weeks(path) for path in arguments.files}
    known = [*tables.values(), *map(weeks, arguments.known)]
    best = {}
    for table in known:
        for name, runs in table.items():
            best[name] = max([value for _, value in runs] + ([best[name]] if name in best else []))
    print("| way | runs | CPU a week | mean loss | over 1 % | over 2 % |\n| --- | ---: | ---: | ---: | ---: | ---: |")
    for path, table in tables.items():
        runs = [(name, seconds, loss(best[name], value)) for name, many in table.items() for seconds, value in many]
        losses = [one for _, _, one in runs]
        mean = sum(losses) / len(runs)
        seconds = sum(one for _, one, _ in runs) / len(runs)
        over = [sum(one > limit for one in losses) for limit in (1.0, 2.0)]
        print(f"| {pathlib.Path(path).stem} | {len(runs)} | {seconds:.3f} s | {mean:.2f} % | {over[0]} | {over[1]} |")
    if arguments.by_week:
        for name in best:
            cells = []
            for table in tables.values():
                of = [loss(best[name], value) for _, value in table.get(name, [])]
                cells.append(f"{sum(of) / len(of):.2f}" if of else "")
            print(f"| {name} | {best[name][2]:g} | " + " | ".join(cells) + " |")


if __name__ == "__main__":
    main()
