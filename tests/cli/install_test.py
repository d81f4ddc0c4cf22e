#!/usr/bin/python3
"""The installed program runs from anywhere, and an outside CMake project finds the installed library."""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(os.environ["TUCK_ROOT"])
BUILD = Path(os.environ["TUCK_BUILD"])


def run(*command, **kwargs):
    return subprocess.run([str(part) for part in command], capture_output=True, text=True, timeout=600, **kwargs)


class Install(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.prefix = Path(cls.folder.name) / "prefix"
        cls.elsewhere = Path(cls.folder.name) / "elsewhere"
        cls.elsewhere.mkdir()
        done = run("cmake", "--install", BUILD, "--prefix", cls.prefix)
        assert done.returncode == 0, done.stderr

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def tuck(self, *arguments):
        return run(self.prefix / "bin" / "tuck", *arguments, cwd=self.elsewhere, env={"PATH": "/usr/bin:/bin"})

    def test_the_pantry_is_found_beside_the_program(self):
        done = self.tuck("foods", "list")
        self.assertEqual((0, ""), (done.returncode, done.stderr))
        self.assertIn("water_tap", done.stdout)

    def test_a_plan_from_one_line(self):
        done = self.tuck("plan", "--distance", "sprint", "--mass", "68kg", "--temperature", "22C")
        self.assertEqual(0, done.returncode, done.stderr)
        self.assertTrue(done.stdout.strip())

    def test_schemas_and_samples_come_along(self):
        share = self.prefix / "share" / "tuck"
        for name in ("schema/event.schema.json", "schema/athlete.schema.json", "samples/hot-standard.json"):
            self.assertTrue((share / name).is_file(), name)

    def test_2026_11_no_licence_was_installed(self):
        self.assertIn("MIT", (self.prefix / "share/doc/tuck/LICENSE").read_text())

    def test_2026_11_the_builders_folder_was_compiled_in(self):
        program = self.prefix / "bin" / "tuck"
        self.assertNotIn(str(ROOT / "foods").encode(), program.read_bytes())
        alone = self.elsewhere / "tuck"
        shutil.copy(program, alone)
        done = run(alone, "foods", "list")
        self.assertEqual(2, done.returncode, done.stdout)
        self.assertNotIn(str(ROOT), done.stderr)

    def test_2026_11_readers_of_strangers_files_were_not_hardened(self):
        program = self.prefix / "bin" / "tuck"
        self.assertRegex(run("readelf", "--dynamic", program).stdout, "BIND_NOW|NOW")
        names = run("readelf", "--symbols", "--wide", program).stdout
        self.assertIn("__stack_chk_fail", names)
        self.assertIn("_chk@", names.replace("__stack_chk_fail@", ""))

    def test_every_public_header_is_installed(self):
        names = {path.name for path in (ROOT / "include" / "tuck").glob("*.hpp")}
        self.assertEqual(names, {path.name for path in (self.prefix / "include" / "tuck").glob("*.hpp")})

    def test_every_public_header_stands_alone(self):
        for path in sorted((self.prefix / "include" / "tuck").glob("*.hpp")):
            done = run("g++", "-std=c++20", "-fsyntax-only", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-x", "c++",
                       "-I", self.prefix / "include", "-", input=f"#include <tuck/{path.name}>\n")
            self.assertEqual(0, done.returncode, done.stderr)

    def test_an_outside_project_links(self):
        work = Path(self.folder.name) / "guest"
        for command in (
            ("cmake", "-S", ROOT / "tests" / "install", "-B", work, "-G", "Ninja", f"-DCMAKE_PREFIX_PATH={self.prefix}"),
            ("cmake", "--build", work),
            (work / "guest",),
        ):
            done = run(*command)
            self.assertEqual(0, done.returncode, done.stdout + done.stderr)
        # World Triathlon standard distance: 1.5, 40 and 10 km. Body surface in the metre form of
        # ISO 7933:2004, from memory: 0.202 x 70^0.425 x 1.75^0.725 = 1.844 m2.
        self.assertEqual(["swim 1500", "t1 0", "bike 40000", "t2 0", "run 10000", "surface 1.84"],
                         done.stdout.splitlines())

    def test_the_library_is_used_as_the_samples_show(self):
        work = Path(self.folder.name) / "library"
        for command in (
            ("cmake", "-S", self.prefix / "share/tuck/samples/library", "-B", work, "-G", "Ninja",
             f"-DCMAKE_PREFIX_PATH={self.prefix}", "-DCMAKE_CXX_FLAGS=-Wall -Wextra -Wpedantic -Werror"),
            ("cmake", "--build", work),
        ):
            done = run(*command)
            self.assertEqual(0, done.returncode, done.stdout + done.stderr)
        plan = run(work / "plan", self.prefix / "share/tuck/foods")
        self.assertEqual(0, plan.returncode, plan.stderr)
        self.assertRegex(plan.stdout, r"safe, \d+ min\n(.*\n)*bike +\d+ min: +\d+ g, +\d+ ml")
        fault = run(work / "plan", self.elsewhere)
        self.assertEqual(2, fault.returncode)
        self.assertIn("no folder with food files", fault.stderr)
        # ISO 7933:2004, the metre form, from memory: 0.202 x 70^0.425 x 1.75^0.725 = 1.844 m2.
        self.assertEqual("1.84 m2\n", run(work / "body_surface").stdout)
        for program, absent in (("plan", "hpdf"), ("body_surface", "expat")):
            self.assertNotIn(absent, run("ldd", work / program).stdout)

    def test_the_package_names_no_place_of_the_builder(self):
        for path in (self.prefix / "lib").rglob("tuck*.cmake"):
            text = path.read_text()
            self.assertNotIn(str(ROOT), text, path.name)
            self.assertNotRegex(text, r"/usr/lib|x86_64-linux-gnu/lib", path.name)

    def test_only_the_checker_loads_a_pdf_reader(self):
        self.assertNotIn("qpdf", run("ldd", self.prefix / "bin" / "tuck").stdout)
        self.assertIn("qpdf", run("ldd", self.prefix / "bin" / "tuck-check").stdout)
        done = self.tuck("card", "--distance", "sprint", "--mass", "68kg", "--temperature", "22C", "--check")
        self.assertEqual(0, done.returncode, done.stdout + done.stderr)
        self.assertIn("ok ", done.stdout)


if __name__ == "__main__":
    sys.exit(unittest.main())
