#!/usr/bin/python3
"""The list of licences against what is there: what the finished programs link (readelf), what the build looks for, what the page
is made of, and the terms in Debian's own copyright files."""
import os
import re
import subprocess
import sys
import unittest
from pathlib import Path

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
# The package of each library by its soname in Debian 12, and the words of its copyright file that our word stands for.
PACKAGES = {"libhpdf-2.3.0.so": "libhpdf-2.3.0", "libexpat.so.1": "libexpat1", "libfmt.so.9": "libfmt9", "libqpdf.so.29": "libqpdf29",
            "libstdc++.so.6": "libstdc++6", "libgcc_s.so.1": "libgcc-s1", "libc.so.6": "libc6", "libm.so.6": "libc6",
            "ld-linux-x86-64.so.2": "libc6", "libz.so.1": "zlib1g", "libpng16.so.16": "libpng16-16"}
FOUND_BY = {"nlohmann_json": "nlohmann-json3-dev", "fmt": "libfmt9", "CLI11": "libcli11-dev", "EXPAT": "libexpat1", "TUCK_HPDF": "libhpdf-2.3.0",
            "TUCK_QPDF": "libqpdf29", "TUCK_UTFCPP_INCLUDE": "libutfcpp-dev", "TUCK_FAST_FLOAT_INCLUDE": "libfast-float-dev"}
TERMS = {"MIT": r"(?i)\bMIT\b|Expat|Permission is hereby granted, free of charge", "Zlib": r"License: Zlib", "libpng": r"License: libpng",
         "GPL-3+": r"General Public License", "LGPL-2.1+": r"Lesser General Public", "Apache-2.0": r"Apache License|Apache-2.0",
         "BSD-3-clause": r"License: BSD-3-clause", "BSL-1.0": r"License: BSL-1.0", "GPL-2": r"General Public License v.2",
         "libharu's": r"License: libharu"}


def needed(program):
    said = subprocess.run(["readelf", "-d", program], capture_output=True, text=True, check=True).stdout
    return set(re.findall(r"\(NEEDED\).*\[(.*)\]", said))


class Licences(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.text = subprocess.run([TUCK, "help", "--licences"], capture_output=True, text=True, check=True).stdout
        cls.terms = {package: words for package, words in
                     re.findall(r"^  \S.*?\s\s+([a-z][\w.+-]*\d[\w.+-]*|[a-z]+[\w.+-]*-[\w.+-]+|emscripten) +(\S.*)$", cls.text, re.M)}

    def test_all_that_is_linked(self):
        linked = needed(TUCK) | needed(Path(TUCK).parent / "tuck-check")
        self.assertGreater(len(linked), 5)
        for library in linked:
            self.assertIn(PACKAGES[library], self.terms, library)
        # libharu brings these two along.
        self.assertLessEqual({"zlib1g", "libpng16-16"}, set(self.terms))

    def test_all_that_the_build_looks_for(self):
        cmake = (ROOT / "CMakeLists.txt").read_text()
        asked = set(re.findall(r"^find_(?:package|library|path)\((\w+)", cmake, re.M)) - {"Threads", "TUCK_HPDF_INCLUDE", "TUCK_QPDF_INCLUDE"}
        self.assertEqual(set(FOUND_BY), asked)
        for package in FOUND_BY.values():
            self.assertIn(package, self.terms)

    def test_all_that_the_page_is_made_of(self):
        script = (ROOT / "samples/page.sh").read_text()
        sources = re.search(r'^sources="([^"]*)"', script, re.M)[1]
        packages = {pair.split(":")[1] for pair in sources.split()} | set(re.findall(r"fonts-[\w-]+", script))
        packages |= {word for word in re.search(r'^needed="([^"]*)"', script, re.M)[1].split() if word.endswith("-dev") and word != "dpkg-dev"}
        carried = set(re.findall(r'"([^"]+)"', re.search(r"^PACKAGES = \((.*?)\)", (ROOT / "src/page/assemble.py").read_text(), re.S | re.M)[1]))
        self.assertEqual(packages, carried)
        for word in ("emscripten", "musl", "libc++", "compiler-rt", "dlmalloc"):
            self.assertIn(word, self.text)

    def test_the_terms_are_debians(self):
        seen = 0
        for package, words in self.terms.items():
            path = Path(f"/usr/share/doc/{package}/copyright")
            if package == "emscripten" or not path.exists():
                continue
            name = re.split(r"[ ,]", words)[0]
            self.assertRegex(path.read_text("utf-8", "replace"), TERMS[name], package)
            seen += 1
        self.assertGreater(seen, 10)

    def test_it_fits_a_terminal_and_holds_the_texts(self):
        self.assertLessEqual(max(map(len, self.text.splitlines())), 80)
        flat = " ".join(self.text.split())
        for path, begin in (("src/LICENSE", "Permission is hereby granted"),):
            own = " ".join((ROOT / path).read_text().split())
            self.assertIn(own[own.index(begin):], flat)
        cli11 = Path("/usr/share/doc/libcli11-dev/copyright").read_text()
        clause = re.sub(r"\s+", " ", re.sub(r"(?m)^ \.?", "", cli11.split("License: BSD-3-clause\n")[-1])).strip()
        self.assertIn(clause, flat)


if __name__ == "__main__":
    sys.exit(unittest.main())
