#!/usr/bin/python3
"""A squad from its roster to its files: contract of `tuck squad`. CSV is read back with Python's csv module."""
import csv
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
SQUAD = Path(os.environ["TUCK_ROOT"]) / "samples" / "squad"
ROSTER, EVENT = SQUAD / "squad.csv", SQUAD / "event.json"


def run(*command, **more):
    return subprocess.run([str(part) for part in command], capture_output=True, text=True, **more)


def rows(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


class Squad(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = Path(folder.name)
        self.out = self.folder / "out"

    def squad(self, roster, *options, code=0, days=300):
        done = run(TUCK, "squad", roster, EVENT, "--out", self.out, "--days", days, *options)
        self.assertEqual(code, done.returncode, done.stderr)
        return done

    def roster(self, text):
        path = self.folder / "roster.csv"
        path.write_bytes(text.encode("utf-8"))
        return path

    def test_cards_in_roster_order(self):
        done = self.squad(ROSTER)
        self.assertEqual("", done.stderr)  # no progress line where there is no terminal
        check = run("qpdf", "--check", self.out / "cards-001.pdf")
        self.assertEqual(0, check.returncode, check.stdout + check.stderr)
        text = run("pdftotext", "-raw", self.out / "cards-001.pdf", "-").stdout
        names = [row["name"] for row in rows(ROSTER)]
        flat = " ".join(text.split())
        places = [flat.find(name.split(",")[0]) for name in names]
        self.assertNotIn(-1, places)
        self.assertEqual(sorted(places), places)
        self.assertIn("No painkillers", flat)

    def test_summary_puts_over_drinking_first_and_keeps_private_things(self):
        self.squad(ROSTER)
        summary = rows(self.out / "summary.csv")
        self.assertEqual(12, len(summary))
        chances = [float(row["over_drinking_days_in_100"]) for row in summary]
        self.assertEqual(sorted(chances, reverse=True), chances)
        self.assertTrue(any("sweat test" in row["missing"] for row in summary))
        head = ",".join(summary[0])
        self.assertNotRegex(head, r"mass|health|\bage")
        self.squad(ROSTER, "--private")
        self.assertIn("mass_kg", rows(self.out / "summary.csv")[0])

    def test_bytes_do_not_depend_on_threads(self):
        self.squad(ROSTER, "--threads", "1", "--sheets", "--ndjson", self.folder / "one.ndjson")
        one = {path.name: path.read_bytes() for path in sorted(self.out.iterdir())}
        self.out = self.folder / "again"
        self.squad(ROSTER, "--threads", "3", "--sheets", "--ndjson", self.folder / "three.ndjson")
        three = {path.name: path.read_bytes() for path in sorted(self.out.iterdir())}
        self.assertEqual(one, three)
        self.assertIn("sheets-001.pdf", one)
        self.assertEqual((self.folder / "one.ndjson").read_bytes(), (self.folder / "three.ndjson").read_bytes())

    def test_bad_rows_are_named_and_do_not_stop_the_others(self):
        roster = self.roster("name,bib,mass_kg,level\nAnn,1,60,keen\nBea,2,6000,keen\nCid,3,70,kene\n"
                             "Dot,4\nEli,5,\"80\",fast\n")
        done = self.squad(roster, code=2)
        self.assertIn("row 3, column mass_kg", done.stderr)
        self.assertIn("row 4, column level", done.stderr)
        self.assertIn("row 5: has 2 cells", done.stderr)
        bad = rows(self.out / "bad-rows.csv")
        self.assertEqual(3, len(bad))
        self.assertEqual({"Ann", "Eli"}, {row["name"] for row in rows(self.out / "summary.csv")})

    def test_a_name_that_cannot_be_printed_is_a_bad_row(self):
        done = self.squad(self.roster("name,mass_kg\n東京,60\nAnn,60\n"), code=2)
        self.assertRegex(done.stderr, r"row 2: athlete name: .*U\+6771")
        self.assertEqual(1, len(rows(self.out / "summary.csv")))

    def test_changed_cards_are_listed(self):
        first = "name,bib,mass_kg,level\nAnn,1,60,keen\nBea,2,60,keen\nCid,3,70,fast\n"
        self.squad(self.roster(first))
        self.assertEqual([], rows(self.out / "changed.csv"))
        self.squad(self.roster(first))
        self.assertEqual([], rows(self.out / "changed.csv"))
        second = "name,bib,mass_kg,level\nAnn,1,60,keen\nBea,2,60,beginner\nDot,4,70,fast\n"
        self.squad(self.roster(second))
        changes = {row["name"]: row["what"] for row in rows(self.out / "changed.csv")}
        self.assertEqual({"Bea": "changed", "Dot": "new", "Cid": "gone"}, changes)

    def test_ndjson_is_a_pure_filter(self):
        with open(ROSTER, "rb") as roster:
            done = subprocess.run([TUCK, "squad", "-", EVENT, "--days", "300", "--ndjson", "-"], stdin=roster,
                                  capture_output=True)
        self.assertEqual(0, done.returncode, done.stderr)
        plans = [json.loads(line) for line in done.stdout.decode().splitlines()]
        self.assertEqual(12, len(plans))
        self.assertEqual("Ada Birch", plans[0]["athlete"])
        self.assertTrue(all(plan["schema"] == "tuck.plan/1" for plan in plans))
        self.assertIn(b"12 athletes", done.stderr)

    def test_a_roster_cut_into_pieces_gives_the_same_bytes(self):
        """A season on many machines: GNU parallel (Debian) cuts the rows; any engine that pipes records does as well."""
        whole = run(TUCK, "squad", "-", EVENT, "--ndjson", "-", "--days", 0, input=ROSTER.read_text()).stdout
        self.assertEqual(12, whole.count("\n"))
        for rows_each in (1, 5):
            pieces = run("parallel", "--header", ":", "--pipe", "-k", "-N", rows_each, "-j2",
                         f"'{TUCK}' squad - '{EVENT}' --ndjson - --days 0", input=ROSTER.read_text())
            self.assertEqual(0, pieces.returncode, pieces.stderr)
            self.assertEqual(whole, pieces.stdout)

    def test_one_athlete_is_planned_as_alone(self):
        done = run(TUCK, "squad", self.roster("name,mass_kg,level\nAnn,60,keen\n"), EVENT, "--days", "300",
                   "--ndjson", "-")
        alone = run(TUCK, "plan", EVENT, "--days", "300", "--name", "Ann", "--mass", "60kg", "--level", "keen",
                    "--json")
        plan = json.loads(done.stdout)
        self.assertEqual({"bib": "", "name": "Ann", "row": 2}, plan.pop("squad"))
        self.assertEqual(json.loads(alone.stdout), plan)

    def test_volumes(self):
        lines = "".join(f"A{i},{i},{60 + i % 20}\n" for i in range(501))
        self.squad(self.roster("name,bib,mass_kg\n" + lines), days=0)
        text = run("pdftotext", "-raw", self.out / "cards-002.pdf", "-").stdout
        self.assertIn("A500", text)
        self.assertNotIn("A499", text)
        self.squad(self.roster("name,bib,mass_kg\nAnn,1,60\n"))
        self.assertFalse((self.out / "cards-002.pdf").exists())

    def test_what_is_wrong_with_the_whole_writes_nothing(self):
        for roster, event, words in (
                (self.roster("name,mas_kg\nAnn,60\n"), EVENT, 'did you mean "mass_kg"'),
                (self.folder / "none.csv", EVENT, "cannot be read"),
                (ROSTER, self.folder / "none.json", "cannot be read")):
            done = run(TUCK, "squad", roster, event, "--out", self.out)
            self.assertEqual(2, done.returncode)
            self.assertIn(words, done.stderr)
            self.assertFalse(self.out.exists())
        done = run(TUCK, "squad", ROSTER, EVENT)
        self.assertEqual(2, done.returncode)
        self.assertIn("--out", done.stderr)

    def test_no_temporary_file_stays(self):
        self.squad(ROSTER)
        self.assertEqual([], [p.name for p in self.out.iterdir() if re.search(r"tmp|unsorted", p.name)])


if __name__ == "__main__":
    sys.exit(unittest.main())
