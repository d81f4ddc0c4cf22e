"""An independent judge of plans: it shares no code with the program and holds its own rule table.

    check(plan, inputs, pantry) -> [(rule, message), ...]

`plan` is the plan as JSON, `inputs` what was asked (see `inputs_from_event`, or start from DEFAULTS), `pantry` the
foods by id. The figures stand in LIMITS, each with who says so. A plan prints whole seconds, 0.01 g, 0.1 ml and
0.1 mg; the tolerances below are those roundings and nothing else.
"""
import bisect
import json
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
}
L = {name: value for name, (value, _) in LIMITS.items()}
# Up to this many minutes of likely total, g/h: published guidance, and what may be taken before it is rehearsed.
GUIDANCE = [(75, 0), (120, 30), (150, 60), (float("inf"), 90)]  # IOC consensus 2010; Burke 2011; Jeukendrup 2014
UNREHEARSED = [(120, 30), (180, 45), (float("inf"), 60)]  # common practice, no source
# Usual bottles on the bike by its distance, ml (common practice): sprint, standard, middle and long.
USUAL_BOTTLES = [(25, 500), (60, 750), (float("inf"), 1500)]

DEFAULTS = {
    "mass_kg": None, "temperature_c": None, "water_c": None, "age_y": None, "level": None, "hands": None,
    "like": [], "avoid": [], "allergy": [], "caffeine": False, "morning_coffee_mg": 0, "swallow_ml": 30,
    "rehearsed": {}, "health": {}, "bottles_ml": None, "flask_ml": 0, "run_gels": None, "typical": False,
    "stations": {},  # leg_index -> [{"km", "serves", "form"}]
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


def inputs_from_event(path):
    """What an event file (with its athlete) asks, as `inputs`."""
    event = json.loads(Path(path).read_text())
    athlete = event.get("athlete", {})
    if isinstance(athlete, str):
        athlete = json.loads((Path(path).parent / athlete).read_text())
    return inputs_from_documents(event, athlete)


def inputs_from_documents(event, athlete):
    inputs = dict(DEFAULTS)
    for key in ("mass_kg", "age_y", "level", "hands", "like", "avoid", "allergy", "caffeine", "morning_coffee_mg",
                "swallow_ml", "rehearsed", "health"):
        inputs[key] = athlete.get(key, DEFAULTS[key])
    weather, kit = event["weather"], event.get("kit", {})
    inputs.update(temperature_c=weather["temperature_c"], water_c=weather.get("water_temperature_c"),
                  bottles_ml=kit.get("bike_bottles_ml"), flask_ml=kit.get("run_flask_ml", 0),
                  run_gels=kit.get("run_gels"), typical=event.get("stations") == "typical")
    inputs["stations"] = stations_by_kind(event)
    return inputs


def stations_by_kind(event):
    """Stations of the bike and the run; an event of several legs of one sport names them by leg place instead."""
    legs = [(kind, leg) for kind, leg in event.get("course", {}).items()]
    legs += [(leg.get("sport"), leg) for leg in event.get("legs", [])]
    out = {}
    for kind, leg in legs:
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


RULES = {}


def rule(name):
    def keep(function):
        RULES[name] = function
        return function
    return keep


def check(plan, inputs, pantry):
    """Every broken rule as (rule, message); an empty list: the plan holds."""
    day = Day(plan, inputs, pantry)
    out = [("food_known", f"{item['food']} is not in the pantry")
           for feed in day.feeds for item in feed["items"] if not day.food(item)]
    if out:
        return out
    for name, function in RULES.items():
        out += [(name, message) for message in function(day)]
    return out


def place(feed):
    return f"{feed['leg']} {feed['at_s']} s"


# Rolling hours.

def hour_rule(day, key, limit, rounding):
    for feed in day.feeds:
        hour = day.hour_from(feed)
        taken = sum(f[key] for f in hour)
        if taken > limit + rounding * len(hour):
            yield f"{taken:g} in the hour from {place(feed)}; allowed {limit:g}"


@rule("carb_hour")
def carb_hour(day):
    return hour_rule(day, "carb_g", day.carb_limit(), GRAMS / 2)


@rule("glucose_hour")
def glucose_hour(day):
    trained = day.gut_trained()
    return hour_rule(day, "glucose_g", L["glucose_trained_g_per_h" if trained else "glucose_g_per_h"], GRAMS / 2)


@rule("fructose_hour")
def fructose_hour(day):
    limit = L["fructose_trained_g_per_h" if day.gut_trained() else "fructose_g_per_h"]
    if day.inputs["health"].get("fructose_malabsorption"):
        limit = 0
    return hour_rule(day, "fructose_g", limit, GRAMS / 2)


@rule("fluid_most")
def fluid_most(day):
    return hour_rule(day, "fluid_ml", L["most_fluid_ml_per_h"], ML / 2)


@rule("fluid_hour")
def fluid_hour(day):
    for feed in day.feeds:
        hour = day.hour_from(feed)
        taken = sum(f["fluid_ml"] for f in hour)
        start = day.clock(feed)
        steepest = max(n["fluid_ml_per_h"] for n in day.plan["needs"])
        allowed = day.integral("fluid_ml_per_h", start, start + 3600) + steepest * SECONDS / 3600
        if taken > allowed + ML / 2 * len(hour):
            yield f"{taken:g} ml in the hour from {place(feed)}; the ceilings allow {allowed:.0f}"


@rule("fluid_sweat")
def fluid_sweat(day):
    drunk = 0
    for feed in day.feeds:
        drunk += feed["fluid_ml"]
        sweat = day.integral("sweat_ml_per_h", 0, day.clock(feed) + SECONDS)
        if drunk > sweat + ML / 2 * len(day.feeds):
            yield f"{drunk:g} ml drunk by {place(feed)}, {sweat:.0f} ml sweated"


@rule("caffeine_hour")
def caffeine_hour(day):
    limit = min(L["caffeine_mg_per_kg"] * day.inputs["mass_kg"], L["caffeine_hour_mg"])
    return hour_rule(day, "caffeine_mg", limit, MG / 2)


@rule("caffeine_day")
def caffeine_day(day):
    planned = sum(f["caffeine_mg"] for f in day.feeds)
    total = planned + day.inputs["morning_coffee_mg"]
    if planned > 0 and total > L["caffeine_day_mg"] + MG / 2 * len(day.feeds):
        yield f"{total:g} mg with the morning's coffee; allowed {L['caffeine_day_mg']}"


@rule("caffeine_allowed")
def caffeine_allowed(day):
    health, age = day.inputs["health"], day.inputs["age_y"]
    minor = age is not None and age < L["adult_y"]
    barred = (not day.inputs["caffeine"] or minor or health.get("pregnant_or_breastfeeding")
              or health.get("heart_kidney_or_blood_pressure"))
    if barred:
        for feed in day.feeds:
            if feed["caffeine_mg"] > 0 or any(day.food(item)["caffeine_mg"] > 0 for item in feed["items"]):
                yield f"caffeine at {place(feed)}"


# Needs.

@rule("need_fluid")
def need_fluid(day):
    shown = max(L["unrehearsed_fluid_ml_per_h"], day.inputs["rehearsed"].get("fluid_ml_per_h", 0))
    for need in day.plan["needs"]:
        limit = min(shown, L["most_fluid_ml_per_h"], need["sweat_ml_per_h"])
        if need["fluid_ml_per_h"] > limit + 0.05:
            yield f"{need['leg']}: {need['fluid_ml_per_h']:g} ml/h; allowed {limit:g}"


@rule("need_carb")
def need_carb(day):
    for need in day.plan["needs"]:
        limit = 0 if day.no_rate() else day.carb_limit()
        if need["carb_g_per_h"] > limit + 0.05:
            yield f"{need['leg']}: {need['carb_g_per_h']:g} g/h; allowed {limit:g}"


@rule("fuelling")
def fuelling(day):
    needed, feeds = day.plan["fuelling_needed"], day.feeds
    border_s = L["fuel_from_min"] * 60
    if day.no_rate():
        if feeds or not needed:
            yield "a clinician sets the rate: no feeds, and never 'none needed'"
        return
    if abs(day.plan["total"]["p50_s"] - border_s) >= 1 and needed != (day.plan["total"]["p50_s"] >= border_s):
        yield f"fuelling_needed is {needed} at {day.total_min():.1f} min"
    if not needed and feeds:
        yield "feeds, though no fuelling is needed"


@rule("near_threshold")
def near_threshold(day):
    total, border_s = day.plan["total"], L["fuel_from_min"] * 60
    said = any(w["code"] == "near_threshold" for w in day.plan["warnings"])
    near = total["p10_s"] < border_s <= total["p90_s"]
    sure = abs(total["p10_s"] - border_s) >= 1 and abs(total["p90_s"] - border_s) >= 1
    if sure and said != near:
        yield f"said: {said}; p10 {total['p10_s']} s, p90 {total['p90_s']} s"


# Moments.

@rule("inside_leg")
def inside_leg(day):
    for feed in day.feeds:
        leg = day.legs[feed["leg_index"]]
        if leg["leg"] != feed["leg"] or not 0 <= feed["at_s"] <= leg["p50_s"] or feed["leg"] == "swim":
            yield f"{place(feed)} of leg {feed['leg_index']}"


@rule("mount")
def mount(day):
    return (place(f) for f in day.feeds if f["leg"] == "bike" and f["at_s"] < L["mount_s"])


@rule("dismount")
def dismount(day):
    return (place(f) for f in day.feeds
            if f["leg"] == "bike" and f["at_s"] > day.legs[f["leg_index"]]["p50_s"] - L["dismount_s"] + 1)


@rule("solids_early")
def solids_early(day):
    return (place(f) for f in day.feeds if f["at_s"] < L["solids_after_swim_s"] and day.swam(f["leg_index"])
            and f["leg"] in ("bike", "run") and day.neighbour(f["leg_index"], -1) == "swim"
            and any(day.solid(item) for item in f["items"]))


@rule("solids_late")
def solids_late(day):
    return (place(f) for f in day.feeds if f["leg"] == "bike" and day.neighbour(f["leg_index"], 1) == "run"
            and f["at_s"] > day.legs[f["leg_index"]]["p50_s"] - L["solids_before_run_s"] + 1
            and any(day.solid(item) for item in f["items"]))


@rule("solids_short_bike")
def solids_short_bike(day):
    return (place(f) for f in day.feeds if f["leg"] == "bike"
            and day.legs[f["leg_index"]]["p50_s"] < L["solids_bike_from_s"] - 1
            and any(day.solid(item) for item in f["items"]))


@rule("solids_run")
def solids_run(day):
    if day.inputs["rehearsed"].get("solids_on_run"):
        return []
    return (place(f) for f in day.feeds if f["leg"] == "run" and any(day.solid(item) for item in f["items"]))


@rule("cold")
def cold(day):
    water = day.inputs["water_c"]
    for feed in day.feeds:
        if feed["leg"] != "bike" or feed["at_s"] >= L["cold_hands_s"] or not day.eats(feed):
            continue
        wet = water is not None and water < L["cold_water_c"] and day.swam(feed["leg_index"])
        if wet or day.inputs["temperature_c"] < L["cold_air_c"]:
            yield f"something to unwrap at {place(feed)}"


# What one feed holds.

@rule("one_item")
def one_item(day):
    return (f"{len(day.eats(f))} at {place(f)}" for f in day.feeds if len(day.eats(f)) > 1)


@rule("swallows")
def swallows(day):
    for feed in day.feeds:
        # A cup counts as the swallows that it holds; two cups are the most that one stop gives.
        taken = sum(item["amount"] for item in day.drinks(feed) if item["unit"] == "swallow")
        cups = sum(item["amount"] for item in day.drinks(feed) if item["unit"] == "cup")
        if taken > L["most_swallows"] or cups > 2 or (taken and cups):
            yield f"{taken:g} swallows, {cups:g} cups at {place(feed)}"


@rule("whole_units")
def whole_units(day):
    for feed in day.feeds:
        for item in feed["items"]:
            smallest = 1 if item in day.drinks(feed) else day.food(item)["smallest"]
            parts = item["amount"] / smallest
            if item["amount"] <= 0 or abs(parts - round(parts)) > 1e-9:
                yield f"{item['amount']:g} {item['food']} at {place(feed)}; the smallest part is {smallest:g}"


@rule("hands")
def hands(day):
    for feed in day.feeds:
        if feed["leg"] != "bike":
            continue
        if day.hands() == "none":
            yield f"a feed at {place(feed)} though the hands stay on the bar"
        elif day.hands() == "bottle" and day.eats(feed):
            yield f"food at {place(feed)} though only the bottle is taken"


@rule("allergen")
def allergen(day):
    barred = set(day.inputs["allergy"]) | ({"gluten"} if day.inputs["health"].get("coeliac") else set())
    named = [(item["food"], place(feed)) for feed in day.feeds for item in feed["items"]]
    named += [(row["food"], "carry") for row in day.plan["carry"] if row["food"]]
    named += [(part["food"], bottle) for bottle, row in day.mix.items() for part in row["add"]]
    return (f"{food} at {where}" for food, where in named if barred & set(day.pantry[food]["allergens"]))


@rule("avoid")
def avoid(day):
    unwanted = set(day.inputs["avoid"]) - {"water_tap"}
    return (f"{item['food']} at {place(feed)}" for feed in day.feeds for item in feed["items"]
            if item["food"] != "water_tap" and {item["food"], day.food(item)["group"]} & unwanted)


@rule("fits")
def fits(day):
    return (f"{item['food']} at {place(feed)}" for feed in day.feeds for item in day.eats(feed)
            if feed["leg"] in ("bike", "run") and feed["leg"] not in day.food(item)["fits"])


@rule("gel_water")
def gel_water(day):
    """150 ml for 25 g, drunk in the 15 minutes from the gel; a swallow serves one gel only."""
    left = [[day.clock(f), sum(day.ml(item) for item in day.drinks(f))] for f in day.feeds]
    for feed in day.feeds:
        for item in day.eats(feed):
            food = day.food(item)
            if not food["needs_water"]:
                continue
            want = L["gel_water_ml_per_g"] * food["carb_g"] * item["amount"]
            start = day.clock(feed)
            for row in left:
                if start <= row[0] <= start + L["gel_water_within_s"] + SECONDS:
                    used = min(want, row[1])
                    want, row[1] = want - used, row[1] - used
            if want > ML:
                yield f"{want:.0f} ml short for {food['id']} at {place(feed)}"


# What is carried.

@rule("bottles")
def bottles(day):
    for i, leg in enumerate(day.legs):
        if leg["leg"] != "bike":
            continue
        own = sum(day.ml(item) for f in day.feeds if f["leg_index"] == i for item in f["items"] if day.own(item))
        given = day.inputs["bottles_ml"]
        volume = sum(given) if given is not None else banded(USUAL_BOTTLES, leg["km"])
        mixed = sum(row["volume_ml"] for row in day.plan["mix"] if row["bottle"].startswith("B"))
        need = own * day.stretch(i)
        # p50 and p90 are printed in whole seconds.
        slack = own * 2 / leg["p50_s"] + 1
        if need > volume + slack:
            yield f"{need:.0f} ml of own drink at p90, bottles hold {volume:g}"
        if own and mixed < need - slack:
            yield f"{need:.0f} ml of own drink at p90, mixed {mixed:g}"


@rule("flask")
def flask(day):
    for i, leg in enumerate(day.legs):
        own = sum(day.ml(item) for f in day.feeds if f["leg_index"] == i for item in f["items"] if day.own(item))
        if leg["leg"] == "run" and own * day.stretch(i) > day.inputs["flask_ml"] + own * 2 / leg["p50_s"] + 1:
            yield f"{own:g} ml from a flask of {day.inputs['flask_ml']:g}"


@rule("handed")
def handed(day):
    """Bottles handed up on the bike: 500 ml each, and one of them is missed."""
    stations = [s["km"] for s in day.inputs["stations"].get("bike", []) if s["form"] == "bottle"]
    for i, leg in enumerate(day.legs):
        if leg["leg"] != "bike" or (day.inputs["typical"] and not stations):
            continue
        taken = 0
        for feed in (f for f in day.feeds if f["leg_index"] == i):
            taken += sum(day.ml(item) for item in feed["items"] if item["from"] == "station")
            passed = sum(km <= feed["km"] + 0.01 for km in stations)
            if taken > L["handed_bottle_ml"] * max(0, passed - 1) + 1:
                yield f"{taken:g} ml handed up by {place(feed)}, {passed} stations passed"


@rule("station")
def station(day):
    """A cup is drunk where a station stands, and only what it serves."""
    given = day.inputs["stations"].get("run", [])
    for feed in day.feeds:
        if feed["leg"] != "run":
            continue
        for item in (item for item in day.drinks(feed) if item["from"] == "station"):
            if given:
                here = [s for s in given if abs(s["km"] - feed["km"]) < 0.0051]  # km are printed to 0.01
                if not any(item["food"] in s["serves"] or item["food"] == "water_tap" for s in here):
                    yield f"{item['food']} at km {feed['km']}"
            elif not day.inputs["typical"]:
                yield f"a station at km {feed['km']}, but none was given"


@rule("belt")
def belt(day):
    room = 2 if day.inputs["run_gels"] is None else day.inputs["run_gels"]
    for i, leg in enumerate(day.legs):
        if leg["leg"] == "run":
            taken = sum(len([item for item in day.eats(f) if item["from"] == "belt"])
                        for f in day.feeds if f["leg_index"] == i)
            if taken > room:
                yield f"{taken} from a belt of {room}"
    carried = sum(row["amount"] for row in day.plan["carry"]
                  if row["where"] == "belt" and row["food"] and day.pantry[row["food"]]["form"] == "gel")
    # A second run leg may find the belt filled again in the transition before it.
    if carried > room * sum(leg["leg"] == "run" for leg in day.legs):
        yield f"{carried:g} gels to carry in a belt of {room}"


@rule("carry")
def carry(day):
    """Nothing is eaten that is not carried."""
    wanted = {}
    for feed in day.feeds:
        for item in day.eats(feed):
            if item["from"] != "station":
                wanted[item["food"]] = wanted.get(item["food"], 0) + item["amount"]
    carried = {}
    for row in day.plan["carry"]:
        carried[row["food"]] = carried.get(row["food"], 0) + row["amount"]
    return (f"{amount:g} x {food}, carried {carried.get(food, 0):g}" for food, amount in wanted.items()
            if carried.get(food, 0) < amount - 1e-9)


# Arithmetic.

NUTRIENTS = (("carb_g", GRAMS), ("glucose_g", GRAMS), ("fructose_g", GRAMS), ("sodium_mg", MG), ("caffeine_mg", MG))


def scale_step_g(grams):
    """Kitchen scales: 0.1 g below 5 g, else 1 g; half of it is the rounding."""
    return 0.05 if grams < 5 else 0.5


def drink_per_ml(food, key):
    """By the pantry; a powder in the water that its serving makes."""
    return food[key] / (food.get("makes_ml") or food["serving_ml"])


def own_drink_per_ml(day, feed, item, key):
    """(content per ml, its rounding) of the athlete's own drink: from the bottle's recipe where it has one."""
    row = day.mix.get(item["from"])
    if row is None:
        return drink_per_ml(day.food(item), key), 0
    content, rounding = 0, 0
    for part in row["add"]:
        per_g = day.pantry[part["food"]][key] / day.pantry[part["food"]]["serving_g"]
        content += per_g * part["grams"]
        rounding += per_g * scale_step_g(part["grams"])
    if not any(part["food"] == "table_salt" for part in row["add"]) and key == "sodium_mg":
        rounding += scale_step_g(0) * L["salt_sodium_mg_per_g"]
    if key == "sodium_mg" and item["food"] in ("water_tap", "drink_home_6pct"):
        water = day.pantry["water_tap"]
        tap = water["sodium_mg"] / water["serving_ml"]
        # Tap water counts where it is drunk plain; recipes of the pantry leave it out.
        return content / row["volume_ml"] + (tap if item["food"] == "water_tap" else 0), rounding / row["volume_ml"]
    return content / row["volume_ml"], rounding / row["volume_ml"]


@rule("nutrition")
def nutrition(day):
    for feed in day.feeds:
        for key, shown in NUTRIENTS:
            value, rounding = 0, shown
            for item in feed["items"]:
                if day.own(item) and item in day.drinks(feed):
                    per_ml, step = own_drink_per_ml(day, feed, item, key)
                    value += per_ml * day.ml(item)
                    rounding += step * day.ml(item)
                elif item in day.drinks(feed):
                    value += drink_per_ml(day.food(item), key) * day.ml(item)
                else:
                    value += day.food(item)[key] * item["amount"]
            if abs(value - feed[key]) > rounding:
                yield f"{key} {feed[key]:g} at {place(feed)}; the foods give {value:.2f}"
        fluid = sum(day.ml(item) for item in day.drinks(feed))
        fluid += sum(day.food(item)["water_g"] * item["amount"] for item in day.eats(feed))
        if abs(fluid - feed["fluid_ml"]) > ML:
            yield f"fluid_ml {feed['fluid_ml']:g} at {place(feed)}; the foods give {fluid:.1f}"


@rule("totals")
def totals(day):
    for key, shown in (("carb_g", 0.01), ("fluid_ml", 0.1), ("sodium_mg", 0.1), ("caffeine_mg", 0.1)):
        value = sum(f[key] for f in day.feeds)
        if abs(value - day.plan["totals"][key]) > shown / 2 * len(day.feeds) + 0.051:
            yield f"{key} {day.plan['totals'][key]:g}; the feeds give {value:g}"
    sweat = day.integral("sweat_ml_per_h", 0, day.end)
    slack = sum(n["sweat_ml_per_h"] for n in day.plan["needs"]) * 0.5 / 3600 + 0.05 * day.end / 3600 + 0.1
    if abs(sweat - day.plan["totals"]["sweat_ml"]) > slack:
        yield f"sweat_ml {day.plan['totals']['sweat_ml']:g}; the needs give {sweat:.1f}"


@rule("mix")
def mix(day):
    """Each bottle's recipe is a drink that a gut takes, and every powder that is drunk has a recipe."""
    for name, row in day.mix.items():
        carb = sum(day.pantry[p["food"]]["carb_g"] / day.pantry[p["food"]]["serving_g"] * p["grams"] for p in row["add"])
        step = sum(scale_step_g(p["grams"]) for p in row["add"])
        strong = day.inputs["rehearsed"].get("strong_drink")
        if not strong and carb > L["strong_drink_g_per_ml"] * row["volume_ml"] + step:
            yield f"{name}: {carb:g} g in {row['volume_ml']} ml"
        if row["volume_ml"] <= 0 or any(p["grams"] <= 0 for p in row["add"]):
            yield f"{name}: nothing in it"
    for feed in day.feeds:
        for item in day.drinks(feed):
            if day.own(item) and item["food"] != "water_tap":
                row = day.mix.get(item["from"])
                if row is None or not any(p["food"] != "table_salt" for p in row["add"]):
                    yield f"no recipe for {item['food']} from {item['from']} at {place(feed)}"


@rule("drink_sodium")
def drink_sodium(day):
    for name, row in day.mix.items():
        sodium, rounding = 0, 0
        for part in row["add"]:
            per_g = day.pantry[part["food"]]["sodium_mg"] / day.pantry[part["food"]]["serving_g"]
            sodium += per_g * part["grams"]
            rounding += per_g * scale_step_g(part["grams"])
        if sodium > L["drink_sodium_mg_per_l"] * row["volume_ml"] / 1000 + rounding:
            yield f"{name}: {1000 * sodium / row['volume_ml']:.0f} mg/L"


@rule("extra_sodium")
def extra_sodium(day):
    """Salt beyond the drink's own recipe, over the hours of the bike."""
    hours = sum(leg["p50_s"] for leg in day.legs if leg["leg"] == "bike") / 3600
    extra, rounding = 0, 0
    for feed in day.feeds:
        for item in day.drinks(feed):
            if day.own(item) and feed["leg"] == "bike":
                plain = drink_per_ml(day.food(item), "sodium_mg")
                salted, step = own_drink_per_ml(day, feed, item, "sodium_mg")
                extra += (salted - plain) * day.ml(item)
                rounding += step * day.ml(item)
    if extra > L["extra_sodium_mg_per_h"] * hours + rounding:
        yield f"{extra:.0f} mg in {hours:.2f} h"


def by_moment(rows):
    """{(leg_index, at_s): {(food, unit): amount}}."""
    out = {}
    for leg_index, at_s, items in rows:
        moment = out.setdefault((leg_index, at_s), {})
        for item in items:
            key = (item["food"], item["unit"])
            moment[key] = moment.get(key, 0) + item["amount"]
    return out


@rule("lines")
def lines(day):
    """The lines, expanded and merged by moment, are exactly the feeds."""
    said = by_moment((line["leg_index"], at, line["items"]) for line in day.plan["lines"] for at in line["at_s"])
    meant = by_moment((f["leg_index"], f["at_s"], f["items"]) for f in day.plan["feeds"])
    for moment in sorted(said.keys() | meant.keys()):
        if said.get(moment) != meant.get(moment):
            yield f"leg {moment[0]} at {moment[1]} s: lines say {said.get(moment)}, feeds {meant.get(moment)}"
    for line in day.plan["lines"]:
        at, every = line["at_s"], line["every_s"]
        if (line["from_s"], line["to_s"]) != (at[0], at[-1]):
            yield f"{line['text']}: from and to are not its first and last moment"
        if every and any(abs(b - a - every) > 1 for a, b in zip(at, at[1:])):
            yield f"{line['text']}: not every {every} s"


@rule("bottle_name")
def bottle_name(day):
    """A line names every bottle that its feeds are drunk from."""
    at = {(f["leg_index"], f["at_s"]): f for f in day.plan["feeds"]}
    for line in day.plan["lines"]:
        if line["leg"] != "bike":
            continue
        drinks = [item["food"] for item in line["items"] if item["unit"] == "swallow"]
        for moment in line["at_s"]:
            for item in at.get((line["leg_index"], moment), {"items": []})["items"]:
                if item["food"] in drinks and day.own(item) and item["from"] not in line["text"]:
                    yield f"'{line['text']}' at {moment} s is drunk from {item['from']}"
