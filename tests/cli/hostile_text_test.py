#!/usr/bin/python3
"""Hostile text at every door, looked for on every face: a name is text, whatever stands in it. One table of texts, one of doors;
a text is refused with its place (exit 2) or taken, and then no terminal, table, page, picture, calendar or PDF reads it as anything
else. Judges: Python's csv, json, html.parser and ElementTree, qpdf and poppler (Debian)."""
import csv
import html.parser
import io
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path
from xml.etree import ElementTree

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
LINE = ["--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--days", "0"]

# Unicode 15: C0, DEL and C1 controls (chapter 23.1), line and paragraph separators, embeddings, overrides and isolates (UAX #9).
REFUSED = {
    "escape": "\x1b[31mred\x1b[0m", "bell": "ring\x07", "back": "Anna\b\b\b\bEve", "return": "good\rbad", "line": "one\ntwo",
    "null": "a\0b", "delete": "a\x7f", "csi": "a\x9b31m", "next line": "a\x85b", "separator": "a\u2028b\u2029c",
    "override": "a\u202egpj.exe", "isolate": "\u2066a\u2069", "embedding": "\u202ba\u202c",
}
# Text that some reader takes for more than text.
TAKEN = {
    "markup": "<script>alert(1)</script>", "attribute": "\"><img src=x onerror=alert(1)>", "entity": "&lt;b&gt; &#x1b; &amp;",
    "cdata": "]]><x/><!-- -->", "sum": "=1+1", "plus": "+1+1", "minus": "-2+3", "at": "@SUM(A1:A9)", "link": "=HYPERLINK(\"http://x\")",
    "pdf": ") Tj ET << /JS (x) >> endstream", "shell": "$(reboot) `reboot` ; reboot | reboot & %s %n {} {0}", "comma": "a,b;c\"d'e",
    "calendar": "x;BEGIN:VEVENT\\nEND:VCALENDAR:y", "json": "\",\"fuelling_needed\":true,\"", "path": "../../../etc/passwd",
}
UNPRINTABLE = {"emoji": "\U0001f3ca swim", "combining": "e" + "\u0301" * 300, "han": "\u6e38\u6cf3", "long": "A" * 100_000,
               "long words": "word " * 20_000, "wide": "W" * 400, "zero width": "a\u200bb\ufeffc"}
ALL = {**REFUSED, **TAKEN, **UNPRINTABLE}

NEVER = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


class Tags(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.seen = set()

    def handle_starttag(self, tag, attrs):
        self.seen |= {tag} | {f"{tag} {name}" for name, _ in attrs}


def tags(text):
    reader = Tags()
    reader.feed(text)
    return reader.seen


class HostileText(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.path = Path(folder.name)

    def tuck(self, *arguments, codes=(0, 1, 2), stdin=None):
        done = subprocess.run([TUCK, *[a if isinstance(a, bytes) else str(a) for a in arguments]], capture_output=True, timeout=60,
                              cwd=self.path, input=stdin, env={**os.environ, "XDG_CONFIG_HOME": str(self.path / "config")})
        said = str(arguments)[:300]
        self.assertIn(done.returncode, codes, (said, done.stderr[-500:]))
        error = done.stderr.decode("utf-8", "strict")
        self.assertIsNone(NEVER.search(error), (said, error[-500:]))
        for line in error.splitlines():
            self.assertLess(len(line), 2000, (said, line[:200]))
        return done.returncode, done.stdout, error

    # faces

    def clean(self, text, said):
        found = NEVER.search(text)
        self.assertIsNone(found, (said, found and text[max(0, found.start() - 60):found.end() + 60]))

    def look(self, said):
        """Every file that stands in the folder now, by its kind."""
        for path in sorted(self.path.rglob("*")):
            if path.is_file():
                kind = path.suffix.lstrip(".")
                getattr(self, f"look_{kind}", self.look_txt)(path.read_bytes(), (*said, path.name))

    def look_txt(self, data, said):
        self.clean(data.decode().replace("\r\n", "\n"), said)

    def look_json(self, data, said):
        json.loads(data)
        self.clean(data.decode(), said)

    def look_ndjson(self, data, said):
        for line in data.splitlines():
            self.look_json(line, said)

    look_jsonl = look_ndjson

    def look_csv(self, data, said):
        text = data.decode()
        self.clean(text.replace("\r\n", "\n"), said)
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        self.assertEqual(1, len({len(row) for row in rows}), said)
        for row in rows:
            for cell in row:
                for part in re.split("[;\t]", cell):  # a spreadsheet may part at these as well
                    if not re.fullmatch(r"-?\d+(\.\d+)?", part):
                        self.assertNotRegex(part, r"^[ \"]*[=+\-@]", said)

    def look_pdf(self, data, said):
        path = self.path / "look.pdf-"
        path.write_bytes(data)
        listed = subprocess.run(["qpdf", "--json=2", "--json-stream-data=none", path], capture_output=True)
        self.assertEqual((0, b""), (listed.returncode, listed.stderr), said)
        names = set()

        def walk(node):  # strings begin with u: or b:, names with a slash
            if isinstance(node, dict):
                for key, value in node.items():
                    names.add(key)
                    walk(value)
            elif isinstance(node, list):
                for value in node:
                    walk(value)
            else:
                names.add(node)

        walk(json.loads(listed.stdout)["qpdf"][1])
        self.assertEqual(set(), names & {"/JavaScript", "/JS", "/Launch", "/OpenAction", "/AA", "/URI", "/EmbeddedFile", "/Annots"}, said)
        self.assertIn("/Catalog", names, said)
        text = subprocess.run(["pdftotext", path, "-"], capture_output=True)
        self.assertEqual(b"", text.stderr, said)
        self.clean(text.stdout.decode().replace("\f", ""), said)
        path.unlink()

    def look_svg(self, data, said):
        self.clean(data.decode(), said)
        for element in ElementTree.fromstring(data).iter():
            self.assertIn(element.tag.split("}")[1], ("svg", "title", "rect", "path", "line", "text", "polyline", "polygon", "g", "desc"), said)
            for name in element.attrib:
                self.assertFalse(name.startswith("on") or "href" in name, said)

    def look_html(self, data, said):
        text = data.decode()
        self.clean(text, said)
        self.assertLessEqual(tags(text), self.benign_tags(), said)

    benign = None

    def benign_tags(self):
        if HostileText.benign is None:
            with tempfile.TemporaryDirectory() as folder:
                event = self.event("Plain Race", folder)
                subprocess.run([TUCK, "plan", event, "--days", "0", "--sheet", f"{folder}/s.html"], check=True, capture_output=True)
                HostileText.benign = tags(Path(folder, "s.html").read_text())
        return HostileText.benign

    def look_ics(self, data, said):
        text = data.decode()
        self.clean(text.replace("\r\n", "\n"), said)
        lines = text.replace("\r\n ", "").split("\r\n")
        self.assertEqual(lines.count("BEGIN:VEVENT"), lines.count("END:VEVENT"), said)
        self.assertEqual(1, lines.count("END:VCALENDAR"), said)
        self.assertNotIn("\n", text.replace("\r\n", ""), said)
        for line in lines:  # RFC 5545, 3.1: a name, then parameters, then a value
            self.assertRegex(line, r"^$|^[A-Z-]+[:;]", said)

    look_lp = look_txt

    # doors

    def event(self, text, folder=None, **more):
        event = {"schema": "tuck.event/1", "name": text, "distance": "middle", "date": "2027-06-13", "weather": {"temperature_c": 24},
                 "athlete": {"name": text, "mass_kg": 70, **more.pop("athlete", {})}, "days": 0, **more}
        path = Path(folder or self.path) / "event.json"
        path.write_text(json.dumps(event), encoding="utf-8")
        return path

    def each(self, texts=None):
        for name, text in (texts or ALL).items():
            yield name, text
            for path in sorted(self.path.rglob("*"), reverse=True):
                path.unlink() if path.is_file() or path.is_symlink() else path.rmdir()

    def test_names_of_race_and_athlete(self):
        taken = set()
        for name, text in self.each():
            event = self.event(text, wave=text[:12], athlete={"bib": text[:8]})
            code, out, _ = self.tuck("plan", event, "--days", "0")
            self.look_txt(out, (name, "plan"))
            code, out, _ = self.tuck("plan", event, "--days", "0", "--json")
            if out:
                self.look_json(out, (name, "plan --json"))
                taken.add(name)
            for more in (["plan", event, "--days", "0", "--card", "c.pdf", "--sheet", "s.pdf", "--lp", "p.lp", "-o", "p.txt"],
                         ["plan", event, "--days", "0", "--sheet", "s.html"], ["plan", event, "--days", "0", "--sheet", "s.txt"],
                         ["card", event, "--days", "0", "-o", "d.pdf", "--preview", "d.svg"], ["card", event, "--days", "0", "--text"],
                         ["card", event, "--days", "0", "--size", "stem", "-o", "e.pdf"],
                         ["rehearse", event, "--days", "0", "-o", "r.pdf", "--ical", "r.ics", "--weeks", "2", "--race-date", "2027-06-13"]):
                self.look_txt(self.tuck(*more)[1], (name, more[0]))
            event.unlink()
            self.look((name,))
        self.assertEqual(set(), taken & set(REFUSED))
        self.assertLessEqual(set(TAKEN), taken)

    def test_own_foods(self):
        for name, text in self.each():
            food = {"id": "mine", "name": text, "label": text, "form": "gel", "serving_g": 40, "smallest": 1, "energy_kcal": 100.4,
                    "carb_g": 25, "sugars_g": 10, "glucose_g": 20, "fructose_g": 5, "fibre_g": 0, "fat_g": 0, "protein_g": 0,
                    "sodium_mg": 40, "caffeine_mg": 0, "water_g": 14.9, "fits": ["bike", "run"], "allergens": [], "melts": False,
                    "needs_water": True, "solid": False, "vegan": False, "source": text, "locator": text, "provenance": "read"}
            foods = self.path / "mine.json"
            foods.write_text(json.dumps({"group": "own", "about": text, "foods": [food]}))
            event = self.event("Plain Race")
            for more in (["foods", "check", "--own-foods", foods], ["foods", "show", "mine", "--own-foods", foods],
                         ["foods", "list", "--own-foods", foods],
                         ["plan", event, "--days", "0", "--own-foods", foods, "--like", "mine", "--card", "c.pdf", "--sheet", "s.html"],
                         ["card", event, "--days", "0", "--own-foods", foods, "--like", "mine", "-o", "d.pdf", "--preview", "d.svg"],
                         ["foods", "edit", "mine", "--file", foods, "--caffeine", "30mg"]):
                code, out, _ = self.tuck(*more)
                self.look_txt(out, (name, *more[:2]))
                if name in REFUSED:
                    self.assertEqual(2, code, (name, more[:2]))
            foods.unlink()
            self.look((name,))

    def test_rosters(self):
        event = SAMPLES / "squad/event.json"
        for name, text in self.each():
            if len(text) > 60_000:
                text = text[:3000]
            with open(self.path / "r.csv", "w", newline="", encoding="utf-8") as file:
                out = csv.writer(file)
                out.writerow(("name", "bib", "mass_kg", "club", text[:200] or "x"))
                out.writerow((text, "7", "70", text, text))
                out.writerow(("Plain Name", text[:30], "71", "", ""))
            roster = (self.path / "r.csv").read_bytes()
            self.tuck("squad", "r.csv", event, "--days", "0", "--out", "o", "--sheets", "--ndjson", "p.ndjson")
            (self.path / "r.csv").unlink()
            self.look((name,))
            _, out, _ = self.tuck("squad", "-", event, "--days", "0", "--ndjson", "-", stdin=roster)
            self.look_ndjson(out, (name, "filter"))
        (self.path / "own.txt").write_text("\x1b]0;x\x07 = bib\n", encoding="utf-8")
        (self.path / "r.csv").write_text("name,mass_kg\nA,70\n")
        self.tuck("squad", "r.csv", event, "--columns", "own.txt", "--ndjson", "-", "--days", "0")

    def test_ten_thousand_columns(self):
        (self.path / "r.csv").write_text("name,mass_kg," + ",".join(f"c{i}" for i in range(10_000)) + "\nA,70" + ",x" * 10_000 + "\n")
        code, _, error = self.tuck("squad", "r.csv", SAMPLES / "squad/event.json", "--days", "0", "--ndjson", "-")
        self.assertLess(len(error), 20_000)
        (self.path / "r.csv").write_text("name,mass_kg\nA,70" + ",x" * 10_000 + "\n")
        self.assertLess(len(self.tuck("squad", "r.csv", SAMPLES / "squad/event.json", "--days", "0", "--ndjson", "-")[2]), 20_000)
        (self.path / "r.csv").write_text("\x1b" * 1_000_000 + "\n" + "\x1b," * 1_000_000 + "\n")
        code, _, error = self.tuck("squad", "r.csv", SAMPLES / "squad/event.json", "--days", "0", "--ndjson", "-", codes=(2,))
        self.assertLess(len(error), 20_000)

    def test_diaries(self):
        test = ["--before", "71.42kg", "--after", "70.31kg", "--minutes", "90", "--temperature", "24C", "--date", "2027-05-01"]
        for name, text in self.each():
            if "\0" in text or len(text) > 60_000:  # no command line holds these
                continue
            self.tuck("diary", "add", "sweat-test", *test, "--note", text, "--diary", "d.jsonl")
            entry = {"schema": "tuck.diary/1", "id": 9, "date": "2027-05-02", "kind": "sweat-test", "note": text, "before_kg": 71, "after_kg": 70,
                     "minutes": 90, "temperature_c": 20}
            with open(self.path / "d.jsonl", "a") as file:
                file.write(json.dumps(entry) + "\n" + json.dumps({text: text}) + "\n")
            for more in (["list"], ["show"], ["show", "1"], ["list", "--json"]):
                self.look_txt(self.tuck("diary", *more, "--diary", "d.jsonl")[1], (name, *more))
            code, out, _ = self.tuck("diary", "export", "--diary", "d.jsonl")
            if code == 0:
                self.look_csv(out, (name, "export"))
            self.tuck("diary", "mend", "--diary", "d.jsonl")
            self.look_jsonl((self.path / "d.jsonl").read_bytes() if (self.path / "d.jsonl").exists() else b"", (name, "mended"))

    def test_labels_courses_and_marks(self):
        gpx = (SAMPLES / "courses/one-climb.gpx").read_text()
        for name, text in self.each():
            (self.path / "label.txt").write_text(f"{text}\nper serving (40 g): energy 420 kJ; carbohydrate 25 g; of which sugars 10 g; fat 0 g; protein 0 g; "
                                                 f"salt 0.1 g\n{text}\n", encoding="utf-8")
            self.tuck("foods", "add", "--file", "m.json", "--id", "g", "--name", "G", "--form", "gel", "--paste", "label.txt")
            escaped = text.replace("&", "&amp;").replace("<", "&lt;")
            (self.path / "c.gpx").write_text(gpx.replace("Kestrel Pass", escaped), encoding="utf-8")
            (self.path / "d.gpx").write_text(gpx.replace("Kestrel Pass", text), encoding="utf-8")
            for course in ("c.gpx", "d.gpx"):
                self.look_txt(self.tuck("course", course)[1], (name, course))
                code, out, _ = self.tuck("course", course, "--json")
                if out:
                    self.look_json(out, (name, course))
            session = {"schema": "tuck.marks/1", "start_unix_s": 1, "plan": text, "foods": text, "bike_min": 60, "run_min": 10,
                       "feeds": [{"leg": "bike", "at_s": 60, "what": text, "carb_g": 10}]}
            (self.path / "m.jsonl").write_text(json.dumps(session) + "\n" + json.dumps({"schema": text, "mark": text, "at_s": 1}) + "\n")
            self.tuck("diary", "add", "rehearsal", "--marks", "m.jsonl", "--temperature", "18C", "--diary", "e.jsonl")
            for path in ("label.txt", "c.gpx", "d.gpx", "m.jsonl"):
                (self.path / path).unlink()
            self.look((name,))

    def test_words_of_the_command_line(self):
        words = {name: text[:5000] for name, text in ALL.items() if "\0" not in text}
        raw = [b"\xff\xfe\x1b[31m", b"\xc3", b"\xed\xa0\x80"]
        for text in [*words.values(), *raw]:
            option = text if isinstance(text, bytes) else text.encode()
            for arguments in ([option], [b"--" + option], [b"plan", option], [b"plan", b"--" + option, b"1"], [b"explain", *map(str.encode, LINE), option],
                              [b"model", b"run", option], [b"model", b"run", b"riegel_time", option + b"=1"], [b"foods", b"show", option],
                              [b"plan", *map(str.encode, LINE), b"--set", option], [b"plan", *map(str.encode, LINE), b"--take", option],
                              [b"plan", *map(str.encode, LINE), b"--stations", option], [b"card", *map(str.encode, LINE), b"--size", option],
                              [b"diary", b"list", b"--diary", option], [b"new", option + b"/x.json", b"--yes"],
                              [b"plan", *map(str.encode, LINE), b"--name", option]):
                _, out, _ = self.tuck(*arguments)
                self.look_txt(out, arguments[0])


if __name__ == "__main__":
    sys.exit(unittest.main())
