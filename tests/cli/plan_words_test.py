#!/usr/bin/python3
"""What a plan says first, and how: three sentences, ends of lines, few warnings, measures of a kitchen."""
import json
import os
import re
import subprocess
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
SOLID = {food["id"] for path in (ROOT / "foods").glob("*.json") for food in json.loads(path.read_text())["foods"]
         if food["form"] in ("bar", "solid")}
RACES = [(distance, mass, celsius, stations) for distance in ("sprint", "standard", "middle", "long") for mass in (55, 80)
         for celsius in (10, 24, 33) for stations in ([], ["--stations=typical"])]


def ask(*options):
    return subprocess.run([TUCK, "plan", *options, "--days=300"], capture_output=True, text=True)


def plan(distance, mass, celsius, more=()):
    options = [f"--distance={distance}", f"--mass={mass}kg", f"--temperature={celsius}C", *more]
    return json.loads(ask(*options, "--json").stdout), ask(*options).stdout


def section(text, head):
    """The lines under a head, up to the next one."""
    found = re.search(rf"^{head}.*\n((?:[ !].*\n)+)", text, re.M)
    return found.group(1) if found else ""


class PlansInWords(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.plans = [(race, *plan(*race)) for race in RACES]

    def test_three_sentences_come_before_any_table(self):
        for race, document, text in self.plans:
            with self.subTest(race):
                self.assertTrue(1 <= len(document["in_short"]) <= 3)
                self.assertLess(text.index("IN SHORT"), text.index("FOOD ON THE COURSE"))
                self.assertLess(text.index("IN SHORT"), text.index("TIME "))
                words = " ".join(section(text, "IN SHORT").split())
                self.assertEqual(words, " ".join(" ".join(document["in_short"]).split()))

    def test_who_needs_nothing_is_told_so(self):
        document, text = plan("super-sprint", 68, 20)
        self.assertEqual(document["in_short"][0], "You need no food on the way.")
        document, text = plan("sprint", 68, 20)
        self.assertIn("Nothing needed.", section(text, "ON THE RUN"))
        self.assertFalse([u for u in document["unmet"] if "run" in u["need"]])

    def test_what_is_chewed_ends_before_the_run(self):
        """Common practice, no source: nothing to chew in the last half hour before the run, however slow the day."""
        chewed = 0
        for race, document, _ in self.plans:
            for line in document["lines"]:
                if line["leg"] == "bike" and line["rhythm"]["kind"] == "every" and SOLID & {i["food"] for i in line["items"]}:
                    chewed += 1
                    with self.subTest(race, line=line["text"]):
                        self.assertIn(" to ", line["when"])
        self.assertGreater(chewed, 5)

    def test_warnings_are_few_and_not_those_of_every_plan(self):
        for race, document, text in self.plans:
            with self.subTest(race):
                self.assertLessEqual(section(text, "TAKE CARE").count("  !  "), 3)
                self.assertNotIn("no_stations", {warning["code"] for warning in document["warnings"]})
                self.assertNotIn("dangerous mistake", section(text, "TAKE CARE"))
                if document["total"]["p50_s"] > 4 * 3600:
                    self.assertIn("dangerous mistake", section(text, "ALWAYS"))
                if race[3]:
                    continue
                self.assertIn("Aid stations not given", section(text, "ASSUMED").replace("\n    ", " "))

    def test_bottles_are_handed_up_only_when_the_own_ones_are_empty(self):
        """Common practice, no source: with both cages full there is no place for another bottle."""
        for mass, celsius, most in ((75, 22, 2), (70, 33, 3)):
            document, text = plan("long", mass, celsius, ["--stations=typical"])
            kms = [float(km) for km in re.search(r"km ([\d. ]+): take 1", document["refill_note"]).group(1).split()]
            self.assertLessEqual(len(kms), most)
            own = [feed for feed in document["feeds"] if feed["leg"] == "bike"
                   and any(item["from"].startswith("B") for item in feed["items"])]
            spacing = 20  # of typical stations, km
            self.assertGreater(kms[0], max(feed["km"] for feed in own) - spacing)
            self.assertLess(text.index(document["refill_note"][:20]), text.index("ON THE RUN"))

    def test_recipes_are_said_in_spoons(self):
        for race, document, _ in self.plans:
            for row in document["mix"]:
                powders = [part for part in row["add"] if part["food"] != "table_salt"]
                with self.subTest(race, text=row["text"]):
                    self.assertEqual(row["text"].count("level tablespoon"), len(powders))
                    self.assertTrue(re.search(r"to the top$|to \d+ ml$", row["text"]))
                    # Common practice, no source: a level tablespoon of drink powder is about 10 g.
                    for part in powders:
                        spoons = re.search(r"\((\d*)( ?1/2)? level", row["text"])
                        said = float(spoons.group(1) or 0) + (0.5 if spoons.group(2) else 0)
                        self.assertAlmostEqual(said, part["grams"] / 10, delta=0.26)

    def test_breakfast_has_two_examples_and_heeds_allergies(self):
        of = lambda document: next(row["text"] for row in document["before"] if row["text"].startswith("Breakfast"))  # noqa: E731
        document, _ = plan("middle", 70, 20)
        self.assertRegex(of(document), r"For instance .*bread with honey.*; or .*porridge")
        document, _ = plan("middle", 70, 20, ["--allergy=gluten"])
        self.assertNotRegex(of(document), "bread|porridge")
        self.assertIn("rice", of(document))

    def test_a_food_by_its_earlier_name(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "event.json"
            path.write_text(json.dumps({
                "distance": "middle", "weather": {"temperature_c": 20}, "days": 0,
                "athlete": {"mass_kg": 70, "like": ["gel_40"]},
                "course": {"run": {"stations": [{"km": 5, "serves": ["gel_40"]}, {"km": 12, "serves": ["gel_40"]}]}}}))
            done = subprocess.run([TUCK, "plan", path, "--json"], capture_output=True, text=True)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertIn("gel_large", {item["food"] for feed in json.loads(done.stdout)["feeds"] for item in feed["items"]})


if __name__ == "__main__":
    unittest.main()
