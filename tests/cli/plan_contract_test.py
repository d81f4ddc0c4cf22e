#!/usr/bin/python3
"""The plan that programs read: its published schema, its sums, its bytes, and the program's manners.

Judge of the schema: Debian's python3-jsonschema.
"""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import jsonschema

sys.path.insert(0, str(Path(__file__).parent))
import plan_rules  # noqa: E402

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
SCHEMA = json.loads((ROOT / "src/io/schema/plan.schema.json").read_text())
JUDGE = jsonschema.Draft202012Validator(SCHEMA)
SAMPLES = sorted(ROOT.glob("samples/*.json"))

ONE_LINE = [line.split() for line in """
--distance=super-sprint --mass=52kg --temperature=17C
--distance=sprint --mass=68kg --temperature=22C
--distance=sprint --mass=150lb --temperature=75F
--distance=sprint --mass=68kg --temperature=33C --hands=none
--distance=standard --mass=70kg --temperature=20C --start=07:30 --date=2027-06-13
--distance=standard --mass=70kg --temperature=35C --humidity=90% --stations=typical --level=beginner
--distance=standard --mass=58kg --temperature=9C --water=14C --sweat-rate=500ml/h --level=fast
--distance=middle --mass=82kg --temperature=26C --caffeine=yes --rehearsed-carb=80g/h --stations=typical
--distance=long --mass=61kg --temperature=19C --stations=typical --bottles=3x750ml --sweat-sodium=70mmol/L
--distance=long --mass=90kg --temperature=30C --stations=typical --rehearsed-carb=90g/h --rehearsed-fluid=1200ml/h
--distance=duathlon-sprint --mass=66kg --temperature=12C
--distance=duathlon-standard --mass=66kg --temperature=28C --stations=typical
--distance=aquathlon-sprint --mass=66kg --temperature=25C
--distance=aquathlon-standard --mass=66kg --temperature=25C
--legs=bike:5h --mass=75kg --temperature=24C --training --like=banana_ripe,rice_cake_home
--legs=run:42.195km --mass=63kg --temperature=15C --stations=typical --caffeine=yes --recent-run=10km=45:00
--legs=swim:5km --mass=80kg --temperature=20C
--legs=run:5km,bike:20km,run:5km,bike:20km,run:2km --mass=70kg --temperature=20C --stations=typical
--distance=sprint --mass=45kg --temperature=5C --age=15 --caffeine=yes
--distance=standard --mass=110kg --temperature=31C --days=0
--distance=middle --mass=70kg --temperature=20C --days=1 --seed=7
""".strip().splitlines()]


def run(*arguments, **environment):
    return subprocess.run([TUCK, *map(str, arguments)], capture_output=True, timeout=60,
                          env={**os.environ, **environment} if environment else None)


def requests():
    return ONE_LINE + [[str(path)] for path in SAMPLES]


def on_every_plan(check):
    """A test that runs `check(self, plan)` on every plan and names the request of the one that fails."""
    def test(self):
        for ask, plan in self.plans:
            with self.subTest(" ".join(ask)):
                check(self, plan)
    return test


class Contract(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.printed = [(ask, run("plan", *ask, "--json")) for ask in requests()]
        cls.plans = [(ask, json.loads(done.stdout)) for ask, done in cls.printed]

    def test_2026_11_millilitres_short_were_called_grams(self):
        done = run("plan", "--distance=standard", "--mass=68kg", "--temperature=24C", "--days=0", "--json")
        short = json.loads(done.stdout)["unmet"]
        self.assertTrue(any(item["unit"] == "ml/h" for item in short), short)
        for item in short:
            self.assertEqual(item["unit"] == "g/h", "cost_g_per_h" in item, item)

    def test_the_schema_is_one(self):
        jsonschema.Draft202012Validator.check_schema(SCHEMA)

    @on_every_plan
    def test_plans_are_as_the_schema_says(self, plan):
        faults = [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in JUDGE.iter_errors(plan)]
        self.assertEqual([], faults)

    def test_the_schema_notices(self):
        """A field gone, renamed, of another kind or out of its range is seen."""
        plan = next(plan for _, plan in self.plans if plan["feeds"] and plan["mix"])
        for key in SCHEMA["required"]:
            self.assertFalse(JUDGE.is_valid({k: v for k, v in plan.items() if k != key}), key)
        for key in ("leg_index", "items", "fructose_g"):
            feeds = [{k: v for k, v in plan["feeds"][0].items() if k != key}]
            self.assertFalse(JUDGE.is_valid({**plan, "feeds": feeds}), key)
        for wrong in ({"schema": "tuck.plan/2"}, {"extra": 1}, {"fuelling_needed": "yes"}, {"durations": []},
                      {"totals": {**plan["totals"], "carb_g": -1}},
                      {"warnings": [{"code": "x", "severity": "bad", "text": "y"}]}):
            self.assertFalse(JUDGE.is_valid({**plan, **wrong}), wrong)

    @on_every_plan
    def test_places_point_at_their_leg(self, plan):
        self.assertEqual(list(range(len(plan["durations"]))), [d["leg_index"] for d in plan["durations"]])
        self.assertEqual([(d["leg"], d["leg_index"]) for d in plan["durations"]],
                         [(n["leg"], n["leg_index"]) for n in plan["needs"]])
        for row in plan["feeds"] + plan["lines"]:
            self.assertEqual(plan["durations"][row["leg_index"]]["leg"], row["leg"])
        moments = [(f["leg_index"], f["at_s"]) for f in plan["feeds"]]
        self.assertEqual(sorted(set(moments)), moments)

    @on_every_plan
    def test_durations(self, plan):
        for row in plan["durations"] + [plan["total"]]:
            self.assertLess(0, row["p10_s"])
            self.assertLess(row["p10_s"], row["p50_s"])
            self.assertLess(row["p50_s"], row["p90_s"])
        legs = sum(d["p50_s"] for d in plan["durations"])
        self.assertLessEqual(abs(legs - plan["total"]["p50_s"]), 0.5 * (len(plan["durations"]) + 1))
        # Legs that are not wholly tied together spread less than their sum of spreads, more than the widest leg.
        widths = [d["p90_s"] - d["p10_s"] for d in plan["durations"]]
        if len(widths) > 1:
            self.assertLess(plan["total"]["p90_s"] - plan["total"]["p10_s"], sum(widths))
            self.assertGreater(plan["total"]["p90_s"] - plan["total"]["p10_s"], max(widths))

    @on_every_plan
    def test_totals_are_the_feeds_summed(self, plan):
        for key, shown in (("carb_g", 0.01), ("fluid_ml", 0.1), ("sodium_mg", 0.1), ("caffeine_mg", 0.1)):
            value = sum(f[key] for f in plan["feeds"])
            self.assertLessEqual(abs(value - plan["totals"][key]), shown / 2 * len(plan["feeds"]) + 0.0501, key)
        for feed in plan["feeds"]:
            self.assertLessEqual(feed["glucose_g"] + feed["fructose_g"], feed["carb_g"] + 0.02)

    @on_every_plan
    def test_lines_expand_to_the_feeds(self, plan):
        said = plan_rules.by_moment((n["leg_index"], at, n["items"]) for n in plan["lines"] for at in n["at_s"])
        meant = plan_rules.by_moment((f["leg_index"], f["at_s"], f["items"]) for f in plan["feeds"])
        self.assertEqual(meant, said)

    @on_every_plan
    def test_chances_agree_with_each_other(self, plan):
        outlook, chance = plan["outlook"], plan["outlook"]["chance"]
        self.assertLessEqual(chance["water_loss_over_4pct"], chance["water_loss_over_2pct"])
        self.assertLessEqual(chance["low_sodium_by_drinking"], chance["low_sodium"])
        self.assertLessEqual(chance["low_sodium_by_drinking"], chance["water_gain"])
        # Fuel is burnt: whoever is heavier than at the start holds more water than at the start.
        self.assertLessEqual(chance["mass_gain"], chance["water_gain"])
        for key in ("mass_change_pct", "serum_sodium_mmol_per_l", "glycogen_left_g"):
            row = outlook[key]
            self.assertLessEqual(row["p05"], row["p50"])
            self.assertLessEqual(row["p50"], row["p95"])

    @on_every_plan
    def test_every_plan_carries_its_cautions(self, plan):
        text = " ".join(plan["cautions"])
        for words in ("not medical advice", "STOP", "NSAID", "Nothing new on race day", "medic", "rules"):
            self.assertIn(words, text)

    def test_no_number_that_is_none(self):
        for ask, done in self.printed:
            with self.subTest(" ".join(ask)):
                text = done.stdout.decode()
                self.assertNotRegex(text, r"(?i)\b(nan|inf|infinity|null)\b")
                self.assertNotRegex(text, r"(?<![\w.])-0(\.0*)?(?![.\d])")

    def test_one_document_and_nothing_else(self):
        for ask, done in self.printed:
            with self.subTest(" ".join(ask)):
                text = done.stdout.decode("utf-8")
                _, end = json.JSONDecoder().raw_decode(text)
                self.assertEqual("\n", text[end:])
                self.assertNotIn("\x1b", text)
                plan = json.loads(text)
                self.assertEqual(1 if plan["refused"] else 0, done.returncode)
                # Warnings go to stderr too, one line each.
                self.assertEqual([f"tuck: {w['code']}: {w['text']}" for w in plan["warnings"]],
                                 done.stderr.decode().splitlines())

    def test_same_input_same_bytes(self):
        for ask, done in self.printed:
            with self.subTest(" ".join(ask)):
                self.assertEqual(done.stdout, run("plan", *ask, "--json").stdout)

    def test_a_comma_locale_changes_nothing(self):
        if not shutil.which("localedef") or not Path("/usr/share/i18n/locales/de_DE").exists():
            self.skipTest("no locale sources on this machine")
        with tempfile.TemporaryDirectory() as folder:
            made = subprocess.run(["localedef", "--no-archive", "-i", "de_DE", "-f", "UTF-8", f"{folder}/de_DE.UTF-8"],
                                  capture_output=True)
            self.assertEqual(0, made.returncode, made.stderr)
            comma = {"LOCPATH": folder, "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}
            # The locale is there and writes a comma.
            shown = subprocess.run(["/usr/bin/printf", "%.1f", "0,5"], capture_output=True, text=True,
                                   env={**os.environ, **comma})
            self.assertEqual("0,5", shown.stdout)
            for ask in (ONE_LINE[7], [str(SAMPLES[0])]):
                self.assertEqual(run("plan", *ask, "--json").stdout, run("plan", *ask, "--json", **comma).stdout)
                self.assertEqual(run("plan", *ask).stdout, run("plan", *ask, **comma).stdout)
            fraction = ["--distance=sprint", "--mass=68.5kg", "--temperature=22.5C", "--json"]
            self.assertEqual(run("plan", *fraction).stdout, run("plan", *fraction, **comma).stdout)

    def test_another_seed_is_another_set_of_days(self):
        ask = ["--distance=middle", "--mass=70kg", "--temperature=20C", "--json"]
        one, two = (json.loads(run("plan", *ask, f"--seed={n}").stdout) for n in (1, 2))
        self.assertNotEqual(one.pop("outlook"), two.pop("outlook"))
        self.assertEqual(one["feeds"], two["feeds"])


class Manners(unittest.TestCase):
    def test_text_is_at_most_80_columns_and_plain(self):
        for ask in requests():
            with self.subTest(" ".join(ask)):
                done = run("plan", *ask)
                text = done.stdout.decode()
                self.assertIn(done.returncode, (0, 1))
                self.assertEqual([], [line for line in text.splitlines() if len(line) > 80])
                self.assertNotIn("\x1b", text)
                self.assertEqual(done.stdout, run("plan", *ask, NO_COLOR="1").stdout)

    def test_explanations_are_at_most_80_columns(self):
        for number in ("/total", "/needs/2/fluid_ml_per_h", "/outlook/serum_sodium_mmol_per_l", "/mix"):
            text = run("explain", SAMPLES[0], number).stdout.decode()
            self.assertEqual([], [line for line in text.splitlines() if len(line) > 80])

    def test_exit_codes(self):
        good = ["--distance=sprint", "--mass=68kg", "--temperature=22C"]
        self.assertEqual(0, run("plan", *good).returncode)
        for bad in ([], ["--distance=sprint"], [*good, "--mass=0kg"], [*good, "--nonsense"], ["/no/such/file.json"],
                    [*good, "--temperature=hot"], [*good, "--days=-1"]):
            done = run("plan", *bad, "--json")
            self.assertEqual(2, done.returncode, bad)
            self.assertEqual(b"", done.stdout, bad)
            self.assertNotEqual(b"", done.stderr, bad)

    def test_a_reader_that_leaves_early_is_no_crash(self):
        """head closes the pipe at once: the program may fail to write, but not die of more than SIGPIPE."""
        shell = f"'{TUCK}' plan --distance=long --mass=70kg --temperature=20C --json | head -c 1"
        done = subprocess.run(["bash", "-c", shell + "; exit ${PIPESTATUS[0]}"], capture_output=True, timeout=60)
        self.assertEqual(b"{", done.stdout)
        self.assertIn(done.returncode, (0, 2, 128 + 13))

    def test_a_full_disk_is_told(self):
        if not Path("/dev/full").exists():
            self.skipTest("no /dev/full")
        with open("/dev/full", "w") as full:
            done = subprocess.run([TUCK, "plan", "--distance=sprint", "--mass=68kg", "--temperature=22C"], stdout=full,
                                  stderr=subprocess.PIPE, timeout=60)
        self.assertEqual(2, done.returncode)
        self.assertRegex(done.stderr.decode(), r"standard output")

    def test_output_to_a_file_is_the_same_document(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "plan.json"
            done = run("plan", *ONE_LINE[1], "--json", "-o", path)
            self.assertEqual((0, b""), (done.returncode, done.stdout))
            self.assertEqual(run("plan", *ONE_LINE[1], "--json").stdout, path.read_bytes())

    def test_a_past_eating_disorder_hides_the_scale(self):
        """Practice: no scale prompt, no mass and no percentage of it on any face."""
        event = {"distance": "long", "weather": {"temperature_c": 20}, "next_session_within_24_h": True,
                 "start_local": "07:00", "stations": "typical",
                 "athlete": {"mass_kg": 63, "health": {"past_eating_disorder": True}}}
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "e.json"
            path.write_text(json.dumps(event))
            plan = json.loads(run("plan", path, "--json").stdout)
            self.assertTrue(JUDGE.is_valid(plan))
            self.assertNotIn("mass_change_pct", plan["outlook"])
            because = {"because", "fuelling_because", "source"}

            def words(node):
                if isinstance(node, dict):
                    return [t for k, v in node.items() if k not in because for t in words(v)]
                if isinstance(node, list):
                    return [t for v in node for t in words(v)]
                return [node] if isinstance(node, str) else []
            for text in words(plan):
                self.assertNotRegex(text, r"(?i)\bkg\b|kilogram|weigh|body mass|scales?\b|lighter|heavier", text)
            said = run("plan", path).stdout.decode()
            self.assertNotRegex(said, r"(?i)\bkg\b|kilogram|you weigh|body mass|lighter at")


if __name__ == "__main__":
    sys.exit(unittest.main())
