#include "schedule/own_plan.hpp"

#include "schedule/own_moments.hpp"
#include "schedule/slots.hpp"
#include "schedule/supplies.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace tuck::schedule {

namespace {

constexpr double transition_bottle_ml = 500;

bool names_bottle(const std::string& of) {
    return of.size() >= 2 && of[0] == 'B' && of[1] >= '1' && of[1] <= '9' && (of.size() == 2 || of[2] == ' ');
}

/// An own bottle of one leg, and how much of it is drunk on the way.
struct Bottle {
    std::string name;
    double volume_ml = 0, drunk_ml = 0;
    const DrinkChoice* drink = nullptr;
    std::optional<double> fill_ml; // said with its recipe
};

class Reader {
public:
    Reader(const Setting& now, OwnPlan& out) : now_(now), out_(out), program_(program_of(now)) {}

    void read() {
        for (const auto& line : now_.event.own_lines)
            leg_of(line);
        for (auto& leg : out_.legs) {
            fill_bottles(leg);
            for (const auto& line : now_.event.own_lines)
                if (leg_of(line) == leg.leg->leg)
                    read_line(line, leg);
            pack_bottles(leg);
        }
        merge_feeds();
    }

private:
    /// The leg of a line; its entry stands in the plan from then on.
    size_t leg_of(const OwnLine& line) {
        int number = 0;
        for (size_t i = 0; i < now_.effort.legs.size(); ++i)
            if (now_.effort.legs[i].kind == line.leg && ++number == line.which) {
                add_leg(i);
                return i;
            }
        fail_own_line(line.said, number == 0
                                     ? fmt::format("this day has no {}", to_string(line.leg))
                                     : fmt::format("this day has {} of {}", number, to_string(line.leg)));
    }

    void add_leg(size_t leg) {
        if (out_.has(leg))
            return;
        out_.programs.push_back(program_.legs[leg]);
        Decided decided;
        decided.leg = &out_.programs.back();
        const auto before = std::find_if(out_.legs.begin(), out_.legs.end(),
                                         [leg](const Decided& other) { return other.leg->leg > leg; });
        out_.legs.insert(before, decided);
    }

    // What is meant.

    const Food* find_food(const std::string& word, const std::string& said, bool drink) const {
        if (const Food* food = now_.pantry.find(word))
            return food;
        std::vector<const Food*> found;
        for (const auto& [id, food] : now_.pantry.foods) {
            const bool drinks = food.form == Form::drink || food.form == Form::powder;
            const bool same = food.label == word || food.name == word || (food.label + "s" == word && !drink);
            if (same && drinks == drink)
                found.push_back(&food);
        }
        if (found.empty())
            fail_own_line(said, fmt::format("\"{}\" is no food of the pantry; see tuck foods", word));
        return best_of(found);
    }

    /// Of foods with one short name the one that a plan of ours would take.
    const Food* best_of(const std::vector<const Food*>& found) const {
        const auto& menu = now_.menu;
        for (const auto* portions : {&menu.solids, &menu.gels, &menu.run_food})
            for (const auto& portion : *portions)
                if (std::find(found.begin(), found.end(), portion.food) != found.end())
                    return portion.food;
        if (menu.caffeine && std::find(found.begin(), found.end(), menu.caffeine->food) != found.end())
            return menu.caffeine->food;
        for (const auto& drink : menu.bottles)
            if (std::find(found.begin(), found.end(), drink.food) != found.end())
                return drink.food;
        return found.front();
    }

    const Portion* portion_of(const OwnPart& part, const OwnLine& line) {
        const Food* food = find_food(part.of, line.said, false);
        if (food->form == Form::drink || food->form == Form::powder)
            fail_own_line(line.said, fmt::format("{} is drunk; say how many swallows or cups", food->name));
        out_.portions.push_back(typed_portion(*food, part.amount));
        return &out_.portions.back();
    }

    /// An own drink: as the plan would mix it where it may, else as on the packet.
    DrinkChoice own_drink(const LegProgram& leg, const std::string& word, const std::string& said) const {
        const auto& drinks = leg.drinks.empty() ? bike_drinks() : leg.drinks;
        if (word == "iso")
            for (const auto& choice : drinks)
                if (choice.drink.carb_g > 0)
                    return with_sip(choice, leg.sip_ml);
        const Food* food = word == "water" ? now_.pantry.find("water_tap")
                                           : find_food(word == "iso" ? "isotonic_powder" : word, said, true);
        for (const auto& choice : drinks)
            if (choice.drink.food == food)
                return with_sip(choice, leg.sip_ml);
        return drink_choice(typed_drink(*food), leg.sip_ml);
    }

    DrinkChoice recipe(const OwnBottle& bottle, double volume_ml, double sip_ml) const {
        std::vector<std::pair<const Food*, double>> grams;
        const Food* named = nullptr;
        for (const auto& part : bottle.grams) {
            const Food* food =
                part.of == "salt" ? now_.pantry.find("table_salt") : find_food(part.of, bottle.said, true);
            grams.push_back({food, part.grams});
            if (!named && food->carb_g > 0)
                named = food;
        }
        const double ml = bottle.fill_ml.value_or(volume_ml);
        if (ml <= 0)
            fail_own_line(bottle.said, "there is no such bottle");
        const Food* water = now_.pantry.find("water_tap");
        return drink_choice(mixed_drink(named ? *named : *water, grams, ml), sip_ml);
    }

    std::vector<DrinkChoice> bike_drinks() const {
        for (const auto& leg : program_.legs)
            if (!leg.drinks.empty() && leg.kind == LegKind::bike)
                return leg.drinks;
        std::vector<DrinkChoice> out;
        for (const auto& drink : now_.menu.bottles)
            out.push_back(drink_choice(drink, now_.athlete.swallow_ml));
        return out;
    }

    static DrinkChoice with_sip(const DrinkChoice& choice, double sip_ml) {
        DrinkChoice out = drink_choice(choice.drink, sip_ml);
        out.added_sodium_mg_per_ml = choice.added_sodium_mg_per_ml;
        return out;
    }

    const DrinkChoice* keep(DrinkChoice choice) {
        choices_.push_back(std::move(choice));
        return &choices_.back();
    }

    /// What stations hand out under this name.
    const DrinkChoice* station_drink(const OwnPart& part, const OwnLine& line, double sip_ml, size_t leg) {
        const auto stations = stations_of(now_.event, now_.effort, leg);
        const Food* water = now_.pantry.find("water_tap");
        const Food* found = part.of == "water" ? water : nullptr;
        for (const auto& station : stations)
            for (const auto& id : station.serves) {
                const Food* food = now_.pantry.find(id);
                const bool drink = food && food->form == Form::drink && food != water;
                if (!found && drink && (part.of == "iso" || part.of == id || part.of == food->label))
                    found = food;
            }
        if (!found)
            fail_own_line(line.said, fmt::format("no station of this leg hands out {}", part.of));
        return keep(drink_choice(served_drink(found), sip_ml));
    }

    // Bottles.

    void fill_bottles(const Decided& leg) {
        bottles_.clear();
        const auto kind = leg.leg->kind;
        if (kind == LegKind::bike) {
            int number = 0;
            for (const auto* volumes : {&now_.kit.bottles_ml, &now_.kit.bag_bottles_ml})
                for (const double ml : *volumes)
                    bottles_.push_back({fmt::format("B{}", ++number), ml, ridden_ml_[number], nullptr, {}});
        } else if (kind == LegKind::run) {
            bottles_.push_back({leg.leg->vessel, now_.kit.flask_ml, 0, nullptr, {}});
        } else {
            bottles_.push_back({leg.leg->vessel, transition_bottle_ml, 0, nullptr, {}});
        }
        name_contents(leg);
    }

    /// Said ("B1: water"); else the drinks that lines name, in their order; else the usual drink.
    void name_contents(const Decided& leg) {
        std::vector<std::pair<std::string, std::string>> named; // and the line that does
        for (const auto& line : now_.event.own_lines)
            if (leg_of(line) == leg.leg->leg)
                for (const auto& part : line.parts)
                    if (part.unit == "swallow" && !names_bottle(part.of) && !handed(leg, part) &&
                        std::none_of(named.begin(), named.end(),
                                     [&part](const auto& other) { return other.first == part.of; }))
                        named.emplace_back(part.of, line.said);
        const std::pair<std::string, std::string> usual{"iso", "iso"};
        for (size_t i = 0; i < bottles_.size(); ++i) {
            const auto& [of, line] = named.empty() ? usual : named[std::min(i, named.size() - 1)];
            const auto& own = now_.event.own_bottles;
            const auto said = std::find_if(own.begin(), own.end(),
                                           [&](const OwnBottle& b) { return b.name == bottles_[i].name; });
            bottles_[i].drink =
                keep(said == own.end()     ? own_drink(*leg.leg, of, line)
                     : said->grams.empty() ? own_drink(*leg.leg, said->of, said->said)
                                           : recipe(*said, bottles_[i].volume_ml, leg.leg->sip_ml));
        }
    }

    bool lines_name_bottles(size_t leg) {
        return std::any_of(now_.event.own_lines.begin(), now_.event.own_lines.end(),
                           [&](const OwnLine& line) {
                               return leg_of(line) == leg &&
                                      std::any_of(line.parts.begin(), line.parts.end(),
                                                  [](const OwnPart& part) { return names_bottle(part.of); });
                           });
    }

    /// Handed out or up, and not from an own bottle.
    bool handed(const Decided& leg, const OwnPart& part) {
        if (part.unit == "cup")
            return true;
        return leg.leg->kind == LegKind::bike && !names_bottle(part.of) && lines_name_bottles(leg.leg->leg) &&
               !stations_of(now_.event, now_.effort, leg.leg->leg).empty();
    }

    Bottle& bottle_for(const OwnPart& part, const OwnLine& line, double ml) {
        std::vector<Bottle*> may;
        for (auto& bottle : bottles_)
            if (names_bottle(part.of)
                    ? (" " + part.of + " ").find(" " + bottle.name + " ") != std::string::npos
                    : same_drink(bottle, part))
                may.push_back(&bottle);
        if (may.empty())
            fail_own_line(
                line.said,
                names_bottle(part.of)
                    ? fmt::format("no such bottle; there {} {}", bottles_.size() == 1 ? "is" : "are",
                                  bottles_.empty() ? "none" : bottle_names())
                    : fmt::format("no bottle holds {}; say which does: \"B1: {}\"", part.of, part.of));
        for (auto* bottle : may) // the next one once this is empty, and the last one beyond what it holds
            if (bottle->drunk_ml + ml <= bottle->volume_ml + 1e-9)
                return *bottle;
        return *may.back();
    }

    bool same_drink(const Bottle& bottle, const OwnPart& part) const {
        const Food* food = bottle.drink->drink.food;
        const std::string id = food ? food->id : "water_tap", label = food ? food->label : "water";
        return part.of == id || part.of == label || (part.of == "water" && bottle.drink->drink.carb_g <= 0) ||
               (part.of == "iso" && bottle.drink->drink.carb_g > 0);
    }

    std::string bottle_names() const {
        std::vector<std::string> names;
        for (const auto& bottle : bottles_)
            names.push_back(bottle.name);
        return fmt::format("{}", fmt::join(names, ", "));
    }

    // What is taken.

    void read_line(const OwnLine& said, Decided& leg) {
        Line line;
        line.leg_index = static_cast<int>(leg.leg->leg);
        line.leg = leg.leg->kind;
        line.stop = said.stop;
        line.at = own_moments(now_, said, leg.leg->leg, line);
        for (const auto& part : said.parts) {
            LineItem item;
            for (size_t i = 0; i < line.at.size(); ++i)
                take(part, said, line, i, leg, item);
            line.items.push_back(item);
        }
        out_.lines.push_back(std::move(line));
    }

    void take(const OwnPart& part, const OwnLine& said, const Line& line, size_t which, Decided& leg,
              LineItem& item) {
        PlanFeed feed;
        feed.leg_index = static_cast<int>(leg.leg->leg);
        feed.leg = leg.leg->kind;
        feed.at_s = line.at[which].at_s;
        feed.km = line.at[which].km;
        feed.by_place = std::any_of(line.beside.begin(), line.beside.end(), [&feed](const Beside& beside) {
            return beside.kind != Beside::Kind::left_out && std::abs(beside.at_s - feed.at_s) < 1;
        });
        Taken taken;
        taken.at_s = feed.at_s;
        taken.km = feed.km;
        if (part.unit.empty())
            eat(part, said, leg, feed, taken);
        else
            drink(part, said, leg, feed, taken);
        const FeedItem& got = feed.items.front();
        item.food = got.food;
        item.label = got.label;
        item.amount = got.amount;
        item.unit = got.unit;
        if (item.from.empty() || item.from.back().name != got.from)
            item.from.push_back({got.from, which});
        leg.taken.push_back(taken);
        leg.feeds.push_back(feed);
    }

    static void add(PlanFeed& feed, const Dose& dose, double times) {
        feed.carb_g += times * dose.carb_g;
        feed.glucose_g += times * dose.glucose_g;
        feed.fructose_g += times * dose.fructose_g;
        feed.fluid_ml += times * dose.fluid_ml;
        feed.sodium_mg += times * dose.sodium_mg;
        feed.caffeine_mg += times * dose.caffeine_mg;
    }

    void eat(const OwnPart& part, const OwnLine& said, const Decided& leg, PlanFeed& feed, Taken& taken) {
        taken.item = portion_of(part, said);
        const Food& food = *taken.item->food;
        const auto stations = stations_of(now_.event, now_.effort, leg.leg->leg);
        const bool served = std::any_of(stations.begin(), stations.end(), [&](const Station& station) {
            return std::abs(station.km - feed.km) < 0.005 &&
                   std::find(station.serves.begin(), station.serves.end(), food.id) != station.serves.end();
        });
        const char* from = served                          ? "station"
                           : leg.leg->kind == LegKind::run ? "belt"
                           : is_transition(leg.leg->kind)  ? "transition"
                                                           : "pocket";
        feed.items.push_back({food.id, taken.item->amount, taken.item->unit, from, food_label(food)});
        add(feed, taken.item->dose, 1);
    }

    void drink(const OwnPart& part, const OwnLine& said, Decided& leg, PlanFeed& feed, Taken& taken) {
        if (std::abs(part.amount - std::round(part.amount)) > 1e-9)
            fail_own_line(said.said, "swallows and cups come whole");
        taken.sips = static_cast<int>(std::lround(part.amount));
        const DrinkChoice* choice = nullptr;
        std::string from = "station";
        const bool cup = part.unit == "cup";
        const double sip_ml = cup ? cup_ml : now_.athlete.swallow_ml.count(), ml = sip_ml * taken.sips;
        taken.own_drink = !handed(leg, part);
        if (taken.own_drink) {
            Bottle& bottle = bottle_for(part, said, ml);
            bottle.drunk_ml += ml;
            choice = bottle.drink;
            from = bottle.name;
            leg.own_ml += ml;
        } else {
            choice = station_drink(part, said, sip_ml, leg.leg->leg);
            leg.handed_ml += ml;
        }
        const Food* food = choice->drink.food;
        feed.items.push_back({food ? food->id : "water_tap", part.amount, part.unit, from,
                              choice->drink.carb_g <= 0 ? "water" : food_label(*food)});
        add(feed, sip_of(choice->drink, sip_ml), taken.sips);
    }

    // What is packed.

    void pack_bottles(const Decided& leg) {
        const auto kind = leg.leg->kind;
        const double stretch =
            now_.effort.legs[leg.leg->leg].time.p90_s / now_.effort.legs[leg.leg->leg].time.p50_s;
        for (size_t i = 0; i < bottles_.size(); ++i) {
            const auto& bottle = bottles_[i];
            if (kind == LegKind::bike)
                ridden_ml_[static_cast<int>(i) + 1] = bottle.drunk_ml;
            const bool packed = std::any_of(out_.mix.begin(), out_.mix.end(),
                                            [&bottle](const Mix& mix) { return mix.bottle == bottle.name; });
            if (bottle.drunk_ml <= 0 || packed)
                continue;
            const double to_fill = bottle.drunk_ml * stretch, volume = std::max(bottle.volume_ml, 1.0);
            out_.mix.push_back(mix_bottle(now_, bottle.drink->drink, bottle.name, volume,
                                          bottle.fill_ml          ? *bottle.fill_ml
                                          : to_fill <= volume / 2 ? volume / 2
                                                                  : volume,
                                          bottle.drink->added_sodium_mg_per_ml));
            const std::string where = kind == LegKind::bike  ? "bike"
                                      : kind == LegKind::run ? "belt"
                                                             : to_string(kind);
            out_.bottles.push_back({"", 1, kind == LegKind::run ? "flask" : "bottle", where,
                                    fmt::format("{}: {:.0f} ml {}", bottle.name, volume,
                                                kind == LegKind::bike  ? "bottle on the bike"
                                                : kind == LegKind::run ? "flask on the run"
                                                                       : "bottle in " + where)});
        }
    }

    void merge_feeds() {
        std::map<std::pair<int, double>, PlanFeed> merged;
        for (const auto& leg : out_.legs)
            for (const auto& feed : leg.feeds) {
                const auto [at, fresh] = merged.try_emplace({feed.leg_index, feed.at_s}, feed);
                if (fresh)
                    continue;
                PlanFeed& all = at->second;
                all.items.insert(all.items.end(), feed.items.begin(), feed.items.end());
                all.carb_g += feed.carb_g;
                all.glucose_g += feed.glucose_g;
                all.fructose_g += feed.fructose_g;
                all.fluid_ml += feed.fluid_ml;
                all.sodium_mg += feed.sodium_mg;
                all.caffeine_mg += feed.caffeine_mg;
            }
        for (auto& [key, feed] : merged)
            out_.feeds.push_back(std::move(feed));
    }

    const Setting& now_;
    OwnPlan& out_;
    Program program_;
    std::vector<Bottle> bottles_;     // of the leg that is read
    std::map<int, double> ridden_ml_; // of each bike bottle, on earlier rides
    std::deque<DrinkChoice> choices_;
};

} // namespace

bool OwnPlan::has(size_t leg) const {
    return std::any_of(legs.begin(), legs.end(), [leg](const Decided& own) { return own.leg->leg == leg; });
}

void read_own_plan(const Setting& now, OwnPlan& out) {
    Reader(now, out).read();
}

} // namespace tuck::schedule
