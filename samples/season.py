#!/usr/bin/python3
"""A season at a glance: one race in twelve months of weather, planned by `tuck squad` as a filter, drawn as an SVG.

    python3 samples/season.py > season.svg        (TUCK names the program, else it is looked for on the path)
"""
import json, os, subprocess, sys, tempfile

AIR_C = [4, 6, 10, 14, 18, 22, 25, 25, 20, 14, 9, 5]  # invented, by the month
tuck = os.environ.get("TUCK", "tuck")
plans = []
for month, air_c in enumerate(AIR_C, 1):
    race = {"name": f"Month {month}", "distance": "standard", "weather": {"temperature_c": air_c}, "days": 0}
    with tempfile.NamedTemporaryFile("w", suffix=".json") as event:
        json.dump(race, event)
        event.flush()
        roster = "name,mass_kg,level\nAda,58,keen\nBo,82,steady\n"
        done = subprocess.run([tuck, "squad", "-", event.name, "--ndjson", "-", "--quiet"], input=roster, text=True,
                              capture_output=True, check=True)
    plans += [(month, json.loads(line)) for line in done.stdout.splitlines()]
print('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 660 330" font-family="sans-serif" font-size="12">')
print('<title>What a standard race asks to drink, by the month</title>')
for who, grey in (("Ada", "#000"), ("Bo", "#888")):
    ml = [(month, plan["totals"]["fluid_ml"]) for month, plan in plans if plan["athlete"] == who]
    points = " ".join(f"{month * 50},{300 - each / 8:.0f}" for month, each in ml)
    print(f'<polyline fill="none" stroke="{grey}" stroke-width="2" points="{points}"/>')
    print(f'<text x="610" y="{304 - ml[-1][1] / 8:.0f}">{who} {ml[-1][1]:.0f} ml</text>')
print("".join(f'<text x="{month * 50}" y="320" text-anchor="middle">{month}</text>' for month in range(1, 13)), "</svg>")
