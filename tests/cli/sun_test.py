#!/usr/bin/python3
"""Where the sun stands. Judge: Debian's python3-ephem, an independent ephemeris, without refraction."""
import json
import math
import os
import random
import subprocess
import tempfile
import unittest
from pathlib import Path

import ephem

TUCK = os.environ["TUCK"]


def tuck(*arguments):
    return subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=60)


def altitude(year, month, day, hour, lat, lon):
    done = tuck("model", "run", "sun_altitude", f"year={year}", f"month={month}", f"day={day}", f"hour_utc={hour:.6f}",
                f"lat_deg={lat:.6f}", f"lon_deg={lon:.6f}", "--json")
    return json.loads(done.stdout)["value"]


def judged(year, month, day, hour, lat, lon):
    place = ephem.Observer()
    place.lat, place.lon = math.radians(lat), math.radians(lon)
    place.pressure = 0  # no refraction
    place.date = ephem.Date((year, month, day)) + hour / 24
    return math.degrees(ephem.Sun(place).alt)


class Sun(unittest.TestCase):
    def test_height_against_an_ephemeris(self):
        # 0.01 degrees is what the equations claim for 1950-2050 (Michalsky 1988); parallax is 0.0024.
        draw = random.Random(16)
        for _ in range(150):
            case = (draw.randint(1990, 2050), draw.randint(1, 12), draw.randint(1, 28), draw.uniform(0, 24),
                    draw.uniform(-70, 70), draw.uniform(-180, 180))
            with self.subTest(case):
                self.assertAlmostEqual(altitude(*case), judged(*case), delta=0.0125)

    def test_a_day_with_a_place_has_a_sun_that_moves(self):
        event = {"date": "2027-06-20", "start_local": "07:00", "latitude": 47, "distance": "long",
                 "weather": {"temperature_c": 24, "sun": "full"}, "athlete": {"mass_kg": 70}}
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "event.json"

            def taken_up(**changes):
                path.write_text(json.dumps({**event, **changes}))
                done = tuck("explain", path, "bike", "heat", "--days", "0")
                self.assertEqual(done.returncode, 0, done.stderr)
                row = next((line for line in done.stdout.splitlines() if "sun taken up" in line), None)
                if row is None:  # nothing to tell of
                    return [0]
                return [-int(word) for word in row.split("taken up")[1].split("W")[0].split()]

            morning = taken_up()
            self.assertEqual(len(set(morning[:3])), 3)  # minute 10, 60 and 180 see three suns
            self.assertLess(max(taken_up(start_local="19:00")), min(morning))  # at night there is none
            # The clock made exact at the same place: noon at 13:00 there as well, so that little changes.
            exact = taken_up(longitude=15, utc_offset_h=2)
            for a, b in zip(morning, exact):
                self.assertAlmostEqual(a, b, delta=8)

    def test_the_sky_is_said_or_assumed(self):
        plan = lambda *more: json.loads(tuck("plan", "--distance", "sprint", "--mass", "70kg", "--temperature", "24C",
                                             "--days", "0", "--json", *more).stdout)
        sweat = lambda p: sum(need["sweat_ml_per_h"] for need in p["needs"])
        by_sky = [sweat(plan("--sun", sky)) for sky in ("none", "hazy", "half", "full")]
        self.assertEqual(by_sky, sorted(by_sky))
        self.assertTrue(any("Sun not given" in text for text in plan()["assumptions"]))
        self.assertFalse(any("Sun not given" in text for text in plan("--sun", "half")["assumptions"]))
        self.assertLess(by_sky[0], sweat(plan("--sun", "400W/m2")))
        for wrong in ("sunny", "-3W/m2", "2000W/m2", "40"):
            done = tuck("plan", "--distance", "sprint", "--mass", "70kg", "--temperature", "24C", "--sun", wrong)
            self.assertEqual(done.returncode, 2, wrong)
            self.assertIn("sun", done.stderr)


if __name__ == "__main__":
    unittest.main(verbosity=2)
