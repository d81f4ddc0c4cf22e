#!/usr/bin/python3
"""tuck rehearse: the session, its paper (qpdf, poppler), its calendar (python3-icalendar), and the live clock (a pty)."""
import datetime
import json
import os
import pty
import select
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

import icalendar
import jsonschema

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
RACE = SAMPLES / "hilly-middle.json"


class Rehearse(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)

    def tuck(self, *arguments, code=0):
        done = subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=120, cwd=self.path)
        self.assertEqual(code, done.returncode, (arguments, done.stdout, done.stderr))
        return done

    def test_the_session(self):
        done = self.tuck("rehearse", RACE, "--ride", "150min", "--run", "20min", "--temperature", "18C")
        for word in ("REHEARSAL", "FIRST", "ON THE WAY", "AFTERWARDS", "ON THE BIKE", "2:30:00"):
            self.assertIn(word, done.stdout)
        for line in done.stdout.splitlines():
            self.assertLessEqual(len(line), 80, line)
        again = self.tuck("rehearse", RACE, "--ride", "150min", "--run", "20min", "--temperature", "18C")
        self.assertEqual(done.stdout, again.stdout)

    def test_the_paper(self):
        self.tuck("rehearse", RACE, "--temperature", "18C", "-o", "log.pdf")
        check = subprocess.run(["qpdf", "--check", self.path / "log.pdf"], capture_output=True, text=True)
        self.assertEqual(0, check.returncode, check.stdout)
        text = subprocess.run(["pdftotext", "-layout", self.path / "log.pdf", "-"], capture_output=True, text=True).stdout
        for word in ("Training card", "A tick: all of it", "nausea", "urge", "thirst", "24 hours", "one change", "empty",
                     "tuck diary add rehearsal"):
            self.assertIn(word, text)
        log = text.split("\f")[-2]  # one page: the last one holds all of the log
        for word in ("Log: ", "nausea", "one change", "Into the diary"):
            self.assertIn(word, log)
        first = (self.path / "log.pdf").read_bytes()
        self.tuck("rehearse", RACE, "--temperature", "18C", "-o", "log.pdf")
        self.assertEqual(first, (self.path / "log.pdf").read_bytes())

    def test_the_calendar(self):
        self.tuck("rehearse", RACE, "--weeks", "6", "--race-date", "2027-09-05", "--ical", "r.ics")
        raw = (self.path / "r.ics").read_bytes()
        for line in raw.split(b"\r\n"):
            self.assertLessEqual(len(line), 75)  # RFC 5545, 3.1
            self.assertNotIn(b"\n", line)
        calendar = icalendar.Calendar.from_ical(raw)
        self.assertEqual([], calendar.errors)
        self.assertEqual("2.0", calendar["VERSION"])
        events = calendar.walk("VEVENT")
        self.assertEqual(5, len(events))
        self.assertEqual(5, len({event["UID"] for event in events}))
        race = datetime.date(2027, 9, 5)
        starts = [event["DTSTART"].dt for event in events]
        self.assertEqual(datetime.timedelta(14), race - starts[-1].date())  # none in the last ten days
        self.assertEqual({6}, {start.weekday() for start in starts})  # Sundays, as the race
        for event, start in zip(events, starts):
            self.assertEqual([], event.errors)
            self.assertIsNone(start.tzinfo)  # floating local time
            self.assertEqual(datetime.timedelta(minutes=170), event["DURATION"].dt)
            self.assertIn("g/h, ", event["DESCRIPTION"])  # the comma was escaped and comes back
            self.assertIn("every", event["DESCRIPTION"])  # the session's card
            self.assertIn("tuck diary add rehearsal", event["DESCRIPTION"])
            alarms = event.walk("VALARM")
            self.assertEqual(2, len(alarms))
            self.assertEqual([], [error for alarm in alarms for error in alarm.errors])
            evening = start + alarms[0]["TRIGGER"].dt
            self.assertEqual((start.date() - datetime.timedelta(1), 18), (evening.date(), evening.hour))
        self.assertEqual({datetime.timedelta(7)}, {b.date() - a.date() for a, b in zip(starts, starts[1:])})
        self.tuck("rehearse", RACE, "--weeks", "6", "--race-date", "2027-09-05", "--ical", "again.ics")
        self.assertEqual(raw, (self.path / "again.ics").read_bytes())

    def test_bad_input(self):
        for arguments, word in [
            (["--ride", "0min", "--run", "0min"], "--ride: is 0"),
            (["--ride", "150"], "--ride: "),
            (["--ride", "5min"], "--ride: 5 min is out of range"),
            (["--temperature", "80C"], "--temperature: 80 is out of range"),
            (["--weeks", "1", "--race-date", "2027-09-05"], "--weeks: 1 is out of range"),
            (["--weeks", "x", "--race-date", "2027-09-05"], "--weeks: "),
            (["--weeks", "6", "--race-date", "2027-09-31"], "--race-date: "),
            (["--weeks", "6", "--race-date", "2027-09-05", "--ical", "no/r.ics"], "no/r.ics: cannot be written"),
        ]:
            done = self.tuck("rehearse", RACE, *arguments, code=2)
            self.assertIn(word, done.stderr)
            self.assertEqual("", done.stdout)
            self.assertEqual([], list(self.path.iterdir()))

    def test_days_of_the_week(self):
        self.tuck("rehearse", RACE, "--weeks", "4", "--days", "sat,wed", "--race-date", "2027-09-05", "--ical", "r.ics")
        events = icalendar.Calendar.from_ical((self.path / "r.ics").read_bytes()).walk("VEVENT")
        days = [event["DTSTART"].dt.date() for event in events]
        self.assertEqual({2, 5}, {day.weekday() for day in days})
        self.assertEqual(sorted(set(days)), days)
        self.assertGreater(datetime.date(2027, 9, 5) - days[-1], datetime.timedelta(10))
        self.assertIn("--days: ", self.tuck("rehearse", RACE, "--weeks", "4", "--days", "sonday", code=2).stderr)

    def test_json_fits_its_schema_and_fills_the_diary(self):
        schema = json.loads((SAMPLES.parent / "src/io/schema/rehearsal.schema.json").read_text())
        for more in ([], ["--weeks", "4", "--race-date", "2027-09-05"]):
            done = self.tuck("rehearse", RACE, "--temperature", "18C", "--date", "2027-07-04", "--json", *more)
            jsonschema.Draft202012Validator(schema).validate(json.loads(done.stdout))
        asked = json.loads(done.stdout)
        (self.path / "sunday.json").write_text(done.stdout)
        self.tuck("diary", "add", "rehearsal", "sunday.json", "--taken", "all", "--bike-gut", "nausea=1", "--run-gut",
                  "nausea=0", "--diary", "d.jsonl")
        entry = json.loads((self.path / "d.jsonl").read_text())
        bike = asked["parts"][0]
        self.assertEqual(bike["planned_carb_g"], entry["bike_carb_g"])
        self.assertEqual(bike["asked_carb_g_per_h"], entry["bike_asked_carb_g_per_h"])
        self.assertEqual("2027-07-04", entry["date"])
        known = json.loads(self.tuck("diary", "show", "--diary", "d.jsonl", "--json").stdout)
        self.assertEqual(bike["asked_carb_g_per_h"], known["bike"]["carb_g_per_h"])  # credit for what was asked

    def test_a_dry_run_of_the_whole_race_keeps_nothing(self):
        pid, terminal = pty.fork()
        if pid == 0:
            os.chdir(self.path)
            os.execv(TUCK, [TUCK, "rehearse", str(RACE), "--live", "--speed", "600"])
        shown = b""
        limit = time.monotonic() + 60
        while b"NOW, due" not in shown and time.monotonic() < limit:  # the first feed, 10 or 15 minutes in
            if select.select([terminal], [], [], 0.1)[0]:
                shown += os.read(terminal, 4096)
        os.write(terminal, b"tq")
        while b"nothing was kept" not in shown and time.monotonic() < limit:
            if select.select([terminal], [], [], 0.1)[0]:
                shown += os.read(terminal, 4096)
        _, status = os.waitpid(pid, 0)
        os.close(terminal)
        self.assertEqual(0, status)
        self.assertIn(b"NOW, due", shown)
        self.assertIn(b"######", shown)  # figures of five rows
        self.assertEqual([], list(self.path.iterdir()))

    def test_blood_stops_it(self):
        self.tuck("diary", "add", "rehearsal", "--bike", "150min", "--bike-carb", "150g", "--run", "20min", "--temperature",
                  "18C", "--blood", "--date", "2027-05-01", "--diary", "d.jsonl")
        done = self.tuck("rehearse", RACE, "--diary", "d.jsonl", "-o", "log.pdf", code=1)
        self.assertIn("doctor", done.stderr)
        self.assertFalse((self.path / "log.pdf").exists())

    # The live clock.

    def live(self, keys, end):
        """Presses keys in a terminal; returns what was shown. `end`: the signal, or a key."""
        pid, terminal = pty.fork()
        if pid == 0:
            os.chdir(self.path)
            os.execv(TUCK, [TUCK, "rehearse", str(RACE), "--live", "--marks", "m.jsonl"])
        shown = b""

        def read_until(word, seconds=60):
            nonlocal shown
            limit = time.monotonic() + seconds
            while word not in shown and time.monotonic() < limit:
                if select.select([terminal], [], [], 0.1)[0]:
                    try:
                        shown += os.read(terminal, 4096)
                    except OSError:
                        return
            self.assertIn(word, shown)

        read_until(b"next at")
        for key in keys:
            before = len(self.marks()) if (self.path / "m.jsonl").exists() else 0
            os.write(terminal, key.encode())
            if key != "b":  # wait for the mark on the disk
                limit = time.monotonic() + 30
                while len(self.marks()) == before and time.monotonic() < limit:
                    time.sleep(0.02)
        if isinstance(end, str):
            os.write(terminal, end.encode())
        else:
            os.kill(pid, end)
        if end != signal.SIGKILL:
            read_until(b"goes on from here")
        _, status = os.waitpid(pid, 0)
        os.close(terminal)
        return status

    def marks(self):
        return [json.loads(line) for line in (self.path / "m.jsonl").read_text().splitlines()][1:]

    def test_marks_survive_ctrl_c_a_kill_and_a_restart(self):
        self.assertEqual(0, self.live("tb4h", signal.SIGINT))
        begun = json.loads((self.path / "m.jsonl").read_text().splitlines()[0])
        self.assertEqual(signal.SIGKILL, self.live("s", signal.SIGKILL))
        self.assertEqual(0, self.live("rt", "q"))
        self.assertEqual(begun, json.loads((self.path / "m.jsonl").read_text().splitlines()[0]), "one session")
        marks = self.marks()
        self.assertEqual(["taken", "stomach", "half", "skipped", "run", "taken"], [mark["mark"] for mark in marks])
        self.assertEqual([0, 1, 2, 3], [mark["feed"] for mark in marks if "feed" in mark])
        self.assertEqual(4, marks[1]["level"])
        times = [mark["at_s"] for mark in marks]
        self.assertEqual(sorted(times), times)
        # The marks fill a rehearsal.
        self.tuck("diary", "add", "rehearsal", "--marks", "m.jsonl", "--temperature", "18C", "--diary", "d.jsonl")
        entry = json.loads((self.path / "d.jsonl").read_text())
        feeds = begun["feeds"]
        self.assertEqual(len(feeds), entry["feeds_planned"])
        self.assertEqual(2.5, entry["feeds_taken"])
        bike = sum(share * feeds[i]["carb_g"] for i, share in [(0, 1), (1, 0.5), (3, 1)] if feeds[i]["leg"] == "bike")
        self.assertAlmostEqual(bike, entry["bike_carb_g"])
        self.assertEqual({"nausea": 4}, entry["bike_symptoms"])


if __name__ == "__main__":
    sys.exit(unittest.main())
