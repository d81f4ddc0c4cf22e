#!/usr/bin/python3
"""README: its commands run as they stand, on the samples."""
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
README = (ROOT / "README.md").read_text()
RACE = json.loads((ROOT / "samples/hot-standard.json").read_text())


def commands():
    """Indented lines that begin with the program, continued lines joined, remarks behind wide gaps left out."""
    text = README.replace("\\\n", " ")
    for line in text.splitlines():
        found = re.match(r" {4}(?:\S*/)?tuck (.*)", line)
        if found:
            yield re.split(r" {3,}(?=\S)", re.sub(r" {2,}(?=--)", " ", found.group(1)))[0].strip()


class Readme(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)
        race = {**RACE, "athlete": json.loads((ROOT / "samples" / RACE["athlete"]).read_text())}
        for name in ("race.json", "EVENT.json"):
            (self.path / name).write_text(json.dumps(race))
        shutil.copy(ROOT / "samples/squad/squad.csv", self.path)
        shutil.copy(ROOT / "samples/squad/event.json", self.path)
        session = {"schema": "tuck.marks/1", "start_unix_s": 1800000000, "bike_min": 150, "run_min": 20, "feeds": []}
        (self.path / "today.jsonl").write_text(json.dumps(session) + "\n")

    def test_every_command_runs(self):
        ran = list(commands())
        self.assertGreater(len(ran), 7, ran)
        for command in ran:
            quick = [] if command.split()[0] in ("sweat-test", "diary", "new") else ["--days", "0"]
            command, _, output = command.partition(" > ")
            done = subprocess.run([TUCK, *shlex.split(command), *quick], cwd=self.path, capture_output=True, text=True,
                                  timeout=120)
            if output:
                (self.path / output).write_text(done.stdout)
            self.assertEqual(0, done.returncode, (command, done.stderr))

    def test_options_that_are_named_exist(self):
        known = ""
        for command in ("", "plan", "card", "squad", "explain", "course", "foods add", "model run", "sweat-test",
                        "diary add rehearsal", "diary add race", "rehearse", "new"):
            known += subprocess.run([TUCK, *command.split(), "--help"], capture_output=True, text=True).stdout
        for option in set(re.findall(r"`(?:tuck [^`]*)?(--[a-z-]+)", README)):
            self.assertIn(option, known)


if __name__ == "__main__":
    sys.exit(unittest.main())
