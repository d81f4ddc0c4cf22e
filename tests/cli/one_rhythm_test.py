#!/usr/bin/python3
"""A squad feeds on one rhythm where that costs an athlete no more than a twentieth of the carbohydrate."""
import csv
import json
import os
import subprocess
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
EVENT = {"distance": "standard", "weather": {"temperature_c": 22}, "stations": "typical", "days": 0}
LEVELS = ("beginner", "steady", "keen", "fast")


def squad(event, *options):
    """Twelve invented athletes, 48 to 92 kg, of all levels: their plans by bib."""
    with tempfile.TemporaryDirectory() as folder:
        roster, path, lines = Path(folder) / "roster.csv", Path(folder) / "event.json", Path(folder) / "plans.ndjson"
        with roster.open("w", newline="") as file:
            rows = csv.writer(file)
            rows.writerow(["bib", "name", "mass_kg", "level", "hands"])
            for n in range(12):
                rows.writerow([n + 1, f"Athlete {n + 1}", 48 + 4 * n, LEVELS[n % 4], "bottle and food"])
        path.write_text(json.dumps(event))
        done = subprocess.run([TUCK, "squad", roster, path, "--ndjson", lines, *options], capture_output=True, text=True)
        if done.returncode != 0:
            raise AssertionError(done.stderr)
        return [json.loads(line) for line in lines.read_text().splitlines()]


def off_the_beat(plan, minutes=15):
    return [at for line in plan["lines"] if line["leg"] == "bike" for at in line["at_s"] if at % (60 * minutes)]


def carb(plan):
    return plan["totals"]["carb_g"]


class OneRhythm(unittest.TestCase):
    def test_twelve_share_a_rhythm_unless_it_costs(self):
        for distance, minutes in (("sprint", 10), ("standard", 15), ("middle", 15)):
            event = {**EVENT, "distance": distance}
            together, alone = squad(event), squad(event, "--own-rhythms")
            self.assertEqual(len(together), 12)
            for plan, own in zip(together, alone):
                with self.subTest(distance, plan=plan["inputs"]):
                    if off_the_beat(plan, minutes):
                        self.assertEqual(plan["lines"], own["lines"])
                    else:
                        self.assertGreaterEqual(carb(plan), 0.95 * carb(own) - 0.1)
            shared = sum(not off_the_beat(plan, minutes) for plan in together)
            self.assertGreaterEqual(shared, 10, distance)


if __name__ == "__main__":
    unittest.main()
