// Words that every plan carries: what to do when it goes wrong, when to stop, who asks a doctor first.
#include "plan/stages.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace tuck::plan {

namespace {

/// By what this race hands out and this athlete carries.
IfThen lost_bottle(const Stages& s) {
    bool gel = false;
    for (const auto& feed : s.schedule.feeds)
        for (const auto& item : feed.items)
            gel = gel || item.unit == "gel";
    if (!s.schedule.bike_stations)
        return {"Lost a bottle",
                "No station on the bike: ease off, sip what is left. No gel without water. Do not chase the "
                "grams.",
                true, "Sip what is left. No gel without water."};
    return {"Lost a bottle",
            gel ? "Water at the next station and one gel. Do not chase the grams."
                : "Water at the next station. Eat on as planned. Do not chase the grams.",
            true, gel ? "Water at the next station, one gel." : "Water at the next station. Eat on."};
}

} // namespace

std::vector<IfThen> if_then_lines(const Stages& s) {
    const IfThen missed{"Missed a feed", "Skip it. Next one on time. Never double."};
    const IfThen stomach{"Bad stomach",
                         s.need.fuelling_needed
                             ? "Ease off 5-10 min, no gel, small sips if thirsty. Restart at half."
                             : "Ease off 5-10 min, no gel, small sips if thirsty.",
                         false, "Ease off 5-10 min, no gel, sips. Then half."};
    const IfThen hot{"Too hot", "Slow down. Water on head and arms. Drink to thirst, within the plan.", false,
                     "Slow down, water on head and arms."};
    const IfThen bottle = lost_bottle(s);
    const IfThen late{"Still out after 75 min", "One gel with water, if you carry one."};
    if (!s.need.fuelling_needed)
        return {hot, stomach, late};
    const bool rides = std::any_of(s.effort.legs.begin(), s.effort.legs.end(),
                                   [](const LegEffort& leg) { return leg.kind == LegKind::bike; });
    if (!rides)
        return {missed, stomach, hot};
    return s.event.weather.temperature_c >= 22 ? std::vector<IfThen>{missed, stomach, hot, bottle}
                                               : std::vector<IfThen>{missed, stomach, bottle, hot};
}

const char* stop_line() {
    return "STOP if confused, staggering, vomiting, headache getting worse or hands swelling: find a marshal "
           "or medic. Do not force drink.";
}

std::vector<std::string> cautions() {
    return {
        "This is arithmetic on published averages, not medical advice.",
        "Ask a doctor or sports dietitian first with diabetes, kidney or heart disease, high blood pressure, "
        "pregnancy, a past eating disorder, regular medicine, or under 18.",
        stop_line(),
        "Heat illness: confused, staggering, hot, no longer sweating. Cool first with water and ice, call a "
        "medic.",
        "Low blood sodium: bloated, headache, vomiting, swollen hands, confusion after much drinking. No "
        "more drink, call a medic; salt and more water do not cure it.",
        "No painkillers (NSAIDs) before or during the race.",
        "Nothing new on race day: every food, bottle and rate first in training.",
        "The event's rules and its medical staff come before this plan; help from outside is against the "
        "rules.",
    };
}

namespace {

std::string in_100(double chance) {
    return fmt::format("{:.0f} days in 100", 100 * chance);
}

} // namespace

std::vector<Warning> outlook_warnings(const PlanOutlook& outlook, bool percent_hidden) {
    std::vector<Warning> out;
    if (outlook.days <= 0)
        return out;
    if (outlook.water_gain_over_1pct > much_gain_limit.caution)
        out.push_back(
            {"water_gain", Severity::caution,
             fmt::format("On {} this plan, drunk whole, is much more than you sweat. The amounts are upper "
                         "limits: drink less, to thirst. A sweat test narrows this.",
                         in_100(outlook.water_gain_over_1pct))});
    if (outlook.low_sodium_by_drinking > low_sodium_limit.caution)
        out.push_back({"low_sodium", Severity::danger,
                       fmt::format("On {} drinking would make blood sodium low. Drink less, to thirst; "
                                   "salt does not make it safe.",
                                   in_100(outlook.low_sodium_by_drinking))});
    else if (outlook.low_sodium > low_sodium_limit.caution)
        out.push_back({"low_sodium_sweat", Severity::caution,
                       fmt::format("On {} blood sodium falls low by salty sweat over many hours. Slow "
                                   "down, drink to thirst and no more, and have sweat sodium tested.",
                                   in_100(outlook.low_sodium))});
    if (outlook.water_loss_over_4pct > water_loss_limit.caution)
        out.push_back(
            {"water_loss", Severity::caution,
             percent_hidden
                 ? fmt::format("On {} much water is lost. Start slower, cool yourself, use every station "
                               "within the plan.",
                               in_100(outlook.water_loss_over_4pct))
                 : fmt::format("On {} you lose over 4 % of body mass in water. Start slower, cool yourself, "
                               "use nearer stations; drink within the plan.",
                               in_100(outlook.water_loss_over_4pct))});
    if (outlook.glycogen_gone > glycogen_limit.caution)
        out.push_back(
            {"glycogen", Severity::caution,
             fmt::format("On {} the stores run empty before the finish (the estimate is wide). Ride easier, "
                         "eat well the days before, and rehearse a higher rate.",
                         in_100(outlook.glycogen_gone))});
    if (outlook.stomach_full > stomach_limit.caution)
        out.push_back(
            {"stomach_full", Severity::caution,
             fmt::format("On {} the stomach is overfull: smaller doses, a lower rate, rehearse first.",
                         in_100(outlook.stomach_full))});
    return out;
}

} // namespace tuck::plan
