#!/usr/bin/python3
"""tuck diary from outside: JSON Schema (python3-jsonschema), Python's csv, processes side by side, kill -9."""
import csv
import io
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

import jsonschema

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
SCHEMA = json.loads((ROOT / "src/io/schema/diary.schema.json").read_text())
RACE = ROOT / "samples/hot-standard.json"
TEST = ["--before", "71.42kg", "--after", "70.31kg", "--drank", "750ml", "--minutes", "90", "--temperature", "24C",
        "--date", "2027-05-01"]
REHEARSAL = ["--bike", "150min", "--bike-carb", "150g", "--bike-fluid", "1.2L", "--run", "20min", "--temperature", "18C",
             "--bike-gut", "nausea=2,urge=1", "--feeds", "10", "--taken", "9.5"]


class Diary(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        self.file = self.path / "d.jsonl"

    def tuck(self, *arguments, code=0):
        done = subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=120, cwd=self.path)
        self.assertEqual(code, done.returncode, (arguments, done.stdout, done.stderr))
        return done

    def add(self, kind, *arguments, code=0):
        return self.tuck("diary", "add", kind, *arguments, "--diary", self.file, code=code)

    def lines(self):
        return [json.loads(line) for line in self.file.read_text().splitlines()]

    def fill(self):
        self.add("sweat-test", *TEST, "--patch-sodium", "55mmol/L", "--site", "forearm")
        self.add("rehearsal", *REHEARSAL, "--note", 'windy, "cold"; é', "--thirst", "3", "--meal", "3h")
        self.add("race", RACE, "--bike-took", "1:21:00", "--run-took", "52:10", "--bike-carb", "70g", "--bike-fluid",
                 "900ml", "--was", "27C")
        self.tuck("diary", "correct", 1, "--drank", "800ml", "--diary", self.file)
        self.tuck("diary", "correct", 2, "--withdraw", "--note", "another day's bottles", "--diary", self.file)

    def test_every_line_fits_the_published_schema(self):
        self.fill()
        validator = jsonschema.Draft202012Validator(SCHEMA)
        lines = self.lines()
        self.assertEqual(["sweat_test", "rehearsal", "race", "sweat_test", "rehearsal"], [l["kind"] for l in lines])
        for line in lines:
            self.assertEqual([], [error.message for error in validator.iter_errors(line)], line)
        for bad in ({"befor_kg": 1}, {"before_kg": 700}, {"schema": "tuck.diary/2"}, {"kind": "nap"}, {"minutes": "90"},
                    {"withdrawn": True}, {"patch_site": "nose"}):
            self.assertFalse(validator.is_valid({**{k: v for k, v in lines[0].items()}, **bad}), bad)

    def test_schema_and_reader_refuse_the_same(self):
        self.fill()
        validator = jsonschema.Draft202012Validator(SCHEMA)
        refused = 0
        for line in self.lines():
            for key in list(line) + ["zzz"]:
                for value in (None, "x", -1e6, 1e12, {}, []):
                    changed = {**line, key: value}
                    if not validator.is_valid(changed):
                        other = self.path / "other.jsonl"
                        first = {**self.lines()[0], "id": 1} if changed.get("corrects") else None
                        text = (json.dumps(first) + "\n" if first and changed.get("id") != 1 else "") + json.dumps(changed)
                        other.write_text(text + "\n")
                        # A bad line behind a good one is named, and the good one is read.
                        done = self.tuck("diary", "list", "--diary", other, code=0 if text.startswith(json.dumps(first)) else 2)
                        self.assertIn("other.jsonl: line ", done.stderr)
                        refused += 1
        self.assertGreater(refused, 300)

    def test_the_table_is_read_by_a_csv_reader(self):
        """RFC 4180, read back by Python's csv module."""
        self.fill()
        text = subprocess.run([TUCK, "diary", "export", "--csv", "--diary", str(self.file)], capture_output=True).stdout
        self.assertEqual(text.count(b"\r\n"), 6)
        rows = list(csv.DictReader(io.StringIO(text.decode(), newline="")))
        self.assertEqual(5, len(rows))
        self.assertEqual('windy, "cold"; é', rows[1]["note"])
        self.assertEqual("2", rows[1]["bike_nausea"])
        self.assertEqual("1", rows[3]["corrects"])
        self.assertEqual(4860, float(rows[2]["bike_time_s"]))
        for row, line in zip(rows, self.lines()):
            for key, value in line.items():
                if isinstance(value, float):
                    self.assertEqual(value, float(row[key]), key)
        self.tuck("diary", "export", "--diary", self.file, "-o", "t.csv")
        self.assertEqual(text, (self.path / "t.csv").read_bytes())

    def test_corrections_are_new_lines(self):
        self.fill()
        before = self.file.read_bytes()
        self.tuck("diary", "correct", 1, "--food", "60g", "--diary", self.file)
        self.assertTrue(self.file.read_bytes().startswith(before))
        last = self.lines()[-1]
        self.assertEqual((4, 800, 60), (last["corrects"], last["drank_ml"], last["food_g"]))  # on top of the last one
        self.assertEqual("2027-05-01", last["date"])
        listed = self.tuck("diary", "list", "--diary", self.file).stdout
        self.assertEqual(3, listed.replace("\n", " ").count("no longer"), listed)
        self.tuck("diary", "correct", 99, "--drank", "1L", "--diary", self.file, code=2)
        self.tuck("diary", "correct", 1, "--bike-carb", "1g", "--diary", self.file, code=2)
        self.tuck("diary", "correct", 1, "--after", "90kg", "--diary", self.file, code=2)

    def test_import_twice_adds_once(self):
        self.fill()
        other = self.path / "o.jsonl"
        self.assertIn("5 of 5", self.tuck("diary", "import", self.file, "--diary", other).stdout)
        self.assertIn("0 of 5", self.tuck("diary", "import", self.file, "--diary", other).stdout)
        self.assertEqual(self.lines(), [json.loads(line) for line in other.read_text().splitlines()])
        bad = self.path / "bad.jsonl"
        bad.write_text(self.file.read_text() + "nonsense\n")
        before = other.read_bytes()
        self.assertIn("bad.jsonl: line 6", self.tuck("diary", "import", bad, "--diary", other).stderr)
        self.assertEqual(before, other.read_bytes())

    def test_the_plan_says_what_is_the_athletes_own(self):
        plain = json.loads(self.tuck("plan", RACE, "--json", "--days", "0").stdout)
        self.add("sweat-test", *TEST, "--sweat-sodium", "62mmol/L")
        own = json.loads(self.tuck("plan", RACE, "--json", "--days", "0", "--diary", self.file).stdout)
        said = [text for text in own["assumptions"] if text.startswith("From the diary")]
        self.assertEqual(2, len(said), own["assumptions"])
        sweat = lambda plan: [need["sweat_ml_per_h"] for need in plan["needs"] if need["leg"] == "bike"][0]
        self.assertNotEqual(sweat(plain), sweat(own))
        typed = json.loads(self.tuck("plan", "--distance", "standard", "--mass", "62kg", "--temperature", "22C", "--days",
                                     "0", "--sweat-rate", "0.5L/h", "--json", "--diary", self.file).stdout)
        alone = json.loads(self.tuck("plan", "--distance", "standard", "--mass", "62kg", "--temperature", "22C", "--days",
                                     "0", "--sweat-rate", "0.5L/h", "--json").stdout)
        self.assertEqual(sweat(alone), sweat(typed), "what is typed outranks the diary")
        for command in ("card", "explain"):
            self.tuck(command, RACE, "--diary", self.file, *(["--text"] if command == "card" else []))
        self.tuck("plan", RACE, "--diary", "none.jsonl", code=2)

    def test_planned_and_happened(self):
        done = self.add("race", RACE, "--bike-took", "1:45:00", "--bike-carb", "20g", "--was", "20C").stdout
        self.assertIn("planned", done)
        self.assertIn("bike took", done)
        self.assertIn("of the planned food was taken", done.replace("\n    ", " "))
        for arguments, word in [(["--bike-took", "1:05"], "--bike-took: "), (["--bike-took", "fast"], "--bike-took: "),
                                (["--bike-gut", "nausea=11"], "--bike-gut: "), (["--bike-gut", "joy=1"], "--bike-gut: "),
                                (["--was", "90C"], "--was: ")]:
            self.assertIn(word, self.add("race", RACE, *arguments, code=2).stderr)
        self.assertEqual(1, len(self.lines()))

    def test_a_torn_last_line_is_kept_and_said(self):
        self.add("sweat-test", *TEST)
        with open(self.file, "ab") as file:
            file.write(b'{"schema":"tuck.diary/1","id":2,"no')
        done = self.tuck("diary", "list", "--diary", self.file)
        self.assertIn("cut short", done.stderr)
        done = self.add("sweat-test", *TEST)
        self.assertIn("kept in", done.stderr)
        self.assertEqual([1, 2], [line["id"] for line in self.lines()])
        kept = [p for p in self.path.iterdir() if "torn" in p.name]
        self.assertEqual([b'{"schema":"tuck.diary/1","id":2,"no'], [p.read_bytes() for p in kept])

    def test_processes_side_by_side(self):
        """Four shells add at once; every number that was told stands in the file."""
        script = 'for i in 1 2 3 4 5 6 7 8 9 10; do "$TUCK" diary add sweat-test "$@" --note "$0-$i" || exit 1; done'
        children = [subprocess.Popen(["sh", "-c", script, str(n), *TEST, "--diary", self.file], stdout=subprocess.PIPE)
                    for n in range(4)]
        told = set()
        for child in children:
            out, _ = child.communicate(timeout=120)
            self.assertEqual(0, child.returncode)
            told |= {int(line.split()[3]) for line in out.decode().splitlines()}
        self.assertEqual(set(range(1, 41)), told)
        self.assertEqual(40, len({line["note"] for line in self.lines()}))

    def test_killed_at_any_moment(self):
        """kill -9 after a random wait, many times: what was acknowledged is there, and the file reads."""
        acknowledged = 0
        for n in range(30):
            child = subprocess.Popen([TUCK, "diary", "add", "sweat-test", *TEST, "--note", str(n), "--diary", self.file],
                                     stdout=subprocess.PIPE)
            time.sleep(0.0004 * n)
            child.send_signal(signal.SIGKILL)
            if child.communicate()[0]:
                acknowledged += 1
                self.assertIn(str(n), {line["note"] for line in self.lines()})
            if self.file.exists():
                self.tuck("diary", "list", "--diary", self.file)
        self.add("sweat-test", *TEST, "--note", "last")
        self.assertEqual("last", self.lines()[-1]["note"])
        self.assertGreaterEqual(len(self.lines()), acknowledged + 1)

    def test_places_that_take_nothing(self):
        for place in (self.path, "/dev/full", self.path / "no/such/d.jsonl"):
            done = self.tuck("diary", "add", "sweat-test", *TEST, "--diary", place, code=2)
            self.assertEqual("", done.stdout)
        self.assertIn("--diary: is missing", self.tuck("diary", "list", code=2).stderr)
        self.assertIn("cannot be read", self.tuck("diary", "list", "--diary", "none.jsonl", code=2).stderr)

    def test_every_answer_fits_its_schema(self):
        def fits(name, done):
            schema = json.loads((ROOT / f"src/io/schema/{name}.schema.json").read_text())
            document = json.loads(done.stdout)
            jsonschema.Draft202012Validator(schema).validate(document)
            return document

        added = fits("diary-answer", self.add("sweat-test", *TEST, "--json"))
        self.assertEqual((1, "sweat_test"), (added["line"], added["entry"]["kind"]))
        fits("diary-answer", self.add("rehearsal", *REHEARSAL, "--json"))
        race = fits("diary-answer", self.add("race", RACE, "--bike-took", "1:21:00", "--run-took", "52:10", "--was", "27C",
                                             "--json"))
        self.assertTrue(race["changes"])
        fits("diary-answer", self.tuck("diary", "correct", 1, "--drank", "800ml", "--diary", self.file, "--json"))
        listed = fits("diary-answer", self.tuck("diary", "list", "--diary", self.file, "--json"))
        self.assertEqual([False, True, True, True], [row["counts"] for row in listed["entries"]])
        fits("diary-answer", self.tuck("diary", "import", self.file, "--diary", self.path / "o.jsonl", "--json"))
        fits("diary-answer", self.tuck("diary", "mend", "--diary", self.file, "--json"))
        fits("learned", self.tuck("diary", "show", "--diary", self.file, "--json"))
        fits("sweat-test", self.tuck("sweat-test", *TEST, "--json"))
        saved = fits("sweat-test", self.tuck("sweat-test", *TEST, "--json", "--save", "--diary", self.file))
        self.assertEqual(5, saved["line"])

    def test_a_weighed_race_is_a_sweat_test(self):
        """In its real weather and times; without the weights it teaches nothing of sweat."""
        took = ["--swim-took", "30:00", "--bike-took", "1:21:00", "--run-took", "52:10", "--was", "27C"]
        self.add("race", RACE, *took)
        known = lambda: json.loads(self.tuck("diary", "show", "--diary", self.file, "--json").stdout)
        self.assertEqual(0, known()["sweat_factor"]["tests"])
        done = self.add("race", RACE, *took, "--before", "62.4kg", "--after", "60.3kg", "--bike-fluid", "900ml", "--run-fluid",
                        "500ml")
        self.assertEqual(1, known()["sweat_factor"]["tests"])
        self.assertIn("The weighing tells of sweat", done.stdout)

    def test_show_names_the_next_test(self):
        self.add("sweat-test", *TEST)
        out = self.tuck("diary", "show", "--diary", self.file, "--temperature", "30C").stdout
        self.assertIn("WHAT WOULD TEACH MOST NEXT", out)
        self.assertIn("at 30 C", out)
        self.assertEqual(71.42, json.loads(self.tuck("diary", "show", 1, "--diary", self.file).stdout)["before_kg"])
        for line in out.splitlines():
            self.assertLessEqual(len(line), 80)


if __name__ == "__main__":
    sys.exit(unittest.main())
