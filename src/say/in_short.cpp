#include "say/in_short.hpp"

#include "say/line_words.hpp"
#include "say/units.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>

namespace tuck::say {

namespace {

/// "a, b and c"
std::string listed(const std::vector<std::string>& parts, const Words& say) {
    std::string out;
    for (std::size_t i = 0; i < parts.size(); ++i)
        out += (i == 0 ? "" : i + 1 == parts.size() ? say.last_and : ", ") + parts[i];
    return out;
}

/// A place of the table, filled.
template <typename... Parts>
std::string filled(const char* words, const Parts&... parts) {
    return fmt::format(fmt::runtime(words), parts...);
}

/// The short name that feeds give a food.
std::string label_of(const Plan& plan, const std::string& food, const std::string& otherwise) {
    for (const PlanFeed& feed : plan.feeds)
        for (const FeedItem& item : feed.items)
            if (item.food == food)
                return item.label;
    return otherwise;
}

/// What a bottle holds, as feeds call it.
std::string content_of(const Plan& plan, const std::string& bottle) {
    for (const PlanFeed& feed : plan.feeds)
        for (const FeedItem& item : feed.items)
            if (item.from == bottle)
                return item.label;
    return "";
}

std::string carry_sentence(const Plan& plan, const Words& say) {
    std::vector<std::string> parts;
    std::map<std::string, int> bottles; // by content
    std::string content;
    for (const Mix& mix : plan.mix) {
        const std::string named = content_of(plan, mix.bottle);
        content = named.empty() ? content : named; // a full spare holds what the others hold
        ++bottles[content];
    }
    for (const auto& [what, number] : bottles)
        parts.push_back(number == 1 ? filled(say.bottle_of, say.noun(what))
                                    : filled(say.bottles_of, number, say.noun(what)));
    std::vector<std::pair<std::string, double>> foods;
    for (const CarryItem& item : plan.carry) {
        if (item.food.empty() || item.unit == "bottle" || item.unit == "flask")
            continue;
        const auto known =
            std::find_if(foods.begin(), foods.end(), [&](const auto& f) { return f.first == item.food; });
        if (known == foods.end())
            foods.emplace_back(item.food, item.amount);
        else
            known->second += item.amount;
    }
    for (const auto& [food, amount] : foods) {
        const std::string label = label_of(plan, food, food);
        parts.push_back(amount == 1 ? "1 " + say.noun(label) : say.amount(amount, label));
    }
    return parts.empty() ? say.nothing_to_carry : filled(say.carry, listed(parts, say));
}

std::string plain_when(const Line& line, Units units, Language language) {
    const Words& say = words(language);
    const std::string between = in_units(window(line, language), units);
    const std::string from_to = between.empty() ? "" : " " + between;
    if (line.rhythm.kind == Rhythm::Kind::every)
        return " " + filled(say.every_plain, line.rhythm.every_s / 60) + from_to;
    if (line.rhythm.kind == Rhythm::Kind::stations)
        return " " + filled(say.at_station, rhythm(line, language)) + from_to;
    if (is_transition(line.leg))
        return "";
    std::vector<std::string> at;
    for (const LegMoment& each : line.at)
        at.push_back(line.by_km ? road_number(each.km, units) : clock(each.at_s));
    const std::string mark = !line.by_km ? "" : units == Units::metric ? "km " : say.mile;
    return " " + filled(say.at_moments, mark + listed(at, say));
}

std::string plain_what(const Line& line, const Words& say) {
    std::vector<std::string> parts;
    for (const LineItem& each : line.items)
        parts.push_back(by_bottle(line, each) ? say.amount(each.amount, each.unit)
                        : each.drink()
                            ? filled(say.drink_of, say.amount(each.amount, each.unit), say.noun(each.label))
                            : say.spoken(each.amount, each.label));
    return listed(parts, say);
}

const char* on_leg(LegKind leg, const Words& say) {
    switch (leg) {
    case LegKind::swim:
        return say.on_swim;
    case LegKind::t1:
        return say.at_t1;
    case LegKind::bike:
        return say.on_bike;
    case LegKind::t2:
        return say.at_t2;
    case LegKind::run:
        break;
    }
    return say.on_run;
}

std::string legs_sentence(const Plan& plan, Units units, Language language) {
    const Words& say = words(language);
    std::vector<std::string> legs;
    for (const LegEffort& leg : plan.durations) {
        std::vector<std::string> lines;
        for (const Line& line : plan.lines)
            if (line.leg_index == leg.leg_index)
                lines.push_back(plain_what(line, say) + plain_when(line, units, language));
        if (!lines.empty())
            legs.push_back(filled(on_leg(leg.kind, say), fmt::format("{}", fmt::join(lines, ", "))));
    }
    std::string out = fmt::format("{}", fmt::join(legs, "; "));
    if (!silent_run(plan).empty())
        out += (out.empty() ? "" : "; ") + std::string(say.run_thirst);
    if (!out.empty())
        out[0] = static_cast<char>(out[0] - 'a' + 'A');
    return out + ".";
}

} // namespace

std::string silent_run(const Plan& plan, Language language) {
    for (const LegEffort& leg : plan.durations) {
        const bool said = std::any_of(plan.lines.begin(), plan.lines.end(),
                                      [&leg](const Line& line) { return line.leg_index == leg.leg_index; });
        if (leg.kind != LegKind::run || said || plan.lines.empty())
            continue;
        const auto need = std::find_if(plan.needs.begin(), plan.needs.end(),
                                       [&leg](const LegNeed& n) { return n.leg_index == leg.leg_index; });
        return need == plan.needs.end() || need->carb_g_per_h <= 0 ? words(language).run_nothing
                                                                   : words(language).run_no_station;
    }
    return "";
}

std::string what_iso_is(const Plan& plan, Language language) {
    for (const Mix& mix : plan.mix)
        for (const MixItem& item : mix.add)
            if (item.food == "isotonic_powder")
                return words(language).iso;
    return "";
}

std::vector<std::string> in_short(const Plan& plan, Units units, Language language) {
    const Words& say = words(language);
    if (plan.refused)
        return {};
    if (!plan.fuelling_needed)
        return {say.no_food, plan.carry.empty() ? say.thirst_only : say.carry_water, say.ill};
    if (plan.feeds.empty())
        return {say.no_amounts, say.thirst, say.ill};
    return {carry_sentence(plan, say), legs_sentence(plan, units, language), say.missed};
}

} // namespace tuck::say
