"""The shape of one leg of a plan (JSON), as a coach would sum it up: shared by plan_grid.py and the stability test."""
import json
from pathlib import Path

FOODS = {food["id"]: food for path in (Path(__file__).parents[2] / "foods").glob("*.json")
         for food in json.loads(path.read_text())["foods"]}



def of_leg(rows, kind):
    return [r for r in rows if r["leg"] == kind]


def drink(item):
    return item["unit"] in ("swallow", "cup")


def off_clock(lines):
    """Moments of bike lines that stand on no common beat of 10, 15 or 20 min. The road's and the caffeine's own moments
    are not counted."""
    moments = {round(at / 60) for line in lines for at in line["at_s"]
               if not any(word in line["text"] for word in ("before the", "after the", "caf"))}
    if not moments:
        return 0
    return min(sum(1 for at in moments if at % base) for base in (10, 15, 20))


def rows(lines):
    """Lines as a card counts them: a drink that goes on from a bottle handed up is the same row."""
    count, last = 0, None
    for line in lines:
        items = [(item["unit"], item["amount"]) for item in line["items"]]
        drink = items if len(items) == 1 and drink_alone(line) and line["leg"] == "bike" else None
        count += drink is None or drink != last
        last = drink
    return count


def drink_alone(line):
    return all(drink(item) for item in line["items"])


def nested(lines):
    steps = [round(line["every_s"] / 60) for line in lines if line["every_s"]]
    return all(max(a, b) % min(a, b) == 0 for a in steps for b in steps)


def leg(plan, kind):
    feeds, lines = of_leg(plan["feeds"], kind), of_leg(plan["lines"], kind)
    times, needs = of_leg(plan["durations"], kind), of_leg(plan["needs"], kind)
    hours = sum(t["p50_s"] for t in times) / 3600
    if not hours:
        return {}
    end = times[0]["p50_s"]
    need = needs[0]
    carb, fluid = sum(f["carb_g"] for f in feeds) / hours, sum(f["fluid_ml"] for f in feeds) / hours
    before = {"bike": "t1", "run": "t2"}[kind]
    with_transition = fluid + sum(f["fluid_ml"] for f in of_leg(plan["feeds"], before)) / hours
    last = sum(f["carb_g"] for f in feeds if f["at_s"] > end - 3600)
    eaten = sum(FOODS[i["food"]]["carb_g"] * i["amount"] for f in feeds for i in f["items"] if not drink(i))
    bottle = carb * hours - eaten
    aim = need["carb_g_per_h"]
    return {
        "hours": hours, "carb": carb, "aim": aim, "off_pct": 100 * (carb / aim - 1) if aim else 0,
        "fluid": fluid, "ceiling": need["fluid_ml_per_h"], "over_ceiling": with_transition > need["fluid_ml_per_h"] + 1,
        "sodium": sum(f["sodium_mg"] for f in feeds) / hours, "sodium_aim": need["sodium_mg_per_h"],
        "off_clock": off_clock(lines) if kind == "bike" else 0, "nested": nested(lines), "lines": rows(lines),
        "last_hour_pct": 100 * last / (aim * min(1, hours)) if aim else 100,
        "bottle_pct": 100 * bottle / (carb * hours) if carb else 0,
    }


def refused(plan):
    return any(w["code"] == "refused" for w in plan["warnings"])
