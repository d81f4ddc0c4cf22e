"""Rules about what is carried, mixed and added up (see plan_rules.py)."""
from plan_day import GRAMS, L, MG, ML, USUAL_BOTTLES, banded, place, rule

# What is carried.

def counted_on(day, kind):
    """The plan's word that it counts on the own bag of this leg (rule `bag` says when it may)."""
    return kind in day.inputs["bags"] and any(stop["leg"] == kind and stop["counted_on"]
                                              for stop in day.plan["special_needs"])


@rule("bag")
def bag(day):
    """A special-needs bag may be lost: never the only source (common practice, no source)."""
    for stop in day.plan["special_needs"]:
        given = day.inputs["bags"].get(stop["leg"])
        if given is None or abs(given["km"] - stop["km"]) > 0.0006:
            yield f"a bag at km {stop['km']:g} of the {stop['leg']}, which nobody named"
            continue
        later = [s for s in day.inputs["stations"].get(stop["leg"], []) if s["km"] > given["km"]]
        second = [s for s in later if s["form"] == "bottle" or stop["leg"] == "run"
                  and any(day.pantry[food]["carb_g"] > 0 for food in s["serves"] if food in day.pantry)]
        if stop["counted_on"] and not second and (later or not day.inputs["typical"]):
            yield f"counts on the bag at km {stop['km']:g} of the {stop['leg']}, and nothing can take its place"
    for kind, given in day.inputs["bags"].items():
        if not counted_on(day, kind):
            continue
        own = taken = 0
        for feed in (f for f in day.feeds if f["leg"] == kind and f["km"] < given["km"] - 0.01):
            own += sum(day.ml(item) for item in feed["items"] if day.own(item))
            taken += len([item for item in day.eats(feed) if item["from"] == "belt"])
        if kind == "run" and taken > (2 if day.inputs["run_gels"] is None else day.inputs["run_gels"]):
            yield f"{taken} from the belt before the bag at km {given['km']:g}"
        leg = next(leg for leg in day.legs if leg["leg"] == kind)
        carried = day.inputs["bottles_ml"]
        if kind == "bike" and own > (sum(carried) if carried is not None else banded(USUAL_BOTTLES, leg["km"])) + 1:
            yield f"{own:.0f} ml drunk before the bag at km {given['km']:g}"



def last_beat_s(at, every):
    """The beat of the last feed, though the road moved it: beats stand on whole five minutes."""
    beat = next((moment for moment in at if moment % 300 == 0), 0)
    return beat + round((at[-1] - beat) / every) * every


@rule("bottles")
def bottles(day):
    """Own drink of all bike legs together out of bottles that are filled once: by the clock, to the end of a slow day
    where a line goes on; there bottles that are handed up may stand in."""
    likely = slow = beats = km = 0
    for i, leg in enumerate(day.legs):
        if leg["leg"] != "bike":
            continue
        km = max(km, leg["km"])
        likely += sum(day.ml(item) for f in day.feeds if f["leg_index"] == i for item in f["items"] if day.own(item))
        for line in (l for l in day.plan["lines"] if l["leg_index"] == i and l["rhythm"]["kind"] == "every"):
            ml = sum(day.ml(item) for item in line["items"] if day.own(item))
            if ml and "to_s" not in line["rhythm"]:
                every = line["rhythm"]["every_s"]
                beats = max(beats, ml)  # times are printed in whole seconds: one beat of doubt
                slow += ml * max(0, (leg["p90_s"] - L["dismount_s"] - last_beat_s(line["at_s"], every)) // every)
    handed_up = day.inputs["typical"] or any(s["form"] == "bottle" for s in day.inputs["stations"].get("bike", []))
    given = day.inputs["bottles_ml"]
    volume = sum(given) if given is not None else banded(USUAL_BOTTLES, km)
    if counted_on(day, "bike"):
        volume += sum(day.inputs["bags"]["bike"]["bottles_ml"])
    mixed = sum(row["volume_ml"] for row in day.plan["mix"] if row["bottle"].startswith("B"))
    if likely > volume + 1:
        yield f"{likely:.0f} ml of own drink, bottles hold {volume:g}"
    if likely + slow > volume + beats + 1 and not handed_up:
        yield f"{likely + slow:.0f} ml of own drink at p90, bottles hold {volume:g}"
    if likely and mixed < min(volume, likely + slow) - beats - 1:
        yield f"{likely + slow:.0f} ml of own drink at p90, mixed {mixed:g}"


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
    from_bag = day.inputs["bags"]["run"]["gels"] if counted_on(day, "run") else 0
    for i, leg in enumerate(day.legs):
        if leg["leg"] == "run":
            taken = sum(len([item for item in day.eats(f) if item["from"] == "belt"])
                        for f in day.feeds if f["leg_index"] == i)
            if taken > room + from_bag:
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
    """A kitchen's measure: 0.1 g below 10 g, else 5 g; half of it is the rounding."""
    return 0.05 if grams < 10 else 2.5


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


def concentrated(day, feed, item):
    """Surely stronger than 8 %, scales considered."""
    if not day.own(item):
        return drink_per_ml(day.food(item), "carb_g") > L["strong_drink_g_per_ml"]
    per_ml, step = own_drink_per_ml(day, feed, item, "carb_g")
    return per_ml > L["strong_drink_g_per_ml"] + step


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
    if len(day.mix) < len(day.plan["mix"]):
        yield "two recipes for one bottle"
    for name, row in day.mix.items():
        carb = sum(day.pantry[part["food"]]["carb_g"] / day.pantry[part["food"]]["serving_g"] * part["grams"]
                   for part in row["add"])
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
