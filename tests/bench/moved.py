#!/usr/bin/python3
"""Every number that moved between two versions of the program, for README's "Changes". By hand:

    moved.py OLD/tuck NEW/tuck [AIR IN C ...] [any option of `tuck plan` that both know]

Four distances at 8, 20 and 33 C (or those that are named) for 70 kg, nothing else known: likely times, what an hour needs, and the sums, old beside new.
A number that moved by less than 2 % is left out. Judge: nobody; it only lists."""
import json
import subprocess
import sys

DISTANCES = ("sprint", "standard", "middle", "long")


def plan(tuck, distance, air, more):
    done = subprocess.run([tuck, "plan", "--distance", distance, "--mass", "70kg", "--temperature", f"{air}C", *more, "--json"],
                          capture_output=True, text=True)
    if not done.stdout:
        sys.exit(f"{tuck}: {done.stderr}")
    return json.loads(done.stdout)


def numbers(plan):
    """Name, unit and value of what a plan is read for; a bike or run leg by its name."""
    out = {}
    for leg in plan["durations"]:
        if leg["leg"] in ("swim", "bike", "run"):
            out[f"{leg['leg']}, likely", "min"] = leg["p50_s"] / 60
    out["all, likely", "min"] = plan["total"]["p50_s"] / 60
    for need in plan["needs"]:
        if need["leg"] in ("bike", "run"):
            for key, word, unit in (("carb_g_per_h", "food", "g/h"), ("fluid_ml_per_h", "drink up to", "ml/h"), ("sodium_mg_per_h", "sodium", "mg/h"),
                                    ("sweat_ml_per_h", "sweat", "ml/h")):
                out[f"{need['leg']}, {word}", unit] = need[key]
    for key, word, unit in (("carb_g", "food", "g"), ("fluid_ml", "drink", "ml"), ("sodium_mg", "sodium", "mg"), ("sweat_ml", "sweat", "ml")):
        out[f"in all, {word}", unit] = plan["totals"][key]
    return out


def main():
    old, new, *more = sys.argv[1:]
    airs = [int(word) for word in more if word.isdigit()] or [8, 20, 33]
    more = [word for word in more if not word.isdigit()]
    rows = {}
    for distance in DISTANCES:
        for air in airs:
            before, after = (numbers(plan(tuck, distance, air, more)) for tuck in (old, new))
            for name in before:
                rows.setdefault(name, {})[distance, air] = (before[name], after.get(name, 0))
    print("| 70 kg, nothing else known | " + " | ".join(f"{d} {a} C" for d in DISTANCES for a in airs) + " |")
    print("| --- " * (1 + len(DISTANCES) * len(airs)) + "|")
    for (name, unit), cells in rows.items():
        if all(abs(after - before) <= 0.02 * max(abs(before), 1) for before, after in cells.values()):
            continue
        print(f"| {name} ({unit}) | " + " | ".join(f"{before:.0f}, now {after:.0f}" if abs(after - before) > 0.02 * max(abs(before), 1) else "same"
                                                   for before, after in cells.values()) + " |")


main()
