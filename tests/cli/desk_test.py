#!/usr/bin/python3
"""The daily path of coaches and of other programs: - as a file, own headers, the kitchen, pages of cards, labels as pasted,
JSON everywhere. Judges: Debian's python3-jsonschema for the schemas, pdftotext for the papers."""
import csv
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import jsonschema

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
SAMPLES = ROOT / "samples"
RACE, GPX = SAMPLES / "hot-standard.json", SAMPLES / "courses/one-climb.gpx"
EVENT, ROSTER = SAMPLES / "squad/event.json", SAMPLES / "squad/squad.csv"
LINE = ["--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--days", "0"]

# Invented labels. EU 1169/2011, Annex XV, orders an EU label; 21 CFR 101.9 an American one.
EU_LABEL = """Nährwerte pro 100 g   pro Portion (40 g)
Brennwert 1.046 kJ / 250 kcal   418 kJ / 100 kcal
Fett 0 g  0 g
davon gesättigte Fettsäuren 0 g 0 g
Kohlenhydrate 62,5 g   25 g
davon Zucker 25 g  10 g
Eiweiß 0 g 0 g
Salz 0,30 g 0,12 g
"""
US_LABEL = """Nutrition Facts
8 servings per container
Serving size 1 packet (32g)
Calories 100
Total Fat 0g 0%
Saturated Fat 0g
Sodium 60mg 3%
Total Carbohydrate 22g 8%
Dietary Fiber Og
Total Sugars 7g
Includes 7g Added Sugars 14%
Protein 0g
Caffeine 20mg
"""
IN_ONE_LINE = ("per portion (45 g): energy 540 kJ; fat 0.5 g; of which saturates 0.2 g; carbohydrate 29,3 g; of which sugars 13.5 g; "
               "fibre 1.4 g; protein 1.8 g; salt 0.2 g")


class Desk(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)

    def tuck(self, *arguments, code=0, stdin=None):
        done = subprocess.run([TUCK, *map(str, arguments)], capture_output=True, timeout=120, cwd=self.path,
                              env={**os.environ, "XDG_CONFIG_HOME": str(self.path / "config")},
                              input=stdin.encode() if isinstance(stdin, str) else stdin)
        self.assertEqual(code, done.returncode, (arguments, done.stdout[:300], done.stderr))
        return done

    def said(self, *arguments, **more):
        return self.tuck(*arguments, **more).stdout.decode()

    def json(self, name, *arguments, **more):
        schema = json.loads((ROOT / f"src/io/schema/{name}.schema.json").read_text())
        document = json.loads(self.said(*arguments, **more))
        jsonschema.Draft202012Validator(schema).validate(document)
        return document

    def write(self, name, text):
        (self.path / name).write_text(text, encoding="utf-8")
        return name

    def rows(self, name):
        with open(self.path / name, newline="", encoding="utf-8") as file:
            return list(csv.DictReader(file))

    # - as a file

    def test_standard_input_is_a_file_like_others(self):
        race = json.loads(RACE.read_text())
        race["athlete"] = json.loads((RACE.parent / race["athlete"]).read_text())
        text = json.dumps(race)
        self.write("race.json", text)
        for command in (["plan"], ["card", "--text"], ["explain"], ["rehearse"]):
            name, *more = command
            self.assertEqual(self.said(name, "race.json", *more, "--days", 0),
                             self.said(name, "-", *more, "--days", 0, stdin=text))
        self.assertIn("standard input", self.said("course", "-", stdin=GPX.read_text()))
        self.assertIn(b"standard input: /distence", self.tuck("plan", "-", stdin='{"distence": 1}', code=2).stderr)
        self.said("foods", "add", "--file", "mine.json", "--id", "g", "--name", "G", "--form", "gel", "--paste", "-", stdin=US_LABEL)
        mine = (self.path / "mine.json").read_text()
        self.assertIn("gel", self.said("foods", "show", "g", "--own-foods", "-", stdin=mine))

    def test_standard_output_is_a_file_like_others(self):
        for arguments in (["plan", *LINE, "--card", "-"], ["plan", *LINE, "--sheet", "-"], ["card", *LINE, "-o", "-"]):
            done = self.tuck(*arguments)
            self.assertTrue(done.stdout.startswith(b"%PDF"), arguments)
        self.assertIn("Minimize", self.said("plan", *LINE, "--lp", "-"))
        self.assertIn("<svg", self.said("card", *LINE, "--preview", "-"))
        self.assertIn("BEGIN:VCALENDAR", self.said("rehearse", *LINE, "--weeks", 2, "--race-date", "2027-06-13", "--ical", "-"))
        self.tuck("plan", *LINE, "--card", "-", "--sheet", "-", code=2)
        self.assertEqual(["card.pdf"], sorted(path.name for path in self.path.iterdir()))  # of the preview

    # the squad's desk

    def test_own_headers_and_what_is_kept(self):
        self.write("own.txt", "# our club\nStartnr = bib\nRenngewicht = weight (lb)\nNotiz = -\n")
        self.write("r.csv", "Startnr;Name;Renngewicht;10k PB;Verein;Notiz\n7;Ann;150;44:10;Ost;secret\n")
        done = self.tuck("squad", "r.csv", EVENT, "--out", "o", "--columns", "own.txt", "--days", 0, "--private")
        self.assertIn('not used: column "Verein"', done.stderr.decode())
        row = self.rows("o/summary.csv")[0]
        self.assertEqual(("7", "Ann", "Ost"), (row["bib"], row["name"], row["Verein"]))
        self.assertAlmostEqual(68.04, float(row["mass_kg"]), 2)  # 1 lb = 0.45359237 kg
        self.assertNotIn("Notiz", row)
        self.assertNotIn("secret", (self.path / "o/summary.csv").read_text())

    def test_every_list_says_where_a_card_stands(self):
        self.tuck("squad", ROSTER, EVENT, "--out", "o", "--days", 0, "--size", "stem", "--ndjson", "plans.ndjson")
        plans = [json.loads(line) for line in (self.path / "plans.ndjson").read_text().splitlines()]
        cards, summary = self.rows("o/cards.csv"), {row["row"]: row for row in self.rows("o/summary.csv")}
        self.assertEqual([row["row"] for row in cards], [str(plan["squad"]["row"]) for plan in plans])
        schema = json.loads((ROOT / "src/io/schema/plan.schema.json").read_text())
        jsonschema.Draft202012Validator(schema).validate(plans[0])
        for card, plan in zip(cards, plans):
            self.assertEqual((card["file"], card["page"]), (plan["squad"]["file"], str(plan["squad"]["page"])))
            self.assertEqual((card["file"], card["page"]), (summary[card["row"]]["file"], summary[card["row"]]["page"]))
            text = subprocess.run(["pdftotext", "-raw", "-f", card["page"], "-l", card["page"],
                                   str(self.path / "o" / card["file"]), "-"], capture_output=True, text=True).stdout
            self.assertIn(f"plan {plan['version']}", " ".join(text.split()), card)

    def test_the_kitchen_sums_what_the_plans_say(self):
        self.tuck("squad", ROSTER, EVENT, "--out", "o", "--days", 0, "--ndjson", "plans.ndjson")
        plans = [json.loads(line) for line in (self.path / "plans.ndjson").read_text().splitlines()]
        text = subprocess.run(["pdftotext", "-raw", self.path / "o/kitchen-001.pdf", "-"], capture_output=True, text=True).stdout
        grams, pieces, bottles = {}, {}, 0
        for plan in plans:
            bottles += len(plan["mix"])
            for item in plan["shopping"]:
                sums = grams if item["unit"] == "g" else pieces
                sums[item["food"]] = sums.get(item["food"], 0) + item["amount"]
        flat = " ".join(text.split())
        for food, amount in grams.items():
            self.assertRegex(flat, rf"(?<!\d){amount:g} g \w", food)
        for food, amount in pieces.items():
            self.assertRegex(flat, rf"(?<!\d){-(-amount // 1):g} x \w", food)
        mixed = re.search("To mix(.*?)Labels", flat).group(1)
        self.assertEqual(bottles, sum(int(count) for count in re.findall(r"(\d+) x B?\w", mixed)))
        labels = flat[flat.index("Labels to cut out"):]
        places = [labels.find(row["name"]) for row in self.rows(ROSTER) if row["name"] in labels]
        self.assertEqual(sorted(places), places)
        self.tuck("squad", ROSTER, EVENT, "--out", "o", "--days", 0, "--no-kitchen")
        self.assertFalse((self.path / "o/kitchen-001.pdf").exists())

    def test_2026_11_a_kitchen_line_was_higher_than_a_page(self):
        names = "".join(f"Athlete {i} of a Long Name Indeed,{i},70\n" for i in range(300))
        self.write("r.csv", "name,bib,mass_kg\n" + names)
        self.tuck("squad", "r.csv", EVENT, "--out", "o", "--days", 0)
        text = subprocess.run(["pdftotext", "-raw", self.path / "o/kitchen-001.pdf", "-"], capture_output=True, text=True).stdout
        mixed = re.search("To mix(.*?)Labels", " ".join(text.split())).group(1)
        self.assertEqual(300, sum(int(count) for count in re.findall(r"(?<!\d)(\d+) x B1", mixed)))

    def test_hands_that_stay_on_the_bar_are_a_risk(self):
        self.write("r.csv", "name,mass_kg,hands\nAnn,60,none\nBea,60,bottle\n")
        self.tuck("squad", "r.csv", EVENT, "--out", "o", "--days", 0)
        risk = {row["name"]: row["risk"] for row in self.rows("o/summary.csv")}
        self.assertIn("hands none", risk["Ann"])
        self.assertNotIn("hands none", risk["Bea"])

    # labels as they are pasted

    def test_labels_are_pasted_as_they_stand(self):
        # What each label says of one serving: 40 g of 62.5 g a 100 g; 22 g less 0 g fibre; 29.3 g. Salt = sodium x 2.5.
        wanted = {"eu": (EU_LABEL, 25, 10, 48, 100), "us": (US_LABEL, 22, 7, 60, 100), "one": (IN_ONE_LINE, 29.3, 13.5, 80, 129.1)}
        for name, (label, carb_g, sugars_g, sodium_mg, energy_kcal) in wanted.items():
            form = "bar" if name == "one" else "gel"
            self.write("label.txt", label)
            food = json.loads(self.said("foods", "add", "--file", "mine.json", "--id", name, "--name", name, "--form", form,
                                        "--paste", "label.txt", "--json"))
            self.assertAlmostEqual(carb_g, food["carb_g"], 2)
            self.assertAlmostEqual(sugars_g, food["sugars_g"], 2)
            self.assertAlmostEqual(sodium_mg, food["sodium_mg"], 1)
            self.assertAlmostEqual(energy_kcal, food["energy_kcal"], 1)
        self.assertEqual(20, json.loads(self.said("foods", "show", "us", "--own-foods", "mine.json", "--json"))["caffeine_mg"])

    def test_what_is_typed_outranks_the_pasted_label(self):
        self.write("label.txt", EU_LABEL)
        food = json.loads(self.said("foods", "add", "--file", "m.json", "--id", "g", "--name", "G", "--form", "gel", "--paste",
                                    "label.txt", "--serving", "60g", "--salt", "1g", "--json"))
        self.assertEqual((60, 37.5, 240), (food["serving_g"], food["carb_g"], food["sodium_mg"]))

    def test_a_food_is_edited_and_the_rest_stays(self):
        self.write("label.txt", US_LABEL)
        self.said("foods", "add", "--file", "m.json", "--id", "g", "--name", "G", "--form", "gel", "--paste", "label.txt")
        before = json.loads(self.said("foods", "show", "g", "--own-foods", "m.json", "--json"))
        self.said("foods", "edit", "g", "--file", "m.json", "--caffeine", "30mg", "--needs-water", "no", "--allergen", "milk")
        after = json.loads(self.said("foods", "show", "g", "--own-foods", "m.json", "--json"))
        changed = {key for key in before if before[key] != after[key]}
        self.assertEqual({"caffeine_mg", "needs_water", "allergens", "locator"}, changed)
        self.tuck("foods", "edit", "g", "--file", "m.json", "--carbohydrate", "90g", code=2)
        self.assertEqual(after, json.loads(self.said("foods", "show", "g", "--own-foods", "m.json", "--json")))
        self.said("plan", *LINE, "--own-foods", "m.json", "--like", "g")

    # JSON everywhere

    def test_json_of_every_command_fits_its_schema(self):
        self.assertEqual("bike", self.json("course", "course", GPX, "--json")["sport"])
        self.json("course", "course", GPX, "--sport", "run", "--json")
        explained = self.json("explain", "explain", *LINE, "--json")
        self.assertTrue(any(one["because"] for one in explained["numbers"]))
        self.assertEqual(["card.pdf"], self.json("written", "card", *LINE, "--json")["files"])
        self.assertEqual(["l.json", "athlete.json"], self.json("written", "new", "l.json", "--mass", "60kg", "--yes", "--json")["files"])
        squad = self.json("written", "squad", ROSTER, EVENT, "--out", "o", "--days", 0, "--json")
        self.assertEqual(12, squad["athletes"])
        for file in squad["files"]:
            self.assertTrue((self.path / file).is_file(), file)
        self.assertGreater(self.json("written", "foods", "check", "--json")["foods"], 50)
        test = ["sweat-test", "--before", "71.4kg", "--after", "70.3kg", "--minutes", "90", "--temperature", "24C"]
        self.assertEqual(1, self.json("sweat-test", *test, "--save", "--diary", "d.jsonl", "--json")["line"])
        exported = self.json("diary-answer", "diary", "export", "--json", "--diary", "d.jsonl")
        self.assertEqual(71.4, exported["entries"][0]["entry"]["before_kg"])
        self.json("diary-answer", "diary", "list", "--json", "--diary", "d.jsonl")
        self.json("learned", "diary", "show", "--json", "--diary", "d.jsonl")
        self.json("rehearsal", "rehearse", *LINE, "--json")

    def test_a_pace_is_a_distance(self):
        """12 km in an hour is 5:00/km; 3 km in an hour of swimming is 2:00/100m."""
        test = ["sweat-test", "--before", "71.4kg", "--after", "70.3kg", "--minutes", "60", "--temperature", "24C", "--json"]
        for sport, pace, distance in (("run", "5:00/km", "12km"), ("swim", "2:00/100m", "3km")):
            water = ["--water", "20C"] if sport == "swim" else []
            self.assertEqual(self.said(*test, *water, "--sport", sport, "--distance", distance),
                             self.said(*test, *water, "--sport", sport, "--pace", pace))

    # imperial

    def test_course_and_sweat_test_in_miles_and_ounces(self):
        """1 mile = 1.609344 km, 1 US fl oz = 29.5735 ml, 1 lb = 0.45359237 kg, exact by definition."""
        metric = json.loads(self.said("course", GPX, "--json"))
        text = self.said("course", GPX, "--units", "imperial", "--mass", "165lb", "--temperature", "82F")
        self.assertIn(f"{metric['length_m'] / 1609.344:.1f} miles", text)
        self.assertAlmostEqual(metric["up_m"] / 0.3048, float(re.search(r"(\d+) ft up", text).group(1)), delta=2)  # JSON: whole m
        self.assertIn("165 lb", text)
        self.assertIn("82 F", text)
        self.assertNotRegex(text, r"\d km|km/h|\d C\b|27\.7")
        test = ["sweat-test", "--before", "160lb", "--after", "157lb", "--drank", "25oz", "--minutes", "90", "--temperature", "75F",
                "--scale", "0.2lb"]
        result = json.loads(self.said(*test, "--json"))
        text = self.said(*test, "--units", "imperial")
        self.assertIn(f"{result['sweat_ml'] / 29.5735295625:.0f} fl oz", text)
        self.assertNotRegex(text, r"\d (ml|L/h|kg|C)\b")
        ceilings = re.findall(r"^  (?:bike|run) .* (\d+) fl oz/h$", text, re.M)
        wanted = [int(day["drink_up_to_ml_per_h"] / 29.5735295625 + 1e-9) for day in result["outlook"]]  # cut off, never up
        self.assertEqual(wanted, [int(each) for each in ceilings])

    # paper

    def test_holes_and_glue(self):
        plain, more = (self.said("card", *LINE, "--preview", "-", *extra) for extra in ([], ["--holes", "--glue"]))
        self.assertNotIn(">glue<", plain)
        self.assertIn(">glue<", more)
        self.assertGreater(more.count("<polyline"), plain.count("<polyline") + 3)
        self.tuck("card", *LINE, "--holes", "--glue", "--check")

    def test_2026_11_many_notes_of_one_leg_fitted_no_side_of_a_stem_card(self):
        """A hilly course moves feeds off the beat; all of that was one block, higher than a side."""
        text = self.said("card", "--distance", "middle", "--mass", "75kg", "--temperature", "31C", "--level", "beginner",
                         "--bike-course", GPX, "--bike-laps", 2, "--days", 0, "--size", "stem", "--check")
        self.assertNotIn("missed", text)

    def test_a_season_is_drawn(self):
        done = subprocess.run([sys.executable, SAMPLES / "season.py"], capture_output=True, text=True, timeout=120)
        self.assertEqual(0, done.returncode, done.stderr)
        self.assertEqual(2, done.stdout.count("<polyline"))
        self.assertRegex(done.stdout, r"Bo \d{3,4} ml")


if __name__ == "__main__":
    sys.exit(unittest.main())
