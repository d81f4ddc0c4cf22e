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
        """One simulated day is a chance of 0 or 1, so that among many seeds some plan breaks a limit in both runs.
        Which ones do is left to the draws; that all of them are refused, and no other, is not."""
        refused = kept = 0
        for seed in range(1, 121):
            code, got, said = plan("--distance=standard", "--mass=70kg", "--temperature=6C", "--humidity=95%",
                                   "--days=1", f"--seed={seed}")
            limits = {row["code"]: row.get("refuse") for row in got["outlook"]["limits"]}
            broken = [name for name, most in limits.items() if most is not None
                      and got["outlook"]["chance"][name] > most]
            with self.subTest(seed=seed):
                self.assertEqual(code, 1 if broken else 0)
                self.assertEqual(got["refused"], bool(broken))
                if broken:
                    self.assertEqual(got["warnings"][0]["code"], "refused")
                    self.assertIn("Drink to thirst", said + got["warnings"][0]["text"])
            refused += bool(broken)
            kept += not broken
        self.assertGreater(refused, 0)
        self.assertGreater(kept, 0)

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
