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
ALLOWED["sheet"] = set(STREAM) | {"say", "paper", "sheet"}
ALLOWED["text"] = set(STREAM) | {"say", "text", "registry"}
ALLOWED["io"] = {"base", "io"}
ALLOWED["diary"] = {"base", "effort", "body", "need", "diary"}  # it holds tests and rates against the stages
ALLOWED["ask"] = set(STREAM) | {"io", "diary", "ask"}  # the one door for programs
ALLOWED["models"] = {"base", "effort", "body", "need", "models", "registry"}
ALLOWED["registry"] = {"base"}  # the public header of the models: faces print their results
ALLOWED["cli"] = set(ALLOWED) | {"cli"}

# Public headers that belong to a stage; the others are plain data on the ground floor.
STAGE_HEADERS = {f"tuck/{name}.hpp": name for name in ("effort", "body", "need", "schedule", "outlook")}
STAGE_HEADERS.update({"tuck/compose.hpp": "plan", "tuck/model.hpp": "registry", "tuck/ask.hpp": "ask"})
# Who prints: the programs alone.
PRINTING = re.compile(r"\bstd::(cout|cerr|clog)\b|\b(printf|puts|fprintf)\s*\(|\bfmt::print\b")


def includes(text):
    return re.findall(r'^\s*#\s*include\s*([<"][^>"]+[>"])', text, re.M)


def floor_of_include(name):
    path = name[1:-1]
    if path.startswith("tuck/"):
        return STAGE_HEADERS.get(path, "base")
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
    return out


def faults_of_public_header(where, text):
    out = []
    floor = STAGE_HEADERS.get("tuck/" + where.name, "plan")
    for name in includes(text):
        if name[0] == '"' and not name[1:-1].startswith("tuck/"):
            out.append(f"{where}: a public header includes {name}")
        elif name[0] == "<" and "/" in name:
            out.append(f"{where}: a public header needs the library header {name}")
    return out + faults_of_source(where, floor, text)


def sources(folder):
    return sorted(p for p in folder.rglob("*") if p.suffix in (".cpp", ".hpp"))


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
        self.assertTrue(faults_of_source("x.cpp", "effort", '#include "tuck/body.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "plan", '#include "io/files.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "plan", '#include "card/card.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "need", '#include "tuck/model.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "text", '#include "models/registry.hpp"\n'))
        self.assertTrue(faults_of_source("x.cpp", "io", '#include "body/sweat.hpp"\n'))
        self.assertTrue(faults_of_public_header(Path("plan.hpp"), '#include "base/air.hpp"\n'))
        self.assertTrue(faults_of_public_header(Path("plan.hpp"), "#include <fmt/format.h>\n"))
        self.assertEqual([], faults_of_source("x.cpp", "cli", '#include "io/files.hpp"\n#include <CLI/CLI.hpp>\n'))
        self.assertEqual([], faults_of_source("x.cpp", "need", '#include "body/sweat.hpp"\n#include <vector>\n'))


if __name__ == "__main__":
    sys.exit(unittest.main())
