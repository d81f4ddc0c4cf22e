"""An independent judge of plans: it shares no code with the program and holds its own rule table (plan_day.py).

    check(plan, inputs, pantry) -> [(rule, message), ...]

`plan` is the plan as JSON, `inputs` what was asked (see `inputs_from_event`, or start from DEFAULTS), `pantry` the
foods by id. Rules about stock and arithmetic stand in plan_stock.py.
"""
import json
from pathlib import Path

import plan_road
import plan_stock
from plan_day import (DEFAULTS, GRAMS, L, MG, ML, RULES, SECONDS, Day, inputs_from_documents, legs_of, load_pantry,
                      place, rule)

by_moment = plan_stock.by_moment
__all__ = ["DEFAULTS", "RULES", "by_moment", "check", "inputs_from_documents", "inputs_from_event", "load_pantry"]


def inputs_from_event(path):
    """What an event file asks, with its athlete and its tracks."""
    event, folder = json.loads(Path(path).read_text()), Path(path).parent
    athlete = event.get("athlete", {})
    if isinstance(athlete, str):
        athlete = json.loads((folder / athlete).read_text())
    inputs = inputs_from_documents(event, athlete)
    inputs["roads"] = {kind: plan_road.Road(folder / leg["course_gpx"], leg.get("course_laps", 1))
                       for kind, leg in legs_of(event) if "course_gpx" in leg}
    return inputs


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


# Rolling hours. Aim and cap are two numbers: of a rate, and of a sugar path's hourly capacity, a leg's mean may reach
# 1.1 (of a full hour, where the leg is shorter), two hours 2.2, a rolling hour 15 g more but no more than 1.25.

def hour_rule(day, key, limit, rounding):
    for feed in day.feeds:
        hour = day.hour_from(feed)
        taken = sum(f[key] for f in hour)
        if taken > limit + rounding * len(hour):
            yield f"{taken:g} in the hour from {place(feed)}; allowed {limit:g}"


def gut_rates(day, leg_index):
    """g/h by key: the leg's own rate (the day's, where it has none), and the two sugar paths."""
    trained = "_trained" if day.gut_trained() else ""
    own = day.plan["needs"][leg_index]["carb_g_per_h"]
    fructose = 0 if day.inputs["health"].get("fructose_malabsorption") else L[f"fructose{trained}_g_per_h"]
    return {"carb_g": own or day.carb_limit(), "glucose_g": L[f"glucose{trained}_g_per_h"], "fructose_g": fructose}


@rule("gut_hours")
def gut_hours(day):
    """On the likely and on the slow day; an hour counts by the leg in which it begins."""
    for which in ("p50_s", "p90_s"):
        clocks = day.clocks(which)
        for start, first in clocks:
            for key, rate in gut_rates(day, first["leg_index"]).items():
                for hours, limit in ((1, min(rate + L["hour_over_g"], L["hour_over"] * rate)),
                                     (2, 2 * L["mean_over"] * rate)):
                    window = [feed for at, feed in clocks if start <= at < start + hours * 3600 - SECONDS]
                    taken = sum(feed[key] for feed in window)
                    if taken > limit + GRAMS / 2 * len(window):
                        yield f"{which[:3]}: {taken:g} {key} in {hours} h from {place(first)}; allowed {limit:g}"


@rule("gut_leg")
def gut_leg(day):
    for i, leg in enumerate(day.legs):
        feeds = [f for f in day.feeds if f["leg_index"] == i]
        for key, rate in gut_rates(day, i).items():
            taken, limit = sum(f[key] for f in feeds), L["mean_over"] * rate * max(1, leg["p50_s"] / 3600)
            if taken > limit + GRAMS / 2 * len(feeds) + rate / 3600:
                yield f"{leg['leg']}: {taken:g} {key}; allowed {limit:g}"


@rule("one_clock")
def one_clock(day):
    """All lines of a bike leg stand on beats of 10, 15 or 20 min, 1 to 4 beats apart, one interval a multiple of the
    other. Only the road, caffeine and the athlete's own wish stand off the beat."""
    for i, leg in enumerate(day.legs):
        if leg["leg"] != "bike":
            continue
        beat = [line for line in day.plan["lines"] if line["leg_index"] == i and not line_off_the_beat(day, line)]
        moments = {round(at / 60) for line in beat for at in line["at_s"]}
        if moments and all(any(at % base for at in moments) for base in (10, 15, 20)):
            yield f"{sorted(moments)} min are on no beat"
        steps = {round(line["every_s"] / 60) for line in beat if line["every_s"]}
        if any(max(a, b) % min(a, b) for a in steps for b in steps):
            yield f"every {sorted(steps)} min: two clocks"


def line_off_the_beat(day, line):
    caffeine = any(day.food(item)["caffeine_mg"] > 0 for item in line["items"])
    return caffeine or day.inputs["pinned"] or " the " in line["text"] or "not at" in line["text"]


@rule("feeds_apart")
def feeds_apart(day):
    """No three things to eat within half an hour, unless the rate asks for it."""
    for i in range(len(day.legs)):
        eaten = [f for f in day.feeds if f["leg_index"] == i and day.eats(f)]
        rate = day.plan["needs"][i]["carb_g_per_h"]
        for a, b, c in zip(eaten, eaten[1:], eaten[2:]):
            if c["at_s"] - a["at_s"] < 30 * 60 - SECONDS and rate < L["high_rate_g_per_h"]:
                yield f"three from {place(a)} to {place(c)}"


@rule("fluid_leg")
def fluid_leg(day):
    """What a leg drinks, with the transition before it, is never more than its ceiling times its likely length."""
    for i, leg in enumerate(day.legs):
        if leg["leg"] in ("swim", "t1", "t2"):
            continue
        own = [i] + ([i - 1] if i and day.legs[i - 1]["leg"] in ("t1", "t2") else [])
        feeds = [f for f in day.feeds if f["leg_index"] in own]
        taken, rate = sum(f["fluid_ml"] for f in feeds), day.plan["needs"][i]["fluid_ml_per_h"]
        if taken > rate * (leg["p50_s"] + 1) / 3600 + ML / 2 * len(feeds):
            yield f"{leg['leg']}: {taken:g} ml, the ceiling is {rate * leg['p50_s'] / 3600:.0f}"


@rule("line_count")
def line_count(day):
    for leg in range(len(day.legs)):
        # A drink that is handed up goes on where the own one ends: the rider reads one row.
        own = any(day.own(item) for line in day.plan["lines"] if line["leg_index"] == leg for item in line["items"])
        lines = [line for line in day.plan["lines"] if line["leg_index"] == leg
                 and not (own and all(item["unit"] == "swallow" and not day.own(item) for item in line["items"]))]
        most = L["bike_lines"] if day.legs[leg]["leg"] == "bike" else L["run_lines"]
        if len(lines) > most:
            yield f"{len(lines)} lines on the {day.legs[leg]['leg']}; {most} can be kept in mind"


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
        allowed += 2 * day.inputs["swallow_ml"]
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


@rule("day_fluid")
def day_fluid(day):
    """What may be drunk in all: the careful part of the day's sweat and 1 % of body mass."""
    share = 1 if day.inputs["sweat_tested"] else L["untested_careful_share"]
    limit = share * day.plan["totals"]["sweat_ml"] + L["day_gain_of_mass"] * 1000 * day.inputs["mass_kg"]
    allowed = sum(need["fluid_ml_per_h"] * d["p50_s"] / 3600
                  for need, d in zip(day.plan["needs"], day.plan["durations"]))
    for what, ml in (("ceilings", allowed), ("planned", day.plan["totals"]["fluid_ml"])):
        if ml > 1.005 * limit + ML * len(day.feeds):
            yield f"{what} of the day: {ml:.0f} ml; allowed {limit:.0f}"


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
        stops = [line for line in day.plan["lines"] if line["leg_index"] == feed["leg_index"]
                 and feed["at_s"] in line["at_s"] and "stop 20 s" in line["text"]]
        if day.hands() == "none" and not stops:
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


@rule("gel_and_concentrate")
def gel_and_concentrate(day):
    """Never in one feed: together they are far stronger than what a stomach empties (common practice, no source)."""
    return (place(f) for f in day.feeds if any(day.food(item)["form"] in ("gel", "chew") for item in day.eats(f))
            and any(plan_stock.concentrated(day, f, item) for item in day.drinks(f)))


@rule("gel_water")
def gel_water(day):
    """150 ml (a large gel 6 ml for each gram) within 15 minutes before or after the gel; a swallow serves one gel only,
    and one of concentrate none."""
    left = [[day.clock(f), sum(day.ml(item) for item in day.drinks(f) if not plan_stock.concentrated(day, f, item))]
            for f in day.feeds]
    for feed in day.feeds:
        for item in day.eats(feed):
            food = day.food(item)
            if not food["needs_water"]:
                continue
            grams = food["carb_g"] * item["amount"]
            want = L["gel_water_ml_per_g"] * grams
            want = min(want, L["usual_gel_water_ml"]) if grams <= L["usual_gel_g"] else want
            start = day.clock(feed)
            for row in left:
                if abs(row[0] - start) <= L["gel_water_within_s"] + SECONDS:
                    used = min(want, row[1])
                    want, row[1] = want - used, row[1] - used
            if want > ML:
                yield f"{want:.0f} ml short for {food['id']} at {place(feed)}"
