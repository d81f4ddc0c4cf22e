#!/usr/bin/python3
"""What plans look like over a grid of races, against what a coach asks of them. By hand:

    plan_grid.py path/to/tuck [--aloud] [--sweat-rate 0.9L/h] [any other option of `tuck plan`]

Sprint, standard, middle and long distance, 50, 70 and 95 kg, 8, 20 and 33 C, with and without typical aid stations.
Every miss is asked again with one thing more (a higher rate, another bottle, a sweat test, stations): what mends it is
what binds, and stands beside it; a miss that nothing mends is the program's own.

A row is one plan: carbohydrate against its aim, drink against its ceiling, moments off the clock, the bike's last hour,
lines, the bottle's share of the bike's carbohydrate, processor time. --aloud prints the lines too.
"""
import json
import resource
import subprocess
import sys

import plan_shape

DISTANCES, MASSES, AIRS = ("sprint", "standard", "middle", "long"), (50, 70, 95), (8, 20, 33)


def plan(tuck, options):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([tuck, "plan", *options, "--json"], capture_output=True, text=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if not done.stdout:
        sys.exit(f"{' '.join(options)}: {done.stderr}")
    return json.loads(done.stdout), 1000 * (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def row(name, plan, ms):
    bike, run = plan_shape.leg(plan, "bike"), plan_shape.leg(plan, "run")
    return {
        "name": name, "ms": ms, "bike": bike, "run": run,
        "text": f"{name:22} | {bike['carb']:4.0f} of {bike['aim']:3.0f} {bike['off_pct']:+4.0f}% | {run['carb']:4.0f} of "
                f"{run['aim']:3.0f} {run['off_pct']:+4.0f}% | {bike['fluid']:4.0f} of {bike['ceiling']:4.0f} | "
                f"{run['fluid']:4.0f} of {run['ceiling']:4.0f} | {bike['sodium']:4.0f} of {bike['sodium_aim']:3.0f} | "
                f"{bike['off_clock']:3} | {bike['last_hour_pct']:4.0f}% | {bike['lines']}+{run['lines']} | "
                f"{bike['bottle_pct']:3.0f}% | {ms:4.0f}{' REFUSED' if plan_shape.refused(plan) else ''}",
    }


LIFTS = {"sweat test 1.5 L/h": ["--sweat-rate", "1.5L/h"], "90 g/h rehearsed": ["--rehearsed-carb", "90g/h"],
         "4 bottles": ["--bottles", "4x750ml"], "stations": ["--stations", "typical"],
         "sweat test, 4 bottles": ["--sweat-rate", "1.5L/h", "--bottles", "4x750ml"]}


def binds(tuck, row, good):
    """What mends a miss."""
    for name, lift in LIFTS.items():
        if lift[0] in row["asked"]:
            continue
        again, ms = plan(tuck, [*row["asked"], *lift, "--days", "0"])
        bike, run = plan_shape.leg(again, "bike"), plan_shape.leg(again, "run")
        if good({**row, "bike": bike, "run": run}):
            return name
    return "nothing that was tried"


def told(tuck, what, rows, good):
    rows = list(rows)
    missed = [r for r in rows if not good(r)]
    print(f"{what}: {len(rows) - len(missed)} of {len(rows)}")
    for r in missed:
        print(f"    {r['name']}: {binds(tuck, r, good)}")


def main():
    tuck, *more = sys.argv[1:]
    aloud = "--aloud" in more
    more = [option for option in more if option != "--aloud"]
    rows = []
    print("distance kg C stations | bike g/h aim off | run g/h aim off | bike ml/h ceiling | run ml/h ceiling |"
          " bike mg/h sodium | off the clock | last hour | lines | bottle | ms")
    for distance in DISTANCES:
        for mass in MASSES:
            for air in AIRS:
                for stations in ([], ["--stations", "typical"]):
                    asked = ["--distance", distance, "--mass", f"{mass}kg", "--temperature", f"{air}C", *stations, *more]
                    document, ms = plan(tuck, asked)
                    rows.append(row(f"{distance} {mass} {air} {'stations' if stations else ''}", document, ms))
                    rows[-1].update(stations=bool(stations), asked=asked)
                    print(rows[-1]["text"])
                    for line in document["lines"] if aloud else []:
                        print(f"      {line['leg']}: {line['text']}")
    longer = [r for r in rows if not r["name"].startswith("sprint")]
    told(tuck, "no leg above its ceiling", rows, lambda r: not r["bike"]["over_ceiling"] and not r["run"]["over_ceiling"])
    told(tuck, "bike carbohydrate within 10 %", longer, lambda r: abs(r["bike"]["off_pct"]) <= 10)
    told(tuck, "run with stations at most 15 % short", (r for r in longer if r["stations"]),
         lambda r: r["run"]["off_pct"] >= -15)
    told(tuck, "no moment off the clock", rows, lambda r: r["bike"]["off_clock"] == 0)
    told(tuck, "last bike hour at least 75 %", longer, lambda r: r["bike"]["last_hour_pct"] >= 75)
    told(tuck, "at most 3 bike and 2 run lines", rows, lambda r: r["bike"]["lines"] <= 3 and r["run"]["lines"] <= 2)
    told(tuck, "bottle at least 40 % where the ceiling is 400 ml/h or more",
         (r for r in rows if r["bike"]["ceiling"] >= 400), lambda r: r["bike"]["bottle_pct"] >= 40)
    ms = sorted(r["ms"] for r in rows)
    print(f"processor time of a whole plan: median {ms[len(ms) // 2]:.0f} ms, 95 % {ms[int(0.95 * len(ms))]:.0f}, most {ms[-1]:.0f}")


main()
