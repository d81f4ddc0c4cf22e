#!/usr/bin/python3
"""The shell scripts: plain POSIX shell, and clear about what they cannot do."""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(os.environ["TUCK_ROOT"])
SCRIPTS = ["samples/first-plan.sh", "tests/run.sh"]
PAGE_SCRIPTS = ["samples/page.sh", "tests/page/build.sh"]


class Scripts(unittest.TestCase):
    def test_posix_shell_reads_them(self):
        for name in SCRIPTS + PAGE_SCRIPTS + ["tests/approve.sh"]:
            done = subprocess.run(["dash", "-n", ROOT / name], capture_output=True, text=True)
            self.assertEqual((0, ""), (done.returncode, done.stderr), name)
            self.assertEqual("#!/bin/sh", (ROOT / name).read_text().splitlines()[0])

    def test_one_format(self):
        """.clang-format holds over the whole tree."""
        code = [str(file) for part in ("src", "include", "tests") for file in sorted((ROOT / part).rglob("*"))
                if file.suffix in (".cpp", ".hpp", ".inc")]
        self.assertGreater(len(code), 100)
        done = subprocess.run(["clang-format", "--dry-run", "--Werror", *code], capture_output=True, text=True)
        self.assertEqual((0, ""), (done.returncode, done.stderr[:2000]), "clang-format -i mends it")

    def test_ci_calls_the_one_script(self):
        done = subprocess.run(["bash", "-n", ROOT / ".ci/run"], capture_output=True, text=True)
        self.assertEqual(0, done.returncode, done.stderr)
        self.assertIn("tests/run.sh", (ROOT / ".ci/run").read_text())

    def test_without_root_it_stops_with_a_clear_word(self):
        """A machine where nothing is installed, and the user may install nothing."""
        with tempfile.TemporaryDirectory() as folder:
            tools = Path(folder) / "bin"
            tools.mkdir()
            for name in ("dirname", "date", "env"):
                (tools / name).symlink_to(shutil.which(name))
            for name, text in (("id", "echo 1000"), ("dpkg-query", "exit 1")):
                (tools / name).write_text(f"#!/bin/sh\n{text}\n")
                (tools / name).chmod(0o755)
            for script in SCRIPTS:
                done = subprocess.run(["/bin/sh", ROOT / script], capture_output=True, text=True,
                                      env={"PATH": str(tools)}, cwd=folder)
                self.assertEqual(1, done.returncode, script)
                self.assertIn("root or sudo", done.stderr, script)
                self.assertIn("libhpdf-dev", done.stderr, script)

    def test_scripts_name_every_library_the_build_needs(self):
        """What CMakeLists.txt asks for is what the scripts install."""
        package_of = {"nlohmann_json": "nlohmann-json3-dev", "fmt": "libfmt-dev", "CLI11": "libcli11-dev",
                      "hpdf": "libhpdf-dev", "Catch2": "catch2", "pugixml": "libpugixml-dev", "utf8.h": "libutfcpp-dev",
                      "fast_float/fast_float.h": "libfast-float-dev"}
        for cmake, scripts in (("CMakeLists.txt", SCRIPTS), ("tests/CMakeLists.txt", ["tests/run.sh"])):
            asked = (ROOT / cmake).read_text()
            for library, package in package_of.items():
                if f"find_package({library} " in asked or f" {library} REQUIRED" in asked:
                    for script in scripts:
                        self.assertIn(package, (ROOT / script).read_text(), f"{script}: {library}")


if __name__ == "__main__":
    sys.exit(unittest.main())
