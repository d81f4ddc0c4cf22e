#!/usr/bin/python3
"""Bad input: exit code 2, one line for each fault with its place, nothing on stdout, no file left behind."""
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
ONE_LINE = ["--distance", "sprint", "--mass", "68kg", "--temperature", "22C"]
GOOD = {"distance": "sprint", "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}, "days": 0}


def event(**more):
    return {**GOOD, **more}


def athlete(**more):
    return event(athlete={"mass_kg": 70, **more})


def one_line(**more):
    """The arguments of a good one-line plan, some options said otherwise."""
    options = {"distance": "sprint", "mass": "68kg", "temperature": "22C"}
    options.update({key.replace("_", "-"): value for key, value in more.items()})
    return [f"--{key}={value}" for key, value in options.items()]


# What is wrong in the file, where it is told, and a word of the message.
DOCUMENTS = [
    (event(weathr=1), "/weathr", 'did you mean "weather"'),
    (event(weather={"temprature_c": 20, "temperature_c": 20}), "/weather/temprature_c", 'did you mean "temperature_c"'),
    (athlete(mass=70), "/athlete/mass", "is not known"),
    (event(weather={"temperature_c": "20C"}), "/weather/temperature_c", "must be a number"),
    (event(weather=20), "/weather", "must be an object"),
    (event(salt_water=1), "/salt_water", "true or false"),
    (event(legs={}), "/legs", "must be a list"),
    (event(name="a\nb"), "/name", "control character"),
    (event(athlete=70), "/athlete", "must be an object"),
    (event(athlete={}), "/athlete/mass_kg", "is missing"),
    (event(weather={}), "/weather/temperature_c", "is missing"),
    ({"distance": "sprint", "athlete": {"mass_kg": 70}}, "/weather", "is missing"),
    ({"weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}}, "/distance", "is missing"),
    (athlete(mass_kg=0), "/athlete/mass_kg", "allowed 25 to 250 kg"),
    (athlete(mass_kg=700), "/athlete/mass_kg", "allowed 25 to 250 kg"),
    (athlete(mass_kg=-70), "/athlete/mass_kg", "allowed 25 to 250 kg"),
    (event(weather={"temperature_c": 80}), "/weather/temperature_c", "allowed -20 to 50 C"),
    (event(weather={"temperature_c": 20, "humidity_pct": 140}), "/weather/humidity_pct", "allowed 0 to 100 %"),
    (athlete(times={"bike": "-40:00"}), "/athlete/times/bike", "allowed"),
    (athlete(times={"bike": "0:00"}), "/athlete/times/bike", "allowed"),
    (athlete(times={"bike": "40"}), "/athlete/times/bike", "give a unit"),
    (athlete(times={"bike": "1:05"}), "/athlete/times/bike", "km/h"),
    (athlete(allergy=["nutz"]), "/athlete/allergy/0", 'did you mean "nuts"'),
    (event(course={"bike": {"stations": [{"km": 30}]}}), "/course/bike/stations/0/km", "allowed up to 20 km"),
    (event(course={"bike": {"special_needs": {"km": 20, "bottles_ml": [750]}}}), "/course/bike/special_needs/km",
     "allowed below 20 km"),
    (event(course={"bike": {"special_needs": {"km": 10}}}), "/course/bike/special_needs/bottles_ml", "missing"),
    (event(course={"bike": {"special_needs": {"km": 10, "bottles_ml": [50]}}}),
     "/course/bike/special_needs/bottles_ml/0", "100"),
    (event(course={"bike": {"special_needs": {"km": 10, "bottles_ml": [500], "gels": 2}}}),
     "/course/bike/special_needs/gels", "is not known"),
    (event(course={"run": {"special_needs": {"km": 3, "gels": 0}}}), "/course/run/special_needs/gels", "1 to 20"),
    ({**{key: value for key, value in GOOD.items() if key != "distance"},
      "legs": [{"sport": "run", "distance_m": 5000, "special_needs": {"km": 2, "gels": 1}}] * 2},
     "/legs", "allowed: one"),
    (event(date="2027-02-29"), "/date", "no such day"),
    (event(schema="tuck.event/9"), "/schema", "tuck.event/1"),
    (event(days=1e9), "/days", "allowed 0 to 100000"),
    # Two ways of saying one thing.
    (event(legs=[{"sport": "swim"}, {"sport": "bike", "distance_m": 25000}, {"sport": "run"}]), "/legs", "do not agree"),
    (event(course={"bike": {"time": "40:00"}}, athlete={"mass_kg": 70, "times": {"bike": "41:00"}}),
     "/athlete/times/bike", "/course/bike/time says 40:00"),
    (athlete(like=["honey"], avoid=["honey"]), "/athlete/avoid", "leave one of the two out"),
]

# Text that is no event at all.
TEXTS = [
    (b'{"distance": "sprint",}', r"line 1, column \d+"),
    (b'{\n  "distance": sprint\n}', r"line 2, column \d+"),
    (b'{"distance": "sprint"', r"line 1, column \d+"),
    (b'{"weather": {"temperature_c": NaN}}', r"line 1, column \d+"),
    (b'{"weather": {"temperature_c": -Infinity}}', r"line 1, column \d+"),
    (b'{"weather": {"temperature_c": 1e999}}', r".*"),
    (b'{"distance": "sprint", "distance": "long"}', r'.*"distance" stands twice'),
    (b'{"name": "\xff\xfe"}', r".*"),
    (b"\xef\xbb\xbf{]", r"line 1, column 2: is not valid JSON here"),
    (b"<?xml version='1.0'?><gpx/>", r"is a GPX course, not JSON; .*--bike-course"),
    (b"%PDF-1.4", r"is a PDF, not JSON"),
    (b"[]", r"/: must be an object"),
    (b"null", r"/: must be an object"),
    (b"[" * 100000, r"line 1, column \d+"),
    (b"", r"is empty"),
    (b"\x00\x01\x02", r"line 1, column \d+"),
    (json.dumps(GOOD).encode() + b"\x00", r"line 1, column \d+: .*zero byte"),
]

# Options: what is said, under which name it is told, and a word of the message.
OPTIONS = [
    (one_line(mass="68"), "--mass", "give a unit, kg or lb"),
    (one_line(mass="0kg"), "--mass", "allowed 25 to 250 kg"),
    (one_line(mass="700kg"), "--mass", "allowed 25 to 250 kg"),
    (one_line(mass="-68kg"), "--mass", "must not be negative"),
    (one_line(mass="nankg"), "--mass", "not a number"),
    (one_line(mass="infkg"), "--mass", "not a number"),
    (one_line(mass="68kg of me"), "--mass", "allowed"),
    (one_line(mass="68,5kg"), "--mass", "point"),
    (one_line(temperature="80C"), "--temperature", "allowed -20 to 50 C"),
    (one_line(temperature="22"), "--temperature", "give a unit, C or F"),
    (one_line(humidity="140%"), "--humidity", "allowed 0 to 100 %"),
    (one_line(humidity="NaN"), "--humidity", "not a number"),
    (one_line(wind="3"), "--wind", "give a unit"),
    (one_line(water="18"), "--water", "give a unit"),
    (one_line(height="178"), "--height", "give a unit"),
    (one_line(age="4"), "--age", "allowed 8 to 100"),
    (one_line(sweat_rate="900"), "--sweat-rate", "give a unit"),
    (one_line(sweat_sodium="45"), "--sweat-sodium", "give a unit"),
    (one_line(bottles="2x750"), "--bottles", "give a unit"),
    (one_line(bike_time="40"), "--bike-time", "give a unit"),
    (one_line(bike_time="-40:00"), "--bike-time", "allowed"),
    (one_line(bike_time="1:05"), "--bike-time", "km/h"),
    (one_line(threshold_pace="285"), "--threshold-pace", "4:45/km"),
    (one_line(recent_run="52:30"), "--recent-run", "10km=52:30"),
    (one_line(level="pro"), "--level", "beginner, steady, keen, fast"),
    (one_line(distance="sprnt"), "--distance", "sprint"),
    (one_line(stations="many"), "--stations", "typical"),
    (one_line(caffeine="maybe"), "--caffeine", "yes, no"),
    (one_line(allergy="nutz"), "--allergy", "nuts"),
    (one_line(date="2027-02-29"), "--date", "no such day"),
    (one_line(start="25:00"), "--start", "23:59"),
    (one_line(days="-1"), "--days", "allowed"),
    (one_line(legs="swim:750m,bike:25km,run:5km"), "--legs", '--distance "sprint"'),
    (["--distance=sprint", "--mass=68kg"], "--temperature", "is missing"),
    (["--distance=sprint", "--temperature=22C"], "--mass", "is missing"),
    (["--mass=68kg", "--temperature=22C"], "--distance", "is missing"),
]


class BadInput(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.path = Path(self.folder.name)

    def tuck(self, *arguments, **kwargs):
        command = [TUCK, *(str(part) for part in arguments)]
        return subprocess.run(command, capture_output=True, text=True, timeout=60, cwd=self.path, **kwargs)

    def refused(self, *arguments):
        """The lines on stderr of a command that must be refused."""
        before = set(self.path.iterdir())
        done = self.tuck(*arguments)
        self.assertEqual(2, done.returncode, (arguments, done.stderr))
        self.assertEqual("", done.stdout, arguments)
        self.assertEqual(before, set(self.path.iterdir()), "a file was left behind")
        lines = done.stderr.splitlines()
        self.assertTrue(lines, arguments)
        for line in lines:
            self.assertTrue(line.startswith("tuck: "), line)
        return [line.removeprefix("tuck: ") for line in lines]

    def write(self, content, name="e.json"):
        path = self.path / name
        path.write_bytes(content if isinstance(content, bytes) else json.dumps(content).encode())
        return path

    def test_the_good_one_is_good(self):
        """Or every refusal below would mean nothing."""
        self.assertEqual(0, self.tuck("plan", self.write(GOOD)).returncode)
        self.assertEqual(0, self.tuck("plan", *ONE_LINE, "--days", "0").returncode)

    def test_documents(self):
        for document, pointer, word in DOCUMENTS:
            path = self.write(document)
            lines = self.refused("plan", path)
            self.assertEqual(1, len(lines), lines)
            self.assertTrue(lines[0].startswith(f"{path}: {pointer}: "), lines)
            self.assertIn(word, lines[0])

    def test_documents_leave_no_card(self):
        for document, pointer, _ in DOCUMENTS[:4]:
            path = self.write(document)
            lines = self.refused("card", path, "-o", self.path / "card.pdf")
            self.assertTrue(lines[0].startswith(f"{path}: {pointer}: "), lines)

    def test_every_fault_has_its_line(self):
        path = self.write(event(weather={"temperature_c": 80, "humidity_pct": 140}, athlete={"mass_kg": 0}, nme="x"))
        lines = self.refused("plan", path)
        places = {line.split(": ")[1] for line in lines}
        self.assertEqual({"/weather/temperature_c", "/weather/humidity_pct", "/athlete/mass_kg", "/nme"}, places)
        self.assertEqual(4, len(lines))

    def test_texts(self):
        for content, pattern in TEXTS:
            path = self.write(content)
            lines = self.refused("plan", path)
            self.assertEqual(1, len(lines), lines)
            self.assertRegex(lines[0], "^" + re.escape(f"{path}: ") + pattern)
            self.assertLess(len(lines[0]), 400)

    def test_an_athletes_file_has_its_own_name(self):
        event_path = self.write(event(athlete="a.json"))
        missing = self.refused("plan", event_path)
        self.assertTrue(missing[0].startswith(f"{self.path / 'a.json'}: cannot be read"), missing)
        self.write({"mass_kg": 700}, "a.json")
        lines = self.refused("plan", event_path)
        self.assertEqual([f"{self.path / 'a.json'}: /mass_kg: 700 is out of range; allowed 25 to 250 kg"], lines)

    def test_files_that_are_none(self):
        self.assertIn("cannot be read", self.refused("plan", self.path / "none.json")[0])
        self.assertIn("directory", self.refused("plan", self.path)[0])
        self.assertIn("not a regular file", self.refused("plan", "/dev/zero")[0])
        os.mkfifo(self.path / "pipe")
        self.assertIn("not a regular file", self.refused("plan", self.path / "pipe")[0])
        closed = self.write(GOOD, "closed.json")
        closed.chmod(0)
        if os.geteuid() != 0:  # root may read everything
            self.assertIn("cannot be read", self.refused("plan", closed)[0])

    def test_a_gigabyte_is_too_large(self):
        path = self.path / "big.json"
        with open(path, "wb") as file:
            file.truncate(1 << 30)
        self.assertIn("too large", self.refused("plan", path)[0])

    def test_options(self):
        for arguments, option, word in OPTIONS:
            lines = self.refused("plan", *arguments)
            self.assertEqual(1, len(lines), lines)
            self.assertTrue(lines[0].startswith(f"{option}: "), lines)
            self.assertIn(word, lines[0])

    def test_an_option_outranks_the_file_and_is_told(self):
        path = self.write(GOOD)
        for option, value, pointer in [("--mass", "68kg", "/athlete/mass_kg"), ("--distance", "long", "/distance"),
                                       ("--temperature", "25C", "/weather/temperature_c")]:
            done = self.tuck("plan", path, option, value, "--days", "0", "--json")
            self.assertEqual(0, done.returncode, done.stderr)
            told = [text for text in json.loads(done.stdout)["assumptions"] if text.startswith(f"{option}: ")]
            self.assertEqual(1, len(told))
            self.assertIn("instead of", told[0])
            self.assertIn(f"{path}: {pointer}", told[0])
        self.assertEqual(0, self.tuck("plan", path, "--mass", "70kg", "--temperature", "20C").returncode)

    def test_unknown_words_get_a_suggestion(self):
        lines = self.refused("plan", "--temprature", "22C", "--distance", "sprint", "--mass", "68kg")
        self.assertIn("--temprature", lines[0])
        self.assertIn("--temperature", lines[0])
        lines = self.refused("pln")
        self.assertIn('"plan"', lines[0])

    def test_targets_that_take_nothing(self):
        event_path = self.write(GOOD)
        missing = self.path / "no" / "folder" / "card.pdf"
        lines = self.refused("card", event_path, "-o", missing)
        self.assertTrue(lines[0].startswith(f"{missing}: cannot be written"), lines)
        lines = self.refused("card", event_path, "-o", self.path)
        self.assertIn("directory", lines[0])
        lines = self.refused("card", event_path, "-o", "/dev/full")
        self.assertTrue(lines[0].startswith("/dev/full: cannot be written"), lines)
        self.assertFalse(os.path.isfile("/dev/full"), "the device must stay one")

    def test_a_full_disk_behind_stdout_is_told(self):
        event_path = self.write(GOOD)
        for extra in ([], ["--json"]):
            with open("/dev/full", "wb") as full:
                done = subprocess.run([TUCK, "plan", event_path, *extra], stdout=full, stderr=subprocess.PIPE, timeout=60)
            self.assertEqual(2, done.returncode)
            self.assertTrue(done.stderr.endswith(b"standard output: cannot be written\n"), done.stderr)


if __name__ == "__main__":
    sys.exit(unittest.main())
