// The back of the sheet: every number of the plan, why it is so, and who says it.
#include "sheet/sheet_content.hpp"

#include "say/plan_words.hpp"
#include "say/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

namespace tuck::faces {
namespace {

/// The index after `prefix` in a pointer such as "/needs/2/carb_g_per_h".
std::optional<std::size_t> index_after(const std::string& pointer, const std::string& prefix) {
    if (pointer.rfind(prefix, 0) != 0)
        return std::nullopt;
    std::size_t index = 0;
    const auto [end, error] =
        std::from_chars(pointer.data() + prefix.size(), pointer.data() + pointer.size(), index);
    return error == std::errc() ? std::optional(index) : std::nullopt;
}

/// What a number is called by somebody who asks for it; numbers of one name are told together.
std::string group_of(const Plan& plan, const std::string& pointer) {
    if (pointer.ends_with(
            "/heat")) // a balance minute by minute is a table for the screen: `tuck explain bike heat`
        return "";
    if (const auto i = index_after(pointer, "/durations/"); i && *i < plan.durations.size())
        return fmt::format("{}: {}", leg_name(plan.durations[*i].kind),
                           time_text(plan.durations[*i].time.p50_s));
    if (const auto i = index_after(pointer, "/needs/"); i && *i < plan.needs.size()) {
        const LegNeed& need = plan.needs[*i];
        return fmt::format(
            "{}, each hour: {:.0f} g of carbohydrate, drink up to {}, {:.0f} mg of sodium, sweat {}",
            leg_name(need.kind), need.carb_g_per_h, say::ceiling(need.fluid_ml_per_h, plan.units),
            need.sodium_mg_per_h, say::volume(need.sweat_ml_per_h, plan.units));
    }
    const std::pair<const char*, std::string> names[] = {
        {"/total", "All: " + time_text(plan.total.p50_s)},
        {"/fuelling_needed",
         plan.fuelling_needed ? "Food on the course: yes" : "Food on the course: none needed"},
        {"/feeds", "Feeds and lines"},
        {"/lines", "Feeds and lines"},
        {"/totals", "Sums"},
        {"/carry", "What to pack"},
        {"/mix", "What to mix"},
        {"/unmet", "Not reached"},
        {"/before", "Before"},
        {"/after", "After"},
        {"/outlook/serum_sodium_mmol_per_l", "Blood sodium at the finish"},
        {"/outlook/glycogen_left_g", "Glycogen at the finish"},
        {"/outlook/chance", "How often, of the simulated days"},
        {"/outlook/drivers", "What drives the spread"},
        {"/outlook", "The day, simulated"}};
    for (const auto& [known, name] : names)
        if (pointer == known)
            return name;
    // What was given, and sums of what stands on the sheet, need no words on it; `tuck explain` has them.
    for (const char* plain : {"/needs", "/durations", "/inputs", "/weather", "/shopping", "/day_sums"})
        if (pointer == plain)
            return "";
    if (pointer == "/broken_rules")
        return "Rules, looked at once more";
    return pointer;
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

bool of_needs(const Trace& trace) {
    return index_after(trace.number, "/needs/").has_value();
}

bool feeds_on_the_way(const Plan& plan, const Trace& trace) {
    const auto i = index_after(trace.number, "/needs/");
    return i && *i < plan.needs.size() &&
           (plan.needs[*i].kind == LegKind::bike || plan.needs[*i].kind == LegKind::run);
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
        const std::string name = group_of(plan, trace.number);
        if (name.empty())
            continue;
        auto group =
            std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.name == name; });
        if (group == groups.end())
            group = groups.insert(groups.end(), {name, {}, of_needs(trace), feeds_on_the_way(plan, trace)});
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
