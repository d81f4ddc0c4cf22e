"""The schedule's optimum against general integer-programming solvers (Debian: coinor-cbc, glpk-utils) on the file that
`tuck plan --lp` writes. Nine races; the long run is tests/bench/schedule_check.py, by hand."""
import json
import os
import re
import subprocess
import sys
import tempfile

TUCK = os.environ["TUCK"]
RACES = {
    "sprint": ["--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--level", "steady"],
    "standard, cool": ["--distance", "standard", "--mass", "55kg", "--temperature", "12C", "--level", "keen"],
    "standard, hot, stations": ["--distance", "standard", "--mass", "82kg", "--temperature", "31C", "--stations",
                                "typical", "--sweat-rate", "1.4L/h", "--rehearsed-carb", "70g/h"],
    "two rides, one set of bottles": ["--legs", "bike:20km,run:4km,bike:20km,run:4km", "--mass", "70kg",
                                      "--temperature", "26C", "--sweat-rate", "1L/h", "--bottles", "1x500ml"],
    "standard with caffeine": ["--distance", "standard", "--mass", "75kg", "--temperature", "20C", "--caffeine",
                               "yes", "--stations", "typical", "--sweat-rate", "1L/h"],
    "middle, hands on the bar": ["--distance", "middle", "--mass", "75kg", "--temperature", "24C", "--hands", "bottle",
                                 "--sweat-rate", "1L/h"],
    "a gel that was wished for": ["--distance", "standard", "--mass", "75kg", "--temperature", "20C", "--stations", "typical",
                                  "--sweat-rate", "1L/h", "--pin", "0:40=gel_25"],
    "own bags on the way": ["bags.json"],
    "concentrate, and never a gel with it": ["strong.json"],
}
STRONG = {
    "legs": [{"sport": "bike", "distance_m": 45000}, {"sport": "run", "distance_m": 8000}],
    "weather": {"temperature_c": 12}, "stations": "typical",
    "athlete": {"mass_kg": 75, "hands": "bottle and food", "like": ["highcarb_powder"], "level": "keen",
                "rehearsed": {"carb_g_per_h": 80, "strong_drink": True}, "sweat": {"sweat_ml_per_h": 700}},
}
BAGS = {
    "legs": [{"sport": "bike", "distance_m": 50000, "stations": [{"km": 40, "form": "bottle"}],
              "special_needs": {"km": 25, "bottles_ml": [500]}},
             {"sport": "run", "distance_m": 12000, "special_needs": {"km": 6.5, "gels": 2},
              "stations": [{"km": 2.4, "laps": 4, "lap_km": 2.4, "serves": ["sports_drink_rtd"]}]}],
    "weather": {"temperature_c": 24}, "kit": {"bike_bottles_ml": [500], "run_gels": 1},
    "athlete": {"mass_kg": 70, "hands": "bottle and food", "rehearsed": {"carb_g_per_h": 70},
                "sweat": {"sweat_ml_per_h": 1100}},
}


def ours(text):
    return [int(re.search(rf"^\\ tuck {word} (-?\d+)$", text, re.M).group(1)) for word in ("cost", "bound")]


def cbc(path):
    out = subprocess.run(["cbc", path, "-ratio", "0", "-allow", "0.5", "-sec", "120", "-solve", "-quit"],
                         capture_output=True, text=True, check=True).stdout
    proven = "Optimal solution found" in out
    return proven, float(re.search(r"Objective value:\s+([-\d.]+)", out).group(1))


def glpk_relaxation(path):
    """GLPK reads the same file; its linear relaxation can never cost more than the optimum."""
    with tempfile.NamedTemporaryFile(suffix=".txt") as report:
        subprocess.run(["glpsol", "--lp", path, "--nomip", "-o", report.name], capture_output=True, check=True)
        text = open(report.name).read()
    assert "OPTIMAL" in text, text[:300]
    return float(re.search(r"^Objective:.*= ([-+.\de]+)", text, re.M).group(1))


failures = 0
for name, options in RACES.items():
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "day.lp")
        with open(os.path.join(folder, "bags.json"), "w") as event:
            json.dump(BAGS, event)
        with open(os.path.join(folder, "strong.json"), "w") as event:
            json.dump(STRONG, event)
        subprocess.run([TUCK, "plan", *options, "--lp", path], capture_output=True, check=True, cwd=folder)
        cost, bound = ours(open(path).read())
        proven, best = cbc(path)
        relaxed = glpk_relaxation(path)
        good = proven and cost == bound == round(best) and relaxed <= cost + 1
        print(f"{name}: ours {cost}, proven {bound}; CBC {best:.0f}{'' if proven else ' (not proven)'};"
              f" GLPK's relaxation {relaxed:.0f}{'' if good else '   DIFFERENT'}")
        failures += not good

bad = subprocess.run([TUCK, "plan", *RACES["sprint"], "--bike-rhythm", "7min"], capture_output=True, text=True)
assert bad.returncode == 2 and "10min, 15min, 20min" in bad.stderr, bad
bad = subprocess.run([TUCK, "plan", *RACES["sprint"], "--without", "nonsense"], capture_output=True, text=True)
assert bad.returncode == 2 and "nonsense" in bad.stderr, bad
sys.exit(1 if failures else 0)
