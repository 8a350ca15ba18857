#!/usr/bin/env python3
"""Plans many profiles with `plan --lines` on workers of Dask (PyPI distributed).

Usage: cluster.py PROFILES.jsonl DIR [--batch N] [--workers N] [--scheduler ADDRESS] [--kill]. Writes DIR/plans.jsonl with an
answer for each line, in order, and prints the throughput. WEEKWRIGHT names the program, which every worker must have.

Each batch goes into DIR/batches/HASH.jsonl, the hash of its lines and of the program's version, and is moved there when it
is whole: a run that was stopped goes on where it was, and a batch that two workers did is one file. A batch whose worker
dies again and again is halved until the line that kills it stands alone; such a line waits until the others are done, as it
may only have shared its workers with the one that ends them, and is asked once more by itself. What ends its worker then is
answered with an error. `--kill` ends one worker of a local cluster in the middle, to show that.
"""

import argparse
import hashlib
import json
import os
import pathlib
import signal
import subprocess
import tempfile
import threading
import time

from distributed import Client, LocalCluster, as_completed

PROGRAM = os.environ.get("WEEKWRIGHT", "weekwright")
# A line is limited by counts of work; this only catches a machine that stands still.
SECONDS_A_LINE = 600
# For tests: a worker that meets this word ends.
POISON = os.environ.get("CLUSTER_POISON")


def plan(lines, folder, version):
    """The file of a batch, made unless it is there. Runs on a worker, whose child ends with it."""
    text = "\n".join([version, *lines])
    file = pathlib.Path(folder) / f"{hashlib.sha256(text.encode()).hexdigest()}.jsonl"
    if file.exists():
        return str(file)
    if POISON and any(POISON in line for line in lines):
        os.kill(os.getpid(), signal.SIGKILL)
    asks = [PROGRAM, "plan", "--lines", "--quiet"]
    child = subprocess.Popen(asks, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    try:
        out, _ = child.communicate("\n".join(lines).encode() + b"\n", timeout=SECONDS_A_LINE * len(lines))
    finally:
        child.kill()
    assert len(out.splitlines()) == len(lines), "an answer to each line"
    with tempfile.NamedTemporaryFile(dir=folder, delete=False) as part:
        part.write(out)
    os.replace(part.name, file)
    return str(file)


def poisoned(line):
    told = {"code": "worker-lost", "message": "every worker that took this line ended", "line": line[:200]}
    return json.dumps({"error": [told]}).encode() + b"\n"


def kill_one(cluster, folder):
    """Ends the process of a worker once a first batch is done."""
    while not any(folder.glob("*.jsonl")):
        time.sleep(0.05)
    os.kill(next(iter(cluster.workers.values())).pid, signal.SIGKILL)


def run(client, lines, size, folder):
    version = subprocess.run([PROGRAM, "--version"], capture_output=True, text=True, check=True).stdout
    done, asked, waiting, alone = {}, {}, as_completed(), {}

    def ask(at, batch):
        future = client.submit(plan, batch, str(folder), version, pure=False)
        asked[future.key] = (future, at, batch)
        waiting.add(future)

    for at in range(0, len(lines), size):
        ask(at, lines[at : at + size])
    for future in waiting:
        _, at, batch = asked.pop(future.key)
        if future.status == "finished":
            done[at] = pathlib.Path(future.result()).read_bytes()
        elif len(batch) == 1:
            alone[at] = batch[0]
        else:
            half = len(batch) // 2
            ask(at, batch[:half])
            ask(at + half, batch[half:])
    for at, line in alone.items():
        future = client.submit(plan, [line], str(folder), version, pure=False)
        try:
            done[at] = pathlib.Path(future.result()).read_bytes()
        except Exception:  # pylint: disable=broad-except
            done[at] = poisoned(line)
    return b"".join(done[at] for at in sorted(done))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("profiles", type=pathlib.Path)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--batch", type=int, default=5)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--scheduler")
    parser.add_argument("--kill", action="store_true")
    asked = parser.parse_args()
    lines = [line for line in asked.profiles.read_text().splitlines() if line.strip()]
    folder = asked.folder / "batches"
    folder.mkdir(parents=True, exist_ok=True)
    begin = time.monotonic()
    if asked.scheduler:
        plans = run(Client(asked.scheduler), lines, asked.batch, folder)
    else:
        with LocalCluster(n_workers=asked.workers, threads_per_worker=1, dashboard_address=None) as cluster:
            if asked.kill:
                threading.Thread(target=kill_one, args=(cluster, folder), daemon=True).start()
            with Client(cluster) as client:
                plans = run(client, lines, asked.batch, folder)
    (asked.folder / "plans.jsonl").write_bytes(plans)
    took = time.monotonic() - begin
    print(f"{len(lines)} profiles in {took:.1f} s: {len(lines) / took * 3600:.0f} an hour")


if __name__ == "__main__":
    main()
