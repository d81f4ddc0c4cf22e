#!/usr/bin/python3
"""tuck sweat-test: the arithmetic a person sees, what is refused, and who is not asked to stand on a scale."""
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
GOOD = {"before": "71.42kg", "after": "70.31kg", "drank": "750ml", "minutes": "90", "temperature": "24C", "scale": "50g"}


class SweatTest(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)

    def tuck(self, *more, **options):
        said = {**GOOD, **{key.replace("_", "-"): value for key, value in options.items()}}
        arguments = [f"--{key}={value}" for key, value in said.items() if value is not None]
        return subprocess.run([TUCK, "sweat-test", *arguments, *map(str, more)], capture_output=True, text=True,
                              timeout=60, cwd=self.path)

    def test_the_worked_example(self):
        """National sports institute hand-out (studylib.net/doc/7332433): 55 -> 53.5 kg, 1 L, 0.5 L urine, 2 h: 1.0 L/h."""
        done = self.tuck(before="55kg", after="53.5kg", drank="1L", urine="0.5L", minutes="2h", energy="0kcal")
        self.assertEqual(0, done.returncode, done.stderr)
        self.assertRegex(done.stdout, r"sweat +2000 ml, 1\.00 L/h, give or take 0\.\d\d L/h")

    def test_energy_takes_a_fifth_of_a_gram_per_kcal_off(self):
        """Cheuvront & Montain 2017: 3000 kcal are 0.60 kg."""
        done = self.tuck(energy="3000kcal", minutes="3h")
        self.assertRegex(done.stdout, r"not sweat +600 g")
        self.assertRegex(done.stdout, r"sweat +1260 ml")  # 1110 + 750 - 600

    def test_pounds_and_ounces(self):
        metric = self.tuck(before="70kg", after="69kg", energy="0kcal").stdout
        imperial = self.tuck(before="154.3236lb", after="152.1190lb", energy="0kcal").stdout
        self.assertEqual(re.search("sweat .*", metric)[0], re.search("sweat .*", imperial)[0])

    def test_nonsense_is_refused_and_nothing_is_saved(self):
        for options, word in [
            ({"before": "71kg", "after": "75kg"}, "gain of 4.00 kg"),
            ({"before": "71kg", "after": "65kg", "minutes": "60"}, "allowed up to 5 L/h"),
            ({"before": "71kg", "after": "71.3kg", "drank": None}, "less than nothing"),
            ({"after": None}, "--after: is missing"),
            ({"temperature": None}, "--temperature: is missing"),
            ({"before": "71"}, '--before: "71": give a unit'),
            ({"minutes": "5"}, "--minutes: 5 is out of range"),
            ({"before": "700kg"}, "--before: 700 is out of range; allowed 25 to 250 kg"),
            ({"fan": "maybe"}, "--fan: "),
            ({"sport": "row"}, "--sport: "),
            ({"patch_sodium": "55mmol/L"}, "--site: is missing; allowed: forearm"),
            ({"patch_sodium": "55mmol/L", "site": "nose"}, "--site: "),
            ({"patch_sodium": "55mmol/L", "site": "chest", "sweat_sodium": "40mmol/L"}, "--patch-sodium: stands beside"),
            ({"date": "2027-02-29"}, "--date: "),
            ({"race_temperature": "80C"}, "--race-temperature: 80 is out of range"),
            ({"level": "pro"}, "--level: "),
        ]:
            done = self.tuck("--save", "--diary", "d.jsonl", **options)
            self.assertEqual(2, done.returncode, (options, done.stdout, done.stderr))
            self.assertEqual("", done.stdout, options)
            self.assertIn(word, done.stderr)
            self.assertEqual(1, len(done.stderr.splitlines()), done.stderr)
            self.assertEqual([], list(self.path.iterdir()))

    def test_every_fault_has_its_line(self):
        done = self.tuck(before="x", after=None, minutes="5")
        self.assertEqual(["--before", "--after", "--minutes"],
                         [line.split(": ")[1] for line in done.stderr.splitlines()])

    def test_a_gain_is_warned_about(self):
        done = self.tuck(before="71kg", after="71.3kg", drank="2L")
        self.assertEqual(0, done.returncode)
        self.assertIn("tuck: mass_gain: ", done.stderr)
        self.assertIn("dangerous mistake", done.stdout)

    def test_save_appends_what_was_weighed(self):
        for _ in range(2):
            self.assertEqual(0, self.tuck("--save", "--diary", "d.jsonl", date="2027-05-01").returncode)
        lines = [json.loads(line) for line in (self.path / "d.jsonl").read_text().splitlines()]
        self.assertEqual([1, 2], [line["id"] for line in lines])
        self.assertEqual((71.42, 70.31, 750, 0.05), tuple(lines[0][key] for key in
                                                          ("before_kg", "after_kg", "drank_ml", "scale_kg")))

    def test_save_needs_a_file(self):
        self.assertIn("--save: needs a file", self.tuck("--save").stderr)

    def test_without_scales(self):
        done = subprocess.run([TUCK, "sweat-test", "--no-scales"], capture_output=True, text=True, timeout=60)
        self.assertEqual(0, done.returncode)
        self.assertIn("bottle", done.stdout)
        self.assertNotRegex(done.stdout, r"\bkg\b")
        self.assertIn("never go dry", subprocess.run([TUCK, "sweat-test", "--help"], capture_output=True, text=True).stdout)

    def test_a_past_eating_disorder_is_not_asked_to_weigh(self):
        athlete = self.path / "a.json"
        athlete.write_text(json.dumps({"mass_kg": 60, "health": {"past_eating_disorder": True}}))
        done = self.tuck("--athlete", athlete, "--save", "--diary", "d.jsonl")
        self.assertEqual(1, done.returncode)
        self.assertNotRegex(done.stdout, r"\bkg\b|%|L/h")
        self.assertIn("thirst", done.stdout)
        self.assertFalse((self.path / "d.jsonl").exists())
        (self.path / "d.jsonl").write_text("")
        shown = subprocess.run([TUCK, "diary", "show", "--diary", "d.jsonl", "--athlete", athlete], capture_output=True,
                               text=True, timeout=60, cwd=self.path)
        self.assertEqual(0, shown.returncode, shown.stderr)
        self.assertNotIn("A sweat test at", shown.stdout)

    def test_at_most_80_columns(self):
        for line in self.tuck(patch_sodium="55mmol/L", site="forearm").stdout.splitlines():
            self.assertLessEqual(len(line), 80, line)


if __name__ == "__main__":
    sys.exit(unittest.main())
