#!/usr/bin/python3
"""Random plans without end, each held against the judge outside the program (tests/cli/plan_rules.py). By hand:

    plan_rolling.py path/to/tuck [plans, 1000] [first seed, 1] [days to simulate, 100]

Half are one-line requests, half event files, as tests/cli/plan_rules_test.py draws them. Every plan has its own seed,
so what is found can be asked for again. Prints each fault with its request as it is found, and the sums at the end;
the exit code is 1 where anything was found.
"""
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TUCK = os.environ["TUCK"] = str(Path(sys.argv[1]).resolve())
os.environ["TUCK_ROOT"] = str(ROOT)
sys.path.insert(0, str(ROOT / "tests" / "cli"))
import plan_rules  # noqa: E402
import plan_rules_test as drawn  # noqa: E402

PLANS, FIRST, DAYS = (int(word) for word in (sys.argv[2:] + ["1000", "1", "100"][len(sys.argv) - 2:]))


def judged(seed, folder):
    rng = random.Random(seed)
    if seed % 2:
        arguments, inputs = drawn.request(rng)
        said = " ".join(f"'{argument}'" for argument in arguments)
    else:
        event = drawn.document(rng)
        event["days"] = DAYS
        path = Path(folder) / f"{seed}.json"
        path.write_text(json.dumps(event))
        arguments, inputs, said = [path], plan_rules.inputs_from_documents(event, event["athlete"]), json.dumps(event)
    start = time.monotonic()
    if seed % 2:
        arguments = [*arguments, f"--days={DAYS}"]
    done = subprocess.run([TUCK, "plan", *map(str, arguments), "--json"], capture_output=True, text=True)
    seconds = time.monotonic() - start
    if not seed % 2:
        path.unlink()
    if done.returncode not in (0, 1):
        return seconds, False, [("exit", f"{done.returncode}: {done.stderr.strip()}")], said
    plan = json.loads(done.stdout)
    return seconds, plan["fuelling_needed"], plan_rules.check(plan, inputs, drawn.PANTRY), said


def main():
    fuelled = found = 0
    slowest = (0, "")
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(2) as pool:
        for seed, row in enumerate(pool.map(lambda seed: judged(seed, folder), range(FIRST, FIRST + PLANS)), FIRST):
            seconds, needed, faults, said = row
            fuelled += needed
            found += bool(faults)
            slowest = max(slowest, (seconds, f"seed {seed}"))
            if faults:
                print(f"seed {seed}: {said}\n" + "\n".join(f"    {rule}: {text}" for rule, text in faults), flush=True)
    print(f"{PLANS} plans, {fuelled} fuelled, {found} with a fault; slowest {slowest[0]:.2f} s ({slowest[1]})")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
