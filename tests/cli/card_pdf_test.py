#!/usr/bin/python3
"""The printed card as the program writes it, judged by qpdf, poppler and mutool (Debian 12)."""
import json
import math
import os
import re
import struct
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path
from xml.etree import ElementTree

TUCK = os.environ["TUCK"]
SAMPLES = Path(os.environ["TUCK_ROOT"]) / "samples"
EVENTS = [SAMPLES / "first-sprint.json", SAMPLES / "hot-standard.json"]

# Capital height per em of Liberation, measured on Debian's files: 1409 / 2048.
CAP_PER_EM = 1409 / 2048
# Nothing on the card face is smaller than 12 minutes of arc (ISO 15008, from memory) at 600 mm, card tilted 30
# degrees: h = 2 D tan(a/2) / cos(tilt).
FLOOR_MM = 2 * 600 * math.tan(math.radians(12 / 60) / 2) / math.cos(math.radians(30))
ROW_MM = FLOOR_MM * 20 / 12


def run(*command):
    return subprocess.run([str(part) for part in command], capture_output=True, text=True)


class CardPdf(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.pdf = Path(self.folder.name) / "card.pdf"

    def tearDown(self):
        self.folder.cleanup()

    def card(self, event):
        done = run(TUCK, "card", event, "-o", self.pdf)
        self.assertEqual(0, done.returncode, done.stderr)
        return self.pdf

    def test_the_file_is_sound(self):
        for event in EVENTS:
            pdf = self.card(event)
            check = run("qpdf", "--check", pdf)
            self.assertEqual(0, check.returncode, check.stdout + check.stderr)
            self.assertIn("No syntax or stream encoding errors", check.stdout)
            self.assertLess(pdf.stat().st_size, 100_000)
            pdf.unlink()

    def test_one_page_a4_titled_and_undated(self):
        for event in EVENTS:
            info = run("pdfinfo", self.card(event)).stdout
            self.assertRegex(info, r"Pages: +1\n")
            self.assertIn("(A4)", info)  # 210 x 297 mm, ISO 216
            self.assertIn(json.loads(event.read_text())["name"], re.search(r"Title: +(.*)", info)[1])
            self.assertNotIn("Date", info)
            self.pdf.unlink()

    def test_fonts_are_embedded_and_subset(self):
        lines = run("pdffonts", self.card(EVENTS[1])).stdout.splitlines()[2:]
        self.assertTrue(lines)
        for line in lines:
            self.assertRegex(line, r"^[A-Z0-9]{6}\+LiberationSans\S* +CID TrueType +\S+ +yes yes ")

    def test_no_letter_prints_as_a_box(self):
        trace = run("mutool", "trace", self.card(EVENTS[1])).stdout
        self.assertIn("<g ", trace)
        self.assertNotRegex(trace, r'glyph="(\.notdef|0)"')

    def test_letters_are_as_high_as_the_angle_asks(self):
        """Type sizes as the file has them; small notes around the card are the only text in the wide face."""
        stext = run("mutool", "draw", "-F", "stext", self.card(EVENTS[1])).stdout
        caps = [float(size) * CAP_PER_EM * 25.4 / 72
                for name, size in re.findall(r'<font name="([^"]+)" size="([^"]+)"', stext) if "Narrow" in name]
        self.assertTrue(caps)
        # mutool prints sizes with five or six figures.
        self.assertGreaterEqual(min(caps), FLOOR_MM - 0.002)
        self.assertTrue(any(cap >= ROW_MM - 0.002 for cap in caps))

    def test_the_card_says_what_it_must(self):
        for event in EVENTS:
            text = " ".join(run("pdftotext", self.card(event), "-").stdout.split())
            for words in (json.loads(event.read_text())["name"], "STOP", "marshal or medic", "bib",
                          "Print at 100 %; this bar must measure 50 mm.", "not medical advice"):
                self.assertIn(words, text)
            plan = json.loads(run(TUCK, "plan", event, "--json").stdout)
            self.assertEqual(not plan["fuelling_needed"], "NO FOOD NEEDED" in text)
            self.assertNotRegex(text, r"g/h|ml/h|\bkg\b")
            self.pdf.unlink()

    def test_the_check_prints_every_figure_against_its_limit(self):
        for size in ("strip", "stem", "pocket", "wrist", "60x140"):
            for paper in ("a4", "letter"):
                done = run(TUCK, "card", EVENTS[1], "--size", size, "--paper", paper, "--check", "-o", self.pdf)
                self.assertEqual(0, done.returncode, done.stdout + done.stderr)
                for words in ("mm and a card tilted", "rows: smallest capital", "at least 20'", "cut marks",
                              "text to the cut", "lowest contrast"):
                    self.assertIn(words, done.stdout)
                self.assertNotIn("  NO  ", done.stdout)

    def test_sizes_as_the_file_has_them(self):
        """Cut marks read with qpdf in our check agree with mutool's: ID-1 is 85.60 x 53.98 mm (ISO/IEC 7810)."""
        run(TUCK, "card", EVENTS[1], "--size", "pocket", "-o", self.pdf)
        trace = run("mutool", "trace", self.pdf).stdout
        xs, ys = set(), set()
        for x1, y1, x2, y2 in re.findall(r'<moveto x="([\d.]+)" y="([\d.]+)"/>\s*<lineto x="([\d.]+)" y="([\d.]+)"/>',
                                         trace):
            x1, y1, x2, y2 = (float(v) * 25.4 / 72 for v in (x1, y1, x2, y2))
            if abs(math.hypot(x2 - x1, y2 - y1) - 4) < 0.01:
                (xs if x1 == x2 else ys).add(round(x1 if x1 == x2 else y1, 2))
        xs, ys = sorted(xs), sorted(ys)
        self.assertTrue({85.6, 53.98} & {round(b - a, 2) for a, b in zip(xs, xs[1:])})
        self.assertTrue({85.6, 53.98} & {round(b - a, 2) for a, b in zip(ys, ys[1:])})

    def test_a_farther_eye_gets_larger_letters(self):
        """At least the visual angle that the check states, by its definition: height = distance x angle, and a card
        tilted by 30 degrees looks shorter by its cosine. Letters may grow beyond it where there is room."""
        for eye_mm in (500, 600, 700):
            done = run(TUCK, "card", EVENTS[0], "--size", "60x170", "--eye", f"{eye_mm}mm", "--check", "-o", self.pdf)
            self.assertEqual(0, done.returncode, done.stderr)
            for text, minutes in (("rows", 20), ("headings", 16), ("notes and help", 12)):
                with self.subTest(eye_mm=eye_mm, text=text):
                    cap_mm = float(re.search(text + r": smallest capital +([\d.]+) mm", done.stdout)[1])
                    floor_mm = 2 * eye_mm * math.tan(math.radians(minutes / 60) / 2) / math.cos(math.radians(30))
                    self.assertGreaterEqual(cap_mm, floor_mm - 0.005)  # printed to 0.01 mm

    def test_preview_as_svg(self):
        svg = Path(self.folder.name) / "card.svg"
        done = run(TUCK, "card", EVENTS[1], "-o", self.pdf, "--preview", svg)
        self.assertEqual(0, done.returncode, done.stderr)
        root = ElementTree.fromstring(svg.read_text("utf-8"))
        self.assertEqual("210mm", root.get("width"))
        words = " ".join(e.text for e in root.iter("{http://www.w3.org/2000/svg}text"))
        self.assertIn("STOP", words)

    def test_preview_as_png(self):
        """A PNG of the first page at 200 dpi. Its head: PNG specification (ISO/IEC 15948), 5.2 and 11.2.2."""
        png = Path(self.folder.name) / "card.png"
        done = run(TUCK, "card", EVENTS[1], "-o", self.pdf, "--preview", png)
        self.assertEqual(0, done.returncode, done.stderr)
        head = png.read_bytes()[:24]
        self.assertEqual(b"\x89PNG\r\n\x1a\n", head[:8])
        width, height = struct.unpack(">II", head[16:24])
        self.assertAlmostEqual(210 / 25.4 * 200, width, delta=1)  # A4, ISO 216
        self.assertAlmostEqual(297 / 25.4 * 200, height, delta=1)

    def test_a_preview_that_cannot_be_drawn_leaves_nothing_behind(self):
        for name, path, words in (("card.jpg", os.environ["PATH"], "allowed: a file name that ends in .svg or .png"),
                                  ("card.png", "/nowhere", "install poppler-utils")):
            done = subprocess.run([TUCK, "card", str(EVENTS[1]), "-o", str(self.pdf), "--preview", name],
                                  capture_output=True, text=True, cwd=self.folder.name,
                                  env={**os.environ, "PATH": path})
            self.assertEqual(2, done.returncode)
            self.assertIn(words, done.stderr)
            self.assertEqual([], os.listdir(self.folder.name))

    SPRINT = ("--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--days", "100")
    LONG_DAY = ("--distance", "long", "--mass", "70kg", "--temperature", "24C", "--stations", "typical",
                "--sweat-rate", "1L/h", "--rehearsed-carb", "80g/h", "--days", "100")

    def test_the_card_never_changes_the_plan(self):
        """A smaller card prints the same plan on more sides: the mark of the plan is on each."""
        wanted = json.loads(run(TUCK, "plan", *self.LONG_DAY, "--json").stdout)
        for size in ("strip", "stem", "pocket", "wrist", "30x90"):
            done = run(TUCK, "card", *self.LONG_DAY, "--size", size, "-o", self.pdf)
            self.assertEqual(0, done.returncode, done.stderr)
            self.assertIn(wanted["version"], run("pdftotext", self.pdf, "-").stdout)
            done = run(TUCK, "plan", *self.LONG_DAY, "--card", self.pdf, "--size", size, "--json")
            self.assertEqual(wanted, json.loads(done.stdout))

    def test_a_simpler_plan_is_made_on_request_and_named_so(self):
        for size, eye, most in (("strip", 600, 6), ("stem", 600, 3), ("stem", 700, 2)):
            done = run(TUCK, "plan", *self.LONG_DAY, "--simpler", "--size", size, "--eye", f"{eye}mm", "--json")
            self.assertEqual(0, done.returncode, done.stderr)
            plan = json.loads(done.stdout)
            # A drink that is handed up goes on in the row of the own one.
            lines = sum(line["leg"] == "bike" and any(item["unit"] != "swallow" or item["from"] != "station"
                                                      for item in line["items"]) for line in plan["lines"])
            self.assertLessEqual(lines, most)
            self.assertGreaterEqual(lines, 1)
            said = [text for text in plan["assumptions"] if "one side of the card holds no more" in text]
            self.assertEqual(1, len(said), plan["assumptions"])

    def test_the_text_layer_is_clean(self):
        """Two readers that share no code copy the same words in the same order, and complain of nothing."""
        for arguments in ((EVENTS[1],), self.LONG_DAY):
            for size in ("strip", "stem"):
                run(TUCK, "card", *arguments, "--size", size, "-o", self.pdf)
                poppler = run("pdftotext", "-raw", self.pdf, "-")
                mupdf = run("mutool", "draw", "-F", "txt", self.pdf)
                self.assertEqual("", poppler.stderr)
                self.assertEqual("", mupdf.stderr.replace("warning: ICC support is not available\n", ""))
                words = poppler.stdout.split()
                self.assertIn("every", words)
                self.assertEqual(sorted(words), sorted(mupdf.stdout.split()))
                text = " ".join(words)
                self.assertLess(text.index("BIKE"), text.index("RUN"))
                self.assertLess(text.index("every"), text.index("RUN"))
        info = subprocess.run(["qpdf", "--qdf", self.pdf, "-"], capture_output=True).stdout.decode("latin-1")
        self.assertIn("/Lang (en)", info)
        self.assertIn("/DisplayDocTitle true", info)
        self.assertIn("<dc:title>", info)

    def test_a_tube_that_is_none_is_refused(self):
        done = run(TUCK, "card", EVENTS[1], "--tube", "10mm", "-o", self.pdf)
        self.assertEqual(2, done.returncode)
        self.assertIn("allowed 25 to 120 mm", done.stderr)

    def test_a_small_card_keeps_the_order_of_the_day(self):
        """On the stem, clock and kilometres of the bike stand between its rows and the run: a side that begins with
        the run is worn from T2 on (our choice)."""
        for event in EVENTS[1:]:
            done = run(TUCK, "card", event, "--size", "stem", "-o", self.pdf)
            self.assertEqual(0, done.returncode, done.stderr)
            text = " ".join(run("pdftotext", "-raw", self.pdf, "-").stdout.split())
            run_begins = text.index(" RUN ")
            places = [text.index(words) for words in (" BIKE ", "every", "Bike clock", "Else every")]
            self.assertEqual(sorted(places), places)
            self.assertLess(places[-1], run_begins)
            self.assertNotIn("BIKE", text[run_begins:])

    def test_the_sheet_names_the_bottles_that_there_are(self):
        for arguments, words in ((self.SPRINT, "Write B1 on the bottle."), (("--distance", "middle", "--mass", "68kg", "--temperature", "22C"), "Write B1, B2 on the bottles."),
                                 (("--distance", "super-sprint", "--mass", "68kg", "--temperature", "18C"), None)):
            done = run(TUCK, "card", *arguments, "-o", self.pdf)
            self.assertEqual(0, done.returncode, done.stderr)
            text = " ".join(run("pdftotext", "-raw", self.pdf, "-").stdout.split())
            self.assertIn(words, text) if words else self.assertNotIn("on the bottle", text)

    def test_bad_sizes_say_what_is_allowed(self):
        for option, value, words in (("--size", "huge", "strip, stem, pocket, wrist"), ("--paper", "a5", "a4, letter"),
                                     ("--eye", "far", "600mm"), ("--tilt", "80", "0 to 60"),
                                     ("--size", "10x10", "25 to 180")):
            done = run(TUCK, "card", EVENTS[1], option, value, "-o", self.pdf)
            self.assertEqual(2, done.returncode)
            self.assertIn(words, done.stderr)
            self.assertFalse(self.pdf.exists())

    def test_names_of_many_alphabets(self):
        for name in ("Łukasz Żółć", "Αθηνά Παπαδοπούλου", "Nguyễn Thị Thảo", "Şebnem Çağrı", "Đorđe Kovačević"):
            done = run(TUCK, "card", "--distance", "sprint", "--mass", "60kg", "--temperature", "20C", "--name", name,
                       "--check", "-o", self.pdf)
            self.assertEqual(0, done.returncode, done.stderr)
            self.assertNotRegex(run("mutool", "trace", self.pdf).stdout, r'glyph="(\.notdef|0)"')
            self.assertIn(name, " ".join(run("pdftotext", self.pdf, "-").stdout.split()))

    def test_same_plan_same_bytes(self):
        first = self.card(EVENTS[1]).read_bytes()
        self.pdf.unlink()
        self.assertEqual(first, self.card(EVENTS[1]).read_bytes())

    def test_a_place_that_cannot_be_written_is_an_error(self):
        target = Path(self.folder.name) / "missing" / "card.pdf"
        done = run(TUCK, "card", EVENTS[1], "-o", target)
        self.assertEqual(2, done.returncode)
        self.assertIn(str(target), done.stderr)
        self.assertFalse(target.exists())


if __name__ == "__main__":
    sys.exit(unittest.main())
