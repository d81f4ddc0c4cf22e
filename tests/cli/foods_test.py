"""tuck foods: what it prints, what it refuses, and what it writes."""

import json
import os
import subprocess
import tempfile
import unittest
from pathlib import Path

import jsonschema

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
LABEL = ["--form", "gel", "--serving", "40g", "--per", "100g", "--carbohydrate", "62.5g", "--sugars", "25g",
         "--fat", "0g", "--protein", "0g", "--salt", "0.3g", "--energy", "250kcal"]


def tuck(*arguments, cwd=None):
    return subprocess.run([TUCK, "foods", *arguments], capture_output=True, text=True, cwd=cwd, timeout=60)


class Reading(unittest.TestCase):
    def test_list_fits_80_columns_and_names_every_food(self):
        run = tuck("list")
        self.assertEqual((run.returncode, run.stderr), (0, ""))
        self.assertLessEqual(max(len(line) for line in run.stdout.splitlines()), 80)
        ids = [food["id"] for food in json.loads(tuck("list", "--json").stdout)]
        self.assertGreaterEqual(len(ids), 58)
        first_words = [line.split()[0] for line in run.stdout.splitlines() if line]
        self.assertEqual(set(ids) - set(first_words), set())

    def test_list_of_one_group(self):
        foods = json.loads(tuck("list", "--group", "gels", "--json").stdout)
        self.assertEqual({food["group"] for food in foods}, {"gels"})
        run = tuck("list", "--group", "gel")
        self.assertEqual((run.returncode, run.stdout), (2, ""))
        self.assertIn('did you mean "gels"', run.stderr)

    def test_show_prints_amounts_and_source(self):
        run = tuck("show", "banana_ripe")
        self.assertEqual(run.returncode, 0)
        self.assertIn("NDB 09040", run.stdout)
        self.assertIn("23.88 g", run.stdout)
        self.assertEqual(json.loads(tuck("show", "banana_ripe", "--json").stdout)["carb_g"], 23.88)

    def test_show_of_an_unknown_food_suggests_one(self):
        run = tuck("show", "bananna_ripe")
        self.assertEqual((run.returncode, run.stdout), (2, ""))
        self.assertIn('did you mean "banana_ripe"', run.stderr)
        self.assertEqual(len(run.stderr.strip().splitlines()), 1)

    def test_the_program_finds_its_pantry_from_any_folder(self):
        self.assertEqual(tuck("show", "gel_25", cwd="/").returncode, 0)
        run = tuck("list", "--foods", "/nowhere")
        self.assertEqual(run.returncode, 2)
        self.assertIn("/nowhere", run.stderr)

    def test_the_pantry_follows_its_schema(self):
        # JSON Schema 2020-12, judged by python3-jsonschema.
        schema = json.loads((ROOT / "src/io/schema/pantry.schema.json").read_text())
        jsonschema.Draft202012Validator.check_schema(schema)
        judge = jsonschema.Draft202012Validator(schema)
        files = sorted((ROOT / "foods").glob("*.json"))
        self.assertTrue(files)
        for path in files:
            self.assertEqual([error.message for error in judge.iter_errors(json.loads(path.read_text()))], [], path)

    def test_the_schema_and_the_program_ask_for_the_same_keys(self):
        schema = json.loads((ROOT / "src/io/schema/pantry.schema.json").read_text())["$defs"]["food"]
        food = json.loads((ROOT / "foods/powders.json").read_text())["foods"][0]
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "one.json"
            for key in [*schema["properties"], "brand"]:
                less = {k: v for k, v in food.items() if k != key}
                if key == "brand":
                    less["brand"] = "none"
                path.write_text(json.dumps({"group": "powders", "foods": [less]}))
                expected = 2 if key in schema["required"] or key == "brand" else 0
                self.assertEqual(tuck("check", str(path)).returncode, expected, key)


class Checking(unittest.TestCase):
    def test_the_pantry_has_no_faults(self):
        run = tuck("check")
        self.assertEqual((run.returncode, run.stderr), (0, ""))
        self.assertRegex(run.stdout.splitlines()[-1], r"^\d+ foods in \d+ files: 0 faults, \d+ notes?$")

    def test_faults_of_a_file_are_told_line_by_line(self):
        food = json.loads((ROOT / "foods/gels.json").read_text())["foods"][0]
        # 25 g carbohydrate are 425 kJ (EU 1169/2011, Annex XIV).
        wrong = [dict(food, energy_kcal=425), dict(food, id="other", allergens=["glutne"])]
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "mine.json"
            path.write_text(json.dumps({"group": "mine", "foods": wrong}))
            run = tuck("check", str(path))
        self.assertEqual(run.returncode, 2)
        lines = run.stderr.strip().splitlines()
        self.assertEqual(len(lines), 2, run.stderr)
        self.assertIn("/foods/0/energy_kcal: 425 looks like kilojoules", lines[0])
        self.assertIn('/foods/1/allergens: "glutne" is not known; did you mean "gluten"?', lines[1])
        self.assertIn("2 foods in 1 file: 2 faults", run.stdout)

    def test_what_is_no_food_file_is_refused(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "x.json"
            for text in ["", "{", "[]", "null", '{"group":"a","group":"b","foods":[]}', '{"foods":{}}', "\ufeff{}",
                         '{"group":"a","foods":[1]}']:
                path.write_text(text)
                run = tuck("check", str(path))
                self.assertEqual(run.returncode, 2, text)
                self.assertIn("x.json", run.stderr, text)
            self.assertEqual(tuck("check", folder).returncode, 2)
            self.assertEqual(tuck("check", folder + "/none.json").returncode, 2)


class Adding(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.path = Path(self.folder.name) / "mine.json"

    def add(self, *arguments, id="my_gel"):
        return tuck("add", "--file", str(self.path), "--id", id, "--name", "My gel", *arguments)

    def foods(self):
        return json.loads(self.path.read_text())["foods"]

    def test_a_label_becomes_a_food_that_checks(self):
        run = self.add(*LABEL)
        self.assertEqual((run.returncode, run.stderr), (0, ""))
        for words in ["half as fructose", "NO ALLERGENS", "sodium x 2.5"]:
            self.assertIn(words, run.stdout)
        self.assertLessEqual(max(len(line) for line in run.stdout.splitlines() if "Added to" not in line), 80)
        food = self.foods()[0]
        # 0.3 g salt per 100 g is 120 mg sodium (EU 1169/2011, Annex I), 48 mg in 40 g.
        self.assertEqual([food["carb_g"], food["sodium_mg"], food["fructose_g"]], [25, 48, 5])
        self.assertEqual(tuck("check", str(self.path)).returncode, 0)

    def test_a_second_food_keeps_the_first(self):
        self.add(*LABEL)
        first = self.foods()[0]
        self.assertEqual(self.add(*LABEL, "--allergen", "milk", "--needs-water", "no", id="other").returncode, 0)
        foods = self.foods()
        self.assertEqual(foods[0], first)
        self.assertEqual((foods[1]["id"], foods[1]["allergens"], foods[1]["needs_water"]), ("other", ["milk"], False))
        self.assertEqual(os.listdir(self.folder.name), ["mine.json"])

    def test_us_style(self):
        # The sample of the FDA's label, from memory: total carbohydrate 37 g holds 4 g fibre. 2 oz are 56 g by
        # 21 CFR 101.9(b)(5)(viii).
        run = self.add("--style", "us", "--form", "bar", "--per", "serving", "--serving", "2oz", "--carbohydrate",
                       "37g", "--fibre", "4g", "--sugars", "12g", "--fat", "8g", "--protein", "3g", "--sodium",
                       "160mg", "--energy", "230kcal")
        self.assertEqual((run.returncode, run.stderr), (0, ""))
        food = self.foods()[0]
        self.assertEqual([food["carb_g"], food["fibre_g"], food["sodium_mg"], food["serving_g"]], [33, 4, 160, 56])

    def test_nothing_is_written_on_a_fault(self):
        self.add(*LABEL)
        before = self.path.read_bytes()
        refused = [
            (LABEL, "my_gel", "stands already"),
            (LABEL, "gel_25", 'stands already in the group "gels"'),
            (LABEL, "My Gel", "cannot be an id"),
            (LABEL[:-1] + ["1046kcal"], "other", "looks like kilojoules"),
            (LABEL + ["--sodium", "120mg"], "other", "give one"),
            (LABEL + ["--allergen", "glutne"], "other", 'did you mean "gluten"'),
            (LABEL + ["--caffeine", "800mg"], "other", "allowed 0 to 300 mg"),
            (LABEL + ["--glucose", "10g"], "other", "--fructose"),
            (LABEL[:-2], "other", "--energy"),
            (LABEL + ["--fibre", "5"], "other", "unit"),
        ]
        for arguments, id, words in refused:
            run = self.add(*arguments, id=id)
            self.assertEqual((run.returncode, run.stdout), (2, ""), words)
            self.assertIn(words, run.stderr)
            self.assertEqual(self.path.read_bytes(), before, words)
        self.assertEqual(os.listdir(self.folder.name), ["mine.json"])

    def test_a_file_that_cannot_be_read_is_left_alone(self):
        self.path.write_text('{"group": "own", "foods": [], "note": "mine"}')
        before = self.path.read_bytes()
        run = self.add(*LABEL)
        self.assertEqual(run.returncode, 2)
        self.assertIn("note", run.stderr)
        self.assertEqual(self.path.read_bytes(), before)


if __name__ == "__main__":
    unittest.main()
