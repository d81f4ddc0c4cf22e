#!/usr/bin/python3
"""The outlook decides: the exit code hangs on the chances and limits that the plan itself prints."""
import json
import os
import subprocess
import unittest

TUCK = os.environ["TUCK"]


def plan(*arguments):
    done = subprocess.run([TUCK, "plan", *arguments, "--json"], capture_output=True, timeout=60)
    return done.returncode, json.loads(done.stdout), done.stderr.decode()


class Refusal(unittest.TestCase):
    def test_exit_code_follows_the_printed_chances(self):
        """One simulated day is a chance of 0 or 1: a seed whose day gains water breaks the limit, and the plan is made
        again with less drink. Which seeds do is left to the draws; what then holds of every plan is not. That a
        second breach refuses is tested where a stream can be given that does not listen (outlook_plan_test.cpp)."""
        again = 0
        for seed in range(70, 130):  # in the cool, where about one day in a hundred gains
            code, got, _ = plan("--distance=middle", "--mass=70kg", "--temperature=8C", "--stations=typical", "--days=1",
                                f"--seed={seed}")
            broken = [row["code"] for row in got["outlook"]["limits"]
                      if got["outlook"]["chance"][row["code"]] > row.get("refuse", 2)]
            with self.subTest(seed=seed):
                self.assertEqual(code, 1 if broken else 0)
                self.assertEqual(got["refused"], bool(broken))
            again += any("lowered" in reason["text"] for need in got["needs"] for reason in need["because"])
        self.assertGreater(again, 0)

    def test_chances_come_with_the_error_of_that_many_days(self):
        """sqrt(p (1 - p) / n): a hundred times the days, a tenth of the error."""
        errors = []
        for days in (200, 20000):
            _, got, _ = plan("--distance=middle", "--mass=70kg", "--temperature=25C", "--stations=typical",
                             f"--days={days}")
            chance = got["outlook"]["chance"]["water_loss_over_2pct"]
            error = got["outlook"]["chance_error"]["water_loss_over_2pct"]
            self.assertAlmostEqual(error, (chance * (1 - chance) / days) ** 0.5, delta=2 / days)
            errors.append(error)
        self.assertAlmostEqual(errors[0] / errors[1], 10, delta=2.5)


if __name__ == "__main__":
    unittest.main()
