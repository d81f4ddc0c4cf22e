#!/usr/bin/python3
"""Another plan for the same day: pinned feeds, a delayed start, a fixed rhythm, foods left out.

What is asked is kept, or refused with the rule that speaks against it; nothing is changed in silence.
"""
import json
import os
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
MIDDLE = ["--distance=middle", "--mass=75kg", "--temperature=18C", "--water=19C", "--level=keen",
          "--sweat-rate=900ml/h", "--rehearsed-carb=60g/h", "--stations=typical", "--days=200"]
ASKED = {**plan_rules.DEFAULTS, "mass_kg": 75, "temperature_c": 18, "water_c": 19, "level": "keen",
         "sweat_tested": True, "rehearsed": {"carb_g_per_h": 60}, "typical": True, "pinned": True}


def run(*arguments):
    return subprocess.run([TUCK, "plan", *map(str, arguments)], capture_output=True, text=True, timeout=120)


def plan(*arguments):
    done = run(*arguments, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def foods(a_plan, leg):
    return [(feed["at_s"], item["food"]) for feed in a_plan["feeds"] if feed["leg"] == leg for item in feed["items"]]


class Pins(unittest.TestCase):
    def test_a_pin_on_the_bike_is_kept_and_every_rule_with_it(self):
        pinned = plan(*MIDDLE, "--pin=0:40=gel_25")
        self.assertIn((2400, "gel_25"), foods(pinned, "bike"))
        self.assertEqual([], plan_rules.check(pinned, ASKED, PANTRY))

    def test_a_pin_on_the_run_is_kept_at_its_kilometre(self):
        pinned = plan(*MIDDLE, "--pin=6km=gel_25")
        kms = [feed["km"] for feed in pinned["feeds"] if feed["leg"] == "run"
               and any(item["food"] == "gel_25" for item in feed["items"])]
        self.assertTrue(any(abs(km - 6) < 0.1 for km in kms), kms)
        self.assertEqual([], plan_rules.check(pinned, ASKED, PANTRY))

    def test_several_pins_at_once(self):
        pinned = plan(*MIDDLE, "--pin=0:40=gel_25", "--pin=1:10=energy_bar", "--pin=8km=gel_25")
        self.assertIn((4200, "energy_bar"), foods(pinned, "bike"))
        self.assertEqual([], plan_rules.check(pinned, ASKED, PANTRY))

    def kept_out(self, code, *arguments):
        done = run(*arguments, "--json")
        self.assertEqual(code, done.returncode, done.stderr)
        answer = json.loads(done.stdout)
        self.assertEqual(code == 1, answer["refused"])
        return " ".join(w["text"] for w in answer["warnings"] if w["code"] == "pin_refused")

    def test_a_wish_that_does_not_fit_is_left_out_with_the_rule(self):
        """The plan without it is safe: that is no refusal."""
        for rule, arguments in (
                ("first 5 min", ["--pin=0:03=gel_25"]),
                ("30 min before the run", ["--pin=2:15=energy_bar", "--bike-time=2:40:00"]),
                ("15 min after the swim", ["--pin=0:10=energy_bar"]),
                ("caffeine", ["--pin=1:00=gel_caffeine"]),
                ("carbohydrate in any hour", [f"--pin=0:{at}=gel_isotonic" for at in (30, 40, 50, 55)]),
                ("has not been rehearsed", ["--pin=6km=orange_segments"]),
                ("no food for a run", ["--pin=6km=banana_ripe"]),
                ("avoided", ["--pin=0:40=gel_25", "--avoid=gels"]),
                ("no bike of this day is that long", ["--pin=9:00=gel_25"])):
            with self.subTest(rule=rule):
                said = self.kept_out(0, *MIDDLE, *arguments)
                self.assertIn(rule, said)
                self.assertIn("Kept out", said)

    def test_who_keeps_both_hands_on_the_bar_stops_for_it(self):
        said = run(*MIDDLE, "--pin=0:40=gel_25", "--hands=none").stdout
        self.assertRegex(said, r"0:40 +gel \(stop 20 s")

    def test_a_wish_that_would_harm_is_refused(self):
        for rule, arguments in (("allergen", ["--pin=1:00=energy_bar", "--allergy=peanuts"]),
                                ("caffeine", ["--pin=1:00=gel_caffeine", "--age=16"])):
            with self.subTest(rule=rule):
                self.assertIn(rule, self.kept_out(1, *MIDDLE, *arguments))

    def test_no_card_of_a_refused_wish(self):
        with tempfile.TemporaryDirectory() as folder:
            card = Path(folder) / "card.pdf"
            wish = ["--pin=1:00=energy_bar", "--allergy=peanuts"]
            self.assertEqual(1, run(*MIDDLE, *wish, f"--card={card}").returncode)
            self.assertFalse(card.exists())
            self.assertEqual(0, run(*MIDDLE, "--pin=0:03=gel_25", f"--card={card}").returncode)
            self.assertTrue(card.exists())

    def test_words_that_are_no_pin(self):
        for text in ("gel_25", "0:40", "0:40=", "0:40=manna", "noon=gel_25", "-6km=gel_25", "6=gel_25", "0:61=gel_25",
                     "0:40=table_salt", "0:40=water_tap"):
            with self.subTest(text=text):
                done = run(*MIDDLE, f"--pin={text}")
                self.assertEqual(2, done.returncode)
                self.assertIn("--pin", done.stderr)
                self.assertEqual("", done.stdout)


class Delay(unittest.TestCase):
    DAY = [*MIDDLE, "--date=2027-06-13", "--start=07:30"]

    def moments(self, *more):
        return plan(*self.DAY, *more)["before"]

    def test_what_comes_before_the_news_keeps_its_clock_and_the_rest_moves(self):
        def clock(rows, word):
            return next(row["clock"] for row in rows if word in row["text"])
        early, late = self.moments(), self.moments("--delay=45min")
        self.assertEqual(clock(early, "Breakfast"), clock(late, "Breakfast"))
        self.assertEqual(("07:10", "07:55"), (clock(early, "Wetsuit"), clock(late, "Wetsuit")))
        # Over 30 min: sip to thirst, one small familiar snack an hour (common practice, no source).
        said = " ".join(row["text"] for row in late)
        self.assertIn("to thirst, one small familiar snack an hour", said)

    def test_a_short_delay_asks_for_no_snack(self):
        said = " ".join(row["text"] for row in self.moments("--delay=20min"))
        self.assertNotIn("snack an hour", said)

    def test_the_feeds_stay_as_they_are(self):
        self.assertEqual(plan(*self.DAY)["feeds"], plan(*self.DAY, "--delay=45min")["feeds"])

    def test_a_later_start_meets_warmer_hours(self):
        with tempfile.TemporaryDirectory() as folder:
            event = {"distance": "standard", "start_local": "08:00", "days": 0,
                     "athlete": {"mass_kg": 70},
                     "weather": {"temperature_c": 20, "hourly": [{"hour": 8, "temperature_c": 16},
                                                                 {"hour": 14, "temperature_c": 32}]}}
            path = Path(folder) / "event.json"
            path.write_text(json.dumps(event))
            early, late = plan(path), plan(path, "--delay=3h")
        self.assertGreater(late["needs"][-1]["sweat_ml_per_h"], early["needs"][-1]["sweat_ml_per_h"])

    def test_words_that_are_no_delay(self):
        for text in ("soon", "45", "-5min", "7h"):
            with self.subTest(text=text):
                done = run(*self.DAY, f"--delay={text}")
                self.assertEqual(2, done.returncode)
                self.assertIn("--delay", done.stderr)


class OtherEdits(unittest.TestCase):
    def test_a_rhythm_is_kept(self):
        for minutes in (10, 15, 20):
            with self.subTest(minutes=minutes):
                times = [feed["at_s"] for feed in plan(*MIDDLE, f"--bike-rhythm={minutes}min")["feeds"]
                         if feed["leg"] == "bike"]
                self.assertTrue(times)
                self.assertTrue(all(at % (60 * minutes) == 0 for at in times), times)

    def test_what_is_left_out_is_not_eaten(self):
        eaten = {food for _, food in foods(plan(*MIDDLE, "--without=gels"), "bike")}
        self.assertFalse({food for food in eaten if PANTRY[food]["group"] == "gels"})

    def test_only_what_is_asked_for(self):
        eaten = {food for _, food in foods(plan(*MIDDLE, "--only=gel_25"), "bike")}
        self.assertLessEqual(eaten, {"gel_25", "water_tap"})


if __name__ == "__main__":
    sys.exit(unittest.main())
