#!/usr/bin/python3
"""The program's plans keep their rules, judged from outside (plan_rules.py), and the judge itself catches harm."""
import copy
import json
import math
import os
import random
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import plan_rules  # noqa: E402

TUCK = os.environ["TUCK"]
ROOT = Path(os.environ["TUCK_ROOT"])
SAMPLES = sorted([*ROOT.glob("samples/*.json"), *ROOT.glob("samples/courses/*.json")])
PANTRY = plan_rules.load_pantry(ROOT / "foods")

DISTANCES = ("super-sprint", "sprint", "standard", "middle", "long", "duathlon-sprint", "duathlon-standard",
             "aquathlon-sprint", "aquathlon-standard")
LEGS = ("bike:2h", "bike:4h,run:30min", "run:10km", "run:21.0975km", "run:42.195km", "swim:3km", "bike:60km",
        "swim:1km,run:15km", "run:5km,bike:30km,run:5km", "bike:120km,run:10km", "swim:400m,bike:12km,run:3km",
        "swim:750m,run:20km")
FOODS = ("gel_25", "gel_isotonic", "gel_dual", "gel_large", "banana_ripe", "rice_cake_home", "energy_bar", "chew_piece",
         "date_medjool", "isotonic_powder", "highcarb_powder", "chews", "gels", "bars", "fruit", "cola_flat",
         "dark_chocolate", "fruit_puree_pouch", "potato_salted", "orange_segments")
ALLERGENS = ("gluten", "milk", "nuts", "peanuts", "soybeans", "eggs", "sesame", "sulphites", "celery")
SERVED = ("water_tap", "sports_drink_rtd", "cola_flat", "gel_25", "banana_ripe", "orange_segments",
          "bouillon_made_up", "drink_home_6pct", "gel_isotonic")


def maybe(rng, chance, value):
    return value() if rng.random() < chance else None


def unliked(like, more=()):
    """Foods that may be avoided by someone who likes `like`: the program takes no word for both."""
    return [food for food in (*FOODS, *more) if food not in like]


def request(rng):
    """A one-line request and what it asks: (arguments, inputs)."""
    mass = rng.randint(45, 110)
    celsius = rng.randint(5, 35)
    inputs = {**plan_rules.DEFAULTS, "mass_kg": mass, "temperature_c": celsius}
    options = [("mass", f"{mass}kg"), ("temperature", f"{celsius}C")]
    options.append(("legs", rng.choice(LEGS)) if rng.random() < 0.3 else ("distance", rng.choice(DISTANCES)))

    def ask(option, chance, value, key=None, read=lambda v: v):
        said = maybe(rng, chance, value)
        if said is not None:
            options.append((option, str(said[0]) if isinstance(said, tuple) else str(said)))
            if key:
                inputs[key] = read(said)
        return said

    ask("level", 0.6, lambda: rng.choice(("beginner", "steady", "keen", "fast")), "level")
    ask("hands", 0.5, lambda: rng.choice(("none", "bottle", "bottle and food")), "hands")
    ask("age", 0.3, lambda: rng.choice((14, 17, 18, 35, 66)), "age_y")
    ask("caffeine", 0.5, lambda: rng.choice(("yes", "no")), "caffeine", lambda v: v == "yes")
    ask("like", 0.4, lambda: ",".join(rng.sample(FOODS, 2)), "like", lambda v: v.split(","))
    ask("avoid", 0.3, lambda: ",".join(rng.sample(unliked(inputs["like"]), 2)), "avoid", lambda v: v.split(","))
    ask("allergy", 0.3, lambda: ",".join(rng.sample(ALLERGENS, 2)), "allergy", lambda v: v.split(","))
    ask("sweat-rate", 0.4, lambda: f"{rng.randint(4, 22) * 100}ml/h", "sweat_tested", lambda v: True)
    ask("sweat-sodium", 0.3, lambda: f"{rng.randint(15, 90)}mmol/L")
    ask("humidity", 0.4, lambda: f"{rng.randint(20, 95)}%")
    ask("wind", 0.3, lambda: f"{rng.randint(0, 9)}m/s")
    ask("water", 0.5, lambda: f"{rng.randint(11, 29)}C", "water_c", lambda v: int(v[:-1]))
    ask("bottles", 0.4, lambda: rng.choice(("2x750ml", "500ml", "750ml,500ml", "1x300ml", "3x750ml")), "bottles_ml",
        lambda v: {"2x750ml": [750, 750], "500ml": [500], "750ml,500ml": [750, 500], "1x300ml": [300],
                   "3x750ml": [750] * 3}[v])
    ask("stations", 0.5, lambda: "typical", "typical", lambda v: True)
    carb = ask("rehearsed-carb", 0.5, lambda: f"{rng.choice((25, 40, 55, 70, 79, 80, 95, 110))}g/h")
    fluid = ask("rehearsed-fluid", 0.3, lambda: f"{rng.choice((300, 600, 900, 1200, 1600))}ml/h")
    inputs["rehearsed"] = {"carb_g_per_h": int(carb[:-3]) if carb else 0,
                           "fluid_ml_per_h": int(fluid[:-4]) if fluid else 0}
    return [f"--{name}={value}" for name, value in options], inputs


def some(rng, words, most):
    return rng.sample(words, rng.randint(0, most))


def stations(rng, km, form):
    if rng.random() < 0.35:
        return []
    step = rng.choice((1.5, 2.5, 4.0)) if form == "cup" else rng.choice((12.0, 20.0))
    serves = some(rng, SERVED, 4)
    places, at = [], step
    while at < km:
        here = serves if rng.random() < 0.8 else some(rng, SERVED, 3)
        places.append({"km": round(at, 2), "serves": here, "form": form})
        at += step
    return places


def document(rng):
    """An event with its athlete, with what one line cannot say: health, stations, belts, swallows."""
    bike_km, run_km = rng.choice(((20, 5), (40, 10), (90, 21), (180, 42), (60, 15)))
    flag = lambda chance: rng.random() < chance  # noqa: E731
    rehearsed = {"carb_g_per_h": rng.choice((0, 50, 85, 100, 120)), "fluid_ml_per_h": rng.choice((0, 700, 1000)),
                 "gut_trained": flag(0.3), "solids_on_run": flag(0.3), "strong_drink": flag(0.3)}
    health = {name: True for name in ("glucose_lowering_medicine", "heart_kidney_or_blood_pressure",
                                      "pregnant_or_breastfeeding", "coeliac", "fructose_malabsorption",
                                      "past_eating_disorder", "recent_gut_illness") if flag(0.07)}
    athlete = {"mass_kg": rng.randint(45, 110), "caffeine": flag(0.6), "rehearsed": rehearsed, "health": health,
               "morning_coffee_mg": rng.choice((0, 90, 200, 350, 500)), "swallow_ml": rng.choice((25, 28, 30, 40, 50)),
               "like": (like := some(rng, FOODS, 3)), "avoid": some(rng, unliked(like, ("drinks",)), 2),
               "allergy": some(rng, ALLERGENS, 2), "level": rng.choice(("beginner", "steady", "keen", "fast")),
               "age_y": rng.choice((15, 25, 45, 70))}
    if flag(0.5):
        athlete["hands"] = rng.choice(("none", "bottle", "bottle and food"))
    if flag(0.5):
        athlete["sweat"] = {"sweat_ml_per_h": rng.randint(400, 2200), "sport": "bike",
                            "temperature_c": rng.randint(5, 35)}
    legs = [{"sport": "bike", "distance_m": bike_km * 1000, "ascent_m": rng.choice((0, 200, 1500)),
             "stations": stations(rng, bike_km, "bottle")},
            {"sport": "run", "distance_m": run_km * 1000, "stations": stations(rng, run_km, "cup")}]
    if flag(0.7):
        legs.insert(0, {"sport": "swim", "distance_m": rng.choice((400, 1500, 3800))})
    if flag(0.3):
        legs[-2]["special_needs"] = {"km": bike_km / 2, "bottles_ml": [rng.choice((500, 750))] * rng.randint(1, 2)}
    if flag(0.3):
        legs[-1]["special_needs"] = {"km": run_km / 2, "gels": rng.randint(1, 4)}
    if flag(0.1):
        legs = [leg for leg in legs if leg["sport"] != "bike"]
    kit = {"run_gels": rng.choice((0, 1, 3, 6)), "run_flask_ml": rng.choice((0, 0, 250, 500))}
    if flag(0.5):
        kit["bike_bottles_ml"] = [rng.choice((500, 750))] * rng.randint(0, 3)
    event = {"legs": legs, "weather": {"temperature_c": rng.randint(5, 35), "water_temperature_c": rng.randint(12, 28)},
             "kit": kit, "athlete": athlete, "days": 500}
    if flag(0.3):
        event["stations"] = "typical"
    return event


def hills(rng, km):
    """A track of ramps of 0.4-5 km, up to 12 %, as GPX (made up)."""
    lat, lon, height, heading, slope, rows = 46.0, 9.0, 600.0, rng.uniform(0, 360), 0.0, []
    left_m, wanted, spacing_m = 0.0, 0.0, 40.0
    for _ in range(int(km * 1000 / spacing_m)):
        if left_m <= 0:
            left_m, wanted = rng.uniform(400, 5000), rng.choice((0, 0, 0.02, -0.02, 0.05, -0.05, 0.09, -0.07, 0.12))
            wanted = abs(wanted) if height < 300 else wanted
        slope += (wanted - slope) / 4
        height, left_m, heading = height + slope * spacing_m, left_m - spacing_m, heading + rng.gauss(0, 4)
        lat += spacing_m * math.cos(math.radians(heading)) / 111_195
        lon += spacing_m * math.sin(math.radians(heading)) / (111_195 * math.cos(math.radians(lat)))
        rows.append(f'<trkpt lat="{lat:.7f}" lon="{lon:.7f}"><ele>{height:.1f}</ele></trkpt>')
    return ('<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>'
            + "\n".join(rows) + "</trkseg></trk></gpx>\n")


def hilly_event(rng, track, laps):
    event = document(rng)
    while not any(leg["sport"] == "bike" for leg in event["legs"]):
        event = document(rng)
    for leg in event["legs"]:
        if leg["sport"] == "bike":
            del leg["distance_m"], leg["ascent_m"]
            leg.update(course_gpx=track, course_laps=laps, stations=[])
            leg.pop("special_needs", None)
    event["athlete"].update(health={}, hands="bottle and food")
    return event


def run_plan(*arguments):
    done = subprocess.run([TUCK, "plan", *map(str, arguments), "--json"], capture_output=True, text=True, timeout=60)
    if done.returncode not in (0, 1):
        raise AssertionError(f"{arguments}: {done.stderr}")
    return json.loads(done.stdout)


def faults_of(plan, inputs):
    return plan_rules.check(plan, inputs, PANTRY)


def in_parallel(function, rows):
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(function, rows))


class PlansKeepTheRules(unittest.TestCase):
    def judge(self, named):
        """`named`: (what to run it again with, plan, inputs)."""
        broken = [f"{name}\n    {rule}: {message}" for name, plan, inputs in named
                  for rule, message in faults_of(plan, inputs)]
        self.assertFalse(broken, f"{len(broken)} faults\n" + "\n".join(broken[:40]))

    def test_samples(self):
        self.judge([(path.name, run_plan(path), plan_rules.inputs_from_event(path)) for path in SAMPLES])

    def test_one_line_requests(self):
        rng = random.Random(20270613)
        rows = [request(rng) for _ in range(240)]
        plans = in_parallel(lambda row: run_plan(*row[0]), rows)
        said = ["tuck plan " + " ".join(f"'{argument}'" for argument in row[0]) for row in rows]
        self.judge([(name, plan, row[1]) for name, row, plan in zip(said, rows, plans)])
        # The sample must hold both answers, or it says little.
        fuelled = sum(plan["fuelling_needed"] for plan in plans)
        self.assertGreater(fuelled, 100)
        self.assertGreater(len(plans) - fuelled, 20)
        self.assertGreater(sum(len(plan["feeds"]) for plan in plans), 1000)

    def test_event_files(self):
        rng = random.Random(42195)
        with tempfile.TemporaryDirectory() as folder:
            rows = []
            for n in range(120):
                event = document(rng)
                path = Path(folder) / f"{n}.json"
                path.write_text(json.dumps(event))
                rows.append((event, path))
            plans = in_parallel(lambda row: run_plan(row[1]), rows)
        self.judge([(json.dumps(event), plan, plan_rules.inputs_from_documents(event, event["athlete"]))
                    for (event, _), plan in zip(rows, plans)])


    def test_hilly_roads(self):
        rng = random.Random(8848)
        with tempfile.TemporaryDirectory() as folder:
            paths = []
            for n in range(40):
                laps = rng.choice((1, 1, 2))
                (Path(folder) / f"{n}.gpx").write_text(hills(rng, rng.choice((30, 60, 90)) / laps))
                paths.append(Path(folder) / f"{n}.json")
                paths[-1].write_text(json.dumps(hilly_event(rng, f"{n}.gpx", laps)))
            rows = in_parallel(lambda path: (path.read_text(), run_plan(path), plan_rules.inputs_from_event(path)), paths)
        self.judge(rows)
        stretches = [stretch for _, plan, inputs in rows for leg in plan["durations"] if leg["leg"] == "bike"
                     for stretch in inputs["roads"]["bike"].stretches(leg["p50_s"])]
        self.assertGreater(len(stretches), 100)
        self.assertGreater(sum(len(bike(plan)) for _, plan, _ in rows), 200)
        tied = sum(" the " in line["text"] for _, plan, _ in rows for line in plan["lines"])
        self.assertGreater(tied, 10)  # lines that name a stretch


# Good plans to be spoiled: (arguments, what they ask).
def good(*arguments, **inputs):
    return list(arguments), {**plan_rules.DEFAULTS, **inputs}


STANDARD = good("--distance=standard", "--mass=68kg", "--temperature=24C", "--stations=typical",
                "--sweat-rate=1000ml/h", "--level=steady", mass_kg=68, temperature_c=24, typical=True, level="steady", sweat_tested=True)
MIDDLE = good("--distance=middle", "--mass=75kg", "--temperature=18C", "--water=19C", "--level=keen",
              "--sweat-rate=900ml/h", "--like=banana_ripe", "--rehearsed-carb=60g/h", "--caffeine=yes",
              "--stations=typical", mass_kg=75, temperature_c=18, water_c=19, level="keen", like=["banana_ripe"],
              caffeine=True, typical=True, sweat_tested=True, rehearsed={"carb_g_per_h": 60})
FOLDER = tempfile.TemporaryDirectory()


def good_event(track, **more):
    folder = Path(FOLDER.name)
    (folder / "good.gpx").write_text(track)
    event = {"distance": "middle", "weather": {"temperature_c": 18}, "days": 500, "stations": "typical",
             "course": {"bike": {"course_gpx": "good.gpx"}}, "athlete": {"mass_kg": 70, "level": "keen", **more}}
    (folder / "good.json").write_text(json.dumps(event))
    return [folder / "good.json"], plan_rules.inputs_from_event(folder / "good.json")


HILLS = good_event(hills(random.Random(2), 80), hands="bottle and food")
PASS = ([ROOT / "samples/courses/pass-middle.json"],
        plan_rules.inputs_from_event(ROOT / "samples/courses/pass-middle.json"))
SPRINT = good("--distance=super-sprint", "--mass=68kg", "--temperature=20C", mass_kg=68, temperature_c=20)


def bike(plan):
    return [feed for feed in plan["feeds"] if feed["leg"] == "bike"]


def drinking(plan):
    return [f for f in bike(plan) if any(i["unit"] == "swallow" for i in f["items"])]


def gel_with_concentrate(plan, _):
    plan["mix"][0]["add"][0]["grams"] *= 2
    put_food(drinking(plan)[0], "gel_isotonic", 1, "gel")


def eating(plan, leg="bike"):
    return [f for f in plan["feeds"]
            if f["leg"] == leg and any(i["unit"] not in ("swallow", "cup") for i in f["items"])]


def put_food(feed, food, amount=1, unit="piece"):
    """Swaps what is eaten, nutrition and all, so that only the food itself is at fault."""
    feed["items"] = [{"food": food, "amount": amount, "unit": unit, "from": "pocket"}] + [
        i for i in feed["items"] if i["unit"] in ("swallow", "cup")]


def change(path, value):
    """Sets plan[path...] to a value, or to what a function makes of the old one."""
    def spoil(plan, _):
        place = plan
        for key in path[:-1]:
            place = place[key]
        place[path[-1]] = value(place[path[-1]]) if callable(value) else value
    return spoil


def of_feed(choose, action):
    return lambda plan, inputs: action(choose(plan))


def move(seconds):
    return lambda feed: feed.update(at_s=feed["at_s"] + seconds)


def at(seconds):
    return lambda feed: feed.update(at_s=seconds)


def twice_at_once(plan, _):
    for _ in range(3):
        plan["feeds"].append(copy.deepcopy(eating(plan)[0]))


def swallow_more(feed):
    next(i for i in feed["items"] if i["unit"] == "swallow")["amount"] += 4


def asked(**more):
    """The plan stays; the one who asked turns out to be another."""
    return lambda plan, inputs: inputs.update(more)


def three_gels_at_once(plan, _):
    for n, feed in enumerate(bike(plan)[:3]):
        put_food(feed, "gel_25", 1, "gel")
        feed["at_s"] = 900 + 300 * n


def early_gel(**more):
    def spoil(plan, inputs):
        inputs.update(more)
        put_food(bike(plan)[0], "gel_25", 1, "gel")
    return spoil


def end_of_bike(plan):
    return next(d["p50_s"] for d in plan["durations"] if d["leg"] == "bike")


def drop_warning(plan, _):
    plan["warnings"] = [w for w in plan["warnings"] if w["code"] != "near_threshold"]


def dry_gel(plan, _):
    """One gel of the usual kind, and no drink on the whole bike."""
    plan["feeds"] = bike(plan)
    for feed in plan["feeds"]:
        feed["items"] = [{"food": "gel_25", "amount": 1, "unit": "gel", "from": "pocket"}]


def on_the_run(food, place="pocket", unit="piece"):
    def spoil(plan, _):
        feed = next(f for f in plan["feeds"] if f["leg"] == "run")
        put_food(feed, food, 1, unit)
        feed["items"][0]["from"] = place
    return spoil


def a_bag_and_nothing_after_it(plan, inputs):
    inputs.update(typical=False, stations={}, bags={"bike": {"km": 20, "bottles_ml": [750]}})
    plan["special_needs"].append({"leg": "bike", "leg_index": 2, "km": 20, "counted_on": True, "text": "a bag"})


def from_a_belt_that_is_not_there(plan, inputs):
    on_the_run("gel_25", "belt", "gel")(plan, inputs)
    inputs["run_gels"] = 0


def cups(feed):
    next(i for i in feed["items"] if i["unit"] == "cup")["amount"] = 4


def longest(inputs, plan, why):
    """The longest such stretch of the original road, m."""
    found = [s for s in inputs["roads"]["bike"].stretches(end_of_bike(plan)) if s[2] == why]
    return max(found, key=lambda s: s[1] - s[0])


def into_the(why):
    """The feed that is nearest to the stretch stands in its middle, clock and kilometre."""
    def spoil(plan, inputs):
        begin, end, _ = longest(inputs, plan, why)
        feed = min(bike(plan), key=lambda f: abs(f["km"] * 1000 - (begin + end) / 2))
        seconds, metres = inputs["roads"]["bike"].clock([(f["at_s"], f["km"] * 1000) for f in bike(plan)],
                                                        end_of_bike(plan))
        feed["km"] = (begin + end) / 2000
        feed["at_s"] = round(next(s for s, m in zip(seconds, metres) if m >= (begin + end) / 2))
    return spoil


def slow_day_in_the_descent(plan, inputs):
    """The slow day is so slow that a feed by the clock meets the descent that lies well before it."""
    begin, end, _ = longest(inputs, plan, "descent")
    seconds, metres = inputs["roads"]["bike"].clock([(f["at_s"], f["km"] * 1000) for f in bike(plan)],
                                                    end_of_bike(plan))
    in_descent_s = next(s for s, m in zip(seconds, metres) if m >= (begin + end) / 2)
    for line in plan["lines"]:
        line["text"] = line["text"].split(" (")[0]
    feed = next(f for f in bike(plan) if f["at_s"] > in_descent_s * 1.02)
    leg = next(d for d in plan["durations"] if d["leg"] == "bike")
    leg["p90_s"] = leg["p50_s"] * feed["at_s"] / in_descent_s


# (rule, plan, what is spoiled). At least one for every rule of the judge.
CORRUPTIONS = [
    ("food_known", STANDARD, change(("feeds", 0, "items", 0, "food"), "manna")),
    ("gut_hours", STANDARD, twice_at_once),
    ("gut_hours", MIDDLE, of_feed(lambda p: bike(p)[1], lambda f: f.update(carb_g=76))),
    ("gut_hours", MIDDLE, of_feed(lambda p: bike(p)[1], lambda f: f.update(glucose_g=76))),
    ("gut_hours", MIDDLE, of_feed(lambda p: bike(p)[1], lambda f: f.update(fructose_g=51))),
    ("gut_hours", MIDDLE, asked(health={"fructose_malabsorption": True})),
    ("gut_hours", MIDDLE, change(("durations", 4, "p90_s"), lambda s: s * 0.3)),
    ("gut_leg", MIDDLE, lambda plan, _: [f.update(carb_g=1.7 * f["carb_g"]) for f in bike(plan)]),
    ("one_clock", STANDARD, change(("lines", 0, "at_s"), lambda rows: [rows[0] + 420, *rows[1:]])),
    ("one_clock", STANDARD, change(("lines",), lambda rows: rows + [{**rows[0], "every_s": 2400},
                                                                    {**rows[0], "every_s": 3600}])),
    ("feeds_apart", MIDDLE, three_gels_at_once),
    ("fluid_leg", STANDARD, change(("needs", 2, "fluid_ml_per_h"), lambda ml: ml / 3)),
    ("fluid_most", STANDARD, of_feed(lambda p: bike(p)[0], lambda f: f.update(fluid_ml=1421))),
    ("fluid_hour", STANDARD, of_feed(lambda p: bike(p)[0], lambda f: f.update(fluid_ml=f["fluid_ml"] + 800))),
    ("fluid_sweat", STANDARD, of_feed(lambda p: bike(p)[0], lambda f: f.update(fluid_ml=f["fluid_ml"] + 900))),
    ("caffeine_hour", MIDDLE, of_feed(lambda p: bike(p)[0], lambda f: f.update(caffeine_mg=201))),
    ("caffeine_hour", MIDDLE, asked(mass_kg=24)),
    ("caffeine_day", MIDDLE, asked(morning_coffee_mg=350)),
    ("caffeine_allowed", MIDDLE, asked(caffeine=False)),
    ("caffeine_allowed", MIDDLE, asked(age_y=17)),
    ("caffeine_allowed", MIDDLE, asked(health={"pregnant_or_breastfeeding": True})),
    ("need_fluid", STANDARD, change(("needs", 2, "fluid_ml_per_h"), 801)),
    ("day_fluid", STANDARD, asked(sweat_tested=False, mass_kg=20)),
    ("day_fluid", STANDARD, change(("totals", "fluid_ml"), 5000)),
    ("need_carb", STANDARD, change(("needs", 2, "carb_g_per_h"), lambda g: g + 31)),
    ("need_carb", MIDDLE, asked(health={"glucose_lowering_medicine": True})),
    ("fuelling", STANDARD, change(("fuelling_needed",), False)),
    ("fuelling", SPRINT, change(("fuelling_needed",), True)),
    ("near_threshold", SPRINT, change(("total", "p90_s"), 4600)),
    ("near_threshold", STANDARD, change(("total", "p10_s"), 4400)),
    ("inside_leg", STANDARD, of_feed(lambda p: bike(p)[-1], move(3600))),
    ("inside_leg", STANDARD, of_feed(lambda p: bike(p)[0], lambda f: f.update(leg_index=0, leg="swim"))),
    ("mount", STANDARD, of_feed(lambda p: bike(p)[0], at(299))),
    ("dismount", STANDARD, lambda plan, _: bike(plan)[-1].update(at_s=end_of_bike(plan) - 290)),
    ("solids_early", MIDDLE, of_feed(lambda p: next(f for f in bike(p) if f["items"][0]["food"] == "banana_ripe"),
                                     at(840))),
    ("solids_late", MIDDLE, lambda plan, _: eating(plan)[0].update(
        at_s=end_of_bike(plan) - 1700) or put_food(eating(plan)[0], "banana_ripe")),
    ("solids_short_bike", STANDARD, of_feed(lambda p: eating(p)[0], lambda f: put_food(f, "energy_bar", 0.5, "bar"))),
    ("solids_run", STANDARD, on_the_run("banana_ripe")),
    ("cold", MIDDLE, early_gel(temperature_c=11)),
    ("cold", MIDDLE, early_gel(water_c=15)),
    ("one_item", STANDARD, of_feed(lambda p: eating(p)[0], lambda f: f["items"].append(dict(f["items"][0])))),
    ("swallows", STANDARD, of_feed(lambda p: drinking(p)[0], swallow_more)),
    ("swallows", STANDARD, of_feed(lambda p: next(f for f in p["feeds"] if f["leg"] == "run"), cups)),
    ("whole_units", STANDARD, of_feed(lambda p: eating(p)[0], lambda f: f["items"][0].update(amount=0.5))),
    ("whole_units", STANDARD, of_feed(lambda p: bike(p)[0], lambda f: f["items"][-1].update(amount=1.5))),
    ("hands", STANDARD, asked(hands="none")),
    ("hands", STANDARD, asked(hands="bottle")),
    ("allergen", MIDDLE, of_feed(lambda p: eating(p)[0], lambda f: put_food(f, "energy_bar", 0.5, "bar"))),
    ("avoid", MIDDLE, asked(avoid=["fruit"])),
    ("avoid", MIDDLE, asked(avoid=["isotonic_powder"])),
    ("fits", MIDDLE, on_the_run("banana_ripe")),
    ("gel_water", STANDARD, dry_gel),
    ("bottles", STANDARD, asked(bottles_ml=[150])),
    ("bottles", STANDARD, change(("mix", 0, "volume_ml"), 100)),
    ("flask", STANDARD, of_feed(lambda p: next(f for f in p["feeds"] if f["leg"] == "run"),
                                lambda f: f["items"][-1].update(unit="swallow", **{"from": "flask"}))),
    ("handed", MIDDLE, lambda plan, inputs: inputs.update(typical=False) or bike(plan)[1]["items"][-1].update(
        **{"from": "station"})),
    ("station", STANDARD, asked(typical=False)),
    ("bag", STANDARD, lambda plan, inputs: plan["special_needs"].append(
        {"leg": "bike", "leg_index": 2, "km": 20, "counted_on": True, "text": "a bag that nobody named"})),
    ("bag", STANDARD, a_bag_and_nothing_after_it),
    ("belt", STANDARD, from_a_belt_that_is_not_there),
    ("carry", STANDARD, change(("carry",), lambda rows: [row for row in rows if not row["food"]])),
    ("nutrition", STANDARD, change(("feeds", 0, "carb_g"), lambda g: g + 1)),
    ("nutrition", STANDARD, change(("feeds", 0, "fluid_ml"), lambda ml: ml - 10)),
    ("nutrition", STANDARD, change(("mix", 0, "add", 0, "grams"), lambda g: g + 8)),
    ("totals", STANDARD, change(("totals", "carb_g"), lambda g: g + 1)),
    ("totals", STANDARD, change(("totals", "sweat_ml"), lambda ml: ml - 20)),
    ("mix", MIDDLE, change(("mix",), [])),
    ("mix", MIDDLE, change(("mix",), lambda rows: rows + [rows[0]])),
    ("mix", MIDDLE, change(("mix", 0, "add", 0, "grams"), lambda g: 2 * g)),
    ("drink_sodium", STANDARD, change(("mix", 0, "add"), lambda rows: rows + [{"food": "table_salt", "grams": 3}])),
    ("extra_sodium", STANDARD, change(("mix", 0, "add"), lambda rows: rows + [{"food": "table_salt", "grams": 3}])),
    ("lines", STANDARD, of_feed(lambda p: bike(p)[0], move(-120))),
    ("lines", STANDARD, change(("lines", 0, "at_s"), lambda rows: rows[:-1])),
    ("line_count", STANDARD, change(("lines",), lambda rows: rows + [rows[0]] * 6)),
    ("line_count", MIDDLE, change(("lines",), lambda rows: rows + [rows[-1]] * 4)),
    ("busy", PASS, into_the("descent")),
    ("busy", HILLS, into_the("steep climb")),
    ("busy", PASS, slow_day_in_the_descent),
    ("gel_and_concentrate", STANDARD, gel_with_concentrate),
    ("gel_and_concentrate", HILLS, of_feed(lambda p: next(f for f in eating(p) if f["items"][0]["unit"] == "gel"), lambda f: f["items"].append(
        {"food": "cola_flat", "amount": 1, "unit": "cup", "from": "station"}))),
    ("place", PASS, of_feed(lambda p: bike(p)[2], lambda f: f.update(km=f["km"] + 15))),
    ("bottle_name", STANDARD, of_feed(lambda p: drinking(p)[0], lambda f: f["items"][-1].update(**{"from": "B7"}))),
]


class TheJudgeCatches(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.plans = {id(ask): run_plan(*ask[0]) for ask in (STANDARD, MIDDLE, PASS, HILLS, SPRINT)}

    def test_the_plans_are_good_before(self):
        for ask in (STANDARD, MIDDLE, PASS, HILLS, SPRINT):
            self.assertEqual([], faults_of(self.plans[id(ask)], ask[1]))

    def test_each_corruption_by_its_rule(self):
        for n, (rule, ask, spoil) in enumerate(CORRUPTIONS):
            with self.subTest(n=n, rule=rule):
                plan, inputs = copy.deepcopy(self.plans[id(ask)]), copy.deepcopy(ask[1])
                if rule == "allergen":
                    inputs["allergy"] = ["peanuts"]
                spoil(plan, inputs)
                self.assertIn(rule, {name for name, _ in faults_of(plan, inputs)})

    def test_every_rule_is_tried(self):
        self.assertEqual(set(plan_rules.RULES) | {"food_known"}, {rule for rule, _, _ in CORRUPTIONS})


if __name__ == "__main__":
    sys.exit(unittest.main())
