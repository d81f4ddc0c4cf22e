#!/usr/bin/python3
"""Whether a plan stays what it was when the day changes by less than a person can tell apart, and whether more allowed
ever gives less. By hand: plan_steady.py path/to/tuck
"""
import json
import subprocess
import sys

import plan_shape

TUCK = sys.argv[1]
BASES = [{"distance": d, "mass": m, "temperature": t, "rehearsed-carb": c, "sweat-rate": 1.0}
         for d in ("standard", "middle", "long") for m in (60, 80) for t in (15, 27) for c in (60, 80)]
UNITS = {"mass": "kg", "temperature": "C", "rehearsed-carb": "g/h", "sweat-rate": "L/h"}


def plan(asked, *more):
    options = [f"--{key}={value:g}{UNITS[key]}" if key in UNITS else f"--{key}={value}" for key, value in asked.items()]
    done = subprocess.run([TUCK, "plan", *options, *more, "--days=200", "--json"], capture_output=True, text=True)
    return json.loads(done.stdout)


def face(document):
    """Foods and rhythm of every line: not its windows, swallows or bottles."""
    return {(line["leg"], round(line["every_s"] / 60) if len(line["at_s"]) > 3 and line["leg"] == "bike" else 0,
             tuple(sorted(item["food"] for item in line["items"]))) for line in document["lines"]}


def carb(document):
    return sum(plan_shape.leg(document, leg)["carb"] * plan_shape.leg(document, leg)["hours"] for leg in ("bike", "run"))


kept = tried = 0
for base in BASES:
    first = face(plan(base, "--stations=typical"))
    changes = [("temperature", 1), ("temperature", -1), ("mass", 0.02 * base["mass"]), ("mass", -0.02 * base["mass"]),
               ("rehearsed-carb", 5), ("rehearsed-carb", -5)]
    for key, by in changes:
        tried += 1
        other = face(plan({**base, key: base[key] + by}, "--stations=typical"))
        same = other == first
        kept += same
        if not same:
            print(f"{base} {key} {by:+g}: {sorted(first ^ other)}")
print(f"foods and rhythm kept in {kept} of {tried}")

less = tried = 0
for base in BASES:
    of = {name: carb(plan({**base, **more}, *options)) for name, more, options in (
        ("base", {}, []), ("rate", {"rehearsed-carb": base["rehearsed-carb"] + 10}, []),
        ("bottles", {}, ["--bottles=3x750ml"]), ("stations", {}, ["--stations=typical"]),
        ("sweat", {"sweat-rate": 1.3}, []))}
    for name, grams in of.items():
        tried += name != "base"
        if grams < of["base"] - 5:
            less += 1
            print(f"{base}: more {name} gives {grams:.0f} g, was {of['base']:.0f}")
print(f"more allowed gave less in {less} of {tried}")
