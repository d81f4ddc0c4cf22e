"""Busy stretches: the road as a judge sees it, from the original GPX file, with slopes and a rider of its own."""
import bisect
import xml.etree.ElementTree as ET
from math import asin, cos, radians, sin, sqrt
from pathlib import Path

from plan_day import PRACTICE, minutes, place, rule

ROAD_LIMITS = {
    "steep_climb": (0.08, PRACTICE),
    "descent": (-0.04, PRACTICE),
    "waited_out_s": (60, PRACTICE + ": a shorter one is waited out"),
}
R = {name: value for name, (value, _) in ROAD_LIMITS.items()}
# Our choices: what two ways of smoothing one track may differ by (heights come to 0.1 m, slopes are over 100 m), and
# two riders.
SLOPE_DOUBT, EDGE_DOUBT_M = 0.005, 100
RIDER_DOUBT = 1.5  # our rider may take so much longer through a stretch than the plan's
CLOCK_DOUBT_M = 500  # between two places that the plan names, our rider may be so far from the plan's
STEP_M, SLOPE_M = 10.0, 100.0
EARTH_M = 6371008.8  # IUGG mean radius


def metres(a, b):
    """Haversine."""
    north, east = radians(b[0] - a[0]) / 2, radians(b[1] - a[1]) / 2
    return 2 * EARTH_M * asin(sqrt(sin(north) ** 2 + cos(radians(a[0])) * cos(radians(b[0])) * sin(east) ** 2))


def on_line(xs, ys, x):
    i = min(max(bisect.bisect_right(xs, x), 1), len(xs) - 1)
    share = (x - xs[i - 1]) / (xs[i] - xs[i - 1]) if xs[i] > xs[i - 1] else 1
    return ys[i - 1] + min(max(share, 0), 1) * (ys[i] - ys[i - 1])


class Road:
    def __init__(self, path, laps=1):
        points = [p for p in ET.parse(Path(path)).iter() if p.tag.endswith("trkpt")]
        places = [(float(p.get("lat")), float(p.get("lon"))) for p in points]
        heights = [float(next(c.text for c in p if c.tag.endswith("ele"))) for p in points]
        along = [0.0]
        for a, b in zip(places, places[1:]):
            along.append(along[-1] + metres(a, b))
        steps = int(along[-1] // STEP_M)
        half = SLOPE_M / 2
        lap = [(on_line(along, heights, i * STEP_M + half) - on_line(along, heights, i * STEP_M - half)) / SLOPE_M
               for i in range(steps)]
        self.slopes = lap * laps
        self.seconds = self.ride()

    def ride(self):
        """Seconds of each step for 180 W and 85 kg, CdA 0.32 m2, rolling 0.005 (our choice; the power balance of Martin
        1998 without wind): a shape, scaled to the leg's time."""
        out = []
        for slope in self.slopes:
            low, high = 0.5, 25.0
            for _ in range(30):
                v = (low + high) / 2
                need = v * (85 * 9.81 * (slope + 0.005) + 0.5 * 1.2 * 0.32 * v * v)
                low, high = (low, v) if need > 180 else (v, high)
            out.append(STEP_M / low)
        return out

    def stretches(self, leg_s):
        """(from_m, to_m, why) of what is surely busy, and surely too long to be waited out."""
        scale = leg_s / sum(self.seconds)
        out, begin = [], None
        for i, slope in enumerate([*self.slopes, 0]):
            why = ("steep climb" if slope >= R["steep_climb"] + SLOPE_DOUBT
                   else "descent" if slope <= R["descent"] - SLOPE_DOUBT else None)
            if begin and begin[1] != why:
                if scale * sum(self.seconds[begin[0]:i]) >= RIDER_DOUBT * R["waited_out_s"]:
                    out.append((begin[0] * STEP_M, i * STEP_M, begin[1]))
                begin = None
            if why and not begin:
                begin = (i, why)
        return out

    def clock(self, known, leg_s):
        """(seconds, metres) by our rider, bent to pass through the known (seconds, metres) of the plan."""
        total, by_step = 0.0, [0.0]
        for s in self.seconds:
            total += s
            by_step.append(total)
        step_m = [i * STEP_M for i in range(len(by_step))]
        anchors = sorted({(0.0, 0.0), (float(leg_s), step_m[-1]), *known})
        ours = [on_line(step_m, by_step, m) for _, m in anchors]
        plan_s = [s for s, _ in anchors]
        return [on_line(ours, plan_s, s) for s in by_step], step_m


@rule("busy")
def busy(day):
    """Hands stay on the bar on steep climbs and descents, on a fast and a slow day too."""
    for i, leg in enumerate(day.legs):
        road = day.inputs["roads"].get(leg["leg"])
        feeds = [feed for feed in day.feeds if feed["leg_index"] == i]
        if leg["leg"] != "bike" or not road or not feeds:
            continue
        stretches = road.stretches(leg["p50_s"])

        def inside(m, doubt):
            return next((s for s in stretches if s[0] + doubt < m < s[1] - doubt), None)

        for feed in feeds:
            if stretch := inside(feed["km"] * 1000, EDGE_DOUBT_M):
                yield f"{place(feed)}, km {feed['km']:g}: {stretch[2]} from km {stretch[0] / 1000:.2f}"
        seconds, metres_at = road.clock([(feed["at_s"], feed["km"] * 1000) for feed in feeds], leg["p50_s"])
        tied = day.tied_to_a_place(i)
        for which in ("p10_s", "p90_s"):
            for feed in feeds:
                at_s = feed["at_s"] * leg["p50_s"] / leg[which]
                if tied & minutes(feed["at_s"]) or feed["at_s"] > leg[which]:
                    continue
                if stretch := inside(on_line(seconds, metres_at, at_s), CLOCK_DOUBT_M):
                    yield f"{which[:3]}: {place(feed)}: {stretch[2]} from km {stretch[0] / 1000:.2f}"


@rule("place")
def place_and_clock(day):
    """A feed's clock and its kilometre belong together: nobody rides or pushes slower than 3 km/h, or faster than 90 (our
    choice)."""
    for i, leg in enumerate(day.legs):
        if leg["leg"] != "bike" or leg["leg"] not in day.inputs["roads"]:
            continue
        known = [(0, 0.0)] + [(feed["at_s"], feed["km"]) for feed in day.feeds if feed["leg_index"] == i]
        known.append((leg["p50_s"], len(day.inputs["roads"][leg["leg"]].slopes) * STEP_M / 1000))
        for (s0, km0), (s1, km1) in zip(known, known[1:]):
            if s1 - s0 > 60 and not 3 < (km1 - km0) / (s1 - s0) * 3600 < 90:
                yield f"{leg['leg']}: from {s0} s at km {km0:g} to {s1} s at km {km1:g}"
