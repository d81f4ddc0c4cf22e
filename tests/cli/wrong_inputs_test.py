#!/usr/bin/python3
"""What four new users typed wrong (our own trial, 2026-11), as one table: the words of the line, the exit code, and the part of
the sentence that helps. Refused: exit 2, nothing on standard output, nothing left behind. Noted or taken: exit 0.

No source outside the project but the formats themselves: RFC 8259 (JSON), RFC 4180 (CSV), GPX 1.1, ISO 8601."""
import json
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
RACE = str(SAMPLES / "hot-standard.json")
SQUAD_EVENT = str(SAMPLES / "squad" / "event.json")
GPX = str(SAMPLES / "courses" / "one-climb.gpx")
GOOD = {"distance": "sprint", "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}, "days": 0}


def plan(**options):
    """`tuck plan` of a good line with some options said otherwise; None leaves one out, a list says it several times."""
    said = {"distance": "sprint", "mass": "68kg", "temperature": "22C", "days": "0", **options}
    line = ["plan"]
    for name, value in said.items():
        for one in value if isinstance(value, list) else [value]:
            if one is not None:
                line.append(f"--{name.replace('_', '-')}" + ("" if one is True else f"={one}"))
    return line


def test_of(**options):
    said = {"before": "71.4kg", "after": "70.3kg", "minutes": "90", "temperature": "24C", **options}
    return ["sweat-test", *(f"--{name.replace('_', '-')}={value}" for name, value in said.items() if value is not None)]


def gel(**options):
    said = {"file": "mine.json", "id": "my_gel", "name": "My gel", "form": "gel", "per": "serving", "serving": "40g",
            "energy": "100kcal", "carbohydrate": "25g", "sugars": "10g", "fat": "0g", "protein": "0g", "salt": "0.1g", **options}
    return ["foods", "add", *(f"--{name.replace('_', '-')}={value}" for name, value in said.items() if value is not None)]


FILES = {
    "event.json": json.dumps(GOOD),
    "bom.json": b"\xef\xbb\xbf" + json.dumps(GOOD).encode(),
    "broken.json": '{"distance": "sprint",}',
    "mi.json": json.dumps({**GOOD, "course": {"bike": {"stations": [{"mi": 4}]}}}),
    "fahrenheit.json": json.dumps({**GOOD, "weather": {"temperature_f": 45}}),
    "no_km.json": json.dumps({**GOOD, "course": {"bike": {"stations": [{"km": 4}, {"serves": ["water_tap"]}, {"km": 9}]}}}),
    "order.json": json.dumps({**GOOD, "course": {"bike": {"stations": [{"km": 14}, {"km": 4}]}}}),
    "past.json": json.dumps({**GOOD, "date": "2020-01-01"}),
    "heavy.json": json.dumps({**GOOD, "athlete": {"mass_kg": 150}}),
    "hours.json": json.dumps({**GOOD, "weather": {"temperature_c": 20, "hourly": [{"hour": 7, "temperature_c": 15}]}}),
    "session.json": json.dumps({"schema": "tuck.rehearsal/1", "temperature_c": 18, "parts": [{"leg": "bike", "minutes": "long"}]}),
    "roster.csv": "name,mass_kg\nAnn,60\n",
    "header.csv": "name,mass_kg\n",
    "empty.csv": "",
    "lb.csv": "name,mass_lb\nAnn,150\n",
    "weight_lb.csv": "Name;Weight (lb)\nAnn;150\n",
    "weight_kg.csv": "name,weight_kg\nAnn,60\n",
    "comma.csv": "Startnr;Name;Gewicht (kg)\n1;Ann;62,7\n",
    "tab.csv": "name\tmass_kg\nAnn\t60\n",
    "latin.csv": "name,mass_kg\nZo\xeb,60\n".encode("cp1252"),
    "utf16.csv": "name,mass_kg\nZoë,60\n".encode("utf-16"),
    "notes.csv": "name,mass_kg,Notes\nAnn,60,left-handed\n",
    "twice.csv": "name,bib,mass_kg\nAnn,1,60\nBea,1,61\n",
    "same_name.csv": "name,bib,mass_kg\nAnn,1,60\nAnn,2,61\n",
    "nobody.csv": "name,mass_kg\n,60\n",
    "no_mass.csv": "name,level\nAnn,keen\n",
    "two_columns.csv": "name,name,mass_kg\nAnn,Ann,60\n",
    "heavy.csv": "name,mass_kg\nAnn,150\n",
    "bad_level.csv": "name,mass_kg,level\nAnn,60,kene\n",
    "litres.csv": "name,mass_kg,sweat_ml_per_h\nAnn,60,0.9\n",
    "three_commas.csv": "name,mass_kg\nAnn,\"6,2,7\"\nBea,\"6,2,8\"\n",
    "short_row.csv": "name,mass_kg,level\nAnn,60\n",
    "quote.csv": 'name,mass_kg\n"Ann,60\n',
    "columns.txt": "Startnr = bib\nSomething = shoe size\n",
    "book.xlsx": b"PK\x03\x04rest",
    "old.xls": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
    "picture.png": b"\x89PNG\r\n\x1a\n",
    "paper.pdf": "%PDF-1.4\n",
    "label.txt": "Nutrition facts of nothing in particular\n",
}

REFUSED = [
    # words and values
    (plan(distance="sprnt"), 'did you mean "sprint"'),
    (plan(distance="ironish"), "sprint"),
    (plan(level="begginer"), 'did you mean "beginner"'),
    (plan(level="pro"), "beginner, steady, keen, fast"),
    (plan(allergy="glutten"), 'did you mean "gluten"'),
    (plan(allergy="lactose"), "milk"),
    (plan(avoid="banana"), "banana_ripe"),
    (plan(only="cola_flt"), "cola_flat"),
    (plan(like="unobtainium"), "tuck foods list"),
    (plan(without="cola"), "cola_flat"),
    (plan(stations="many"), "typical"),
    (plan(caffeine="maybe"), "150mg"),
    (plan(position="aerro"), "aero"),
    (plan(hands="three"), "bottle"),
    (plan(sex="x"), "allowed"),
    (plan(sun="bright"), "hazy"),
    (plan(swim="shortened"), "cancelled"),
    (plan(bike_rhythm="7min"), "10"),
    # units
    (plan(mass="68"), "give a unit, kg or lb"),
    (plan(mass="68C"), "--mass"),
    (plan(mass="68,5kg"), "point"),
    (plan(mass="-68kg"), "negative"),
    (plan(mass="0kg"), "25 to 250 kg"),
    (plan(mass="700kg"), "25 to 250 kg"),
    (plan(mass="nankg"), "not a number"),
    (plan(mass="1e2kg"), "--mass"),
    (plan(mass=""), "is empty"),
    (plan(temperature="22"), "give a unit, C or F"),
    (plan(temperature="28kg"), "--temperature"),
    (plan(temperature="80C"), "-20 to 50 C"),
    (plan(temperature=["28C", "29C"]), "given twice"),
    (plan(humidity="140%"), "0 to 100 %"),
    (plan(wind="3"), "give a unit"),
    (plan(wind="300km/h"), "0 to"),
    (plan(wind_from="north-ish"), "SW"),
    (plan(water="18"), "give a unit"),
    (plan(height="178"), "give a unit"),
    (plan(age="4"), "8 to 100"),
    (plan(sweat_rate="900"), "give a unit"),
    (plan(sweat_rate="swim=1L/h"), "bike=1.2L/h"),
    (plan(sweat_rate="9L/h"), "allowed"),
    (plan(sweat_sodium="45"), "give a unit"),
    (plan(bottles="2x750"), "give a unit"),
    (plan(bottles="2x5ml"), "100"),
    (plan(rehearsed_carb="300g/h"), "0 to 150"),
    (plan(carb="70"), "g/h"),
    (plan(threshold_pace="285"), "4:45/km"),
    (plan(threshold_power="9000W"), "allowed"),
    # times and places
    (plan(bike_time="40"), "give a unit"),
    (plan(bike_time="1:05"), "km/h"),
    (plan(bike_time="-40:00"), "allowed"),
    (plan(run_time="0:00"), "allowed"),
    (plan(recent_run="52:30"), "10km=52:30"),
    (plan(recent_run="10km=5:00"), "km/h"),
    (plan(legs="swim:750m,bike:25km,run:5km"), '--distance "sprint"'),
    (plan(distance=None, legs="row:5km"), "swim"),
    (plan(distance=None, legs="bike"), "sport:distance"),
    (plan(distance=None, legs="bike:20000km"), "out of range"),
    (plan(date="2027-02-30"), "no such day"),
    (plan(date="13.06.2027"), "2027"),
    (plan(start="25:00"), "23:59"),
    (plan(days="-1"), "allowed"),
    (plan(days="1000000000"), "0 to 100000"),
    (plan(seed="x"), "--seed"),
    (plan(delay="9h"), "6"),
    (plan(pin="0:40=gel_52"), 'gel_25'),
    (plan(pin="soon=gel_25"), "--pin"),
    (plan(take="sometimes a gel"), "--take"),
    (plan(caffeine_at="half way"), "--caffeine-at"),
    (plan(bike_stations="20miles"), "--bike-stations"),
    (plan(bike_stations="30km"), "allowed up to 20 km"),
    (plan(bike_stations="4km=beer"), "not a food of the pantry"),
    (plan(run_stations="4x2.5km"), "allowed"),
    (plan(run_stations="x2km"), "--run-stations"),
    (plan(bike_bag="10km"), "92km=2x750ml"),
    (plan(run_bag="3km=many"), "--run-bag"),
    (plan(hourly="7"), "7=16C"),
    (plan(hourly="7=16C"), "--start: is missing"),
    (plan(hourly="9=16C,7=18C", start="8:00"), "order of the day"),
    (plan(set="weather.humidty_pct=80"), 'did you mean "humidity_pct"'),
    (plan(set="humidity"), "KEY=VALUE"),
    # what is missing
    (plan(temperature=None), "--temperature: is missing"),
    (plan(mass=None), "--mass: is missing"),
    (plan(distance=None), "--distance: is missing"),
    (["plan"], "is missing"),
    # options and commands
    (["plan", "--temprature", "22C"], 'did you mean "--temperature"'),
    (["pln"], 'did you mean "plan"'),
    (["foods", "lst"], 'did you mean "list"'),
    (["foods", "add"], "tuck foods add --help"),
    (["diary", "ad"], 'did you mean "add"'),
    (["completion", "tcsh"], "bash, zsh, fish"),
    # files
    (["plan", "none.json"], "cannot be read"),
    (["plan", "."], "directory"),
    (["plan", "broken.json"], "line 1, column"),
    (["plan", "paper.pdf"], "is a PDF"),
    (["plan", "picture.png"], "picture"),
    (["plan", "roster.csv"], "is not"),
    (["plan", GPX], "--bike-course"),
    (["course", RACE], "is JSON, not a GPX course"),
    (["course", "paper.pdf"], "is a PDF"),
    (["course", GPX, "--pace", "5:00/km"], "--sport run"),
    (["course", GPX, "--sport", "run", "--power", "200W"], "--sport bike"),
    (["course", GPX, "--power", "9000W"], "30 to 600 W"),
    (["plan", "mi.json"], "/course/bike/stations/0/mi"),
    (["plan", "fahrenheit.json"], "is not known"),
    (["plan", "no_km.json"], "/course/bike/stations/1/km"),
    (["plan", "order.json"], "order of the road"),
    (["plan", "hours.json"], "start"),
    (["plan", "event.json", "--own-foods", "none.json"], "cannot be read"),
    (["plan", "event.json", "--diary", "none.jsonl"], "cannot be read"),
    (["plan", "event.json", "--athlete", "none.json"], "cannot be read"),
    (["plan", "-", "--diary", "-"], "named twice"),
    (["plan", "event.json", "--card", "a.pdf", "--sheet", "a.pdf"], "twice"),
    (["plan", "event.json", "-o", "event.json"], "is read by this command"),
    (["plan", "event.json", "--sheet", "a.doc"], ".pdf, .txt or .html"),
    (["card", "event.json", "--size", "huge"], "strip, stem, pocket, wrist"),
    (["card", "event.json", "--size", "55x900"], "--size"),
    (["card", "event.json", "--size", "5x9"], "--size"),
    (["card", "event.json", "--paper", "a3"], "a4"),
    (["card", "event.json", "--eye", "5cm"], "--eye"),
    (["card", "event.json", "--tilt", "80"], "--tilt"),
    (["card", "event.json", "--tube", "5mm"], "--tube"),
    (["card", "event.json", "--preview", "a.gif"], ".svg or .png"),
    (["card", "event.json", "-o", "no/folder/card.pdf"], "cannot be written"),
    (["explain", "event.json", "/beer"], "is no number of this plan"),
    (["new", "race.json", "--yes"], "--mass"),
    (["new", "race.json", "--json"], "--yes"),
    # found while tests/coverage.sh was read, 2026-11: files that the plan then refused
    (["new", "race.json", "--yes", "--mass", "60kg", "--allergy", "glutn"], "gluten"),
    (["new", "race.json", "--yes", "--mass", "60kg", "--recent-run", "10km 5:30"], "km/h"),
    (["new", "race.json", "--yes", "--mass", "60kg", "--bottles", "50ml"], "100 to 2000 ml"),
    # sweat tests, rehearsals, the diary
    (test_of(before=None), "--before"),
    (test_of(after="77kg"), "not believable"),
    (test_of(after="60kg"), "check the two weights"),
    (test_of(minutes="5"), "10 to 2880"),
    (test_of(drank="25"), "give a unit"),
    (test_of(scale="3kg"), "allowed"),
    (test_of(power="9000W"), "20 to 600 W"),
    (test_of(pace="5:00/km"), "of a run or a swim"),
    (test_of(sport="run", pace="fast"), "--pace"),
    (test_of(sport="run", pace="5:00/km", distance="12km"), "say the same thing"),
    (test_of(patch_sodium="55mmol/L", site="toe"), "forearm"),
    (test_of(race_temperature="90C"), "-20 to 50 C"),
    ([*test_of(), "--save"], "--diary"),
    (["rehearse", "event.json", "--weeks", "99", "--race-date", "2027-06-13"], "2 to 26"),
    (["rehearse", "event.json", "--weeks", "4"], "--race-date"),
    (["diary", "list"], "--diary"),
    (["diary", "show", "7", "--diary", "none.jsonl"], "cannot be read"),
    (["diary", "add", "rehearsal", "--diary", "-", "--temperature", "18C", "--bike", "60min"], "needs a name"),
    (["diary", "add", "rehearsal", "session.json", "--diary", "d.jsonl"], "session.json: /parts/0/minutes: must be a number"),
    (["diary", "add", "rehearsal", "event.json", "--diary", "d.jsonl"], "is no rehearsal"),
    (["diary", "add", "rehearsal", "--taken", "all", "--feeds", "ten", "--temperature", "18C", "--bike", "60min", "--diary", "d.jsonl"],
     "--feeds"),
    # foods and models
    (["foods", "show", "gel_52"], "gel_25"),
    (["foods", "list", "--group", "gells"], "gels"),
    (gel(form="gell"), "gel"),
    (gel(energy=None), "--energy: is missing"),
    (gel(per=None), "--paste"),
    (gel(serving="40ml"), "--serving"),
    (gel(sodium="40mg"), "give one"),
    (gel(carbohydrate="90g"), "are they per 100 g?"),
    (gel(id="My Gel"), "cannot be an id"),
    (gel(id="gel_25"), "stands already"),
    (gel(glucose="20g"), "--fructose"),
    (gel(paste="label.txt"), "no amount of a label"),
    (["foods", "edit", "my_gel", "--file", "none.json"], "cannot be read"),
    (["model", "run", "air_densty"], "air_density"),
    (["model", "run", "air_density"], "needs 'Ta_C' in C"),
    # rosters
    (["squad", "none.csv", SQUAD_EVENT, "--out", "o"], "cannot be read"),
    (["squad", "empty.csv", SQUAD_EVENT, "--out", "o"], "is empty"),
    (["squad", "header.csv", SQUAD_EVENT, "--out", "o"], "no athlete below it"),
    (["squad", "book.xlsx", SQUAD_EVENT, "--out", "o"], "save the sheet as CSV"),
    (["squad", "old.xls", SQUAD_EVENT, "--out", "o"], "old workbook"),
    (["squad", "paper.pdf", SQUAD_EVENT, "--out", "o"], "is a PDF"),
    (["squad", "event.json", SQUAD_EVENT, "--out", "o"], "is JSON"),
    (["squad", "no_mass.csv", SQUAD_EVENT, "--out", "o"], "weight (lb)"),
    (["squad", "two_columns.csv", SQUAD_EVENT, "--out", "o"], "stands twice"),
    (["squad", "roster.csv", SQUAD_EVENT], "--out"),
    (["squad", "roster.csv", SQUAD_EVENT, "--out", "-"], "is a folder"),
    (["squad", "roster.csv", SQUAD_EVENT, "--out", "o", "--columns", "columns.txt"], '"shoe size" is no column'),
    (["squad", "roster.csv", SQUAD_EVENT, "--out", "o", "--threads", "0"], "1 to 256"),
    (["squad", "roster.csv"], "event: is missing"),
]

# Rosters with bad rows: exit 2, the others are done, one line for each kind of fault.
BAD_ROWS = [
    ("bad_level.csv", "allowed: beginner, steady, keen, fast"),
    ("litres.csv", "100 to 4000 ml/h"),
    ("three_commas.csv", "in 2 rows: 2, 3"),
    ("short_row.csv", "has 2 cells, the header 3"),
    ("quote.csv", "begins with a quote and never ends"),
]

# Done, with a word on standard error.
NOTED = [
    (["plan", "past.json"], "2020-01-01 is past"),
    (["plan", "heavy.json"], "150lb"),
    (plan(mass="150kg"), "150lb"),
    (plan(bike_time="5:00:00"), "4.0 km/h"),
    (["squad", "heavy.csv", SQUAD_EVENT, "--out", "o"], "150lb"),
    (["squad", "notes.csv", SQUAD_EVENT, "--out", "o"], 'not used: column "Notes"'),
    (["squad", "twice.csv", SQUAD_EVENT, "--out", "o"], 'one bib, two rows: "1" (rows 2 and 3)'),
    (["squad", "same_name.csv", SQUAD_EVENT, "--out", "o"], 'one name, two rows: "Ann" (rows 2 and 3)'),
    (["squad", "nobody.csv", SQUAD_EVENT, "--out", "o"], "row 2"),
    (["squad", "latin.csv", SQUAD_EVENT, "--out", "o"], "Windows-1252"),
    (["card", "event.json", "--size", "90x60", "--tube", "40mm"], "face you"),
]

# Taken as it is meant, without a word.
TAKEN = [
    *(plan(distance=word) for word in ("Sprint", "olympic", "half", "full", "super sprint", "STANDARD")),
    *(plan(mass=word) for word in ("150lbs", "68 kg", "68KG", "11st", "330lb")),
    *(plan(temperature=word) for word in ("22°C", "22c", "75F")),
    *(plan(start=word) for word in ("7:30am", "7 pm", "07:30")),
    plan(level="Beginner"), plan(allergy="soy"), plan(allergy="peanut,Milk"), plan(height="5'9\""),
    plan(bike_time="80 min"), plan(recent_run="10k=52:30"), plan(recent_run="half=1:58:00"), plan(hourly="7=16C,13:30=27C/50%", start="8:00", temperature=None),
    plan(bike_stations=["5km,15km=iso+bottle", "10km"]), plan(run_stations="2x2km=water+cola"),
    ["plan", "bom.json"], test_of(drank="25oz"), test_of(scale="0.2lb"), test_of(sport="run", pace="5:10/km"),
    *(["squad", name, SQUAD_EVENT, "--out", "o"] for name in ("lb.csv", "weight_lb.csv", "weight_kg.csv", "comma.csv", "tab.csv",
                                                              "utf16.csv")),
]


class WrongInputs(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        for name, text in FILES.items():
            (self.path / name).write_bytes(text if isinstance(text, bytes) else text.encode())
        self.environment = {**os.environ, "XDG_CONFIG_HOME": str(self.path / "config")}

    def names(self):
        return sorted(path.name for path in self.path.iterdir())

    def tuck(self, line, stdin=""):
        quick = ["--days", "0"] if line[0] == "squad" and "--days" not in line else []
        return subprocess.run([TUCK, *line, *quick], capture_output=True, text=True, timeout=120, cwd=self.path,
                              env=self.environment, input=stdin)

    def test_refused(self):
        self.assertGreaterEqual(len(REFUSED) + len(BAD_ROWS) + len(NOTED), 140)
        before = self.names()
        for line, words in REFUSED:
            with self.subTest(line=line):
                done = self.tuck(line, stdin=json.dumps(GOOD))
                self.assertEqual(2, done.returncode, done.stderr)
                self.assertIn(words, done.stderr)
                self.assertEqual("", done.stdout)
                for text in done.stderr.splitlines():
                    self.assertTrue(text.startswith("tuck: "), text)
                    self.assertLess(len(text), 1000)
                self.assertNotRegex(done.stderr, r"\de\+|nlohmann|parse_error|exception")
                self.assertEqual(before, self.names())

    def test_bad_rows(self):
        for roster, words in BAD_ROWS:
            with self.subTest(roster=roster):
                done = self.tuck(["squad", roster, SQUAD_EVENT, "--out", "o"])
                self.assertEqual(2, done.returncode, done.stderr)
                self.assertIn(words, done.stderr)
                self.assertEqual(1, len(done.stderr.splitlines()), done.stderr)

    def test_noted(self):
        for line, words in NOTED:
            with self.subTest(line=line):
                done = self.tuck(line)
                self.assertEqual(0, done.returncode, done.stderr)
                self.assertIn(words, done.stderr)
                quiet = self.tuck([*line, "--quiet"])
                self.assertEqual((0, ""), (quiet.returncode, quiet.stderr))

    def test_taken(self):
        for line in TAKEN:
            with self.subTest(line=line):
                done = self.tuck(line)
                self.assertEqual(0, done.returncode, done.stderr)
                self.assertNotIn("odd_", done.stderr)


if __name__ == "__main__":
    sys.exit(unittest.main())
