#!/usr/bin/env python3
"""Lets CBC (Debian: coinor-cbc) solve files that TUCK_LP=folder build/tests/schedule_bench wrote. Run by hand:

    tests/bench/schedule_check.py [SECONDS] FILE.lp ...

Prints our cost, CBC's best and bound, its own seconds, and whether both agree. Files that end earlier are not solved
again when a log of this script stands beside them, so it can be stopped and started."""
import os
import re
import subprocess
import sys

arguments = sys.argv[1:]
seconds = arguments.pop(0) if arguments and arguments[0].isdigit() else "60"
for path in arguments:
    log = path + ".log"
    if not os.path.exists(log):
        text = open(path).read()
        cost, bound = (int(re.search(rf"tuck {word} (-?\d+)", text).group(1)) for word in ("cost", "bound"))
        out = subprocess.run(["cbc", path, "-ratio", "0", "-allow", "0.5", "-sec", seconds, "-solve", "-quit"],
                             capture_output=True, text=True).stdout
        best = re.search(r"Objective value:\s+([-\d.]+)", out)
        lower = re.search(r"Lower bound:\s+([-\d.]+)", out)
        took = re.search(r"Total time \(CPU seconds\):\s+([\d.]+)", out)
        proven = "Optimal solution found" in out
        value = float(best.group(1)) if best else float("inf")
        verdict = "equal" if proven and round(value) == cost else "not worse" if cost <= value + 0.5 else "WORSE"
        with open(log, "w") as file:
            file.write(f"{os.path.basename(path)}: ours {cost} (bound {bound}), CBC {value:.0f}"
                       f" {'proven' if proven else 'bound ' + (lower.group(1) if lower else '?')},"
                       f" {took.group(1) if took else '?'} s: {verdict}\n")
    print(open(log).read(), end="", flush=True)
