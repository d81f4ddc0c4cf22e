#!/usr/bin/python3
"""What people type, paste and forget: the wrong inputs of a trial with four new users, each with the answer that they needed.

The trial is our own (2026-11); nothing here has a source outside the project but RFC 5545, RFC 4180 and XDG Base Directory 0.8."""
import csv
import io
import json
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
RACE = SAMPLES / "hot-standard.json"
LINE = ["--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--days", "0"]


def without(option):
    at = LINE.index(option)
    return LINE[:at] + LINE[at + 2:]


# (arguments after "plan", what standard error says)
REFUSED = [
    (without("--distance") + ["--distance", "sprnt"], 'did you mean "sprint"'),
    (LINE + ["--level", "begginer"], 'did you mean "beginner"'),
    (LINE + ["--allergy", "glutten"], 'did you mean "gluten"'),
    (LINE + ["--allergy", "lactose"], "say milk"),
    (LINE + ["--avoid", "banana"], "banana_ripe"),
    (LINE + ["--only", "cola"], "cola_flat"),
    (without("--temperature") + ["--temperature", "22"], "give a unit, C or F"),
    (without("--temperature") + ["--temperature", "28C", "--temperature", "29C"], "is given twice"),
    (without("--mass") + ["--mass", "-68kg"], "--mass"),
    (without("--mass") + ["--mass", "68C"], "--mass"),
    (LINE + ["--date", "2027-02-30"], "--date"),
    (["--legs", "bike:20000km", "--mass", "68kg", "--temperature", "22C"], "20000000 is out of range"),
    (LINE + ["--sweat-rate", "swim=1L/h"], "bike=1.2L/h"),
    (LINE + ["--set", "weather.humidty_pct=80"], 'did you mean "humidity_pct"'),
    (LINE + ["--distanse", "sprint"], 'did you mean "--distance"'),
    ([SAMPLES / "courses/one-climb.gpx"], "is a GPX course, not JSON"),
]

TAKEN = [
    without("--distance") + ["--distance", word] for word in ("Sprint", "olympic", "half", "full", "super sprint", "STANDARD")
] + [
    LINE + more for more in (
        ["--level", "Beginner"], ["--allergy", "soy"], ["--allergy", "peanut,Milk"], ["--start", "7:30am"],
        ["--height", "5'9\""], ["--sweat-rate", "bike=1.2L/h,run=1.4L/h"], ["--set", "weather.humidity_pct=80"])
] + [without("--mass") + ["--mass", mass] for mass in ("150lbs", "68 kg", "68KG", "11st")] + [
    without("--temperature") + ["--temperature", air] for air in ("22°C", "22c", "75F")]


class Daily(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        self.environment = {**os.environ, "XDG_CONFIG_HOME": str(self.path / "config")}

    def tuck(self, *arguments, code=0, stdin=""):
        done = subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=120, cwd=self.path,
                              env=self.environment, input=stdin)
        self.assertEqual(code, done.returncode, (arguments, done.stdout, done.stderr))
        return done

    def file(self, name, text):
        data = text if isinstance(text, bytes) else text.encode()
        (self.path / name).write_bytes(data)
        return name

    def test_refused_with_the_word_that_helps(self):
        for arguments, word in REFUSED:
            done = self.tuck("plan", *arguments, code=2)
            self.assertIn(word, done.stderr, arguments)
            self.assertEqual("", done.stdout, arguments)
            self.assertEqual([], list(self.path.iterdir()), arguments)

    def test_taken_as_it_is_meant(self):
        for arguments in TAKEN:
            self.tuck("plan", *arguments)

    def test_files_are_taken_for_what_they_are(self):
        self.assertIn("is JSON, not a GPX course", self.tuck("course", RACE, code=2).stderr)
        self.assertIn("is a PDF", self.tuck("squad", self.file("r.pdf", "%PDF-1.4\n"), RACE, "--out", "o", code=2).stderr)
        self.assertIn("save the sheet as CSV", self.tuck("squad", self.file("r.xlsx", b"PK\x03\x04xx"), RACE, "--out", "o",
                                                         code=2).stderr)
        broken = self.tuck("plan", self.file("e.json", '{"distance" "sprint"}'), code=2).stderr
        self.assertIn("line 1", broken)
        for word in ("parse", "syntax error", "unexpected", "literal", "nlohmann"):  # a library's words
            self.assertNotIn(word, broken)
        self.tuck("plan", self.file("bom.json", b"\xef\xbb\xbf" + json.dumps(
            {"distance": "sprint", "weather": {"temperature_c": 20}, "days": 0, "athlete": {"mass_kg": 70}}).encode()))

    def test_what_is_typed_outranks_the_file_and_is_listed(self):
        done = json.loads(self.tuck("plan", RACE, "--temperature", "25C", "--bottles", "3x750ml", "--level", "fast", "--days", "0",
                                    "--json").stdout)
        told = [text for text in done["assumptions"] if " instead of " in text]
        self.assertTrue(any(text.startswith("--temperature: 25 instead of ") for text in told), told)
        self.assertEqual(25, done["weather"]["temperature_c"])

    def test_standard_output_as_a_file(self):
        done = subprocess.run([TUCK, "card", str(RACE), "--days", "0", "-o", "-"], capture_output=True, cwd=self.path,
                              env=self.environment)
        self.assertEqual(0, done.returncode, done.stderr)
        self.assertTrue(done.stdout.startswith(b"%PDF"))
        self.assertEqual([], list(self.path.iterdir()))

    # tuck new

    def test_new_writes_files_that_plan(self):
        self.tuck("new", "lake.json", "--distance", "olympic", "--mass", "150lb", "--temperature", "75F", "--yes")
        event, athlete = (json.loads((self.path / name).read_text()) for name in ("lake.json", "athlete.json"))
        self.assertEqual("standard", event["distance"])
        self.assertAlmostEqual(68.0, athlete["mass_kg"], 1)  # 1 lb = 0.45359237 kg
        self.assertIn("Worth adding", event["about"])
        self.assertEqual("beginner", athlete["level"])
        self.tuck("plan", "lake.json", "--days", "0")
        before = (self.path / "lake.json").read_bytes()
        self.assertIn("stands already", self.tuck("new", "lake.json", "--mass", "60kg", "--yes", code=2).stderr)
        self.assertEqual(before, (self.path / "lake.json").read_bytes())

    def test_new_asks_one_thing_at_a_time_and_again(self):
        answers = ["sprnt", "sprint", "", "", "25C", "", "", "64kg", "now and then", "10km 52:30", "", ""]
        done = self.tuck("new", stdin="\n".join(answers) + "\n")
        self.assertIn('did you mean "sprint"', done.stdout)
        self.assertIn("It is needed", done.stdout)
        athlete = json.loads((self.path / "athlete.json").read_text())
        self.assertEqual((64, "steady"), (athlete["mass_kg"], athlete["level"]))
        self.assertEqual("52:30", athlete["recent"][0]["time"])
        self.tuck("plan", "race.json", "--days", "0")

    def test_new_that_is_broken_off_leaves_nothing(self):
        self.tuck("new", stdin="sprint\n", code=2)
        self.tuck("new", "--distance", "sprint", "--yes", code=2)
        self.tuck("new", "--mass", "64", "--yes", code=2)
        self.assertEqual([], list(self.path.iterdir()))

    def test_a_kept_athlete(self):
        self.tuck("new", "--me", "--mass", "64kg", "--level", "often", "--yes")
        profile = self.path / "config/tuck/athlete.json"  # XDG Base Directory: under $XDG_CONFIG_HOME
        self.assertEqual("keen", json.loads(profile.read_text())["level"])
        plan = json.loads(self.tuck("plan", "--distance", "sprint", "--temperature", "20C", "--days", "0", "--json").stdout)
        self.assertTrue(any(str(profile) in text for text in plan["assumptions"]))
        self.assertIn("--mass", self.tuck("plan", "--distance", "sprint", "--temperature", "20C", "--no-profile", code=2).stderr)
        typed = self.tuck("plan", "--distance", "sprint", "--temperature", "20C", "--mass", "70kg", "--days", "0").stdout
        self.assertIn("70 instead of 64", typed)

    # Rosters

    def test_a_european_export_in_one_go(self):
        lines = ["Startnr;Name;Gewicht (kg);Level;Notes"]
        lines += [f"{i};Athlete {i};{55 + i},5;{'Keen' if i % 2 else 'Steady'};likes hills" for i in range(1, 6)]
        roster = self.file("r.csv", b"\xef\xbb\xbf" + "\r\n".join(lines).encode() + b"\r\n")
        event = self.file("e.json", json.dumps({"distance": "standard", "weather": {"temperature_c": 20}}))
        done = self.tuck("squad", roster, event, "--days", "0", "--ndjson", "-")
        self.assertEqual(5, len(done.stdout.splitlines()))
        self.assertIn('"Notes"', done.stderr)

    def test_one_line_for_each_kind_of_fault(self):
        rows = "".join(f"A{i},{i},x{i}\n" for i in range(40))
        event = self.file("e.json", json.dumps({"distance": "standard", "weather": {"temperature_c": 20}}))
        done = self.tuck("squad", self.file("r.csv", "name,bib,mass_kg\n" + rows), event, "--ndjson", "-", code=2)
        self.assertEqual(1, sum("is not a number" in line for line in done.stderr.splitlines()), done.stderr)
        self.assertIn("40 rows", done.stderr)

    def test_a_header_alone_is_a_fault(self):
        event = self.file("e.json", json.dumps({"distance": "standard", "weather": {"temperature_c": 20}}))
        done = self.tuck("squad", self.file("r.csv", "name,mass_kg\n"), event, "--out", "o", code=2)
        self.assertIn("no athlete", done.stderr)
        self.assertFalse((self.path / "o").exists() and list((self.path / "o").iterdir()))

    def test_the_template_is_read_back(self):
        text = self.tuck("squad", "--template").stdout
        header, words = list(csv.reader(io.StringIO(text, newline="")))[:2]
        self.assertEqual(len(header), len(words))
        cells = ["70" if name == "mass_kg" else "" for name in header]
        event = self.file("e.json", json.dumps({"distance": "sprint", "weather": {"temperature_c": 20}}))
        done = self.tuck("squad", self.file("r.csv", text + ",".join(cells) + "\r\n"), event, "--days", "0", "--ndjson", "-")
        self.assertEqual(1, len(done.stdout.splitlines()))

    # Help

    def test_help_fits_a_screen(self):
        self.assertEqual(self.tuck("-V").stdout, self.tuck("--version").stdout)
        self.assertEqual(self.tuck("plan", "--help").stdout, self.tuck("help", "plan").stdout)
        commands = ["", "plan", "card", "squad", "explain", "course", "foods", "foods add", "model", "model run", "sweat-test",
                    "diary", "diary add", "diary add race", "diary add rehearsal", "rehearse", "new"]
        for command in commands:
            for more in ([], ["all"]):
                text = self.tuck(*command.split(), "--help", *more).stdout
                self.assertIn("Usage: tuck " + command, text)
                for line in text.splitlines():
                    self.assertLessEqual(len(line), 80, (command, line))
                if not more and command in ("", "plan", "card", "rehearse", "squad"):
                    self.assertLessEqual(len(text.splitlines()), 60, command)
        self.assertIn("body mass", self.tuck("plan", "--help", "all").stdout)

    def test_a_wrong_line_points_to_a_command_that_exists(self):
        for arguments in (["foods", "show", "--formm", "gel"], ["foods", "add"], ["diary", "add", "rase"]):
            done = self.tuck(*arguments, code=2).stderr
            named = done.rsplit("see ", 1)[-1].strip()
            self.assertTrue(named.startswith("tuck "), done)
            self.tuck(*named.removeprefix("tuck ").split())
            self.assertNotIn("?;", done)

    def test_manual_page_and_completions(self):
        page = self.tuck("help", "--manual").stdout
        made = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", "-"], input=page, capture_output=True, text=True,
                              env={**os.environ, "MANWIDTH": "80", "LC_ALL": "C.UTF-8"})
        if made.returncode != 127 and "man: " not in made.stderr:
            self.assertEqual("", made.stderr)
            self.assertIn("rehearse", made.stdout)
        bash = self.file("tuck.bash", self.tuck("completion", "bash").stdout)
        asked = subprocess.run(
            ["bash", "-c", f'. ./{bash}; COMP_WORDS=(tuck plan --dist); COMP_CWORD=2; _tuck; echo "${{COMPREPLY[@]}}"'],
            cwd=self.path, capture_output=True, text=True)
        self.assertEqual("--distance\n", asked.stdout, asked.stderr)
        asked = subprocess.run(
            ["bash", "-c", f'. ./{bash}; COMP_WORDS=(tuck plan --level be); COMP_CWORD=3; _tuck; echo "${{COMPREPLY[@]}}"'],
            cwd=self.path, capture_output=True, text=True)
        self.assertEqual("beginner\n", asked.stdout, asked.stderr)
        self.tuck("completion", "csh", code=2)

    def test_standard_output_that_takes_nothing_is_told(self):
        for command in (["plan", *LINE], ["plan", *LINE, "--json"], ["rehearse", *LINE], ["foods", "list"], ["model", "list"],
                        ["diary", "show", "--diary", self.file("d.jsonl", "")], ["--help"], ["help", "--manual"],
                        ["squad", "--template"]):
            with open("/dev/full", "w") as full:
                done = subprocess.run([TUCK, *map(str, command)], stdout=full, stderr=subprocess.PIPE, text=True, cwd=self.path,
                                      env=self.environment)
            self.assertEqual(2, done.returncode, (command, done.stderr))


if __name__ == "__main__":
    sys.exit(unittest.main())
