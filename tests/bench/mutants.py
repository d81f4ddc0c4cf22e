#!/usr/bin/python3
"""Breaks one number or comparison of the stages at a time and asks who notices: the tests beside the code but for the slow
ones, then the approved outputs. By hand:

    mutants.py [COUNT, 30] [SEED, 1] [TEST, "~[fuzz]~[slow]"]

Works on a copy of the tree (build/mutants), never on the tree itself. Prints how many were caught, and every survivor with its
line: explain it, or write the test that it lacks. A break that does not compile is drawn again. Some half a minute each.
"""
import os
import random
import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COPY = ROOT / "build" / "mutants"
FOLDERS = ("body", "need", "schedule", "outlook", "plan", "ask", "diary")
SITES = [  # what is looked for, and what stands there instead
    (re.compile(r"(?<![\w.\"'])\d+\.\d+(?![\w.\"'])"), lambda text: f"{float(text) * 1.5 + 0.01:g}"),
    (re.compile(r"(?<![\w.\"'{\[])[2-9]\d*(?![\w.\"'\]])"), lambda text: str(int(text) * 3 // 2 + 1)),
    (re.compile(r" < "), lambda _: " >= "),
    (re.compile(r" > "), lambda _: " <= "),
    (re.compile(r" <= "), lambda _: " < "),
    (re.compile(r" >= "), lambda _: " > "),
    (re.compile(r" && "), lambda _: " || "),
    (re.compile(r" \|\| "), lambda _: " && "),
    (re.compile(r"std::min\("), lambda _: "std::max("),
    (re.compile(r"std::max\("), lambda _: "std::min("),
]


def sites(path):
    """(line, from, to, what stands there instead); no words, comments or includes."""
    out = []
    for number, line in enumerate(path.read_text("utf-8").split("\n")):
        code = line.split("//")[0]
        if '"' in code or code.lstrip().startswith(("#", "static_assert", "template")):
            continue
        for pattern, other in SITES:
            out += [(number, m.start(), m.end(), other(m.group())) for m in pattern.finditer(code)]
    return out


def build(target):
    done = subprocess.run(["ninja", "-C", COPY / "build", target], capture_output=True, text=True)
    return done.returncode == 0


def passes(command, **more):
    try:
        return subprocess.run(command, capture_output=True, timeout=300, **more).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def caught(which):
    """By what: the tests beside the code, the approved outputs, or nothing."""
    if not passes([COPY / "build/tests/tuck_tests", which, "--abort"]):
        return "unit"
    if not build("tuck_program") or not passes(["sh", COPY / "tests/approve.sh"], env={**os.environ, "TUCK": str(COPY / "build/tuck")}):
        return "approved"
    return ""


def copy():
    COPY.mkdir(parents=True, exist_ok=True)
    tracked = subprocess.run(["git", "-C", ROOT, "ls-files", "-z"], capture_output=True, text=True, check=True).stdout
    for name in filter(None, tracked.split("\0")):
        target = COPY / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists() or target.read_bytes() != (ROOT / name).read_bytes():
            shutil.copyfile(ROOT / name, target)
    if not (COPY / "build").exists():
        subprocess.run(["cmake", "-S", COPY, "-B", COPY / "build", "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                        "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -DNDEBUG", "-DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON"], check=True, capture_output=True)


def main():
    count, seed = (int(word) for word in (sys.argv[1:3] + ["30", "1"][len(sys.argv[1:3]):]))
    which = (sys.argv[3:] + ["~[fuzz]~[slow]"])[0]
    copy()
    if not build("tuck_tests") or caught(which):
        sys.exit("the tests do not pass as they are")
    places = [(path, site) for folder in FOLDERS for path in sorted((COPY / "src" / folder).glob("*.cpp"))
              for site in sites(path)]
    random.Random(seed).shuffle(places)
    tried, by = 0, {"unit": 0, "approved": 0, "": 0}
    for path, (number, start, end, other) in places:
        if tried == count:
            break
        whole = path.read_text("utf-8")
        lines = whole.split("\n")
        was = lines[number]
        lines[number] = was[:start] + other + was[end:]
        path.write_text("\n".join(lines), "utf-8")
        if build("tuck_tests"):
            tried += 1
            how = caught(which)
            by[how] += 1
            if not how:
                print(f"survived: {path.relative_to(COPY)}:{number + 1}: {was.strip()}  ->  {lines[number].strip()}")
            print(f"{tried}: {tried - by['']} caught", file=sys.stderr, flush=True)
        path.write_text(whole, "utf-8")
    build("tuck_tests")
    found = by["unit"] + by["approved"]
    print(f"{found} of {tried} caught ({100 * found / max(1, tried):.0f} %; {by['approved']} by the approved outputs alone), "
          f"of {len(places)} places")


if __name__ == "__main__":
    main()
