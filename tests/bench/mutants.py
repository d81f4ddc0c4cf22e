#!/usr/bin/python3
"""Breaks one number, comparison or condition of the stages at a time and asks who notices: the tests beside the code but for
the slow ones, then the approved outputs, then some tests of the finished program, each about the breaks that it comes by.
By hand, an hour for 300:

    mutants.py [COUNT, 30] [SEED, 1]     draws COUNT places, builds, tries each
    mutants.py again [NUMBER ...]        tries those again (else all that nobody noticed) with sources and tests as they are now;
                                         a break whose line has changed since then is gone

Works on a copy of the tree (build/mutants) with all breaks compiled in at once (mutants.hpp), each off until TUCK_MUTANT
names its number; TUCK_MUTANT=17 build/mutants/build/tuck ... shows what 17 does. A break that does not compile is drawn anew. Prints every
survivor with its line: explain it, or write the test that it lacks. Files that read the code itself do not judge here.
"""
import json
import os
import random
import re
import resource
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COPY = ROOT / "build" / "mutants"
KEPT = COPY / "build" / "mutants.json"
DRAWN = COPY / "build" / "drawn"  # the sources in which the places of mutants.json lie
FOLDERS = ("body", "need", "schedule", "outlook", "plan", "ask", "diary")
CLI = ("own_plan", "edits", "diary", "rehearse", "plan_words", "wrong_inputs", "plan_faults", "schedule_solver", "course",
       "one_rhythm")
# Tests of other floors: not built.
OTHERS = re.compile(r"tests/unit/(card|diary_file|doors|effort_course|event_file|gpx|label|layout|outputs|page|pantry|pdf|"
                    r"quantity|roster|schema|sheet|squad|text_fit|units|utf8)\w*\.cpp")
# The test program is built once and run often, and its own speed is not what counts.
QUICKER = (("tuck_doors tuck tuck_page", "tuck"),
           ("add_executable(tuck_tests ${TUCK_UNIT})", "add_executable(tuck_tests ${TUCK_UNIT})\ntarget_compile_options(tuck_tests PRIVATE -O0)"))
NO_CODE = re.compile(r'//[^\n]*|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'|^ *#(?:[^\n]*\\\n)*[^\n]*|'
                     r"^ *(?:static_assert|template|case)\b[^\n]*", re.M)
# The approved plans alone, without their other faces, up to the first that differs.
PLANS = r"""cd "$TUCK_ROOT"; said=$(mktemp); trap 'rm "$said"' EXIT; grep '^[^#]' tests/approved/cases | while IFS= read -r line; do
"$TUCK" plan ${line#*: } --days 200 --json >"$said" 2>/dev/null; held=tests/approved/${line%%: *}/plan.json
[ -s "$said" ] && cmp -s -n "$(wc -c <"$said")" "$said" "$held" || exit 1; done"""
NUMBER = r"(?<![\w.'\[])(?:(?:\d*\.\d+|\d+(?=e))(?:e-?\d+)?f?|[2-9]|[1-9]\d+)(?![\w.'\]>])"
COMPARISONS = {"<": "< {}Less{{{}}} >", ">": "< {}More{{{}}} >", "<=": "< {}NotMore{{{}}} >", ">=": "< {}NotLess{{{}}} >",
               "==": "== {}Same{{{}}} !=", "!=": "== {}Other{{{}}} !="}
PLACES = re.compile(rf"(?P<number>{NUMBER})|(?<= )(?P<comparison>[<>]=?|[=!]=)(?=\s)|(?<= )(?P<condition>&&|\|\|)(?=\s)|"
                    r"(?P<least>std::m(?:in|ax)(?:<[\w:]+>)?\()|(?P<figure>(?<![.>])\b(?:figure|value)\(\"[^\"]*\"\))")


def blank(found):
    return re.sub(r"[^\n]", '"' if found.group()[0] in "\"'" else " ", found.group())


def more(number):
    """Half as much again."""
    if re.fullmatch(r"\d+", number):
        return str(max(int(number) + 1, int(number) * 3 // 2))
    other = f"{float(number.rstrip('f')) * 1.5 or 1:.9g}"
    return other + ".0" * other.isdigit() + "f" * number.endswith("f")


def operand_end(code, at):
    """Where what stands to the right of && or || ends."""
    depth = 0
    for found in re.compile(r"[([{]|[)\]}]|&&|\|\||::|[;,?:]").finditer(code, at):
        if found.group() in "([{":
            depth += 1
        elif found.group() in ")]}" and depth:
            depth -= 1
        elif not depth and found.group() != "::":
            return found.start() if found.group() in ")]};,:?" else found.start() - 1
    return len(code)


def places(path):
    """(start, end, kind) of all that can be broken in a file."""
    text = path.read_text("utf-8")
    code = NO_CODE.sub(blank, text)
    with_words = re.sub(r"//[^\n]*", blank, text)
    for found in PLACES.finditer(code):
        yield found.start(), found.end(), found.lastgroup
    for found in PLACES.finditer(with_words):
        if found.lastgroup == "figure" and code[found.start()] != " ":
            yield found.start(), found.end(), "figure"


def edits(mutant, text, code):
    """(start, end, what stands there instead) that put a break in, off."""
    start, end, number = mutant["start"], mutant["end"], mutant["number"]
    was, on = text[start:end], f"mutants::on({number})"
    if mutant["kind"] == "number":
        return [(start, end, f"({on} ? {more(was)} : {was})")]
    if mutant["kind"] == "figure":
        return [(start, end, f"({on} ? {'1.5f' if was[0] == 'v' else '1.5'} * {was} : {was})")]
    if mutant["kind"] == "comparison":
        return [(start, end, COMPARISONS[was].format("mutants::", number))]
    if mutant["kind"] == "least":
        return [(start, end, was.replace("std", "mutants", 1) + f"{number}, ")]
    first = end + len(text[end:]) - len(text[end:].lstrip())
    last = len(code[:operand_end(code, first)].rstrip())
    return [(first, first, f"({on} || (" if was == "&&" else f"(!{on} && ("), (last, last, "))")]


def softened(text):
    """What is computed by the compiler is computed at the start instead, as TUCK_MUTANT says."""
    text = re.sub(r"\bconstexpr (?=[\w:<>]+ \w+\([^;={]*\) \{)", "inline ", text)
    text = re.sub(r"^((?:inline )?)constexpr (?!char|const\b)", r"\1const ", text, flags=re.M)
    return re.sub(r"^( +)constexpr (?!char|const\b)", r"\1static const ", text, flags=re.M)


def write(name, text):
    target = COPY / name
    target.parent.mkdir(parents=True, exist_ok=True)
    if not target.exists() or target.read_bytes() != text:
        target.write_bytes(text)


def copy(folder="."):
    tracked = subprocess.run(["git", "-C", ROOT, "ls-files", "-z", "-c", "-o", "--exclude-standard", folder],
                             capture_output=True, text=True, check=True).stdout
    for name in filter(None, tracked.split("\0")):
        broken = name.startswith("src/") and Path(name).parent.name in FOLDERS
        if (ROOT / name).exists() and not broken and not OTHERS.match(name):
            data = (ROOT / name).read_bytes()
            if name == "tests/CMakeLists.txt":
                for was, now in QUICKER:
                    data = data.replace(was.encode(), now.encode())
            write(name, data)


def find_again(mutant):
    """Whether the place is still there, by what stands around it; then where it is now."""
    name, start, end = mutant["file"], mutant["start"], mutant["end"]
    then, now = (DRAWN / name).read_text("utf-8"), (ROOT / name).read_text("utf-8")
    for around in (60, 30, 10):
        before = min(around, start)
        text = then[start - before:end + around]
        if now.count(text) == 1:
            mutant["start"] = now.index(text) + before
            mutant["end"] = mutant["start"] + end - start
            lines = mutant["last_line"] - mutant["line"]
            mutant["line"] = now.count("\n", 0, mutant["start"]) + 1
            mutant["last_line"] = mutant["line"] + lines
            return True
    return False


def keep_sources(drawn):
    for name in {mutant["file"] for mutant in drawn}:
        (DRAWN / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, DRAWN / name)


def break_all(drawn):
    """Writes the stages with these breaks in. Every file has one line more: the header's."""
    for folder in FOLDERS:
        for path in sorted((ROOT / "src" / folder).rglob("*")):
            name = str(path.relative_to(ROOT))
            text = path.read_text("utf-8")
            if path.suffix in (".cpp", ".hpp", ".inc"):
                code = NO_CODE.sub(blank, text)
                here = [edit for mutant in drawn if mutant["file"] == name for edit in edits(mutant, text, code)]
                for start, end, instead in sorted(here, reverse=True):
                    text = text[:start] + instead + text[end:]
                if path.suffix != ".inc":
                    text = '#include "mutants.hpp"\n' + softened(text)
            write(name, text.encode("utf-8"))
    write("src/mutants.hpp", (ROOT / "tests/bench/mutants.hpp").read_bytes())


def build(*targets):
    """What the compiler says, if it does not build."""
    if not (COPY / "build" / "build.ninja").exists():
        launcher = ["-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"] if shutil.which("ccache") else []
        subprocess.run(["cmake", "-S", COPY, "-B", COPY / "build", "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                        "-DCMAKE_CXX_FLAGS_RELEASE=-O1", "-DTUCK_TESTS=ON", *launcher], check=True, capture_output=True)
    done = subprocess.run(["ninja", "-C", COPY / "build", "-k", "0", "-j", "2", *targets], capture_output=True, text=True)
    return done.stdout if done.returncode else ""


def blamed(said, drawn):
    """The breaks at the lines of the first error, of each file that does not compile, that names one: what follows an error
    may only follow from it."""
    lines = {}
    for mutant in drawn:
        for line in range(mutant["line"], mutant["last_line"] + 1):
            lines.setdefault((mutant["file"], line), set()).add(mutant["number"])
    out = set()
    for one in said.split("FAILED: ")[1:]:
        for error in re.split(r"^(?=\S+: (?:fatal )?error: )", one, flags=re.M)[1:]:
            here = set().union(*(lines.get((file, int(line) - (not file.endswith(".inc"))), ())
                                 for file, line in re.findall(r"(src/[\w/]+\.\w+):(\d+):", error)))
            if here:
                out |= here
                break
    return out


def draw(count, seed):
    """The breaks that compile, in the order of the draw; and how many places there are."""
    every = [(str(path.relative_to(ROOT)), *place) for folder in FOLDERS for path in sorted((ROOT / "src" / folder).iterdir())
             if path.suffix in (".cpp", ".hpp", ".inc") for place in places(path)]
    random.Random(seed).shuffle(every)
    drawn = []
    for number, (file, start, end, kind) in enumerate(every[:count * 5 // 4], 1):
        text = (ROOT / file).read_text("utf-8")
        last = operand_end(NO_CODE.sub(blank, text), end) if kind == "condition" else end
        drawn.append({"number": number, "file": file, "start": start, "end": end, "kind": kind,
                      "line": text.count("\n", 0, start) + 1, "last_line": text.count("\n", 0, last) + 1,
                      "says": text.split("\n")[text.count("\n", 0, start)].strip(), "was": text[start:end]})
    copy()
    while True:
        break_all(drawn)
        said = build("tuck_core", "tuck_io") or build("tuck_tests")
        if not said:
            return drawn, len(every)
        bad = blamed(said, drawn)
        if not bad:
            sys.exit(said)
        print(f"{len(bad)} do not compile: {sorted(bad)}", file=sys.stderr, flush=True)
        drawn = [mutant for mutant in drawn if mutant["number"] not in bad]


def run(command, number, cpu_s=3600, met=""):
    """Whether it passes. A break that runs for ever, or takes all memory, does not."""
    def bounds():
        resource.setrlimit(resource.RLIMIT_CPU, (cpu_s, cpu_s))
        resource.setrlimit(resource.RLIMIT_AS, (3 << 30, 3 << 30))
    there = {**os.environ, "TUCK_MUTANT": str(number), "TUCK_MUTANTS_MET": str(met), "TUCK": str(COPY / "build/tuck"),
             "TUCK_ROOT": str(COPY), "TUCK_BUILD": str(COPY / "build"), "LC_ALL": "C.UTF-8"}
    try:
        done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=900, env=there,
                              preexec_fn=bounds)
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def reach(command):
    """(the breaks that a judge comes by, its CPU seconds): nobody else's can it notice."""
    met = COPY / "build/met.txt"
    met.write_text("")
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    if not run(command, -1, met=met):
        sys.exit(f"{(COPY / 'build/names.txt').read_text() if '-f' in command else command} does not pass as it is")
    return {int(number) for number in met.read_text().split()}, resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before


def test_names():
    """Of the tests beside the code but for the slow ones."""
    which = [COPY / "build/tests/tuck_tests", "~[fuzz]~[slow]", "--list-test-names-only"]
    return subprocess.run(which, capture_output=True, text=True).stdout.splitlines() # Catch's own count is its exit code


def tests_only(names):
    chosen = COPY / "build/names.txt"
    chosen.write_text("".join(name.replace(",", r"\,") + "\n" for name in names))
    return [COPY / "build/tests/tuck_tests", "-f", chosen, "--abort"]


def try_all(kept, wanted):
    """One judge after the other, each on all that is left and that it comes by. `by`: who noticed."""
    for mutant in kept["drawn"]:
        if mutant["number"] in wanted:
            mutant["by"], mutant["met"] = "", False

    def left():
        return [mutant for mutant in kept["drawn"] if mutant["number"] in wanted and not mutant["by"]]

    def ask(who, mutant, command, cpu_s):
        mutant["met"] = True
        mutant["by"] = "" if run(command, mutant["number"], int(4 * cpu_s) + 5) else who
        KEPT.write_text(json.dumps(kept, indent=1))
        print("{}: {number}: {file}:{line}: {was}: {}".format(who, mutant["by"] and "caught", **mutant), file=sys.stderr,
              flush=True)

    def beside_the_code(least_s, most_s):
        for mutant in left():
            names = [name for name, (met, cpu_s) in met_by.items() if mutant["number"] in met and least_s <= cpu_s < most_s]
            if names:
                ask(f"under {most_s:g} s", mutant, tests_only(names), sum(met_by[name][1] for name in names))

    def finished(who, command):
        met, cpu_s = reach(command) if left() else ((), 0)
        for mutant in left():
            if mutant["number"] in met:
                ask(who, mutant, command, cpu_s)

    if said := build("tuck_tests", "tuck_program"):
        sys.exit(said)
    met_by = {name: reach(tests_only([name])) for name in test_names()}
    beside_the_code(0, 0.2)
    finished("plans", ["sh", "-c", PLANS])
    beside_the_code(0.2, 1000)
    finished("approved", ["sh", COPY / "tests/approve.sh"])
    for name in CLI:
        finished(name, ["/usr/bin/python3", COPY / f"tests/cli/{name}_test.py"])


def tell(kept):
    tried = [mutant for mutant in kept["drawn"] if "by" in mutant]
    for mutant in tried:
        if not mutant["by"]:
            print("{}: {number}: {file}:{line}: {was}  in  {says}".format("survived" if mutant["met"] else "never met", **mutant))
    found = sum(1 for mutant in tried if mutant["by"])
    print(f"{found} of {len(tried)} caught ({100 * found / max(1, len(tried)):.1f} %), drawn from {kept['places']} places; "
          f"{kept['not_compiled']} more did not compile")


def main():
    words = sys.argv[1:]
    if words[:1] == ["again"]:
        kept = json.loads(KEPT.read_text())
        gone = [mutant for mutant in kept["drawn"] if not find_again(mutant)]
        kept["drawn"] = [mutant for mutant in kept["drawn"] if mutant not in gone]
        for mutant in gone:
            print("gone: {number}: {file}: {was}  in  {says}".format(**mutant))
        copy()
        break_all(kept["drawn"])
        wanted = {int(word) for word in words[1:]} or {m["number"] for m in kept["drawn"] if not m.get("by")}
    else:
        count, seed = (int(word) for word in (words + ["30", "1"][len(words):]))
        drawn, every = draw(count, seed)
        not_compiled = (drawn[:count][-1]["number"] if len(drawn) >= count else count * 5 // 4) - len(drawn[:count])
        kept = {"drawn": drawn[:count], "places": every, "not_compiled": not_compiled}
        wanted = {mutant["number"] for mutant in kept["drawn"]}
    keep_sources(kept["drawn"])
    try_all(kept, wanted)
    tell(kept)


if __name__ == "__main__":
    main()
