"""A plan on one clock, what was asked, and the figures that an independent judge holds against it.

A plan prints whole seconds, 0.01 g, 0.1 ml and 0.1 mg; the tolerances below are those roundings and nothing else.
"""
import bisect
import json
import re
from pathlib import Path

PRACTICE = "common practice, no source"
LIMITS = {
    "fuel_from_min": (75, "IOC consensus 2010; Jeukendrup 2014"),
    "glucose_g_per_h": (60, "Jeukendrup 2014: one transporter"),
    "glucose_trained_g_per_h": (72, "declared gut training; 1.2 g/min, Jeukendrup 2014"),
    "fructose_g_per_h": (40, "Jeukendrup 2014: the second transporter"),
    "fructose_trained_g_per_h": (54, "declared gut training; Viribay 2020"),
    "most_fluid_ml_per_h": (1420, "US Army fluid guide, 1.5 quarts an hour"),
    "unrehearsed_fluid_ml_per_h": (800, "ACSM 2007"),
    "gel_water_ml_per_g": (150 / 25, PRACTICE),
    "usual_gel_water_ml": (150, PRACTICE),
    "usual_gel_g": (30, PRACTICE),
    "gel_water_within_s": (15 * 60, PRACTICE),
    "solids_after_swim_s": (15 * 60, PRACTICE),
    "solids_before_run_s": (30 * 60, PRACTICE),
    "solids_bike_from_s": (2 * 3600, PRACTICE),
    "mount_s": (5 * 60, PRACTICE),
    "dismount_s": (5 * 60, PRACTICE),
    "cold_air_c": (12, PRACTICE),
    "cold_water_c": (16, PRACTICE),
    "cold_hands_s": (30 * 60, PRACTICE),
    "most_swallows": (5, PRACTICE),
    "cup_ml": (80, "60-100 ml swallowed, " + PRACTICE),
    "handed_bottle_ml": (500, PRACTICE),
    "caffeine_mg_per_kg": (3, "EFSA 2015"),
    "caffeine_hour_mg": (200, "EFSA 2015: single dose"),
    "caffeine_day_mg": (400, "EFSA 2015"),
    "drink_sodium_mg_per_l": (1150, "EFSA 2011: 50 mmol/L"),
    "extra_sodium_mg_per_h": (300, PRACTICE),
    "strong_drink_g_per_ml": (0.08, "Murray 1999"),
    "salt_sodium_mg_per_g": (387.6, "USDA SR, NDB 02047"),
    "adult_y": (18, PRACTICE),
    "mean_over": (1.1, PRACTICE),
    "hour_over": (1.25, PRACTICE),
    "hour_over_g": (15, PRACTICE),
    "high_rate_g_per_h": (75, PRACTICE),
    "bike_lines": (4, PRACTICE + ": more is not kept in mind on a bike"),
    "run_lines": (3, PRACTICE),
    # 5th percentile over median of a log-normal spread: exp(-1.6449 s), s = sqrt(ln(1 + (0.57 / 1.28)^2)).
    "untested_careful_share": (0.499, "endurance athletes 1.28 +- 0.57 L/h, Barnes 2019"),
    "day_gain_of_mass": (0.01, "our choice, after Noakes 2005"),
}
L = {name: value for name, (value, _) in LIMITS.items()}
# Up to this many minutes of likely total, g/h: published guidance, and what may be taken before it is rehearsed.
GUIDANCE = [(75, 0), (120, 30), (150, 60), (float("inf"), 90)]  # IOC consensus 2010; Burke 2011; Jeukendrup 2014
UNREHEARSED = [(120, 30), (180, 45), (float("inf"), 60)]  # common practice, no source
# Usual bottles on the bike by its distance, ml (common practice): sprint, standard, middle and long.
USUAL_BOTTLES = [(25.005, 500), (60.005, 750), (float("inf"), 1500)]  # a ride of 25 or 60 km itself has the fewer

DEFAULTS = {
    "mass_kg": None, "temperature_c": None, "water_c": None, "age_y": None, "level": None, "hands": None,
    "like": [], "avoid": [], "allergy": [], "caffeine": False, "morning_coffee_mg": 0, "swallow_ml": 30,
    "rehearsed": {}, "health": {}, "sweat_tested": False, "bottles_ml": None, "flask_ml": 0, "run_gels": None, "typical": False,
    "stations": {},  # leg_index -> [{"km", "serves", "form"}]
    "roads": {},  # "bike" or "run" -> plan_road.Road of the original track
    "pinned": False,  # own wishes stand off the beat
    "bags": {},  # "bike" or "run" -> {"km", "bottles_ml"} or {"km", "gels"}
}
# Printed: whole seconds for every leg and moment, so two moments of different legs are known to a few seconds.
SECONDS, GRAMS, ML, MG = 3.0, 0.011, 0.11, 0.11


def load_pantry(folder):
    foods = {}
    for path in sorted(Path(folder).glob("*.json")):
        document = json.loads(path.read_text())
        for food in document["foods"]:
            foods[food["id"]] = {**food, "group": document["group"]}
    return foods


def inputs_from_documents(event, athlete):
    inputs = dict(DEFAULTS)
    for key in ("mass_kg", "age_y", "level", "hands", "like", "avoid", "allergy", "caffeine", "morning_coffee_mg",
                "swallow_ml", "rehearsed", "health"):
        inputs[key] = athlete.get(key, DEFAULTS[key])
    inputs["sweat_tested"] = "sweat" in athlete
    weather, kit = event["weather"], event.get("kit", {})
    inputs.update(temperature_c=weather["temperature_c"], water_c=weather.get("water_temperature_c"),
                  bottles_ml=kit.get("bike_bottles_ml"), flask_ml=kit.get("run_flask_ml", 0),
                  run_gels=kit.get("run_gels"), typical=event.get("stations") == "typical")
    inputs["stations"] = stations_by_kind(event)
    inputs["bags"] = {kind: leg["special_needs"] for kind, leg in legs_of(event) if "special_needs" in leg}
    return inputs


def legs_of(event):
    return list(event.get("course", {}).items()) + [(leg.get("sport"), leg) for leg in event.get("legs", [])]


def stations_by_kind(event):
    """Stations of the bike and the run; an event of several legs of one sport names them by leg place instead."""
    out = {}
    for kind, leg in legs_of(event):
        for station in leg.get("stations", []):
            for lap in range(station.get("laps", 1)):
                km = station["km"] + lap * station.get("lap_km", 0)
                out.setdefault(kind, []).append({"km": km, "serves": station.get("serves") or ["water_tap"],
                                                 "form": station.get("form", "cup")})
    return {kind: sorted(rows, key=lambda s: s["km"]) for kind, rows in out.items()}


def banded(table, x):
    return table[bisect.bisect_right([edge for edge, _ in table], x)][1]


class Day:
    """The plan laid out on one clock, with what was asked."""

    def __init__(self, plan, inputs, pantry):
        self.plan, self.inputs, self.pantry = plan, {**DEFAULTS, **inputs}, pantry
        self.legs = plan["durations"]
        self.starts, start = [], 0
        for leg in self.legs:
            self.starts.append(start)
            start += leg["p50_s"]
        self.end = start
        self.feeds = sorted(plan["feeds"], key=self.clock)
        self.mix = {row["bottle"]: row for row in plan["mix"]}

    def clock(self, feed):
        return self.starts[feed["leg_index"]] + feed["at_s"]

    def clocks(self, which):
        """(clock, feed) of a fast (p10) or slow (p90) day: bike feeds hold their clock, run feeds and those that a
        line ties to a place their kilometre. A feed after its leg, or too near to the dismount, is dropped."""
        start, out = 0.0, []
        for i, leg in enumerate(self.legs):
            tied = self.tied_to_a_place(i)
            for feed in (f for f in self.feeds if f["leg_index"] == i):
                at = feed["at_s"]
                if leg["leg"] != "bike" or tied & minutes(at):
                    at *= leg[which] / leg["p50_s"]
                if leg["leg"] != "bike" or at <= leg[which] - L["dismount_s"]:
                    out.append((start + at, feed))
            start += leg[which]
        return sorted(out, key=lambda row: row[0])

    def tied_to_a_place(self, leg_index):
        """Moments, in minutes, of which a line says the place: '0:44 before the fast descent at km 20'."""
        texts = " ".join(line["text"] for line in self.plan["lines"] if line["leg_index"] == leg_index)
        return {int(h) * 60 + int(m) for h, m in re.findall(r"(\d+):(\d\d) (?:before|after) the ", texts)}

    def food(self, item):
        return self.pantry.get(item["food"])

    def drinks(self, feed):
        return [item for item in feed["items"] if item["unit"] in ("swallow", "cup")]

    def eats(self, feed):
        return [item for item in feed["items"] if item["unit"] not in ("swallow", "cup")]

    def solid(self, item):
        food = self.food(item)
        return food is not None and food["form"] in ("solid", "bar")

    def ml(self, item):
        return item["amount"] * (L["cup_ml"] if item["unit"] == "cup" else self.inputs["swallow_ml"])

    def own(self, item):
        return item["unit"] == "swallow" and item["from"] != "station"

    def stretch(self, leg_index):
        leg = self.legs[leg_index]
        return leg["p90_s"] / leg["p50_s"]

    def neighbour(self, leg_index, step):
        """The sport before (-1) or after (+1) a leg, transitions left out."""
        i = leg_index + step
        while 0 <= i < len(self.legs) and self.legs[i]["leg"] in ("t1", "t2"):
            i += step
        return self.legs[i]["leg"] if 0 <= i < len(self.legs) else None

    def swam(self, leg_index):
        return any(leg["leg"] == "swim" for leg in self.legs[:leg_index])

    def hands(self):
        if self.inputs["hands"]:
            return self.inputs["hands"]
        return "bottle" if self.inputs["level"] == "beginner" else "bottle and food"

    def hour_from(self, feed):
        """Feeds of [t, t + 60 min); the doubt of whole seconds is the plan's."""
        start = self.clock(feed)
        return [f for f in self.feeds if start <= self.clock(f) < start + 3600 - SECONDS]

    def total_min(self):
        return self.plan["total"]["p50_s"] / 60

    def no_rate(self):
        health = self.inputs["health"]
        return health.get("glucose_lowering_medicine", False) or health.get("recent_gut_illness", False)

    def gut_trained(self):
        return self.inputs["rehearsed"].get("gut_trained", False)

    def carb_cap(self, minutes):
        rehearsed = self.inputs["rehearsed"].get("carb_g_per_h", 0)
        guidance = banded(GUIDANCE, minutes)
        if self.gut_trained() and rehearsed > 90 and guidance == 90:
            return min(rehearsed, 120)
        shown = 90 if rehearsed >= 80 else max(rehearsed, banded(UNREHEARSED, minutes))
        return min(guidance, shown)

    def carb_limit(self):
        # The total is printed in whole seconds: at a border both sides are right.
        return max(self.carb_cap(self.total_min() + shift / 60) for shift in (-1, 0, 1))

    def integral(self, key, start, end):
        """Of a rate per hour of the needs over [start, end), s; after the finish the last leg goes on."""
        total = 0.0
        for i, (leg, need) in enumerate(zip(self.legs, self.plan["needs"])):
            low = self.starts[i]
            high = max(end, self.end) if i == len(self.legs) - 1 else low + leg["p50_s"]
            total += max(0.0, min(high, end) - max(low, start)) / 3600 * need[key]
        return total


def minutes(seconds):
    """As a line prints them; half a minute may have been rounded either way."""
    return {int((seconds - 0.5) / 60 + 0.5), int((seconds + 0.5) / 60 + 0.5)}


RULES = {}


def rule(name):
    def keep(function):
        RULES[name] = function
        return function
    return keep


def place(feed):
    return f"{feed['leg']} {feed['at_s']} s"
