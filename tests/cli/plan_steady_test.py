#!/usr/bin/python3
"""A plan stays what it was when the day changes by less than a person can tell apart, and more allowed never gives less.

The figures are the project's own (a coach's patience, no source): nine of ten small changes leave foods and rhythm. The
whole table is tests/bench/plan_steady.py.
"""
import os
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "bench"))
import plan_steady  # noqa: E402

TUCK = os.environ["TUCK"]
RACES = plan_steady.bases(12)


class PlansAreSteady(unittest.TestCase):
    def test_small_changes_leave_foods_and_rhythm(self):
        tried, lost = plan_steady.unsteady(TUCK, RACES)
        self.assertGreater(tried, 150)
        self.assertLessEqual(len(lost), 0.1 * tried, "\n".join(lost))

    def test_more_allowed_never_gives_less(self):
        tried, lost = plan_steady.shrinking(TUCK, RACES)
        self.assertGreater(tried, 40)
        self.assertFalse(lost, "\n".join(lost))


if __name__ == "__main__":
    unittest.main()
