#include "sheet/sheet_content.hpp"

#include "paper/fonts.hpp"
#include "paper/text_fit.hpp"
#include "say/in_short.hpp"
#include "say/line_words.hpp"
#include "say/plan_words.hpp"
#include "say/units.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>

namespace tuck::faces {
namespace {

// Up to this likely time a day's sheet is one leaf, front and back; beyond, two: our choice. A beginner of 70
// kg takes 3:37 over a standard race, by this program at 22 C. On a single page a sprint's would lose what to
// do when the swim is cancelled and the labels.
constexpr double one_leaf_s = 225 * 60;

std::string whole(double value) {
    return fmt::format("{:.0f}", value + 0.0 == 0 ? 0.0 : value);
}

std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const std::string& part : parts)
        if (!part.empty())
            out += (out.empty() ? "" : " · ") + part;
    return out;
}

void add_title(const Plan& plan, SheetContent& sheet) {
    sheet.title = plan_title(plan);
    sheet.subtitle = joined({plan.athlete_name, plan.bib.empty() ? "" : "bib " + plan.bib,
                             plan.wave.empty() ? "" : "wave " + plan.wave, plan.date,
                             plan.start_clock.empty() ? "" : "start " + plan.start_clock,
                             weather_text(plan.weather, plan.units)});
    sheet.foot = joined({"Plan " + plan.version, plan.athlete_name, sheet.title,
                         "one athlete's plan for one day, not medical advice"});
    sheet.stop = plan.stop_line;
}

SheetSection answer(const Plan& plan) {
    SheetSection section;
    section.title = !plan.fuelling_needed ? "Food on the course: none needed"
                    : plan.feeds.empty()  ? "Food on the course: no rate is given here"
                                          : "Food on the course: yes";
    const auto sentences = say::in_short(plan, plan.units);
    if (!sentences.empty()) // the lines themselves stand below
        section.items.emplace_back(SheetParagraph{
            "In short:", say::in_units(sentences.front() + " " + sentences.back(), plan.units)});
    if (!plan.feeds.empty())
        section.items.emplace_back(SheetParagraph{
            "In all:", fmt::format("{} g of carbohydrate, {}, {} mg of sodium{}; likely sweat {}. Drink "
                                   "to thirst: the amounts are a ceiling, less is fine.",
                                   whole(plan.totals.carb_g), say::volume(plan.totals.fluid_ml, plan.units),
                                   whole(plan.totals.sodium_mg),
                                   plan.totals.caffeine_mg > 0
                                       ? fmt::format(", {} mg of caffeine", whole(plan.totals.caffeine_mg))
                                       : "",
                                   say::volume(plan.totals.sweat_ml, plan.units))});
    if (plan.refused)
        section.items.emplace_back(
            SheetParagraph{"Refused:", "this plan is not safe as asked. See what to take care of."});
    if (!plan.still_matters.empty())
        section.items.emplace_back(SheetList{plan.still_matters, false});
    return section;
}

SheetSection timeline(const Plan& plan) {
    SheetTimeline day;
    std::map<int, double> starts;
    for (const LegEffort& leg : plan.durations) {
        day.legs.push_back({leg_name(leg.kind), leg.starts_s, leg.starts_s + leg.time.p50_s});
        starts[leg.leg_index] = leg.starts_s;
    }
    for (const PlanFeed& feed : plan.feeds) {
        const bool food = std::any_of(feed.items.begin(), feed.items.end(), [](const FeedItem& item) {
            return item.unit != "swallow" && item.unit != "cup";
        });
        day.feeds.push_back({starts[feed.leg_index] + feed.at_s, food});
    }
    return {"The day", {day}, SheetPlace::whole, false, SheetWeight::day};
}

SheetTable times(const Plan& plan) {
    SheetTable table{{"Time", "distance", "likely", "1 in 10 faster", "1 in 10 slower"},
                     {},
                     {1, 1.4, 1.4, 1.8, 1.8},
                     {false, true, true, true, true}};
    for (const LegEffort& leg : plan.durations)
        table.rows.push_back({leg_name(leg.kind), distance_text(leg, plan.units), time_text(leg.time.p50_s),
                              time_text(leg.time.p10_s), time_text(leg.time.p90_s)});
    table.rows.push_back(
        {"All", "", time_text(plan.total.p50_s), time_text(plan.total.p10_s), time_text(plan.total.p90_s)});
    return table;
}

SheetTable rates(const Plan& plan) {
    SheetTable table{{"Each hour", "carbohydrate", "drink up to", "sodium", "likely sweat"},
                     {},
                     {1.2, 1.7, 1.5, 1.3, 1.6},
                     {false, true, true, true, true}};
    for (const LegNeed& need : plan.needs)
        if (!is_transition(need.kind))
            table.rows.push_back({leg_name(need.kind), whole(need.carb_g_per_h) + " g",
                                  say::ceiling(need.fluid_ml_per_h, plan.units),
                                  whole(need.sodium_mg_per_h) + " mg",
                                  say::volume(need.sweat_ml_per_h, plan.units)});
    return table;
}

SheetTable lines_table(const Plan& plan, LegKind leg) {
    SheetTable table{{"When", "What"}, {}, {1, 1.2}, {false, false}};
    for (const Line& line : plan.lines)
        if (line.leg == leg)
            table.rows.push_back({say::in_units(say::when(line), plan.units),
                                  say::in_units(say::what_whole(line), plan.units)});
    return table;
}

SheetSection course_lines(const Plan& plan) {
    SheetSection section{"On the course", {}, SheetPlace::left, false};
    for (const LegKind leg : {LegKind::swim, LegKind::t1, LegKind::bike, LegKind::t2, LegKind::run}) {
        const SheetTable table = lines_table(plan, leg);
        if (table.rows.empty())
            continue;
        section.items.emplace_back(leg == LegKind::bike ? SheetParagraph{leg_name(leg) + ":", plan.clock_note}
                                                        : SheetParagraph{leg_name(leg), ""});
        section.items.emplace_back(table);
        if (leg == LegKind::bike && !plan.refill_note.empty())
            section.items.emplace_back(SheetParagraph{"", plan.refill_note + "."});
    }
    if (const auto words = say::silent_run(plan); !words.empty())
        section.items.emplace_back(SheetParagraph{"Run:", words});
    for (const BagStop& stop : plan.special_needs)
        section.items.emplace_back(SheetParagraph{leg_name(stop.leg) + ":", stop.text + "."});
    if (section.items.empty())
        section.items.emplace_back(SheetParagraph{"", "Nothing by plan."});
    return section;
}

/// The sums at the end of each leg: the last point of the course at that moment.
SheetTable sums(const Plan& plan) {
    SheetTable table{{"By the end of", "eaten", "needed", "drunk", "up to", "sweat"},
                     {},
                     {1.6, 1, 1, 1.1, 1.1, 1.1},
                     {false, true, true, true, true, true}};
    for (const LegEffort& leg : plan.durations) {
        if (is_transition(leg.kind))
            continue;
        const double end = leg.starts_s + leg.time.p50_s;
        const DayPoint* last = nullptr;
        for (const DayPoint& point : plan.day_sums)
            if (point.at_s <= end + 0.5)
                last = &point;
        if (last)
            table.rows.push_back({leg_name(leg.kind), whole(last->carb_g) + " g",
                                  whole(last->carb_need_g) + " g", say::volume(last->fluid_ml, plan.units),
                                  say::ceiling(last->fluid_up_to_ml, plan.units),
                                  say::volume(last->sweat_ml, plan.units)});
    }
    return table;
}

SheetCurves curves(const Plan& plan, const char* title, const std::string& unit) {
    SheetCurves plot{title, unit, {}, {}};
    for (const LegEffort& leg : plan.durations)
        plot.legs_start_s.push_back(leg.starts_s);
    return plot;
}

template <class Amount>
void add_series(const Plan& plan, SheetCurves& plot, const char* name, Amount DayPoint::*value,
                double width_mm, double dash_mm) {
    SheetCurves::Series series{name, {}, width_mm, dash_mm};
    const double each = plot.unit == "g" ? 1 : say::volume_in(1, plan.units);
    for (const DayPoint& point : plan.day_sums)
        series.points.emplace_back(point.at_s, point.*value * each);
    plot.series.push_back(std::move(series));
}

SheetSection buying(const Plan& plan) {
    SheetList list{{}, true};
    for (const ShoppingItem& item : plan.shopping)
        list.items.push_back(item.text);
    return {"Shop", {list}, SheetPlace::whole, false, SheetWeight::shop};
}

void add_first_page(const Plan& plan, SheetContent& sheet) {
    sheet.sections.push_back(answer(plan));
    sheet.sections.push_back(timeline(plan));
    sheet.sections.push_back(course_lines(plan));
    sheet.sections.push_back({"How long, how much", {times(plan), rates(plan)}, SheetPlace::right, false});
    if (!plan.fuelling_needed || plan.feeds.empty())
        return;
    SheetCurves carb = curves(plan, "Carbohydrate since the start", "g");
    add_series(plan, carb, "eaten", &DayPoint::carb_g, 0.6, 0);
    add_series(plan, carb, "needed", &DayPoint::carb_need_g, 0.3, 0.7);
    SheetCurves fluid = curves(plan, "Fluid since the start", say::volume_unit(plan.units));
    add_series(plan, fluid, "drunk", &DayPoint::fluid_ml, 0.6, 0);
    add_series(plan, fluid, "drink up to", &DayPoint::fluid_up_to_ml, 0.3, 0.7);
    add_series(plan, fluid, "sweat", &DayPoint::sweat_ml, 0.2, 1.8);
    sheet.sections.push_back({"Eaten and needed", {carb}, SheetPlace::left, false, SheetWeight::pictures});
    sheet.sections.push_back({"Drunk and sweated", {fluid}, SheetPlace::right, false, SheetWeight::pictures});
    sheet.sections.push_back({"Sums", {sums(plan)}, SheetPlace::whole, false, SheetWeight::sums});
    if (!plan.shopping.empty())
        sheet.sections.push_back(buying(plan));
}

std::string bag_of(const std::string& where) {
    return where == "bike"                    ? "On the bike"
           : where == "belt" || where == "T2" ? "T2 and run"
           : where == "bike bag"              ? "Special needs, bike"
           : where == "run bag"               ? "Special needs, run"
                                              : "In " + where;
}

std::vector<std::string> bags_of(const Plan& plan) {
    std::vector<std::string> bags;
    for (const CarryItem& item : plan.carry)
        if (std::find(bags.begin(), bags.end(), bag_of(item.where)) == bags.end())
            bags.push_back(bag_of(item.where));
    return bags;
}

SheetSection packing(const Plan& plan) {
    SheetSection section{"Pack", {}, SheetPlace::right, false};
    for (const std::string& bag : bags_of(plan)) {
        SheetList list{{}, true};
        for (const CarryItem& item : plan.carry)
            if (bag_of(item.where) == bag)
                list.items.emplace_back(item.text);
        section.items.emplace_back(SheetParagraph{bag, ""});
        section.items.emplace_back(list);
    }
    if (section.items.empty())
        section.items.emplace_back(SheetParagraph{"", "Nothing to carry by plan."});
    return section;
}

SheetSection mixing(const Plan& plan) {
    SheetSection section{"Mix", {}, SheetPlace::right, false};
    SheetList list{{}, true};
    for (const Mix& mix : plan.mix)
        list.items.emplace_back(mix.text);
    section.items.emplace_back(list);
    return section;
}

SheetSection moments(const char* title, const std::vector<Moment>& all, SheetPlace place) {
    const bool timed = std::any_of(all.begin(), all.end(), [](const Moment& m) { return !m.clock.empty(); });
    SheetTable table{{"When", "What"}, {}, {1.5, 4}, {false, false}};
    if (timed)
        table = {{"Clock", "When", "What"}, {}, {0.7, 1.5, 4}, {false, false, false}};
    for (const Moment& moment : all) {
        table.rows.push_back({moment.when, moment.text});
        if (timed)
            table.rows.back().insert(table.rows.back().begin(), moment.clock);
    }
    return {title, {table}, place, false};
}

SheetSection if_then(const Plan& plan) {
    SheetSection section{"If", {}, SheetPlace::left, false};
    for (const IfThen& line : plan.if_then)
        section.items.emplace_back(SheetParagraph{line.when + ":", line.text});
    return section;
}

std::vector<std::string> leg_lines(const Plan& plan) {
    std::vector<std::string> out;
    for (const Line& line : plan.lines)
        if (line.leg != LegKind::swim && line.leg != LegKind::t1)
            out.push_back(leg_name(line.leg) + ", " + say::in_units(say::when(line), plan.units) + ": " +
                          say::what(line));
    return out;
}

template <typename Item>
std::vector<std::string> texts_of(const std::vector<Item>& items) {
    std::vector<std::string> out;
    for (const Item& item : items)
        out.push_back(item.text);
    return out;
}

std::vector<CarryItem> food_of(const Plan& plan) {
    std::vector<CarryItem> out;
    std::copy_if(plan.carry.begin(), plan.carry.end(), std::back_inserter(out),
                 [](const CarryItem& item) { return !item.food.empty(); });
    return out;
}

SheetSection without_swim(const Plan& plan, const Plan& other) {
    SheetSection section{"If the swim is cancelled", {}, SheetPlace::left, false, SheetWeight::no_swim};
    const auto lines = leg_lines(other);
    if (other.fuelling_needed != plan.fuelling_needed || (lines.empty() && !plan.lines.empty()))
        section.items.emplace_back(SheetParagraph{
            "", other.fuelling_needed ? "Food on the course: yes." : "Food on the course: none needed."});
    if (lines == leg_lines(plan))
        section.items.emplace_back(
            SheetParagraph{"", "Every line stands as it is: each leg counts from its own start."});
    else if (!lines.empty()) {
        section.items.emplace_back(SheetParagraph{"", "These lines instead:"});
        section.items.emplace_back(SheetList{lines, false});
    }
    const auto mix = texts_of(other.mix), food = texts_of(food_of(other));
    const auto instead = [&section](const char* lead, const std::vector<std::string>& texts) {
        section.items.emplace_back(
            SheetParagraph{lead, texts.empty() ? "nothing." : fmt::format("{}.", fmt::join(texts, "; "))});
    };
    if (mix != texts_of(plan.mix))
        instead("Mix instead:", mix);
    if (food != texts_of(food_of(plan)))
        instead("Pack instead:", food);
    if (mix == texts_of(plan.mix) && food == texts_of(food_of(plan)))
        section.items.emplace_back(SheetParagraph{"", "Pack and mix the same."});
    section.items.emplace_back(
        SheetParagraph{"", fmt::format("Likely time in all: {}.", time_text(other.total.p50_s))});
    return section;
}

std::string whose(const Plan& plan) {
    return joined({plan.athlete_name, plan.bib.empty() ? "" : "bib " + plan.bib});
}

/// What a bag holds, in one line for its label.
std::string listed(const Plan& plan, const std::string& bag) {
    std::string out;
    for (const CarryItem& item : plan.carry)
        if (bag_of(item.where) == bag)
            out += (out.empty() ? "" : "; ") + item.text;
    return out;
}

void add_second_page(const Plan& plan, const Plan* no_swim, SheetContent& sheet) {
    SheetSection before = moments("Before", plan.before, SheetPlace::whole);
    before.new_page = true;
    sheet.sections.push_back(before);
    sheet.sections.push_back(if_then(plan));
    if (no_swim)
        sheet.sections.push_back(without_swim(plan, *no_swim));
    sheet.sections.push_back(packing(plan));
    if (!plan.mix.empty())
        sheet.sections.push_back(mixing(plan));
    sheet.sections.push_back(moments("After", plan.after, SheetPlace::right));
    if (const SheetLabels labels{labels_of(plan)}; !labels.labels.empty())
        sheet.sections.push_back(
            {"Labels to cut out", {labels}, SheetPlace::whole, false, SheetWeight::labels});
}

void add_third_page(const Plan& plan, SheetContent& sheet) {
    const std::size_t first = sheet.sections.size();
    if (plan.outlook.days > 0) {
        for (SheetSection& section : sheet_outlook(plan))
            sheet.sections.push_back(std::move(section));
    }
    if (!plan.warnings.empty()) {
        SheetSection care{"Take care", {}, SheetPlace::whole, false};
        for (const Warning& warning : plan.warnings)
            care.items.emplace_back(SheetParagraph{warning.severity == Severity::danger    ? "Danger:"
                                                   : warning.severity == Severity::caution ? "Caution:"
                                                                                           : "Note:",
                                                   warning.text});
        sheet.sections.push_back(care);
    }
    if (!plan.broken_rules.empty()) {
        SheetSection broken{"Your own plan breaks these rules", {}, SheetPlace::whole, false};
        for (const Breach& breach : plan.broken_rules)
            broken.items.emplace_back(SheetParagraph{breach.danger ? "Danger:" : "", breach.text + "."});
        sheet.sections.push_back(broken);
    }
    if (!plan.unmet.empty()) {
        SheetSection unmet{"Not reached", {}, SheetPlace::whole, false, SheetWeight::unmet};
        for (const std::string& text : unmet_texts(plan))
            unmet.items.emplace_back(SheetParagraph{"", say::in_units(text, plan.units)});
        sheet.sections.push_back(unmet);
    }
    if (!plan.assumptions.empty())
        sheet.sections.push_back({"What is not known and had to be assumed",
                                  {SheetList{plan.assumptions, false}},
                                  SheetPlace::whole,
                                  false,
                                  SheetWeight::assumed});
    sheet.sections.push_back({"Always", {SheetList{plan.cautions, false}}, SheetPlace::whole, false});
    sheet.sections[first].new_page = true;
}

std::vector<SheetWeight> leaving_order() {
    std::vector<SheetWeight> out;
    for (int weight = static_cast<int>(SheetWeight::reasons); weight > static_cast<int>(SheetWeight::kept);
         --weight)
        out.push_back(static_cast<SheetWeight>(weight));
    return out;
}

} // namespace

std::size_t sections_that_may_go(const SheetContent& content) {
    return static_cast<std::size_t>(
        std::count_if(content.sections.begin(), content.sections.end(),
                      [](const SheetSection& section) { return section.weight != SheetWeight::kept; }));
}

SheetContent with_sections_gone(const SheetContent& content, std::size_t gone) {
    SheetContent out = content;
    std::string names;
    for (const SheetWeight weight : leaving_order())
        for (auto it = out.sections.end(); it != out.sections.begin() && gone > 0;) {
            --it;
            if (it->weight != weight)
                continue;
            names = names.empty() ? it->title : it->title + ", " + names;
            const bool began_page = it->new_page;
            it = out.sections.erase(it);
            if (began_page && it != out.sections.end())
                it->new_page = true;
            --gone;
        }
    if (!names.empty())
        out.sections.push_back(
            {"", {SheetParagraph{"Not on this paper:", names + ". The sheet as .html or .txt holds them."}}});
    return out;
}

std::vector<SheetLabels::Label> labels_of(const Plan& plan) {
    std::vector<SheetLabels::Label> labels;
    for (const Mix& mix : plan.mix)
        labels.push_back({mix.bottle, whose(plan), mix.text});
    for (const BagStop& stop : plan.special_needs)
        labels.push_back({leg_name(stop.leg) + " " + say::road_mark(stop.km, plan.units),
                          joined({"Special needs", whose(plan)}),
                          listed(plan, bag_of(stop.leg == LegKind::bike ? "bike bag" : "run bag"))});
    if (const std::string run = listed(plan, bag_of("T2")); !run.empty())
        labels.push_back({"T2", whose(plan), run});
    return labels;
}

SheetContent sheet_content(const Plan& given, const Plan* given_no_swim) {
    const Plan plan = say::in_own_units(given);
    const std::optional<Plan> told =
        given_no_swim ? std::optional(say::in_own_units(*given_no_swim)) : std::nullopt;
    const Plan* no_swim = told ? &*told : nullptr;
    require_printable(plan.event_name, "event name");
    require_printable(plan.athlete_name, "athlete name");
    require_printable(plan.bib + plan.wave + plan.date, "bib, wave or date");
    SheetContent sheet;
    add_title(plan, sheet);
    add_first_page(plan, sheet);
    add_second_page(plan, no_swim, sheet);
    add_third_page(plan, sheet);
    sheet.sections.push_back(sheet_reasons(plan));
    sheet.most_pages = plan.total.p50_s <= one_leaf_s ? 2 : 4;
    return sheet;
}

} // namespace tuck::faces
