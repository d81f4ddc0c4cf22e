#!/usr/bin/python3
"""Many random plans before the outside judge (tests/cli/plan_rules.py), with the time and memory of the worst.

    TUCK=build/tuck TUCK_ROOT=. python3 tests/bench/many_plans.py 10000 2029

Half of the requests are one line, half an event with its athlete. Prints every fault; exit code 1 if there is one.
"""
import json
import os
import random
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from itertools import islice
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import plan_rules_test as rules  # noqa: E402

count, seed = int(sys.argv[1]), int(sys.argv[2])
sys.argv = sys.argv[:1]


def requests(folder):
    """(what to run it again with, arguments, inputs)"""
    rng = random.Random(seed)
    for number in range(count):
        if number % 2:
            arguments, inputs = rules.request(rng)
            yield " ".join(arguments), arguments, inputs
        else:
            event = rules.document(rng)
            path = folder / f"{number}.json"
            path.write_text(json.dumps(event))
            yield json.dumps(event), [path], rules.plan_rules.inputs_from_documents(event, event["athlete"])


def judged(row):
    name, arguments, inputs = row
    with tempfile.TemporaryFile("w+") as out, tempfile.TemporaryFile("w+") as err:
        child = subprocess.Popen([rules.TUCK, "plan", *map(str, arguments), "--json"], stdout=out, stderr=err)
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        said, told = out.read(), err.read()
    seconds, megabytes = used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
    if child.returncode not in (0, 1) or not said:
        return name, seconds, megabytes, False, [(f"exit {child.returncode}", told[:400])]
    plan = json.loads(said)
    return name, seconds, megabytes, plan["fuelling_needed"], rules.faults_of(plan, inputs)


def main():
    done = fuelled = faulty = 0
    slowest, largest = (0, ""), (0, "")
    with tempfile.TemporaryDirectory() as place, ThreadPoolExecutor(2) as pool:
        rows = requests(Path(place))
        while batch := list(islice(rows, 500)):
            for name, seconds, megabytes, needs, faults in pool.map(judged, batch):
                done, fuelled, faulty = done + 1, fuelled + bool(needs), faulty + bool(faults)
                slowest, largest = max(slowest, (seconds, name)), max(largest, (megabytes, name))
                for fault in faults:
                    print("FAULT", name, *fault, flush=True)
            print(f"{done} plans, {fuelled} fuelled, {faulty} faulty; slowest {slowest[0]:.2f} s of CPU, "
                  f"largest {largest[0]:.0f} MB", flush=True)
    print("slowest:", slowest[1])
    print("largest:", largest[1])
    return 1 if faulty else 0


if __name__ == "__main__":
    sys.exit(main())
