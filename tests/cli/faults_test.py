#!/usr/bin/python3
"""What is left when the machine fails: kill -9 at seeded random moments in every command that writes, disks that are full or may
not be written, two at once, links, clocks that jump, lines that rotted. Outputs are whole or as they were; what was said to be
saved is there; what is damaged is told with its line and the rest is read. The judges are the bytes of a run left alone."""
import ctypes
import json
import os
import pty
import random
import re
import resource
import select
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
EVENT = SAMPLES / "hot-standard.json"
SQUAD = [SAMPLES / "squad/squad.csv", SAMPLES / "squad/event.json"]
QUICK = ["--days", "0"]
TEST = ["--before", "71.42kg", "--after", "70.31kg", "--drank", "750ml", "--minutes", "90", "--temperature", "24C", "--date",
        "2027-05-01"]
GEL = ["--name", "Gel", "--form", "gel", "--per", "serving", "--serving", "40g", "--carbohydrate", "25g", "--sugars", "10g",
       "--salt", "0.1g",
       "--energy", "420kJ", "--fat", "0g", "--protein", "0g"]
AS_IT_WAS = b"what stood here before\n"

# Every command that writes files of its own, and whether it writes over what it wrote before.
WRITERS = {
    "new": (["new", "race.json", "--distance", "sprint", "--mass", "60kg", "--temperature", "20C", "--yes"], False),
    "plan": (["plan", EVENT, *QUICK, "--card", "c.pdf", "--sheet", "s.pdf", "--lp", "p.lp", "-o", "p.txt"], True),
    "card": (["card", EVENT, *QUICK, "-o", "c.pdf", "--preview", "c.svg"], True),
    "rehearse": (["rehearse", EVENT, *QUICK, "-o", "r.pdf", "--weeks", "3", "--race-date", "2027-06-13", "--ical", "r.ics"], True),
    "squad": (["squad", *SQUAD, *QUICK, "--out", "out", "--ndjson", "plans.ndjson"], True),
    "foods": (["foods", "add", "--file", "mine.json", "--id", "g", *GEL], False),
}


class Faults(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        self.random = random.Random(20270613)

    def start(self, *arguments, where=None, **more):
        return subprocess.Popen([TUCK, *map(str, arguments)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=where or self.path,
                                env={**os.environ, "XDG_CONFIG_HOME": str(self.path / "config")}, **more)

    def tuck(self, *arguments, code=0, **more):
        child = self.start(*arguments, **more)
        out, error = child.communicate(timeout=120)
        self.assertEqual(code, child.returncode, (arguments, out[-300:], error[-600:]))
        return out.decode(), error.decode()

    def files(self, where):
        return {str(path.relative_to(where)): path.read_bytes() for path in sorted(where.rglob("*")) if path.is_file()}

    def left_alone(self, name):
        """The files of a run that nothing disturbs, those of a second one over them, and the seconds of one."""
        where = self.path / f"{name}-alone"
        where.mkdir()
        arguments, again = WRITERS[name]
        begun = time.monotonic()
        self.tuck(*arguments, where=where)
        seconds, first = time.monotonic() - begun, self.files(where)
        if again:
            self.tuck(*arguments, where=where)
        return first, self.files(where), seconds

    def place(self, where, files):
        where.mkdir(exist_ok=True)
        for name, content in files.items():
            (where / name).parent.mkdir(exist_ok=True)
            (where / name).write_bytes(content)

    # kill -9

    def killed(self, arguments, where, seconds):
        """Half of the moments anywhere, half near the end, where files come to stand."""
        wait = self.random.uniform(0, 1.1) if self.random.random() < 0.5 else self.random.uniform(0.75, 1.05)
        child = self.start(*arguments, where=where)
        time.sleep(wait * seconds)
        child.kill()
        out, _ = child.communicate(timeout=60)
        return out.decode(), child.returncode

    def test_killed_writers(self):
        said_and_whole = 0
        for name, (arguments, again) in WRITERS.items():
            first, second, seconds = self.left_alone(name)
            for attempt in range(14):
                where = self.path / f"{name}-{attempt}"
                over = again and attempt % 2
                # A squad reads its last run; what others write over may be anything.
                before = {} if not over else first if name == "squad" else {file: AS_IT_WAS for file in first}
                wanted = second if over and name == "squad" else first
                self.place(where, before)
                said, _ = self.killed(arguments, where, seconds)
                left = self.files(where)
                for file in wanted:
                    self.assertIn(left.get(file), (before.get(file), wanted[file]), (name, attempt, file))
                for file in set(left) - set(wanted):
                    self.assertRegex(file, r"\.\d+\.tmp$|\.unfinished/", (name, attempt))
                if said.strip():  # what was said stands
                    said_and_whole += 1
                    for file in wanted:
                        self.assertEqual(wanted[file], left.get(file), (name, attempt, file))
                if again and not over and name != "squad":  # the next run is as if nothing had been
                    self.tuck(*arguments, where=where)
                    self.assertEqual(first, {file: each for file, each in self.files(where).items() if file in first}, name)
        self.assertGreater(said_and_whole, 5)

    def logs(self):
        """Every command that adds to a diary or changes one, with what it says when it has."""
        diary = ["--diary", "d.jsonl"]
        return {
            "sweat-test": (["sweat-test", *TEST, "--save", *diary], "Saved as line"),
            "add": (["diary", "add", "sweat-test", *TEST, *diary], "Saved as line"),
            "rehearsal": (["diary", "add", "rehearsal", "--bike", "150min", "--bike-carb", "120g", "--temperature", "18C", "--date",
                           "2027-05-02", *diary], "Saved as line"),
            "race": (["diary", "add", "race", EVENT, "--bike-took", "1:21:00", "--date", "2027-05-03", *QUICK, *diary], "Saved as line"),
            "correct": (["diary", "correct", "1", "--drank", "800ml", *diary], "Saved as line"),
            "import": (["diary", "import", "other.jsonl", *diary], "lines added"),
        }

    def lines(self, name="d.jsonl"):
        path = self.path / name
        return path.read_bytes().splitlines() if path.exists() else []

    def test_killed_diaries(self):
        diary = ["--diary", "d.jsonl"]
        for n in range(3):
            self.tuck("sweat-test", *TEST, "--note", n, "--save", "--diary", "other.jsonl")
        self.tuck("sweat-test", *TEST, "--save", *diary)
        for name, (arguments, said) in self.logs().items():
            begun = time.monotonic()
            self.tuck("diary", "list", *diary)
            seconds = 2 * (time.monotonic() - begun)
            for attempt in range(12):
                before = self.lines()
                out, _ = self.killed(arguments, self.path, seconds)
                after = self.lines()
                self.assertEqual(before, after[:len(before)], (name, attempt))
                if said in out and "0 of" not in out:
                    self.assertGreater(len(after), len(before), (name, attempt, out))
                listed, error = self.tuck("diary", "list", *diary)
                self.assertNotIn("cannot be read", error)
        ids = [json.loads(line)["id"] for line in self.lines() if line]
        self.assertEqual(sorted(set(ids)), ids)

    def test_killed_mending(self):
        """All lines are in one of the two files, whenever mending dies."""
        for attempt in range(12):
            for n in range(4):
                self.tuck("sweat-test", *TEST, "--note", n, "--save", "--diary", "d.jsonl")
            lines = self.lines()
            lines[2] = b"{rotten" + lines[2]
            (self.path / "d.jsonl").write_bytes(b"\n".join(lines) + b"\n")
            self.killed(["diary", "mend", "--diary", "d.jsonl"], self.path, 0.02)
            self.assertLessEqual(set(lines), set(self.lines() + self.lines("d.jsonl.set-aside")), attempt)
            for name in self.path.iterdir():
                if name.is_file():
                    name.unlink()

    def live(self, marks, keys, killed=False):
        """tuck rehearse --live on a terminal of its own; keys are given one by one, each once its mark is asked for."""
        pid, fd = pty.fork()
        if pid == 0:
            os.chdir(self.path)
            os.execv(TUCK, [TUCK, "rehearse", str(EVENT), *QUICK, "--live", "--marks", str(marks)])
        shown = b""
        until = time.time() + 20
        while b"next at" not in shown and b"no more" not in shown and b"NOW" not in shown and time.time() < until:
            if select.select([fd], [], [], 0.1)[0]:
                try:
                    shown += os.read(fd, 65536)
                except OSError:
                    break
        for key in keys:
            count = len(self.lines(marks))
            os.write(fd, key)
            until = time.time() + 5
            while key != b"q" and len(self.lines(marks)) == count and time.time() < until:
                time.sleep(0.01)
        if killed:
            os.kill(pid, signal.SIGKILL)
        status = 0
        until = time.time() + 10
        while time.time() < until:  # a terminal that nobody reads would hold it up
            if select.select([fd], [], [], 0.02)[0]:
                try:
                    shown += os.read(fd, 65536)
                except OSError:
                    pass
            done, status = os.waitpid(pid, os.WNOHANG)
            if done:
                break
        os.close(fd)
        return shown.decode("utf-8", "replace"), status

    def test_a_session_that_is_killed_goes_on(self):
        self.live("m.jsonl", [b"t", b"s"], killed=True)
        kinds = [json.loads(line).get("mark") for line in self.lines("m.jsonl")]
        self.assertEqual([None, "taken", "skipped"], kinds)
        shown, status = self.live("m.jsonl", [b"h", b"q"])
        self.assertEqual(0, status, shown)
        self.assertEqual([None, "taken", "skipped", "half"], [json.loads(line).get("mark") for line in self.lines("m.jsonl")])

    # clocks

    def test_clocks_that_jump(self):
        """A session from the future (the clock was set back) and one of 1970 (a dead battery): both go on, no mark is lost."""
        self.live("m.jsonl", [b"t", b"q"])
        first, *rest = self.lines("m.jsonl")
        for start in (1, int(time.time()) + 86400 * 400, int(time.time()) - 86400 * 4000):
            session = {**json.loads(first), "start_unix_s": start}
            (self.path / "j.jsonl").write_bytes(b"\n".join([json.dumps(session).encode(), *rest]) + b"\n")
            shown, status = self.live("j.jsonl", [b"t", b"q"])
            self.assertEqual(0, status, shown)
            self.assertEqual(["taken", "taken"], [json.loads(line)["mark"] for line in self.lines("j.jsonl")[1:]])
        for date in ("1970-01-01", "2099-12-31", "2027-05-01"):
            self.tuck("sweat-test", *TEST[:-1], date, "--save", "--diary", "d.jsonl")
        self.assertEqual([1, 2, 3], [json.loads(line)["id"] for line in self.lines()])
        for command in ("list", "show", "export"):
            self.tuck("diary", command, "--diary", "d.jsonl")
        self.tuck("plan", EVENT, *QUICK, "--diary", "d.jsonl")

    # disks

    def test_files_that_may_not_grow(self):
        """A full disk: at the first byte, inside a file, at its end. Nothing of it stays, and what stood there stands."""
        for name, (arguments, again) in WRITERS.items():
            wanted, _, _ = self.left_alone(name)
            largest = max(map(len, wanted.values()))
            for limit in (0, 1, self.random.randrange(1, largest), largest - 1):
                where = self.path / f"{name}-{limit}"
                before = {file: AS_IT_WAS for file in wanted} if again and name != "squad" else {}
                self.place(where, before)
                out, error = self.tuck(*arguments, where=where, code=2,
                                       preexec_fn=lambda most=limit: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most)))
                self.assertRegex(error, "cannot be written", (name, limit))
                self.assertEqual("", out, (name, limit))
                self.assertEqual(before, self.files(where), (name, limit))

    def test_a_diary_that_may_not_grow(self):
        self.tuck("sweat-test", *TEST, "--save", "--diary", "d.jsonl")
        self.tuck("sweat-test", *TEST, "--save", "--diary", "other.jsonl")
        before = (self.path / "d.jsonl").read_bytes()
        for name, (arguments, _) in self.logs().items():
            if name == "import":
                continue  # what it would add is there already
            for more in (0, 1, 40):
                most = len(before) + more
                out, error = self.tuck(*arguments, code=2,
                                       preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most, most)))
                self.assertIn("cannot be written", error)
                self.assertEqual("", out)
                self.assertEqual(before, (self.path / "d.jsonl").read_bytes(), (name, more))

    @staticmethod
    def without_rights():
        """Root as anybody: folders that may not be written may not be written (PR_CAPBSET_DROP, CAP_DAC_OVERRIDE)."""
        if os.geteuid() == 0:
            ctypes.CDLL(None).prctl(24, 1, 0, 0, 0)

    def test_folders_that_may_not_be_written(self):
        for name, (arguments, _) in WRITERS.items():
            where = self.path / f"{name}-read-only"
            where.mkdir()
            where.chmod(0o555)
            out, error = self.tuck(*arguments, where=where, code=2, preexec_fn=self.without_rights)
            self.assertRegex(error, "cannot be (written|made).*Permission denied|cannot be made", name)
            self.assertEqual({}, self.files(where), name)
            where.chmod(0o755)
        self.tuck("sweat-test", *TEST, "--save", "--diary", "d.jsonl")
        before = (self.path / "d.jsonl").read_bytes()
        (self.path / "d.jsonl").chmod(0o444)
        for name, (arguments, _) in self.logs().items():
            if name != "import":
                _, error = self.tuck(*arguments, code=2, preexec_fn=self.without_rights)
                self.assertIn("cannot be written", error, name)
        self.assertEqual(before, (self.path / "d.jsonl").read_bytes())

    # two at once

    def test_two_at_once(self):
        masses = (55, 60, 65, 70, 75, 80)
        wanted = set()
        for mass in masses:
            self.tuck("card", EVENT, *QUICK, "--mass", f"{mass}kg", "-o", f"{mass}.pdf")
            wanted.add((self.path / f"{mass}.pdf").read_bytes())
        children = [self.start("card", EVENT, *QUICK, "--mass", f"{mass}kg", "-o", "one.pdf") for mass in masses]
        for child in children:
            child.communicate(timeout=60)
            self.assertEqual(0, child.returncode)
        self.assertIn((self.path / "one.pdf").read_bytes(), wanted)
        foods = [self.start("foods", "add", "--file", "mine.json", "--id", f"g{n}", *GEL) for n in range(8)]
        for child in foods:
            _, error = child.communicate(timeout=60)
            self.assertEqual(0, child.returncode, error)
        kept = {food["id"] for food in json.loads((self.path / "mine.json").read_text())["foods"]}
        self.assertEqual({f"g{n}" for n in range(8)}, kept)
        self.assertEqual([], [path.name for path in self.path.iterdir() if path.name.endswith(".tmp")])

    # places

    def test_links_stay_links(self):
        (self.path / "real.pdf").write_bytes(AS_IT_WAS)
        os.symlink("real.pdf", self.path / "link.pdf")
        self.tuck("card", EVENT, *QUICK, "-o", "link.pdf")
        self.assertTrue((self.path / "link.pdf").is_symlink())
        self.assertTrue((self.path / "real.pdf").read_bytes().startswith(b"%PDF"))
        os.symlink("nowhere.pdf", self.path / "lost.pdf")
        _, error = self.tuck("card", EVENT, *QUICK, "-o", "lost.pdf", code=2)
        self.assertIn("a link that leads nowhere", error)
        self.assertEqual("nowhere.pdf", os.readlink(self.path / "lost.pdf"))
        for option in ("--diary",):
            os.mkfifo(self.path / "pipe")
            _, error = self.tuck("sweat-test", *TEST, "--save", option, "pipe", code=2)
            self.assertIn("not a regular file", error)
            _, error = self.tuck("sweat-test", *TEST, "--save", option, "/dev/null", code=2)
            self.assertIn("not a regular file", error)

    # lines that rotted

    def rotten(self, line):
        """One byte otherwise, a piece gone, or zeros: what a disk does."""
        at = self.random.randrange(len(line))
        kind = self.random.randrange(3)
        if kind == 0:
            return line[:at] + bytes([line[at] ^ (1 << self.random.randrange(8))]) + line[at + 1:]
        if kind == 1:
            return line[:at]
        return line[:at] + b"\0" * self.random.randrange(1, 40) + line[at + 1:]

    def test_rotten_lines_of_a_diary(self):
        for n in range(6):
            self.tuck("sweat-test", *TEST, "--note", f"note {n} of six", "--save", "--diary", "good.jsonl")
        good = self.lines("good.jsonl")
        told = 0
        for attempt in range(60):
            place = self.random.randrange(1, 5)
            bad = self.rotten(good[place]).replace(b"\n", b" ")
            (self.path / "d.jsonl").write_bytes(b"\n".join([*good[:place], bad, *good[place + 1:]]) + b"\n")
            listed, error = self.tuck("diary", "list", "--diary", "d.jsonl")
            exported, _ = self.tuck("diary", "export", "--diary", "d.jsonl")
            for other in set(range(6)) - {place}:
                self.assertIn(f"note {other} of six", exported, (attempt, bad))
            if f"line {place + 1}" in error:
                told += 1
                self.assertNotRegex(error, "[\x00-\x08\x0b-\x1f]")
        self.assertGreater(told, 40)

    def test_rotten_lines_of_marks(self):
        self.live("good.jsonl", [b"t", b"t", b"t", b"q"])
        good = self.lines("good.jsonl")
        self.assertEqual(4, len(good))
        session = ["diary", "add", "rehearsal", "--temperature", "18C", "--date", "2027-05-02", "--diary", "d.jsonl", "--marks", "m.jsonl"]

        def taken():
            return json.loads(self.lines()[-1])["feeds_taken"]

        (self.path / "m.jsonl").write_bytes(b"\n".join(good) + b"\n")
        self.tuck(*session)
        self.assertEqual(3, taken())
        told = 0
        for attempt in range(40):
            bad = self.rotten(good[2]).replace(b"\n", b" ")
            (self.path / "m.jsonl").write_bytes(b"\n".join([good[0], good[1], bad, good[3]]) + b"\n")
            _, error = self.tuck(*session)
            self.assertGreaterEqual(taken(), 2, (attempt, bad))
            if "line 3" in error:
                told += 1
                self.assertEqual(2, taken(), (attempt, bad))
                self.assertIn("does not count", error)
                self.assertNotRegex(error, "[\x00-\x08\x0b-\x1f]")
        self.assertGreater(told, 20)
        (self.path / "m.jsonl").write_bytes(b"\n".join([good[0][:-30], *good[1:]]) + b"\n")
        _, error = self.tuck(*session, code=2)  # no mark means anything without its session
        self.assertIn("line 1", error)


if __name__ == "__main__":
    sys.exit(unittest.main())
