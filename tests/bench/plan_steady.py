#!/usr/bin/python3
"""Whether a plan stays what it was when the day changes by less than a person can tell apart (a degree, two percent of
mass, five grams an hour, three percent of time), and whether more allowed ever gives less. By hand:

    plan_steady.py path/to/tuck [bases, 24]

`tests/cli/plan_steady_test.py` asks the same of fewer races on every run.
"""
import json
import random
import subprocess
import sys

import plan_shape

UNITS = {"mass": "kg", "temperature": "C", "rehearsed-carb": "g/h", "sweat-rate": "L/h"}
HOURS = {"standard": 1.35, "middle": 3.0, "long": 6.2}  # of the ride, roughly; drawn around
LESS_G = 5  # a fifth of a gel: less nobody can see


def bases(number, seed=17):
    """Races drawn over what people ask: every second one knows the rates that its athlete has rehearsed and sweats."""
    rng = random.Random(seed)
    out = []
    for n in range(number):
        distance = ("standard", "middle", "long")[n % 3]
        base = {"distance": distance, "mass": rng.randint(50, 95), "temperature": rng.randint(10, 32),
                "bike-time": round(3600 * HOURS[distance] * rng.uniform(0.85, 1.2))}
        if n // 3 % 2:
            base.update({"rehearsed-carb": rng.randint(10, 17) * 5, "sweat-rate": rng.randint(6, 14) / 10})
        out.append(base)
    return out


def clock(seconds):
    return f"{seconds // 3600:.0f}:{seconds % 3600 // 60:02.0f}:{seconds % 60:02.0f}"


def plan(tuck, asked, *more):
    options = [f"--{key}={clock(value) if key == 'bike-time' else f'{value:g}' + UNITS[key] if key in UNITS else value}"
               for key, value in asked.items()]
    done = subprocess.run([tuck, "plan", *options, *more, "--days=0", "--json"], capture_output=True, text=True)
    return json.loads(done.stdout)


def face(document):
    """Foods of every line and how often they come, as a coach would call them out: not ends, swallows or bottles. Bottles
    that are handed up go on with the drink line."""
    out = {}
    for line in document["lines"]:
        foods = tuple(sorted(item["food"] for item in line["items"]))
        handed_up = line["leg"] == "bike" and all(item["unit"] == "swallow" and item["from"] == "station"
                                                  for item in line["items"])
        if not handed_up:
            often = len(line["at_s"]) > 2 and line["leg"] == "bike"
            out[line["leg"], foods] = round(line["every_s"] / 60) if often else 0
    return out


def same(one, other):
    """Two moments have no rhythm yet: they may become three."""
    return one.keys() == other.keys() and all(one[key] == other[key] or not one[key] or not other[key] for key in one)


def changes(base):
    out = [("temperature", 1), ("temperature", -1), ("mass", 0.02 * base["mass"]), ("mass", -0.02 * base["mass"]),
           ("bike-time", round(0.03 * base["bike-time"])), ("bike-time", -round(0.03 * base["bike-time"]))]
    return out + ([("rehearsed-carb", 5), ("rehearsed-carb", -5)] if "rehearsed-carb" in base else [])


def unsteady(tuck, races):
    """(how many small changes, those that change the face)."""
    tried, lost = 0, []
    for base in races:
        for stations in ([], ["--stations=typical"]):
            first = face(plan(tuck, base, *stations))
            for key, by in changes(base):
                tried += 1
                other = face(plan(tuck, {**base, key: base[key] + by}, *stations))
                if not same(first, other):
                    lost.append(f"{base} {stations} {key} {by:+g}: {sorted(first.items() - other.items())} -> "
                                f"{sorted(other.items() - first.items())}")
    return tried, lost


def towards(document, aims):
    """Grams of carbohydrate up to the aim of each leg: what goes beyond it is no gain."""
    sides = {leg: plan_shape.leg(document, leg) for leg in ("bike", "run")}
    return sum(min(side["carb"], aims[leg]) * side["hours"] for leg, side in sides.items())


def shrinking(tuck, races):
    """(how many pairs, those where more allowed gives less)."""
    tried, lost = 0, []
    for base in races:
        first = plan(tuck, base)
        aims = {leg: plan_shape.leg(first, leg)["aim"] for leg in ("bike", "run")}
        more = {"rate": ({"rehearsed-carb": base.get("rehearsed-carb", 60) + 10}, []), "bottles": ({}, ["--bottles=3x750ml"]),
                "stations": ({}, ["--stations=typical"]), "sweat": ({"sweat-rate": 1.3 * base.get("sweat-rate", 1.3)}, [])}
        for name, (asked, options) in more.items():
            tried += 1
            grams, was = towards(plan(tuck, {**base, **asked}, *options), aims), towards(first, aims)
            if grams < was - LESS_G:
                lost.append(f"{base}: more {name} gives {grams:.0f} g, was {was:.0f}")
    return tried, lost


def main():
    tuck, number = sys.argv[1], int((sys.argv[2:] + ["24"])[0])
    tried, lost = unsteady(tuck, bases(number))
    print(*lost, sep="\n")
    print(f"foods and rhythm kept in {tried - len(lost)} of {tried} ({100 * (1 - len(lost) / tried):.0f} %)")
    tried, lost = shrinking(tuck, bases(number))
    print(*lost, sep="\n")
    print(f"more allowed gave less in {len(lost)} of {tried}")


if __name__ == "__main__":
    main()
