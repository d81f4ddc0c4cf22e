// The back of the sheet: every number of the plan, why it is so, and who says it.
#include "sheet/sheet_content.hpp"

#include "say/plan_words.hpp"
#include "say/units.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace tuck::faces {
namespace {

/// What a number is called by somebody who asks for it; numbers of one name are told together. Empty: tables,
/// what was given, and sums of what stands on the sheet; `tuck explain` has them.
std::string group_of(const Plan& plan, const Trace& trace) {
    const auto& [part, leg_index, field] = trace.key;
    const auto leg = static_cast<std::size_t>(leg_index);
    if (part == PlanPart::durations && leg_index >= 0)
        return fmt::format("{}: {}", leg_name(plan.durations.at(leg).kind),
                           time_text(trace.values.front().number));
    if (part == PlanPart::needs && leg_index >= 0 && field != PlanField::heat) {
        const LegNeed& need = plan.needs.at(leg);
        return fmt::format(
            "{}, each hour: {:.0f} g of carbohydrate, drink up to {}, {:.0f} mg of sodium, sweat {}",
            leg_name(need.kind), need.carb_g_per_h, say::ceiling(need.fluid_ml_per_h, plan.units),
            need.sodium_mg_per_h, say::volume(need.sweat_ml_per_h, plan.units));
    }
    if (part == PlanPart::total)
        return "All: " + time_text(trace.values.front().number);
    if (part == PlanPart::fuelling_needed)
        return plan.fuelling_needed ? "Food on the course: yes" : "Food on the course: none needed";
    constexpr std::pair<TraceKey, const char*> names[] = {
        {{PlanPart::feeds}, "Feeds and lines"},
        {{PlanPart::lines}, "Feeds and lines"},
        {{PlanPart::totals}, "Sums"},
        {{PlanPart::carry}, "What to pack"},
        {{PlanPart::mix}, "What to mix"},
        {{PlanPart::unmet}, "Not reached"},
        {{PlanPart::broken_rules}, "Rules, looked at once more"},
        {{PlanPart::before}, "Before"},
        {{PlanPart::after}, "After"},
        {{PlanPart::outlook, -1, PlanField::serum_sodium}, "Blood sodium at the finish"},
        {{PlanPart::outlook, -1, PlanField::glycogen_left}, "Glycogen at the finish"},
        {{PlanPart::outlook, -1, PlanField::chance}, "How often, of the simulated days"},
        {{PlanPart::outlook, -1, PlanField::drivers}, "What drives the spread"},
        {{PlanPart::outlook}, "The day, simulated"}};
    for (const auto& [known, name] : names)
        if (trace.key == known)
            return name;
    return "";
}

struct Group {
    std::string name;
    std::vector<std::string> reasons;
    bool hourly = false; // the needs of a leg
    bool feeds = false;  // of the bike or the run
};

bool has(const Group& group, const std::string& reason) {
    return std::find(group.reasons.begin(), group.reasons.end(), reason) != group.reasons.end();
}

/// What is said of the needs of all these legs is said once, before them.
void common_first(std::vector<Group>& groups, const std::string& name, bool (*of)(const Group&)) {
    const auto first = std::find_if(groups.begin(), groups.end(), of);
    if (std::count_if(groups.begin(), groups.end(), of) < 2)
        return;
    Group common{name, {}};
    for (const std::string& reason : first->reasons)
        if (std::all_of(groups.begin(), groups.end(),
                        [&](const Group& group) { return !of(group) || has(group, reason); }))
            common.reasons.push_back(reason);
    if (common.reasons.empty())
        return;
    for (Group& group : groups)
        if (of(group))
            group.reasons.erase(
                std::remove_if(group.reasons.begin(), group.reasons.end(),
                               [&](const std::string& reason) { return has(common, reason); }),
                group.reasons.end());
    groups.insert(first, std::move(common));
}

bool of_a_leg(const Group& group) {
    return group.hourly;
}

bool of_a_leg_with_feeds(const Group& group) {
    return group.hourly && group.feeds;
}

bool of_needs(const TraceKey& key) {
    return key.part == PlanPart::needs && key.leg_index >= 0;
}

bool feeds_on_the_way(const Plan& plan, const TraceKey& key) {
    const auto fed = [](LegKind kind) { return kind == LegKind::bike || kind == LegKind::run; };
    return of_needs(key) && fed(plan.needs.at(static_cast<std::size_t>(key.leg_index)).kind);
}

/// Numbers with the same reasons, such as both transitions, share them.
void told_once(std::vector<Group>& groups) {
    for (std::size_t i = 0; i < groups.size(); ++i)
        for (std::size_t j = groups.size() - 1; j > i; --j)
            if (groups[j].reasons == groups[i].reasons) {
                groups[i].name += "; " + groups[j].name;
                groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(j));
            }
}

} // namespace

SheetSection sheet_reasons(const Plan& plan) {
    std::vector<Group> groups;
    for (const Trace& trace : plan.traces) {
        const std::string name = group_of(plan, trace);
        if (name.empty())
            continue;
        auto group =
            std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.name == name; });
        if (group == groups.end())
            group = groups.insert(groups.end(),
                                  {name, {}, of_needs(trace.key), feeds_on_the_way(plan, trace.key)});
        for (const Reason& reason : trace.because) {
            const std::string text = fmt::format("{} [{}]", reason.text, reason.source);
            if (!has(*group, text))
                group->reasons.push_back(text);
        }
    }
    told_once(groups);
    common_first(groups, "Each hour, in every leg", of_a_leg);
    common_first(groups, "Each hour, bike and run alike", of_a_leg_with_feeds);
    SheetSection section{
        "Every number: its reason and [source]", {}, SheetPlace::small, false, SheetWeight::reasons};
    for (Group& group : groups) {
        section.items.emplace_back(SheetParagraph{group.name, ""});
        section.items.emplace_back(SheetList{std::move(group.reasons), false, true});
    }
    return section;
}

} // namespace tuck::faces
