#!/usr/bin/python3
"""What plans look like over a grid of races, against what a coach asks of them. By hand:

    plan_grid.py path/to/tuck [--aloud] [--sweat-rate 0.9L/h] [any other option of `tuck plan`]

Sprint, standard, middle and long distance, 50, 70 and 95 kg, 8, 20 and 33 C, with and without typical aid stations.
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


def share(rows, good):
    rows = list(rows)
    held = sum(1 for r in rows if good(r))
    return f"{held} of {len(rows)}"


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
                    document, ms = plan(tuck, ["--distance", distance, "--mass", f"{mass}kg", "--temperature",
                                               f"{air}C", *stations, *more])
                    rows.append(row(f"{distance} {mass} {air} {'stations' if stations else ''}", document, ms))
                    rows[-1]["stations"] = bool(stations)
                    print(rows[-1]["text"])
                    for line in document["lines"] if aloud else []:
                        print(f"      {line['leg']}: {line['text']}")
    legs = [r[leg] for r in rows for leg in ("bike", "run")]
    longer = [r for r in rows if not r["name"].startswith("sprint")]
    print("legs above their ceiling:", share(legs, lambda leg: leg["over_ceiling"]))
    print("bike carbohydrate within 10 %:", share(longer, lambda r: abs(r["bike"]["off_pct"]) <= 10))
    print("run with stations at most 15 % short:",
          share((r for r in longer if r["stations"]), lambda r: r["run"]["off_pct"] >= -15))
    print("no moment off the clock:", share(rows, lambda r: r["bike"]["off_clock"] == 0))
    print("last bike hour at least 75 %:", share(longer, lambda r: r["bike"]["last_hour_pct"] >= 75))
    print("at most 3 bike and 2 run lines:", share(rows, lambda r: r["bike"]["lines"] <= 3 and r["run"]["lines"] <= 2))
    print("bottle at least 40 % where the ceiling is 400 ml/h or more:",
          share((r for r in rows if r["bike"]["ceiling"] >= 400), lambda r: r["bike"]["bottle_pct"] >= 40))
    ms = sorted(r["ms"] for r in rows)
    print(f"processor time of a whole plan: median {ms[len(ms) // 2]:.0f} ms, 95 % {ms[int(0.95 * len(ms))]:.0f}, most {ms[-1]:.0f}")


main()
