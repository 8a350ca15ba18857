#!/usr/bin/env python3
"""Plans many profiles with `plan --lines` on workers of Dask (PyPI distributed).

Usage: cluster.py PROFILES.jsonl DIR [--batch N] [--workers N] [--scheduler ADDRESS] [--kill]. Writes DIR/plans.jsonl with an
answer for each line, in order, as one run gives it, and prints the throughput. WEEKWRIGHT names the program of all workers.

A batch goes into DIR/batches/HASH.jsonl, the hash of its lines and of the program's version, and is moved there when it is
whole: a run that was stopped goes on where it was, and a batch that two workers did is one file. A batch whose worker dies
again and again is halved until one line stands alone, which is asked once more at the end, as it may only have shared its
workers with the one that ends them, and then answered with an error. `--kill` ends one worker of a local cluster midway.
"""

import argparse
import hashlib
import itertools
import json
import os
import pathlib
import re
import signal
import tempfile
import threading
import time
from subprocess import DEVNULL, PIPE, Popen, check_output

from distributed import Client, LocalCluster, as_completed

PROGRAM = os.environ.get("WEEKWRIGHT", "weekwright")
SOURCE = re.compile(rb'(?<="source":")<line \d+>')  # a batch numbers its own lines
POISON = os.environ.get("CLUSTER_POISON", "").encode()  # for tests: a worker that meets this word ends


def plan(lines, folder, version):
    """The file of a batch, made unless it is there. Runs on a worker, whose child ends with it."""
    text = b"".join(lines)
    file = folder / f"{hashlib.sha256(version + text).hexdigest()}.jsonl"
    if file.exists():
        return file
    if POISON and POISON in text:
        os.kill(os.getpid(), signal.SIGKILL)
    child = Popen([PROGRAM, "plan", "--lines", "--quiet"], stdin=PIPE, stdout=PIPE, stderr=DEVNULL)
    try:  # the work of a line is limited by a count: the clock only catches a machine that stands still
        out, _ = child.communicate(text, timeout=600 * len(lines))
    finally:
        child.kill()
    assert out.count(b"\n") == len(lines), "the program ended before it had answered each line"
    with tempfile.NamedTemporaryFile(dir=folder, delete=False) as part:
        part.write(out)
    os.replace(part.name, file)
    return file


def kill_one(cluster, folder):  # once a first batch is done
    while not any(folder.glob("*.jsonl")):
        time.sleep(0.05)
    os.kill(next(iter(cluster.workers.values())).pid, signal.SIGKILL)


def run(client, lines, asked, folder):
    """Numbers of lines with their answers, or with the file of these, by the first number."""
    version = check_output([PROGRAM, "--version"])
    done, under_way, waiting, alone = {}, {}, as_completed(), {}
    batches = iter(lambda: list(itertools.islice(lines, asked.batch)), [])

    def ask(batch):
        future = client.submit(plan, [line for _, line in batch], folder, version, pure=False)
        under_way[future.key] = (future, batch)
        waiting.add(future)

    for batch in itertools.islice(batches, 4 * asked.workers):
        ask(batch)
    for future in waiting:
        _, batch = under_way.pop(future.key)
        if future.status == "finished":
            done[batch[0][0]] = ([at for at, _ in batch], future.result())
        elif len(batch) > 1:
            ask(batch[: len(batch) // 2])
            ask(batch[len(batch) // 2 :])
            continue
        else:
            alone.update(batch)
        for following in itertools.islice(batches, 1):
            ask(following)
    for at, line in alone.items():
        try:
            done[at] = ([at], client.submit(plan, [line], folder, version, pure=False).result())
        except Exception as why:  # pylint: disable=broad-except
            told = {"code": "worker-lost", "labels": [{"source": f"<line {at}>"}], "message": f"no worker answers: {why}"}
            done[at] = ([at], json.dumps({"error": [told]}).encode() + b"\n")
    return done


def main():
    parser = argparse.ArgumentParser()
    kinds = {"profiles": pathlib.Path, "folder": pathlib.Path, "--scheduler": str, "--batch": int, "--workers": int}
    for name, kind in kinds.items():
        parser.add_argument(name, type=kind)
    parser.add_argument("--kill", action="store_true")
    parser.set_defaults(batch=5, workers=2)
    asked = parser.parse_args()
    folder, begin = asked.folder / "batches", time.monotonic()
    folder.mkdir(parents=True, exist_ok=True)
    cluster = asked.scheduler or LocalCluster(n_workers=asked.workers, threads_per_worker=1, dashboard_address=None)
    if asked.kill:
        threading.Thread(target=kill_one, args=(cluster, folder), daemon=True).start()
    with asked.profiles.open("rb") as profiles, Client(cluster) as client:
        numbered = ((at, line.rstrip(b"\n") + b"\n") for at, line in enumerate(profiles, 1))
        done = run(client, ((at, line) for at, line in numbered if line.strip(b" \t\r\n\x0c")), asked, folder)
    with (asked.folder / "plans.jsonl").open("wb") as plans:
        for _, (numbers, answers) in sorted(done.items()):
            answers = answers if isinstance(answers, bytes) else answers.read_bytes()
            for at, answer in zip(numbers, answers.splitlines(keepends=True)):
                plans.write(SOURCE.sub(b"<line %d>" % at, answer))
    count, took = sum(len(numbers) for numbers, _ in done.values()), time.monotonic() - begin
    print(f"{count} profiles in {took:.1f} s: {count / took * 3600:.0f} an hour")


if __name__ == "__main__":
    main()
