#!/usr/bin/python3
"""What commands leave behind: every output or none, exit 2 where standard output takes nothing, live keys."""
import csv
import fcntl
import json
import os
import pty
import re
import select
import shutil
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
RACE = ROOT / "samples/hot-standard.json"
SQUAD = ROOT / "samples/squad"
QUICK = ["--days", "0"]
TEST = ["--before", "71.42kg", "--after", "70.31kg", "--drank", "750ml", "--minutes", "90", "--temperature", "24C",
        "--date", "2027-05-01"]


class Place(unittest.TestCase):
    """A folder of its own with a race in it."""

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        race = json.loads(RACE.read_text())
        race["athlete"] = json.loads((RACE.parent / race["athlete"]).read_text())
        (self.path / "race.json").write_text(json.dumps(race))

    def tuck(self, *arguments, code=0, **more):
        done = subprocess.run([TUCK, *map(str, arguments)], capture_output=True, text=True, timeout=120, cwd=self.path,
                              **more)
        self.assertEqual(code, done.returncode, (arguments, done.stdout[-300:], done.stderr[-300:]))
        return done

    def names(self):
        return sorted(path.name for path in self.path.iterdir())


class Outputs(Place):
    def test_2026_11_late_faults_left_files(self):
        """Nine of nine did."""
        before = self.names()
        plan = ["plan", "race.json", *QUICK]
        for command in (
                ["rehearse", "race.json", *QUICK, "-o", "a.pdf", "--weeks", "99"],
                ["rehearse", "race.json", *QUICK, "-o", "a.pdf", "--weeks", "6", "--race-date", "soon"],
                ["rehearse", "race.json", *QUICK, "-o", "a.pdf", "--ical", "no/x.ics", "--race-date", "2027-06-13"],
                [*plan, "--card", "a.pdf", "--sheet", "no/x.pdf"],
                [*plan, "--card", "a.pdf", "--lp", "no/x.lp"],
                [*plan, "--card", "a.pdf", "--sheet", "b.pdf", "-o", "no/x.txt"],
                ["card", "race.json", *QUICK, "-o", "a.pdf", "--preview", "no/p.svg"],
                ["card", "race.json", *QUICK, "-o", "a.pdf", "--preview", "no/p.png"]):
            done = self.tuck(*command, code=2)
            self.assertEqual(before, self.names(), command)
            self.assertEqual("", done.stdout, command)

    def test_2026_11_an_input_or_another_output_was_overwritten(self):
        text = (self.path / "race.json").read_text()
        for command in (["plan", "race.json", "-o", "race.json"], ["plan", "race.json", "--card", "./race.json"],
                        ["plan", "race.json", "--card", "x.pdf", "--sheet", "./x.pdf"]):
            error = self.tuck(*command, *QUICK, code=2).stderr
            self.assertRegex(error, "is read by this command|to be written twice")
            self.assertEqual(["race.json"], self.names())
            self.assertEqual(text, (self.path / "race.json").read_text())
        for target in ("event.json", "squad.csv"):
            for name in ("event.json", "squad.csv"):
                shutil.copy(SQUAD / name, self.path)
            self.tuck("squad", "squad.csv", "event.json", "--ndjson", target, *QUICK, code=2)
            self.assertEqual((SQUAD / target).read_bytes(), (self.path / target).read_bytes())
        self.tuck("squad", "squad.csv", "event.json", "--out", "da", "--ndjson", "da/cards.csv", *QUICK, code=2)
        self.assertFalse((self.path / "da").exists())

    def test_2026_11_a_device_became_a_plain_file(self):
        self.tuck("squad", SQUAD / "squad.csv", SQUAD / "event.json", "--ndjson", "/dev/full", *QUICK, code=2)
        self.assertFalse(os.path.isfile("/dev/full"))
        os.mkfifo(self.path / "pipe")
        reader = subprocess.Popen(["cat", self.path / "pipe"], stdout=subprocess.PIPE)
        self.addCleanup(reader.kill)
        self.tuck("plan", "race.json", *QUICK, "-o", "pipe")
        self.assertIn(b"ON THE BIKE", reader.communicate(timeout=20)[0])
        self.assertTrue((self.path / "pipe").is_fifo())

    def test_2026_11_modes_are_kept(self):
        self.tuck("card", "race.json", *QUICK)
        os.chmod(self.path / "card.pdf", 0o600)
        self.tuck("card", "race.json", *QUICK)
        self.assertEqual(0o600, (self.path / "card.pdf").stat().st_mode & 0o7777)
        self.tuck("sweat-test", *TEST, "--save", "--diary", "d.jsonl")
        self.assertEqual(0o600, (self.path / "d.jsonl").stat().st_mode & 0o7777)

    def test_2026_11_full_standard_output_is_told_by_every_command(self):
        gpx = next(ROOT.glob("samples/**/*.gpx"))
        self.tuck("sweat-test", *TEST, "--save", "--diary", "d.jsonl")
        before = self.names()
        for command in (["plan", "race.json", "--card", "a.pdf"], ["plan", "race.json", "--json"],
                        ["card", "race.json", "--text"], ["card", "race.json", "--check"], ["card", "race.json"],
                        ["explain", "race.json"], ["foods", "list"], ["foods", "show", "gel_25"], ["foods", "check"],
                        ["course", gpx], ["sweat-test", *TEST, "--save", "--diary", "new.jsonl"], ["model", "list"],
                        ["diary", "list", "--diary", "d.jsonl"], ["diary", "show", "--diary", "d.jsonl"],
                        ["diary", "export", "--diary", "d.jsonl"], ["rehearse", "race.json", "-o", "a.pdf"],
                        ["squad", SQUAD / "squad.csv", SQUAD / "event.json", "--ndjson", "-"],
                        ["--help"], ["plan", "--help"], ["--version"]):
            with open("/dev/full", "w") as full:
                done = subprocess.run([TUCK, *map(str, command)], stdout=full, stderr=subprocess.PIPE, text=True,
                                      cwd=self.path, timeout=120)
            self.assertEqual(2, done.returncode, (command, done.stderr))
            self.assertIn("standard output", done.stderr, command)
            self.assertEqual(before, self.names(), command)

    def test_2026_11_nothing_in_an_option(self):
        for option in ("--diary", "--foods", "--own-foods", "--card", "--sheet", "-o"):
            done = self.tuck("plan", "race.json", *QUICK, option, "", code=2)
            self.assertIn("is empty", done.stderr, option)
        self.assertIn("is empty", self.tuck("plan", "", "--mass=70kg", code=2).stderr)
        self.assertIn("--diary", self.tuck("diary", "list", "--diary=", code=2).stderr)

    def test_2026_11_marks_of_a_missing_file(self):
        session = ["--bike", "150min", "--temperature", "18C", "--diary", "d.jsonl"]
        done = self.tuck("diary", "add", "rehearsal", "--marks", "typo.jsonl", *session, code=2)
        self.assertIn("typo.jsonl", done.stderr)
        self.assertEqual(["race.json"], self.names())
        (self.path / "empty.jsonl").write_text("")
        self.assertIn("holds no session",
                      self.tuck("diary", "add", "rehearsal", "--marks", "empty.jsonl", *session, code=2).stderr)

    def test_2026_11_one_corrupt_line_blocked_the_diary(self):
        for _ in range(3):
            self.tuck("sweat-test", *TEST, "--save", "--diary", "d.jsonl")
        lines = (self.path / "d.jsonl").read_bytes().splitlines(keepends=True)
        lines[1] = b'{"schema":"tuck.di\x1b[31m' + lines[1][12:]
        (self.path / "d.jsonl").write_bytes(b"".join(lines))
        for command in (["diary", "list"], ["diary", "show"], ["diary", "export"], ["plan", "race.json", *QUICK],
                        ["diary", "correct", "3", "--drank", "800ml"]):
            done = self.tuck(*command, "--diary", "d.jsonl")
            self.assertIn("d.jsonl: line 2", done.stderr, command)
            self.assertIn("tuck diary mend", done.stderr, command)
            self.assertNotIn("\x1b", done.stderr)
        self.assertIn("1 lines", self.tuck("diary", "mend", "--diary", "d.jsonl").stdout)
        self.assertEqual(lines[1], (self.path / "d.jsonl.set-aside").read_bytes())
        self.assertEqual("", self.tuck("diary", "list", "--diary", "d.jsonl").stderr)
        self.assertEqual(b"".join([lines[0], lines[2]]), (self.path / "d.jsonl").read_bytes()[:len(lines[0] + lines[2])])

    def test_2026_11_control_characters_never_reach_a_terminal(self):
        event = json.loads((self.path / "race.json").read_text())
        event["\x1b[31mX"] = 1
        event["a\nfake line"] = 1
        (self.path / "e\x1b.json").write_text(json.dumps(event))
        (self.path / "twice.json").write_text('{"\x1bk": 1, "\x1bk": 2}'.replace("\x1b", "\\u001b"))
        (self.path / "r.csv").write_text("name,\x1b[31mmass_kg\nA,1\n")
        (self.path / "s.csv").write_text("name,mass_kg\nA,\x1b[31m7\n")
        for command in (["plan", "e\x1b.json"], ["plan", "no\x1b.json"], ["plan", "twice.json"], ["plan", "--ma\x1bss", "7"],
                        ["pl\x07an"], ["squad", "r.csv", "race.json", "--ndjson", "-"],
                        ["squad", "s.csv", "race.json", "--out", "out"], ["plan", "race.json", "--mass", "7\x1bkg"],
                        ["foods", "show", "\x1b"]):
            done = self.tuck(*command, code=2)
            self.assertNotRegex(done.stderr + done.stdout, "[\x00-\x09\x0b-\x1f\x7f]", command)
            for line in done.stderr.splitlines():
                self.assertTrue(line.startswith("tuck: "), (command, line))
        self.assertNotIn(b"\x1b", (self.path / "out/bad-rows.csv").read_bytes())

    def test_2026_11_many_faults_are_counted(self):
        event = json.loads((self.path / "race.json").read_text())
        event.update({f"key{i}": i for i in range(20000)})
        (self.path / "many.json").write_text(json.dumps(event))
        lines = self.tuck("plan", "many.json", code=2).stderr.splitlines()
        self.assertEqual(51, len(lines))
        self.assertIn("and 19950 more", lines[-1])


class Squads(Place):
    """One folder, one squad at a time, and nothing of a stopped one stays."""

    def big(self, rows):
        path = self.path / "big.csv"
        path.write_text("name,bib,mass_kg\n" + "".join(f"A{i},{i},{50 + i % 40}\n" for i in range(rows)))
        return path

    def start(self, rows=3000):
        return subprocess.Popen([TUCK, "squad", self.big(rows), SQUAD / "event.json", "--out", self.path / "out",
                                 "--private", "--days", "0"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def wait_for_work(self):
        until = time.time() + 30
        while time.time() < until:
            if (self.path / "out/.unfinished").is_dir() and any((self.path / "out/.unfinished").iterdir()):
                return
            time.sleep(0.05)
        self.fail("no work began")

    def test_2026_11_stopped_squads_left_files(self):
        for sign in (signal.SIGINT, signal.SIGTERM):
            squad = self.start()
            self.wait_for_work()
            time.sleep(0.3)
            squad.send_signal(sign)
            squad.communicate(timeout=60)
            self.assertEqual(-sign, squad.returncode)
            self.assertFalse((self.path / "out").exists())

    def test_2026_11_killed_squads_left_files(self):
        squad = self.start()
        self.wait_for_work()
        squad.kill()
        squad.communicate(timeout=60)
        self.assertEqual([".unfinished"], [path.name for path in (self.path / "out").iterdir()])
        self.assertEqual(0o700, (self.path / "out/.unfinished").stat().st_mode & 0o777)
        self.tuck("squad", SQUAD / "squad.csv", SQUAD / "event.json", "--out", "out", *QUICK)
        self.assertEqual(["bad-rows.csv", "cards-001.pdf", "cards.csv", "changed.csv", "kitchen-001.pdf", "summary.csv"],
                         sorted(path.name for path in (self.path / "out").iterdir()))

    def test_2026_11_two_squads_mixed_one_folder(self):
        squad = self.start()
        self.wait_for_work()
        done = self.tuck("squad", SQUAD / "squad.csv", SQUAD / "event.json", "--out", "out", *QUICK, code=2)
        self.assertIn("another tuck squad is at work", done.stderr)
        squad.send_signal(signal.SIGTERM)
        squad.communicate(timeout=60)

    def changed(self, roster):
        (self.path / "r.csv").write_text(roster)
        done = self.tuck("squad", "r.csv", SQUAD / "event.json", "--out", "out", *QUICK)
        with open(self.path / "out/changed.csv", newline="") as file:
            return [(row["row"], row["name"], row["what"]) for row in csv.DictReader(file)], done.stderr

    def test_2026_11_changed_cards_without_bibs(self):
        two = "name,mass_kg\nAnna,60\nAnna,85\nBo,70\n"
        self.changed(two)
        rows, told = self.changed(two)
        self.assertEqual([], rows)
        self.assertIn("no_bib: 1 rows", told)
        self.assertEqual([("3", "Anna", "changed")], self.changed("name,mass_kg\nAnna,60\nAnna,50\nBo,70\n")[0])
        self.assertEqual([("", "Anna", "gone")], self.changed("name,mass_kg\nAnna,60\nBo,70\n")[0])
        shutil.rmtree(self.path / "out")
        nameless = "mass_kg\n60\n85\n70\n"
        self.changed(nameless)
        self.assertEqual([], self.changed(nameless)[0])


class Terminal(unittest.TestCase):
    """tuck rehearse --live on a terminal of its own."""

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.marks = Path(folder.name) / "m.jsonl"

    def live(self, columns):
        pid, fd = pty.fork()
        if pid == 0:
            os.execv(TUCK, [TUCK, "rehearse", str(RACE), "--days", "0", "--live", "--marks", str(self.marks)])
        fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
        self.addCleanup(os.close, fd)
        return pid, fd

    def read(self, fd, seconds, until=None):
        out = b""
        end = time.time() + seconds
        while time.time() < end and not (until and until in out):
            if select.select([fd], [], [], 0.1)[0]:
                try:
                    out += os.read(fd, 65536)
                except OSError:
                    break
        return out

    def kinds(self):
        return [json.loads(line).get("mark") for line in self.marks.read_text().splitlines()[1:]]

    def test_2026_11_keys_were_dead_after_suspend_and_resume(self):
        pid, fd = self.live(80)
        self.read(fd, 20, b"next at")
        for sign in (signal.SIGTSTP, signal.SIGSTOP):
            os.kill(pid, sign)
            os.waitpid(pid, os.WUNTRACED)
            settings = termios.tcgetattr(fd)
            settings[3] |= termios.ICANON | termios.ECHO  # as a shell takes its terminal back
            termios.tcsetattr(fd, termios.TCSANOW, settings)
            os.kill(pid, signal.SIGCONT)
            until = time.time() + 10  # it looks twice a second; a loaded machine takes longer
            while termios.tcgetattr(fd)[3] & termios.ICANON and time.time() < until:
                self.read(fd, 0.2)
            self.assertFalse(termios.tcgetattr(fd)[3] & termios.ICANON)
            os.write(fd, b"t")
            self.read(fd, 1)
        self.assertEqual(["taken", "taken"], self.kinds())
        os.write(fd, b"q")
        self.read(fd, 3)
        self.assertEqual(0, os.waitpid(pid, 0)[1])

    def test_2026_11_the_clock_line_wrapped_on_narrow_terminals(self):
        pid, fd = self.live(30)
        out = self.read(fd, 20, b"next at") + self.read(fd, 2)
        os.write(fd, b"q")
        self.read(fd, 3)
        os.waitpid(pid, 0)
        lines = [re.sub("\r\x1b\\[K", "", part) for part in out.decode().split("\r\x1b[K")[1:]]
        self.assertTrue(lines)
        for line in lines:
            self.assertLess(len(re.sub("\x1b\\[[0-9]+A", "", line).strip("\r\n\a")), 30)


if __name__ == "__main__":
    sys.exit(unittest.main())
