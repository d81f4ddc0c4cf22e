#!/usr/bin/python3
"""The published schemas, the samples and the program's reader say the same. Judge: Debian's python3-jsonschema."""
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
SCHEMAS = {name: json.loads((ROOT / f"src/io/schema/{name}.schema.json").read_text()) for name in ("event", "athlete")}
STORE = {schema["$id"]: schema for schema in SCHEMAS.values()}
EVENT, ATHLETE = SCHEMAS["event"], SCHEMAS["athlete"]
# A key far from every known one: the reader then lists all that it knows, and makes no plan.
PROBE = "zzzzzzzzzzzzzzzz"


def validator(name):
    schema = SCHEMAS[name]
    return jsonschema.Draft202012Validator(schema, resolver=jsonschema.RefResolver(schema["$id"], schema, STORE))


def schema_accepts(document, name="event"):
    return validator(name).is_valid(document)


def reader_faults(document):
    """(pointer, text) of every fault that the program tells, the probe's left out."""
    document = {"athlete": {"mass_kg": 70}, **document, PROBE: 1}
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "e.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(document, file)
        done = subprocess.run([TUCK, "plan", path], capture_output=True, text=True, timeout=60)
    assert done.returncode == 2 and done.stdout == "", (document, done)
    faults = []
    for line in done.stderr.splitlines():
        start = f"tuck: {path}: "
        assert line.startswith(start), line
        pointer, _, text = line[len(start) :].partition(": ")
        if pointer != "/" + PROBE:
            faults.append((pointer, text))
    return faults


def base(**more):
    return {"distance": "sprint", "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}, **more}


def event_of_athlete(athlete):
    return base(athlete={"mass_kg": 70, **athlete})


def with_leg(leg):
    return {"legs": [leg], "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}}


def with_result(result):
    result = {"sport": "bike", "distance_m": 40000, "time": "1:10:00", **result}
    if isinstance(result["distance_m"], (int, float)):
        result["time"] = f"{max(1, min(172800, round(result['distance_m'] / 6)))}s"
    return event_of_athlete({"recent": [result]})


DEFS = EVENT["$defs"]
PEOPLE = ATHLETE["properties"]
# Every object of the formats: its schema, its pointer, and the smallest event around it.
PLACES = [
    (EVENT, "", lambda o: base(**o)),
    (EVENT["properties"]["weather"], "/weather", lambda o: base(weather={"temperature_c": 20, **o})),
    (DEFS["hour"], "/weather/hourly/0",
     lambda o: base(start_local="7:00", weather={"temperature_c": 20, "hourly": [{"hour": 7, "temperature_c": 15, **o}]})),
    (EVENT["properties"]["kit"], "/kit", lambda o: base(kit=o)),
    (EVENT["properties"]["course"], "/course", lambda o: base(course=o)),
    (DEFS["timed"], "/course/t1", lambda o: base(course={"t1": o})),
    (DEFS["swum"], "/course/swim", lambda o: base(course={"swim": o})),
    (DEFS["ridden"], "/course/bike", lambda o: base(course={"bike": o})),
    (DEFS["run_over"], "/course/run", lambda o: base(course={"run": o})),
    (DEFS["bike_bag"], "/legs/0/special_needs",
     lambda o: with_leg({"sport": "bike", "time": "5h", "special_needs": {"km": 5, "bottles_ml": [500], **o}})),
    (DEFS["run_bag"], "/legs/0/special_needs",
     lambda o: with_leg({"sport": "run", "time": "5h", "special_needs": {"km": 2, "gels": 1, **o}})),
    (DEFS["swim_leg"], "/legs/0", lambda o: with_leg({"sport": "swim", "distance_m": 750, **o})),
    (DEFS["bike_leg"], "/legs/0", lambda o: with_leg({"sport": "bike", "distance_m": 20000, **o})),
    (DEFS["run_leg"], "/legs/0", lambda o: with_leg({"sport": "run", "distance_m": 5000, **o})),
    (DEFS["station"], "/legs/0/stations/0",
     lambda o: with_leg({"sport": "bike", "time": "5h", "stations": [{"km": 1, "laps": 2, "lap_km": 5, **o}]})),
    (ATHLETE, "/athlete", event_of_athlete),
    (PEOPLE["times"], "/athlete/times", lambda o: event_of_athlete({"times": o})),
    (PEOPLE["sweat"], "/athlete/sweat", lambda o: event_of_athlete({"sweat": {"sweat_ml_per_h": 900, **o}})),
    (PEOPLE["rehearsed"], "/athlete/rehearsed", lambda o: event_of_athlete({"rehearsed": o})),
    (PEOPLE["health"], "/athlete/health", lambda o: event_of_athlete({"health": o})),
    (PEOPLE["recent"]["items"], "/athlete/recent/0", with_result),
]

# Refused by both.
BAD = [
    {"weather": {"temperature_c": 20}},
    {"distance": "sprint"},
    base(distance="sprnt"),
    base(schema="tuck.event/2"),
    base(legs=[]),
    base(legs=[{"sport": "row", "distance_m": 100}]),
    base(legs=[{"distance_m": 100}]),
    base(legs=[{"sport": "swim", "distance_m": 750, "ascent_m": 10}]),
    base(legs=[{"sport": "swim"}, {"sport": "bike"}, {"sport": "run"}], course={}),
    base(course={"swim": {"stations": []}}),
    base(course={"bike": {"stations": [{"km": 1, "laps": 2}]}}),
    base(course={"bike": {"stations": [{"km": 1, "form": "bucket"}]}}),
    base(course={"bike": {"stations": [{"serves": ["water_tap"]}]}}),
    base(course={"bike": {"time": "fast"}}),
    base(course={"bike": {"time": "-40:00"}}),
    base(course={"bike": {"time": "40"}}),
    base(course={"bike": {"time": 2400}}),
    base(course={"bike": {"time": "40:60"}}),
    base(date="2027-13-01"),
    base(date="13.06.2027"),
    base(start_local="24:00"),
    base(start_local="7.30"),
    base(stations="many"),
    base(session="fun"),
    base(weather={"temperature_c": "22C"}),
    base(weather={"temperature_c": None}),
    base(weather=[]),
    base(weather={"temperature_c": 20, "hourly": [{"hour": 7, "temperature_c": 15}]}),
    base(kit={"bike_bottles_ml": 750}),
    base(kit={"bike_bottles_ml": [750, 5]}),
    base(days=1.5),
    base(salt_water="yes"),
    base(athlete={}),
    base(athlete=5),
    event_of_athlete({"allergy": ["nutz"]}),
    event_of_athlete({"allergy": "nuts"}),
    event_of_athlete({"like": [""]}),
    event_of_athlete({"times": {"bike": "soon"}}),
    event_of_athlete({"recent": [{"sport": "run", "time": "25:00"}]}),
    event_of_athlete({"recent": [{"sport": "swim", "distance_m": 30000, "time": "9:00:00"}]}),
    event_of_athlete({"sweat": {"sport": "bike"}}),
    event_of_athlete({"health": {"coeliac": "no"}}),
]

# Beyond a schema: refused by the reader alone.
SUBTLE = [
    (base(date="2027-02-29"), "/date"),
    (base(legs=[{"sport": "swim"}, {"sport": "run"}]), "/legs"),
    ({"legs": [{"sport": "run"}], "weather": {"temperature_c": 20}}, "/legs/0"),
    ({"legs": [{"sport": "run", "distance_m": 5000}, {"transition": True}], "weather": {"temperature_c": 20}}, "/legs"),
    ({"legs": [{"transition": True}, {"sport": "run", "distance_m": 5000}], "weather": {"temperature_c": 20}}, "/legs/0"),
    (base(course={"bike": {"stations": [{"km": 21}]}}), "/course/bike/stations/0/km"),
    (base(course={"bike": {"stations": [{"km": 9}, {"km": 8}]}}), "/course/bike/stations/1/km"),
    (base(start_local="7:00", weather={"temperature_c": 20, "hourly": [{"hour": 8, "temperature_c": 15}] * 2}),
     "/weather/hourly/1/hour"),
    (base(course={"bike": {"time": "1:05"}}), "/course/bike/time"),
    (base(course={"t1": {"time": "3:00:00"}}), "/course/t1/time"),
    (base(distance="duathlon-sprint", course={"run": {}}), "/course/run"),
    (base(distance="duathlon-sprint", athlete={"mass_kg": 70, "times": {"run": "25:00"}}), "/athlete/times/run"),
    (base(course={"run": {"time": "25:00"}}, athlete={"mass_kg": 70, "times": {"run": "26:00"}}), "/athlete/times/run"),
    (event_of_athlete({"like": ["honey"], "avoid": ["honey"]}), "/athlete/avoid"),
    ({"legs": [{"sport": "bike", "time": "40h"}, {"sport": "run", "time": "20h"}], "weather": {"temperature_c": 20}}, "/legs"),
]


class Schema(unittest.TestCase):
    def assert_both_accept(self, document):
        self.assertTrue(schema_accepts(document), document)
        self.assertEqual([], reader_faults(document), document)

    def assert_both_refuse(self, document, pointer):
        self.assertFalse(schema_accepts(document), document)
        self.assertIn(pointer, [place for place, _ in reader_faults(document)], document)

    def test_schemas_are_schemas(self):
        for name, schema in SCHEMAS.items():
            jsonschema.Draft202012Validator.check_schema(schema)
            self.assertIn("/1", schema["$id"], name)

    def test_samples(self):
        events = sorted(SAMPLES.glob("*.json")) + sorted(SAMPLES.glob("squad/event.json"))
        self.assertGreaterEqual(len(events), 5)
        for path in events:
            document = json.loads(path.read_text("utf-8"))
            validator("event").validate(document)
            self.assertIn("nvented scenario", document["about"], path)
            if isinstance(document.get("athlete"), str):
                document["athlete"] = json.loads((path.parent / document["athlete"]).read_text("utf-8"))
            self.assertEqual([], reader_faults(document), path)
        for path in sorted(SAMPLES.glob("athletes/*.json")):
            document = json.loads(path.read_text("utf-8"))
            validator("athlete").validate(document)
            self.assertIn("nvented scenario", document["about"], path)

    def test_squad(self):
        with open(SAMPLES / "squad/squad.csv", newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file, strict=True))
        self.assertEqual(12, len(rows))
        self.assertEqual(12, len({row["bib"] for row in rows}))
        for row in rows:
            self.assertNotIn(None, row, "a row longer than the header")
            athlete = {key: row[key] for key in ("name", "bib", "level", "hands")}
            athlete.update(mass_kg=float(row["mass_kg"]), age_y=float(row["age_y"]), caffeine=row["caffeine"] == "yes")
            for key in ("allergy", "like", "avoid"):
                athlete[key] = [word for word in row[key].split(";") if word]
            validator("athlete").validate(athlete)
            self.assertEqual([], reader_faults(base(athlete=athlete)), row)

    def test_bad_ones_are_refused_by_both(self):
        for document in BAD:
            self.assertFalse(schema_accepts(document), document)
            self.assertNotEqual([], reader_faults(document), document)

    def test_what_only_the_reader_can_see(self):
        for document, pointer in SUBTLE:
            self.assertTrue(schema_accepts(document), document)
            self.assertEqual([pointer], [place for place, _ in reader_faults(document)], document)

    def test_both_know_the_same_keys(self):
        for schema, pointer, wrap in PLACES:
            document = wrap({PROBE + "2": 1})
            told = [text for place, text in reader_faults(document) if place == f"{pointer}/{PROBE}2"]
            self.assertEqual(1, len(told), pointer)
            known = set(re.split(r"; allowed:? ", told[0])[1].split(", "))
            self.assertEqual(set(schema["properties"]), known - {PROBE}, pointer)
            self.assertIs(False, schema["additionalProperties"], pointer)

    def test_both_have_the_same_ranges(self):
        checked = 0
        for schema, pointer, wrap in PLACES:
            for key, rule in schema["properties"].items():
                if "minimum" not in rule:
                    continue
                step = 1 if rule["type"] == "integer" else 1e-3
                for good in (rule["minimum"], rule["maximum"]):
                    self.assert_both_accept(wrap({key: good}))
                for bad in (rule["minimum"] - step, rule["maximum"] + step):
                    self.assert_both_refuse(wrap({key: bad}), f"{pointer}/{key}")
                checked += 1
        self.assertGreater(checked, 30)

    def test_both_have_the_same_words_and_lengths(self):
        for schema, pointer, wrap in PLACES:
            for key, rule in schema["properties"].items():
                if "enum" in rule and key != "distance":
                    for word in rule["enum"]:
                        document = wrap({key: word})
                        if key == "sport":
                            document = event_of_athlete({"sweat": {"sweat_ml_per_h": 900, "sport": word}})
                        self.assert_both_accept(document)
                    self.assert_both_refuse(wrap({key: "no such word"}), f"{pointer}/{key}")
                if "maxLength" in rule and "pattern" not in rule:
                    self.assert_both_accept(wrap({key: "é" * rule["maxLength"]}))
                    self.assert_both_refuse(wrap({key: "é" * (rule["maxLength"] + 1)}), f"{pointer}/{key}")
        for name in EVENT["properties"]["distance"]["enum"]:
            self.assert_both_accept(base(distance=name))
        for word in PEOPLE["allergy"]["items"]["enum"]:
            self.assert_both_accept(event_of_athlete({"allergy": [word]}))


if __name__ == "__main__":
    sys.exit(unittest.main())
