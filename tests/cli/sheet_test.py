#!/usr/bin/python3
"""The sheet as the program writes it, judged by qpdf, poppler, mutool (Debian 12) and Python's HTML parser."""
import json
import os
import random
import subprocess
import sys
import tempfile
import unittest
from html.parser import HTMLParser
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import plan_rules_test as rules  # noqa: E402

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
EVENTS = [SAMPLES / name for name in ("first-sprint.json", "hot-standard.json", "hilly-middle.json",
                                    "long-special-needs.json")]
VOID = {"meta", "br", "link"}


def run(*command):
    return subprocess.run([str(part) for part in command], capture_output=True, text=True)


class Outline(HTMLParser):
    """Checks that elements nest, and keeps headings, table heads and the language."""

    def __init__(self):
        super().__init__()
        self.open, self.faults, self.levels, self.language, self.plain_heads = [], [], [], None, 0

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag == "html":
            self.language = attrs.get("lang")
        if tag in ("h1", "h2", "h3"):
            self.levels.append(int(tag[1]))
        if tag == "th" and attrs.get("scope") not in ("row", "col"):
            self.plain_heads += 1
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)


class Sheet(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def sheet(self, event, name, *options):
        path = Path(self.folder.name) / name
        done = run(TUCK, "plan", event, "--days", "500", "--sheet", path, *options)
        self.assertEqual(0, done.returncode, done.stderr)
        return path

    def test_the_file_is_sound(self):
        for event in EVENTS:
            pdf = self.sheet(event, "s.pdf")
            check = run("qpdf", "--check", pdf)
            self.assertEqual(0, check.returncode, check.stdout + check.stderr)
            info = run("pdfinfo", pdf).stdout
            self.assertIn("(A4)", info)  # ISO 216
            self.assertNotIn("Date", info)
            pages = int(next(line.split()[1] for line in info.splitlines() if line.startswith("Pages:")))
            self.assertTrue(1 <= pages <= 4, pages)  # contract
            for line in run("pdffonts", pdf).stdout.splitlines()[2:]:
                self.assertRegex(line, r" yes yes ")
            self.assertNotRegex(run("mutool", "trace", pdf).stdout, r'glyph="(\.notdef|0)"')

    def test_one_leaf_up_to_a_standard_race_two_for_any_other(self):
        """The length is a contract: what has no room is named on the paper, and the text form holds it."""
        wanted = {"sprint": 2, "standard": 2}
        rng = random.Random(20290117)
        for number in range(40):
            if number < 4:
                distance = ("sprint", "standard")[number % 2]
                asked, name = [f"--distance={distance}", "--mass=70kg", f"--temperature={18 + 7 * (number // 2)}C"], distance
            elif number % 2:
                asked, name = rules.request(rng)[0], ""
            else:
                path = Path(self.folder.name) / "event.json"
                path.write_text(json.dumps(rules.document(rng)))
                asked, name = [path], ""
            with self.subTest(asked=asked):
                sheet = Path(self.folder.name) / "pages.pdf"
                done = run(TUCK, "plan", *asked, "--days=200" if name or number % 2 else "--json", "--sheet", sheet)
                self.assertIn(done.returncode, (0, 1), done.stderr)
                words = run("pdftotext", "-layout", sheet, "-").stdout
                pages = words.count("\f")
                self.assertLessEqual(pages, wanted.get(name, 4))
                for kept in ("STOP", "Before", "Always", "painkillers"):
                    self.assertIn(kept, words)
                if name == "sprint":
                    self.assertIn("Not on this paper: ", words)

    def test_letter_paper(self):
        for event in EVENTS:
            info = run("pdfinfo", self.sheet(event, "s.pdf", "--paper", "letter")).stdout
            self.assertIn("(letter)", info)  # 612 x 792 points: 8.5 x 11 inches
            self.assertRegex(info, r"Pages: +[234]\n")  # contract

    def test_what_to_buy_is_the_sum_over_bags_and_bottles(self):
        """A long race carries one gel in two bags and one powder in four bottles: addition."""
        text = self.sheet(EVENTS[3], "s.txt").read_text("utf-8")
        plan = json.loads(run(TUCK, "plan", EVENTS[3], "--days", "500", "--json").stdout)
        shop = text.upper().split("\nSHOP\n")[1].split("\n\n")[0]
        bags, grams = {}, {}
        for item in plan["carry"]:
            if item["food"]:
                bags.setdefault(item["food"], []).append(item["amount"])
        for mix in plan["mix"]:
            for part in mix["add"]:
                grams.setdefault(part["food"], []).append(part["grams"])
        self.assertTrue(any(len(counts) > 1 for counts in (*bags.values(), *grams.values())))
        for counts in bags.values():
            self.assertRegex(shop, rf"\b{sum(counts):g} X ")
        for weights in grams.values():
            self.assertRegex(shop, rf"\b{sum(weights):g} G ")
        self.assertEqual(len(bags) + len(grams), shop.count("[ ]"))

    def test_the_day_without_its_swim_says_what_changes(self):
        """The sheet prints the no-swim version (contract): its lines, and food and bottles where they differ."""
        for event in EVENTS:
            text = " ".join(self.sheet(event, "s.txt").read_text("utf-8").split())
            part = text.split("If the swim is cancelled ")[1].split("Likely time in all")[0]
            both = [json.loads(run(TUCK, "plan", event, "--days", "500", "--json", *options).stdout)
                    for options in ((), ("--swim", "cancelled"))]
            for plan in both:
                plan["carry"] = [item for item in plan["carry"] if item["food"]]
            for kind, word in (("mix", "Mix instead:"), ("carry", "Pack instead:")):
                before, after = ([item["text"] for item in plan[kind]] for plan in both)
                self.assertEqual(before != after and after != [], word in part, part)
                if word in part:
                    for words in after:
                        self.assertIn(words, part)

    def test_tables_that_are_too_wide_for_text_name_their_numbers(self):
        text = " ".join(self.sheet(EVENTS[1], "s.txt").read_text("utf-8").split())
        self.assertRegex(text, r"- 0:00, Body mass, % of the start 0\.0 \(0\.0 to 0\.0\), Glycogen")

    def test_no_reason_stands_twice_in_the_hours_of_every_leg(self):
        text = " ".join(self.sheet(EVENTS[1], "s.txt").read_text("utf-8").split())
        self.assertIn("Each hour, in every leg", text)
        self.assertEqual(1, text.count("no sodium test: 40 mmol/L"))

    def test_reading_order_is_the_order_of_the_day(self):
        text = run("pdftotext", "-raw", self.sheet(EVENTS[1], "s.pdf"), "-").stdout
        places = [text.index(word) for word in
                  ("Saltmarsh Standard", "On the course", "How long, how much", "Before", "Pack", "Mix",
                   "Labels to cut out", "Take care", "Always", "Every number")]
        self.assertEqual(sorted(places), places)

    def test_numbers_are_those_of_the_plan(self):
        event = EVENTS[1]
        text = self.sheet(event, "s.txt").read_text("utf-8")
        plan = json.loads(run(TUCK, "plan", event, "--days", "500", "--json").stdout)
        for number, unit in ((plan["totals"]["carb_g"], "g of carbohydrate"), (plan["totals"]["fluid_ml"], "ml")):
            self.assertIn(f"{number:.0f} {unit}", text)
        for need in plan["needs"]:
            if need["leg"] in ("bike", "run"):
                self.assertIn(f"{need['carb_g_per_h']:.0f} g", text)
        for moment in plan["before"]:
            self.assertIn(moment["clock"], text)
        self.assertLessEqual(max(len(line) for line in text.splitlines()), 80)

    def test_html_is_for_screen_readers(self):
        for event in EVENTS:
            html = self.sheet(event, "s.html").read_text("utf-8")
            outline = Outline()
            outline.feed(html)
            self.assertEqual([], outline.faults)
            self.assertEqual([], outline.open)
            self.assertEqual("en", outline.language)
            self.assertEqual(1, outline.levels.count(1))
            for before, after in zip(outline.levels, outline.levels[1:]):
                self.assertLessEqual(after, before + 1)  # no level is skipped
            self.assertEqual(0, outline.plain_heads)
            self.assertNotRegex(html, r"https?://|<script|<img")
            self.assertNotRegex(html, r'<th scope="col"[^>]*></th>')  # every column has a name

    def test_grey_print_keeps_the_plots(self):
        """Ink of the first page as grey: black, white, and mid greys of the bars of the timeline."""
        pdf = self.sheet(EVENTS[2], "s.pdf")
        raw = subprocess.run(["pdftoppm", "-r", "50", "-gray", "-f", "1", "-l", "1", pdf], capture_output=True).stdout
        pixels = raw.split(b"255\n", 1)[1]
        self.assertIn(0, pixels)
        self.assertTrue(any(180 < p < 220 for p in pixels))

    def test_same_input_same_bytes(self):
        self.assertEqual(self.sheet(EVENTS[0], "a.pdf").read_bytes(), self.sheet(EVENTS[0], "b.pdf").read_bytes())

    def test_an_unknown_ending_is_refused_and_nothing_is_written(self):
        path = Path(self.folder.name) / "s.docx"
        done = run(TUCK, "plan", EVENTS[0], "--sheet", path)
        self.assertEqual(2, done.returncode)
        self.assertIn(".pdf, .txt or .html", done.stderr)
        self.assertFalse(path.exists())


if __name__ == "__main__":
    sys.exit(unittest.main())
