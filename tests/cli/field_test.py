#!/usr/bin/python3
"""Sweat of groups of people as measured outdoors (tests/published/field.csv), asked of the program as a user would.

A mean is held against the mean of the printed spread, a median against the printed median. Where the measured figure
is all that was lost, 0.20 g per kcal of breath and burnt fuel are added (Cheuvront & Montain 2017). A group fits
within its own SD or 30 %, whichever is more; a group that does not fit stays, with its reason.
"""
import csv
import json
import os
import re
import shlex
import statistics
import subprocess
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
FIELD = Path(os.environ["TUCK_ROOT"]) / "tests/published/field.csv"
LOST_L_PER_KCAL = 0.0002
KCAL_PER_H_PER_W = 3600 / 4184

# Riding behind others cannot be said by an option.
EVENTS = {
    "tour_men": {"weather": {"temperature_c": 27, "humidity_pct": 40, "sun": "full"}, "draft_legal": True,
                 "legs": [{"sport": "bike", "distance_m": 140000, "time": "3:30:00"}],
                 "athlete": {"mass_kg": 71.4, "height_m": 1.774}},
    "tour_women": {"weather": {"temperature_c": 19, "humidity_pct": 55, "sun": "half"}, "draft_legal": True,
                   "legs": [{"sport": "bike", "distance_m": 100000, "time": "2:50:00"}],
                   "athlete": {"mass_kg": 62.5, "height_m": 1.704, "sex": "female"}},
}


def seconds(clock):
    parts = [float(part) for part in clock.split(":")]
    return sum(part * 60 ** i for i, part in enumerate(reversed(parts)))


def explained(options):
    """Every leg's row of means, as `tuck explain ... heat` prints them, and its likely time."""
    with tempfile.TemporaryDirectory() as folder:
        if options.startswith("EVENT "):
            path = Path(folder) / "event.json"
            path.write_text(json.dumps(EVENTS[options.split()[1]]))
            arguments = [str(path), "heat", "--days", "0"]
        else:
            arguments = ["heat", *shlex.split(options), "--days", "0"]
        done = subprocess.run([TUCK, "explain", *arguments], capture_output=True, text=True, timeout=120)
    if done.returncode:
        raise AssertionError(f"{options}: {done.stderr}")
    legs = []
    for block in re.split(r"^/needs/\d+/heat = ", done.stdout, flags=re.M)[1:]:
        last = lambda row: float(re.search(rf"- {row} .*?(-?\d+) (?:W|ml/h) \[", block).group(1))
        time = re.search(r"from /durations/\d+ = \w+ ([\d:]+) ", block)
        legs.append({"leg": block.split()[0], "watt": last("energy used"), "mean": last("average sweat") / 1000,
                     "median": last("planned with: the median") / 1000, "seconds": seconds(time.group(1))})
    return legs


def modelled(row):
    legs = [leg for leg in explained(row["options"]) if row["leg"] in ("", leg["leg"])]
    hours = sum(leg["seconds"] for leg in legs)
    share = lambda key: sum(leg[key] * leg["seconds"] for leg in legs) / hours
    lost = share("watt") * KCAL_PER_H_PER_W * LOST_L_PER_KCAL if row["holds"] == "loss" else 0
    return share(row["statistic"]) + lost, share("median") + lost


def is_long_and_cool(row):
    """Where a rate that is too high harms: hours of drinking beyond it, in air of up to 21 C."""
    celsius = float(re.search(r"--temperature ([\d.]+)C", row["options"]).group(1))
    time = re.search(r"--run-time (\d+):", row["options"])
    return celsius <= 21 and ("--distance long" in row["options"] or int(time.group(1)) >= 2)


class Field(unittest.TestCase):
    def test_groups_measured_outdoors(self):
        with FIELD.open() as file:
            rows = list(csv.DictReader(file))
        self.assertGreaterEqual(len(rows), 20)
        ratios, by_median, long_cool, fit = {}, [], [], 0
        print(f"\n{'group':17}{'measured':>9}{'SD':>6}{'model':>7}{'ratio':>7}")
        for row in rows:
            measured, sd = float(row["measured_l_per_h"]), float(row["sd_l_per_h"] or 0)
            with self.subTest(row["id"]):
                self.assertTrue(row["source"] and row["assumed"])
                model, median = modelled(row)
                fits = abs(model - measured) <= max(sd, 0.3 * measured)
                fit += fits
                print(f"{row['id']:17}{measured:9.2f}{sd or '':>6}{model:7.2f}{model / measured:7.2f}"
                      f"{'' if fits else '   ' + row['reason']}")
                self.assertEqual("yes" if fits else "no", row["fits"])
                self.assertTrue(fits or row["reason"])
                if row["sport"] != "swim":
                    ratios.setdefault(row["sport"], []).append(model / measured)
                    by_median.append(median / measured)
                if row["sport"] == "run" and is_long_and_cool(row):
                    long_cool.append(model / measured)
        land = [ratio for some in ratios.values() for ratio in some]
        print(f"field: {len(rows)} groups, {fit} within their SD or 30 %; model over measured, median: land "
              f"{statistics.median(land):.2f}, rides {statistics.median(ratios['ride']):.2f}, runs "
              f"{statistics.median(ratios['run']):.2f}, of these long and cool {statistics.median(long_cool):.2f}; by the "
              f"printed medians {statistics.median(by_median):.2f}")
        self.assertGreaterEqual(fit, 0.8 * len(rows))
        self.assertGreaterEqual(len(long_cool), 4)
        for some in (land, ratios["ride"], ratios["run"], long_cool):  # to the two digits that the sources print
            self.assertGreaterEqual(round(statistics.median(some), 2), 0.9)
            self.assertLessEqual(round(statistics.median(some), 2), 1.1)


if __name__ == "__main__":
    unittest.main(verbosity=2)
