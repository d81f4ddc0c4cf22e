#!/usr/bin/python3
"""Days on which the first release went wrong: each once hung, doubled a feed, drank past its ceiling or refused a wish
that it would have planned itself. The days are invented; the limits are those that the program prints.
"""
import json
import os
import resource
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import plan_rules  # noqa: E402

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
PANTRY = plan_rules.load_pantry(ROOT / "foods")
MEMORY = 300 << 20  # bytes of heap a plan may take; a search without a bound asks for gigabytes
SECONDS = 30  # of processor time: a hang is for ever, and a busy machine is none


def run(event, *arguments):
    """(exit code, answer as JSON or nothing, standard error)"""
    def bound():
        resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "event.json"
        path.write_text(json.dumps(event))
        done = subprocess.run([TUCK, "plan", str(path), "--json", *arguments], capture_output=True, text=True,
                              preexec_fn=bound)
    return done.returncode, json.loads(done.stdout) if done.stdout else None, done.stderr


def moments(plan, sport):
    return [feed["at_s"] for feed in plan["feeds"] if feed["leg"] == sport]


def tables(*kms):
    return [{"km": km} for km in kms]


class Twice(unittest.TestCase):
    """Two tables less than a minute apart: what is taken, is taken at one of them."""
    LONG = {"distance": "long", "weather": {"temperature_c": 28}, "days": 0, "kit": {"run_gels": 4},
            "athlete": {"mass_kg": 80, "caffeine": True, "level": "steady"},
            "course": {"run": {"stations": tables(*[km for n in range(1, 17) for km in (2.5 * n, 2.5 * n + 0.1)])}}}

    def once(self, *arguments):
        code, plan, _ = run(self.LONG, *arguments)
        self.assertEqual(0, code)
        at = moments(plan, "run")
        self.assertTrue(at)
        self.assertTrue(all(b - a >= 60 for a, b in zip(at, at[1:])), at)
        return plan

    def test_a_gel_with_caffeine_is_taken_once(self):
        eaten = [item["food"] for feed in self.once()["feeds"] for item in feed["items"]]
        self.assertEqual(1, eaten.count("gel_caffeine"))

    def test_a_pinned_gel_is_taken_once_and_packed_once(self):
        plan = self.once("--pin", "5km=gel_25", "--pin", "10km=gel_25")
        kms = [feed["km"] for feed in plan["feeds"] if feed["leg"] == "run"
               and any(item["food"] == "gel_25" for item in feed["items"])]
        for wanted in (5, 10):
            self.assertEqual(1, len([km for km in kms if abs(km - wanted) < 0.2]), kms)

    def test_a_pin_between_three_tables(self):
        event = {"distance": "middle", "weather": {"temperature_c": 24}, "days": 0, "kit": {"run_gels": 3},
                 "athlete": {"mass_kg": 80, "level": "steady", "sweat": {"sweat_ml_per_h": 1300}},
                 "course": {"run": {"stations": tables(2.5, 5, 5.1, 7.5, 10, 10.06, 10.12, 15, 18)}}}
        code, plan, _ = run(event, "--pin", "10.05km=gel_25")
        self.assertEqual(0, code)
        near = [feed["km"] for feed in plan["feeds"] if feed["leg"] == "run" and 9.9 < feed["km"] < 10.3]
        self.assertEqual(1, len(near), near)


class Ends(unittest.TestCase):
    """Every legal day ends, in bounded memory, with a plan or a clear word."""

    def planned(self, event, *arguments):
        code, plan, said = run({"days": 0, "weather": {"temperature_c": 20}, **event}, *arguments)
        self.assertIn(code, (0, 1), said)
        return plan

    def test_caffeine_that_the_morning_used_up(self):
        """No gel fits on any slot, and each was tried with a whole search."""
        plan = self.planned({"athlete": {"mass_kg": 85.7, "caffeine": True, "morning_coffee_mg": 399, "hands": "none"},
                             "legs": [{"sport": "run", "distance_m": 100}, {"sport": "swim", "distance_m": 25000},
                                      {"sport": "bike", "distance_m": 20000}, {"sport": "run", "distance_m": 10000},
                                      {"sport": "bike", "distance_m": 40000}]})
        self.assertEqual(0, plan["totals"]["caffeine_mg"])

    def test_caffeine_on_a_long_cold_day(self):
        plan = self.planned({"distance": "long", "weather": {"temperature_c": -6, "wind_m_s": 21}, "kit": {"run_gels": 1},
                             "athlete": {"mass_kg": 76.6, "caffeine": True, "hands": "bottle and food", "swallow_ml": 37,
                                         "avoid": ["powders"]}})
        self.assertTrue(plan["feeds"])

    def test_a_ride_of_400_km(self):
        self.assertTrue(self.planned({"athlete": {"mass_kg": 70},
                                      "legs": [{"sport": "bike", "distance_m": 400000}]})["feeds"])

    def test_a_run_of_330_km(self):
        self.assertTrue(self.planned({"athlete": {"mass_kg": 70},
                                      "legs": [{"sport": "run", "distance_m": 330000}]}, "--stations=typical")["feeds"])

    def test_a_day_of_more_than_48_hours_is_told_so(self):
        code, plan, said = run({"days": 0, "weather": {"temperature_c": 22}, "athlete": {
            "mass_kg": 172, "threshold_power_w": 288, "threshold_run_s_per_km": 788},
            "legs": [{"sport": "bike", "distance_m": 90000, "ascent_m": 5400}, {"sport": "run", "distance_m": 330000}]})
        self.assertEqual(2, code)
        self.assertIsNone(plan)
        self.assertIn("allowed at most 48 h", said)


class Ceiling(unittest.TestCase):
    def test_no_leg_and_no_day_drinks_past_the_ceiling_that_is_printed(self):
        for distance in ("sprint", "standard"):
            for mass in (50, 70, 95):
                for temperature in (8, 20, 33):
                    with self.subTest(distance=distance, mass=mass, temperature=temperature):
                        _, plan, _ = run({"distance": distance, "days": 0, "stations": "typical",
                                          "weather": {"temperature_c": temperature}, "athlete": {"mass_kg": mass}})
                        self.below(plan)

    def below(self, plan):
        drunk = [0.0] * len(plan["durations"])
        for feed in plan["feeds"]:
            leg = feed["leg_index"]
            while plan["durations"][leg]["leg"] in ("t1", "t2") and leg + 1 < len(drunk):
                leg += 1  # what a transition drinks counts to the leg after it
            drunk[leg] += feed["fluid_ml"]
        for leg, need, ml in zip(plan["durations"], plan["needs"], drunk):
            self.assertLessEqual(ml, need["fluid_ml_per_h"] * leg["p50_s"] / 3600 + 0.5, leg["leg"])


class Vessels(unittest.TestCase):
    def test_two_runs_have_two_flasks_with_one_recipe_each(self):
        for last in ("bike", "swim"):
            with self.subTest(between=last):
                _, plan, _ = run({"days": 0, "weather": {"temperature_c": 26}, "athlete": {
                    "mass_kg": 70, "sweat": {"sweat_ml_per_h": 1100}}, "kit": {"run_flask_ml": 250},
                    "legs": [{"sport": "run", "distance_m": 15000},
                             {"sport": last, "distance_m": 40000 if last == "bike" else 2000},
                             {"sport": "run", "distance_m": 15000}]})
                bottles = [row["bottle"] for row in plan["mix"]]
                self.assertEqual(len(bottles), len(set(bottles)), bottles)
                self.assertEqual(["flask 1", "flask 2"], [name for name in bottles if name.startswith("flask")])
                for feed in plan["feeds"]:
                    for item in feed["items"]:
                        if item["unit"] == "swallow" and feed["leg"] == "run":
                            self.assertEqual("flask 1" if feed["leg_index"] == 0 else "flask 2", item["from"])


class Wishes(unittest.TestCase):
    MIDDLE = {"distance": "middle", "days": 0, "stations": "typical", "weather": {"temperature_c": 20},
              "athlete": {"mass_kg": 70}}

    def test_what_the_plan_itself_eats_can_be_pinned(self):
        for event in (self.MIDDLE, {**self.MIDDLE, "athlete": {"mass_kg": 50}, "weather": {"temperature_c": 8}}):
            _, plan, _ = run(event)
            for feed in plan["feeds"]:
                for item in feed["items"]:
                    if item["unit"] in ("swallow", "cup") or feed["leg"] not in ("bike", "run"):
                        continue
                    at = (f"{feed['at_s'] // 3600:.0f}:{feed['at_s'] % 3600 // 60:02.0f}" if feed["leg"] == "bike"
                          else f"{feed['km']:g}km")
                    with self.subTest(pin=at, food=item["food"]):
                        code, pinned, said = run(event, f"--pin={at}={item['food']}")
                        self.assertEqual(0, code, said)
                        self.assertFalse([w for w in pinned["warnings"] if w["code"] == "pin_refused"],
                                         pinned["warnings"])

    def test_a_gel_half_an_hour_before_the_run_is_kept(self):
        code, plan, _ = run(self.MIDDLE, "--pin", "2:45=gel_isotonic")
        self.assertEqual(0, code)
        self.assertFalse(plan["refused"])
        self.assertIn(9900, moments(plan, "bike"))


if __name__ == "__main__":
    unittest.main()
