#!/usr/bin/python3
"""The floors of the source tree: what may include what. The rule is the tree's own contract (DEVELOPERS.md)."""
import os
import re
import sys
import unittest
from pathlib import Path

ROOT = Path(os.environ["TUCK_ROOT"])

STREAM = ["base", "effort", "body", "need", "schedule", "outlook", "plan"]
ALLOWED = {name: set(STREAM[: i + 1]) for i, name in enumerate(STREAM)}
ALLOWED["paper"] = {"base", "paper"}  # it knows no sport
ALLOWED["say"] = set(STREAM) | {"say"}
ALLOWED["card"] = set(STREAM) | {"say", "paper", "card"}
ALLOWED["sheet"] = set(STREAM) | {"diary", "say", "paper", "sheet"}
ALLOWED["text"] = set(STREAM) | {"diary", "say", "text", "registry"}
ALLOWED["io"] = {"base", "diary", "io"}  # it reads and writes the diary's entries
ALLOWED["diary"] = set(STREAM) | {"diary"}  # it holds what happened against models and plans
ALLOWED["ask"] = set(STREAM) | {"io", "diary", "ask"}  # the one door for programs
ALLOWED["models"] = {"base", "effort", "body", "need", "models", "registry"}
ALLOWED["registry"] = {"base"}  # the public header of the models: faces print their results
ALLOWED["page"] = set(ALLOWED) | {"page"}  # a face of its own, beside cli
ALLOWED["cli"] = (set(ALLOWED) | {"cli"}) - {"page"}

# The floor of every public header. "plan" is the composer and its product; "registry" the models by name.
HEADERS = {
    "base": "athlete course document error event figures food named_files own_fault own_line quantity reason spread version",
    "effort": "effort",
    "body": "body",
    "need": "need",
    "schedule": "schedule",
    "outlook": "outlook",
    "plan": "compose plan trace",
    "diary": "diary rehearsal sweat_test",
    "io": "pantry",
    "registry": "model",
    "ask": "ask",
}
HEADER_FLOOR = {f"tuck/{name}.hpp": floor for floor, names in HEADERS.items() for name in names.split()}
# A stage speaks to another through its public header alone. The composer runs them all; the diary holds what
# happened against single models.
SPEAKS_PRIVATELY = {"plan", "diary"}
# Who prints: the programs alone.
PRINTING = re.compile(r"\bstd::(cout|cerr|clog)\b|\b(printf|puts|fprintf)\s*\(|\bfmt::print\b")


def includes(text):
    return re.findall(r'^\s*#\s*include\s*([<"][^>"]+[>"])', text, re.M)


def floor_of_include(name):
    path = name[1:-1]
    if path.startswith("tuck/"):
        return HEADER_FLOOR.get(path, "base")
    if name[0] == '"':
        return path.split("/")[0]
    return None


def faults_of_source(where, floor, text):
    """The forbidden includes of one file on one floor."""
    out = []
    for name in includes(text):
        target = floor_of_include(name)
        if target is not None and target not in ALLOWED[floor]:
            out.append(f"{where}: a file of '{floor}' includes {name}")
        stages = floor in STREAM and target in STREAM and target not in ("base", floor)
        if stages and floor not in SPEAKS_PRIVATELY and not name[1:].startswith("tuck/"):
            out.append(f"{where}: a file of '{floor}' includes {name}, which is another stage's own")
    return out


def faults_of_public_header(where, text):
    out = []
    floor = HEADER_FLOOR["tuck/" + where.name]
    for name in includes(text):
        if name[0] == '"' and not name[1:-1].startswith("tuck/"):
            out.append(f"{where}: a public header includes {name}")
        elif name[0] == "<" and "/" in name:
            out.append(f"{where}: a public header needs the library header {name}")
    return out + faults_of_source(where, floor, text)


def sources(folder):
    return sorted(p for p in folder.rglob("*") if p.suffix in (".cpp", ".hpp", ".inc"))


class Layers(unittest.TestCase):
    def test_sources(self):
        faults = []
        for path in sources(ROOT / "src"):
            floor = path.relative_to(ROOT / "src").parts[0]
            self.assertIn(floor, ALLOWED, f"{path}: a folder that is no floor")
            faults += faults_of_source(path.relative_to(ROOT), floor, path.read_text("utf-8"))
        self.assertEqual([], faults, "\n".join(faults))

    def test_public_headers(self):
        faults = []
        for path in sources(ROOT / "include"):
            faults += faults_of_public_header(path.relative_to(ROOT), path.read_text("utf-8"))
        self.assertEqual([], faults, "\n".join(faults))

    def test_every_public_header_has_a_floor(self):
        names = {"tuck/" + path.name for path in (ROOT / "include/tuck").glob("*.hpp")}
        self.assertEqual(names, set(HEADER_FLOOR))

    def test_headers_are_guarded_and_tools_stay_out(self):
        for path in sources(ROOT / "src") + sources(ROOT / "include"):
            text = path.read_text("utf-8")
            if path.suffix == ".hpp":
                self.assertIn("#pragma once", text, path)
            if path.relative_to(ROOT).parts[:2] != ("src", "cli"):
                self.assertIsNone(PRINTING.search(text), f"{path}: only the programs print")

    def test_one_file_reads_the_command_line(self):
        users = [p.name for p in sources(ROOT / "src") if "<CLI/" in p.read_text("utf-8")]
        self.assertEqual(["parse.cpp"], users, "its templates were 38 % of the build when every command had them")

    def test_the_rule_bites(self):
        self.assertTrue(faults_of_source("x.cpp", "body", '#include "need/need.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "outlook", '#include "body/energy.hpp"\n'))
        self.assertTrue(faults_of_public_header(Path("effort.hpp"), '#include "tuck/plan.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "effort", '#include "tuck/body.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "plan", '#include "io/files.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "plan", '#include "card/card.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "need", '#include "tuck/model.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "text", '#include "models/registry.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "io", '#include "body/sweat.hpp"\n'))
        self.assertTrue(faults_of_public_header(Path("plan.hpp"), '#include "base/air.hpp"\n'))
        self.assertTrue(faults_of_public_header(Path("plan.hpp"), "#include <fmt/format.h>\n"))
        self.assertEqual([], faults_of_source("x.cpp", "cli", '#include "io/files.hpp"\n#include <CLI/CLI.hpp>\n'))
        self.assertEqual([], faults_of_source("x.cpp", "need", '#include "tuck/body.hpp"\n#include <vector>\n'))


if __name__ == "__main__":
    sys.exit(unittest.main())
