#!/usr/bin/python3
"""Courses through the finished program. Judge of lengths: GeodSolve of GeographicLib (WGS84 geodesics)."""
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as ET
from pathlib import Path

TUCK = os.environ["TUCK"]
COURSES = Path(os.environ["TUCK_ROOT"]) / "samples/courses"
GPX = "{http://www.topografix.com/GPX/1/1}"


def tuck(*arguments, locale="C.UTF-8"):
    environment = {**os.environ, "LC_ALL": locale}
    return subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=60, env=environment)


def points_of(path):
    return [(float(p.get("lat")), float(p.get("lon"))) for p in ET.parse(path).iter(f"{GPX}trkpt")]


def geodesic_m(points):
    lines = "\n".join(f"{a[0]} {a[1]} {b[0]} {b[1]}" for a, b in zip(points, points[1:]))
    done = subprocess.run(["GeodSolve", "-i", "-p", "3"], input=lines, capture_output=True, text=True, check=True)
    return sum(float(line.split()[2]) for line in done.stdout.splitlines())


def document(points):
    inside = "".join(f'<trkpt lat="{p[0]:.7f}" lon="{p[1]:.7f}"><ele>{p[2]:.1f}</ele></trkpt>\n' for p in points)
    return ('<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>'
            f"{inside}</trkseg></trk></gpx>\n")


class Course(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def file(self, text, name="c.gpx"):
        path = self.folder / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def length_km(self, path):
        done = tuck("course", path)
        self.assertEqual(0, done.returncode, done.stderr)
        return float(re.search(r"Length +([0-9.]+) km", done.stdout)[1])

    def test_lengths_are_those_of_an_independent_library(self):
        for path in sorted(COURSES.glob("*.gpx")):
            true_km = geodesic_m(points_of(path)) / 1000
            self.assertAlmostEqual(true_km, self.length_km(path), delta=0.0056 * true_km + 0.051, msg=path)
        chance = random.Random(1)
        for _ in range(20):  # a sphere stands for the ellipsoid: at most 0.56 % off; the print has 0.1 km
            lat, lon = chance.uniform(-80, 80), chance.uniform(-180, 180)
            points = []
            for _ in range(300):
                lat += chance.uniform(-0.002, 0.004)
                lon += chance.uniform(-0.002, 0.004)
                points.append((lat, (lon + 180) % 360 - 180, 10))
            true_km = geodesic_m(points) / 1000
            self.assertAlmostEqual(true_km, self.length_km(self.file(document(points))), delta=0.0056 * true_km + 0.051)

    def test_the_page(self):
        done = tuck("course", COURSES / "one-climb.gpx", "--power", "200W", "--mass", "75kg")
        self.assertEqual((0, ""), (done.returncode, done.stderr))
        for part in ("Kestrel Pass (one-climb.gpx)", "median of 5", "HANDS ON THE BAR", "ROOM TO EAT", "fast descent",
                     "sharp bend", "At an effort of 200 W", "\u2588"):
            self.assertIn(part, done.stdout)
        self.assertLessEqual(max(map(len, done.stdout.splitlines())), 80)

    def test_plain_letters_where_the_locale_has_no_more(self):
        for done in (tuck("course", COURSES / "rolling-lap.gpx", "--ascii"),
                     tuck("course", COURSES / "rolling-lap.gpx", locale="C")):
            self.assertEqual(0, done.returncode)
            self.assertTrue(done.stdout.isascii())
            self.assertIn("###", done.stdout)

    def test_a_run(self):
        done = tuck("course", COURSES / "shore-run.gpx", "--sport", "run", "--pace", "5:00/km")
        self.assertEqual(0, done.returncode)
        self.assertIn("per km", done.stdout)
        self.assertNotIn("ROOM TO EAT", done.stdout)

    def minutes(self, *arguments):
        done = tuck("course", *arguments)
        self.assertEqual(0, done.returncode, done.stderr)
        clock = re.search(r"(?:wind|behind|degrees): (?:(\d+):)?(\d+):(\d+),\s", done.stdout)
        return int(clock[1] or 0) * 60 + int(clock[2]) + int(clock[3]) / 60

    def test_power_mass_and_wind_are_heard(self):
        path = COURSES / "one-climb.gpx"
        usual = self.minutes(path, "--power", "200W", "--mass", "75kg")
        self.assertLess(self.minutes(path, "--power", "240W", "--mass", "75kg"), usual)
        self.assertGreater(self.minutes(path, "--power", "200W", "--mass", "90kg"), usual)
        self.assertGreater(self.minutes(path, "--power", "200W", "--mass", "165.3lb", "--wind", "8m/s"), usual)

    def test_bad_files_are_told_and_end_with_2(self):
        point = '<trkpt lat="45" lon="10"/>'
        bad = {
            "": "is empty",
            "hello": "line 1: is not valid XML",
            "<kml/>": 'its root is "kml"',
            "<gpx/>": "holds no track",
            f"<gpx><trk><trkseg>{point}</trkseg></trk></gpx>": "holds one point",
            f"<gpx><trk><trkseg>\n{point}\n<trkpt lat='nan' lon='10'/></trkseg></trk></gpx>": 'line 3: lat "nan"',
            '<!DOCTYPE gpx [<!ENTITY x "y">]><gpx/>': "holds a DOCTYPE",
        }
        for text, words in bad.items():
            done = tuck("course", self.file(text))
            self.assertEqual((2, ""), (done.returncode, done.stdout), text)
            self.assertTrue(done.stderr.startswith(f"tuck: {self.folder}/c.gpx: "), done.stderr)
            self.assertIn(words, done.stderr)
        self.assertEqual(2, tuck("course", self.folder).returncode)
        self.assertEqual(2, tuck("course", self.folder / "none.gpx").returncode)
        self.assertEqual(2, tuck("course").returncode)
        for option in (("--power", "5W"), ("--power", "fast"), ("--mass", "70"), ("--wind-from", "400"), ("--sport", "swim"),
                       ("--pace", "5:00/km"), ("--position", "lying"), ("--sport", "run", "--pace", "1:00/km"),
                       ("--sport", "run", "--power", "200W")):
            done = tuck("course", COURSES / "lake-loop.gpx", *option)
            self.assertEqual((2, ""), (done.returncode, done.stdout), option)
            self.assertIn(option[-2], done.stderr)

    def test_what_can_be_repaired_is_and_is_said(self):
        north = [(45 + i * 0.0002, 10, 100) for i in range(60)]
        times = "".join(f'<trkpt lat="{45 + i * 0.001:.3f}" lon="10"><time>2027-05-01T10:{59 - i}:00Z</time></trkpt>'
                        for i in range(20))
        far = document(north + [(45.1 + i * 0.0002, 10.05, 100) for i in range(60)])
        for text, words, length_km in (
            (f"<gpx><trk><trkseg>{times}</trkseg></trk></gpx>", "The times run backwards at line 1", 2.1),
            (far, "A jump of 10", 2.6),
            (document(north[:30] + [(46, 11, 5)] + north[30:]), "1 point that belongs to no line was left out", 1.3),
        ):
            path = self.file(text)
            done = tuck("course", path)
            self.assertEqual((0, ""), (done.returncode, done.stderr))
            self.assertIn(words, " ".join(done.stdout.split()))
            self.assertAlmostEqual(length_km, self.length_km(path), delta=0.06)

    def test_the_date_line_and_the_pole_are_no_obstacle(self):
        across = [(-17, (179.9 + i * 0.002 + 180) % 360 - 180, 5) for i in range(101)]
        for points in (across, across[::-1], [(89.9, i * 7.2 - 180, 0) for i in range(51)]):
            true_km = geodesic_m(points) / 1000
            self.assertAlmostEqual(true_km, self.length_km(self.file(document(points))), delta=0.0056 * true_km + 0.051)

    def test_bombs_do_not_go_off(self):
        laughs = '<!ENTITY a0 "ha">' + "".join(
            f'<!ENTITY a{i} "{f"&a{i - 1};" * 10}">' for i in range(1, 12))
        bombs = {
            f'<?xml version="1.0"?><!DOCTYPE gpx [{laughs}]><gpx><trk><name>&a11;</name></trk></gpx>': "holds a DOCTYPE",
            '<!DOCTYPE gpx SYSTEM "http://localhost:9/x.dtd"><gpx/>': "holds a DOCTYPE",
            "<gpx>" + "<a>" * 300000: "holds over 1000 elements within each other",
            "<gpx>" + "<a>" * 300000 + "</a>" * 300000 + "</gpx>": "holds over 1000 elements within each other",
            document([(45 + i / 1000, 10, 1) for i in range(9)]).encode("utf-16"): "is not UTF-8",
            "<gpx><trk><name>" + "n" * 5_000_000 + "</name></trk></gpx>": "holds no track",
        }
        for text, words in bombs.items():
            done = tuck("course", self.file(text))
            self.assertEqual((2, ""), (done.returncode, done.stdout), text[:60])
            self.assertIn(words, done.stderr)
            self.assertLess(len(done.stderr), 500)

    def test_numbers_that_are_none(self):
        good = '<trkpt lat="45" lon="10"/><trkpt lat="45.01" lon="10"/>'
        for bad, words in (
            ('<trkpt lat="NaN" lon="10"/>', 'lat "NaN"'), ('<trkpt lat="45" lon="-nan"/>', 'lon "-nan"'),
            ('<trkpt lat="inf" lon="10"/>', 'lat "inf"'), ('<trkpt lat="45" lon="180.5"/>', "allowed -180 to 180"),
            ('<trkpt lat="1e400" lon="10"/>', 'lat "1e400"'), ('<trkpt lon="10"/>', "lat is missing"),
            ('<trkpt lat="45" lon="10"><ele>nan</ele></trkpt>', 'ele "nan"'),
            ('<trkpt lat="45" lon="10"><ele>1e9</ele></trkpt>', "allowed -500 to 9000 m"),
        ):
            done = tuck("course", self.file(f"<gpx><trk><trkseg>{good}\n{bad}</trkseg></trk></gpx>"))
            self.assertEqual((2, ""), (done.returncode, done.stdout), bad)
            self.assertIn("c.gpx: line 2: ", done.stderr)
            self.assertIn(words, done.stderr)

    def test_damaged_files_never_crash(self):
        chance = random.Random(2)
        whole = (COURSES / "shore-run.gpx").read_bytes()
        for _ in range(60):
            data = bytearray(whole)
            for _ in range(chance.randint(1, 20)):
                at = chance.randrange(len(data))
                data[at : at + chance.randint(0, 3)] = bytes(chance.randrange(256) for _ in range(chance.randint(0, 3)))
            done = subprocess.run([TUCK, "course", self.file(bytes(data))], capture_output=True, timeout=60)
            self.assertIn(done.returncode, (0, 2), bytes(data)[:200])
            self.assertEqual(done.returncode == 2, done.stdout == b"")

    def test_half_a_million_points(self):  # how fast: course_bench
        row = '<trkpt lat="{:.7f}" lon="9"><ele>{}</ele></trkpt>\n'
        text = "".join(row.format(45 + i * 3.6e-6, 100 + i % 7 / 10) for i in range(500000))
        path = self.file(f"<gpx><trk><trkseg>{text}</trkseg></trk></gpx>")
        self.assertAlmostEqual(200.1, self.length_km(path), delta=1.2)


class Plan(unittest.TestCase):
    def plan(self, path, *more):
        done = tuck("plan", path, "--json", "--days", "0", *more)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        return json.loads(done.stdout)

    def event(self, folder, **bike):
        path = Path(folder) / "e.json"
        path.write_text(json.dumps({"distance": "standard", "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70},
                                    "course": {"bike": bike}}))
        return path

    def test_samples(self):
        for path in sorted(COURSES.glob("*.json")):
            self.assertIn("nvented scenario", json.loads(path.read_text())["about"], path)
            plan = self.plan(path)
            bike = plan["durations"][2]
            self.assertGreater(bike["p90_s"], bike["p50_s"])
        flat, high = self.plan(COURSES / "rolling-middle.json"), self.plan(COURSES / "pass-middle.json")
        self.assertIn("wetsuit_needed", [w["code"] for w in high["warnings"]])
        self.assertNotIn("wetsuit_needed", [w["code"] for w in flat["warnings"]])

    def test_a_plan_at_the_edge_of_a_band_says_so(self):
        # Unrehearsed, the rate grows at 3 h (practice): the fast day lies before, the slow day beyond.
        plan = self.plan(COURSES / "lake-standard.json")
        self.assertLess(plan["total"]["p10_s"], 3 * 3600)
        self.assertGreater(plan["total"]["p90_s"], 3 * 3600)
        self.assertIn("band_edge", [w["code"] for w in plan["warnings"]])
        self.assertNotIn("band_edge", [w["code"] for w in self.plan(COURSES / "pass-middle.json")["warnings"]])

    def test_the_leg_is_as_long_as_its_course(self):
        with tempfile.TemporaryDirectory() as folder:
            lap = os.path.relpath(COURSES / "lake-loop.gpx", folder)
            plan = self.plan(self.event(folder, course_gpx=lap, course_laps=2))
            self.assertAlmostEqual(40, plan["durations"][2]["km"], delta=0.3)

    def test_course_faults_stand_in_the_event(self):
        with tempfile.TemporaryDirectory() as folder:
            lap = os.path.relpath(COURSES / "lake-loop.gpx", folder)
            (Path(folder) / "bad.gpx").write_text("<gpx>")
            for bike, at, words in (
                ({"course_gpx": lap}, "/course/bike/course_gpx", "is a course of 20.0 km for a leg of 40 km"),
                ({"course_gpx": "none.gpx"}, "/course/bike/course_gpx", "cannot be read"),
                ({"course_gpx": "bad.gpx"}, "/course/bike/course_gpx", "ends before the course does"),
                ({"course_gpx": ""}, "/course/bike/course_gpx", "must be the name"),
                ({"course_laps": 2}, "/course/bike/course_gpx", "is missing"),
                ({"course_gpx": lap, "course_laps": 0}, "/course/bike/course_laps", "allowed 1 to 100"),
                ({"cutoff": "soon"}, "/course/bike/cutoff", "soon"),
            ):
                path = self.event(folder, **bike)
                done = tuck("plan", path)
                self.assertEqual((2, ""), (done.returncode, done.stdout), bike)
                self.assertIn(f"tuck: {path}: {at}: ", done.stderr, bike)
                self.assertIn(words, done.stderr, bike)

    def test_a_course_and_its_wind_in_one_line(self):
        usual = ("plan", "--mass", "70kg", "--temperature", "20C", "--level", "keen", "--json", "--days", "0")

        def bike(*more):
            done = tuck(*usual, *more)
            self.assertIn(done.returncode, (0, 1), done.stderr)
            plan = json.loads(done.stdout)
            return next(d for d in plan["durations"] if d["leg"] == "bike"), plan

        lap, climb = COURSES / "lake-loop.gpx", COURSES / "one-climb.gpx"
        flat, _ = bike("--distance", "standard")
        lake, _ = bike("--distance", "standard", "--bike-course", lap, "--bike-laps", "2")
        self.assertAlmostEqual(40, lake["km"], delta=0.3)
        windy, _ = bike("--distance", "standard", "--bike-course", lap, "--bike-laps", "2", "--wind", "8m/s",
                        "--wind-from", "240deg")
        self.assertGreater(windy["p50_s"], lake["p50_s"])
        # A loop is much the same from every side (out and back in wind is slower than calm from each of them).
        for side in ("W", "SW", "90", "0deg"):
            turned, plan = bike("--distance", "standard", "--bike-course", lap, "--bike-laps", "2", "--wind", "8m/s",
                                "--wind-from", side)
            self.assertGreater(turned["p50_s"], lake["p50_s"])
            self.assertNotIn("Direction of the wind not given", " ".join(plan["assumptions"]))
        alone, _ = bike("--legs", "bike:45km,run:21km", "--bike-course", climb, "--run-course", COURSES / "shore-run.gpx",
                        "--run-laps", "4")
        self.assertGreater(alone["p50_s"] / alone["km"], flat["p50_s"] / flat["km"])

    def test_a_feed_stands_at_its_place_on_the_road(self):
        # One climb, out and back: at the same clock the kilometre is that of tuck course, not of the mean speed.
        climb = COURSES / "one-climb.gpx"
        plan = json.loads(tuck("plan", "--legs", "bike:45km", "--mass", "70kg", "--temperature", "20C", "--level", "keen",
                               "--bike-course", climb, "--json", "--days", "0").stdout)
        bike = plan["durations"][0]
        feeds = [f for f in plan["feeds"] if f["leg"] == "bike"]
        self.assertTrue(feeds)
        for lines in plan["lines"]:
            for after, why_km in re.findall(r"(\d+:\d+) (?:before|after) the [a-z, ]+ at km (\d+)", lines["text"]):
                hours, minutes = after.split(":")
                at_s = int(hours) * 3600 + int(minutes) * 60
                feed = min(feeds, key=lambda f: abs(f["at_s"] - at_s))
                self.assertAlmostEqual(int(why_km), feed["km"], delta=1.5, msg=lines["text"])
        even = [f["at_s"] / bike["p50_s"] * bike["km"] for f in feeds]
        self.assertTrue(any(abs(f["km"] - km) > 1 for f, km in zip(feeds, even)))

    def test_an_option_for_a_course_outside_its_bounds(self):
        lap = str(COURSES / "lake-loop.gpx")
        with tempfile.TemporaryDirectory() as folder:
            named = self.event(folder, course_gpx=os.path.relpath(lap, folder), course_laps=2)
            legs = Path(folder) / "legs.json"
            legs.write_text(json.dumps({"legs": [{"sport": "bike", "distance_m": 20000}, {"sport": "bike", "distance_m": 20000}],
                                        "weather": {"temperature_c": 20}, "athlete": {"mass_kg": 70}}))
            bad = Path(folder) / "bad.gpx"
            bad.write_text("<gpx>\n<trk><trkseg><trkpt lat='x' lon='1'/></trkseg></trk></gpx>")
            one_line = ("--distance", "standard", "--mass", "70kg", "--temperature", "20C")
            for arguments, option, words in (
                ((*one_line, "--bike-course", "none.gpx"), "--bike-course", "cannot be read"),
                ((*one_line, "--bike-course", ""), "--bike-course", "is empty; give a value, or leave it out"),
                ((*one_line, "--bike-course", bad), "--bike-course", "bad.gpx: line 2: lat"),
                ((*one_line, "--bike-course", lap), "--bike-course", "is a course of 20.0 km for a leg of 40 km"),
                ((*one_line, "--bike-laps", "2"), "--bike-course", "is missing"),
                ((*one_line, "--bike-course", lap, "--bike-laps", "0"), "--bike-laps", "allowed 1 to 100"),
                ((*one_line, "--bike-course", lap, "--bike-laps", "two"), "--bike-laps", "digits only"),
                ((*one_line, "--run-laps", "1.5"), "--run-laps", "digits only"),
                ((*one_line, "--wind-from", "up"), "--wind-from", "a point of the compass"),
                ((*one_line, "--wind-from", "400deg"), "--wind-from", "allowed: degrees"),
                ((*one_line, "--wind", "40m/s"), "--wind", "allowed 0 to 25 m/s"),
                (("--legs", "swim:1km,run:10km", "--mass", "70kg", "--temperature", "20C", "--bike-course", lap),
                 "--bike-course", "has not exactly one bike leg"),
                ((legs, "--bike-course", lap), "--bike-course", "has not exactly one bike leg"),
            ):
                done = tuck("plan", *arguments)
                self.assertEqual((2, ""), (done.returncode, done.stdout), arguments)
                self.assertIn(f"tuck: {option}: ", done.stderr, arguments)
                self.assertIn(words, done.stderr, arguments)

    def test_results_carry_their_day(self):
        usual = ("plan", "--distance", "standard", "--mass", "70kg", "--temperature", "20C", "--json", "--days", "0", "--date",
                 "2027-06-13")

        def run_s(*more):
            return json.loads(tuck(*usual, *more).stdout)["durations"][4]["p50_s"]

        old = run_s("--recent-run", "10km=40:00@2027-05-01", "--recent-run", "10km=50:00@2023-05-01")
        new = run_s("--recent-run", "10km=40:00@2023-05-01", "--recent-run", "10km=50:00@2027-05-01")
        self.assertLess(old, new)
        for text, words in (("10km=40:00@2027-05-32", "2027-05-32"), ("10km=40:00@", "--recent-run"),
                            ("10km=40:00@2027-07-01", "lies after the event")):
            done = tuck(*usual, "--recent-run", text)
            self.assertEqual((2, ""), (done.returncode, done.stdout), text)
            self.assertIn(words, done.stderr)


if __name__ == "__main__":
    sys.exit(unittest.main())
