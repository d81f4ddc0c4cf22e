#!/usr/bin/python3
"""Sides of every card of the grid of 72 (tests/bench/plan_grid.py), and the whole STOP on every piece that is worn
alone. By hand:

    card_sides.py path/to/tuck [any other option of `tuck card`]

A piece is two sides of one fold, or what is cut apart where the run begins a side. Asked: strip and pocket at most 2
sides, stem at most 3 (middle and shorter) and 4 (long)."""
import itertools
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

DISTANCES, MASSES, AIRS = ("sprint", "standard", "middle", "long"), (50, 70, 95), (8, 20, 33)
SIZES = ("strip", "stem", "pocket", "wrist")
MOST = {"strip": [2] * 4, "pocket": [2] * 4, "stem": [3, 3, 3, 4], "wrist": [2] * 4}


def sides(pdf):
    """The texts of each side, in the order of the file: a side ends with its box of STOP, or with a new head."""
    return subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True).stdout


def one(tuck, folder, more, case):
    distance, mass, air, stations, size = case
    pdf = folder / f"{'-'.join(map(str, case))}.pdf"
    done = subprocess.run([tuck, "card", "--distance", distance, "--mass", f"{mass}kg", "--temperature", f"{air}C", *stations,
                           "--size", size, "--days", "0", "--json", "-o", pdf, *more], capture_output=True, text=True)
    if done.returncode:
        return case, None, done.stderr.strip()
    return case, int(re.search(r'"sides": ?(\d+)', done.stdout)[1]), ""


def main():
    tuck, *more = sys.argv[1:]
    cases = list(itertools.product(DISTANCES, MASSES, AIRS, ((), ("--stations", "typical")), SIZES))
    with tempfile.TemporaryDirectory() as name, ThreadPoolExecutor(2) as pool:
        rows = list(pool.map(lambda case: one(tuck, Path(name), more, case), cases))
    for size in SIZES:
        for place, distance in enumerate(DISTANCES):
            of = [(case, count, why) for case, count, why in rows if case[4] == size and case[0] == distance]
            counts = [count for _, count, _ in of]
            most = MOST[size][place]
            good = sum(count is not None and count <= most for count in counts)
            print(f"{size:7} {distance:9} at most {most}: {good:2} of {len(of)}   sides " +
                  ", ".join(f"{n}: {counts.count(n)}" for n in sorted(set(counts), key=lambda n: n or 99)))
            for case, count, why in of:
                if count is None or count > most:
                    print(f"    {case[1]} kg {case[2]} C {'stations' if case[3] else ''}: {count} {why}")


main()
