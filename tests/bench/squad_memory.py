#!/usr/bin/python3
"""Peak memory of `tuck squad` against the length of its roster, by hand:

    TUCK=build/tuck python3 tests/bench/squad_memory.py 5000 20000 [100000]

Memory must not grow with the roster, but for 64 bytes a row of the summary (contract), and stay under 200 MB."""
import csv
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TUCK = os.environ.get("TUCK", "build/tuck")
EVENT = Path(__file__).resolve().parents[2] / "samples" / "squad" / "event.json"
LEVELS = ("beginner", "steady", "keen", "fast")
BYTES_A_ROW, MOST_MB = 64, 200


def roster(path, rows):
    """Invented athletes; no two alike."""
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(("name", "bib", "mass_kg", "level", "carb_g_per_h", "sweat_ml_per_h"))
        for i in range(rows):
            sweat = 600 + i % 9 * 100 if i % 2 else ""
            out.writerow((f"Athlete {i} Example", i, 48 + i % 50 + i % 1000 / 1000, LEVELS[i % 4], i % 4 * 25, sweat))


def peak_kb(folder, rows):
    path = folder / f"{rows}.csv"
    roster(path, rows)
    begun = time.monotonic()
    child = subprocess.Popen([TUCK, "squad", path, EVENT, "--out", folder / str(rows), "--days", "0"],
                             stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in (0, 1):
        sys.exit(f"tuck squad: exit code {child.returncode}")
    cpu_s = usage.ru_utime + usage.ru_stime
    print(f"{rows:7} rows: peak {usage.ru_maxrss / 1024:6.1f} MB, {time.monotonic() - begun:7.1f} s, "
          f"{1000 * cpu_s / rows:.2f} ms of processor time an athlete", flush=True)
    return usage.ru_maxrss


counts = sorted(int(word) for word in sys.argv[1:]) or [5000, 20000]
with tempfile.TemporaryDirectory() as name:
    peaks = [peak_kb(Path(name), rows) for rows in counts]
bad = max(peaks) / 1024 >= MOST_MB
for (fewer, before), (more, after) in zip(zip(counts, peaks), zip(counts[1:], peaks[1:])):
    growth = (after - before) * 1024 / (more - fewer)
    print(f"from {fewer} to {more} rows: {growth:.0f} bytes a row (at most {BYTES_A_ROW})")
    bad = bad or growth > BYTES_A_ROW
sys.exit(1 if bad else 0)
