#include "text/squad_summary.hpp"

#include "say/plan_words.hpp"
#include "text/plan_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <tuple>

namespace tuck::faces {
namespace {

/// Warnings of the race itself; those about health or age tell what a list must not.
constexpr std::pair<const char*, const char*> public_warnings[] = {
    {"refused", "refused"},
    {"water_gain", "much more drunk than sweated"},
    {"heat_uncompensable", "heat: do not race"},
    {"heat_extreme", "heat: races are cancelled"},
    {"heat_high", "heat: high risk"},
    {"not_enough", "not enough to finish on"},
    {"over_drinking", "long day: over-drinking"},
    {"low_sodium", "low sodium by drinking"},
    {"low_sodium_sweat", "low sodium by salty sweat"},
    {"water_loss", "water loss"},
    {"glycogen", "stores run empty"},
    {"stomach_full", "stomach overfull"},
    {"near_threshold", "near the border of 75 min"}};

const char* public_words(const std::string& code) {
    for (const auto& [known, words] : public_warnings)
        if (code == known)
            return words;
    return nullptr;
}

bool about_drinking(const std::string& code) {
    return code == "water_gain" || code == "over_drinking" || code == "low_sodium" || code == "refused";
}

/// A coach has to see it before the start: what is planned is little, and drunk standing still.
bool no_hands_on_a_ride(const Athlete& athlete, const Plan& plan) {
    return athlete.hands == Hands::none &&
           std::any_of(plan.durations.begin(), plan.durations.end(),
                       [](const LegEffort& leg) { return leg.kind == LegKind::bike; });
}

std::vector<std::string> risks(const Athlete& athlete, const Plan& plan) {
    std::vector<std::string> out;
    if (no_hands_on_a_ride(athlete, plan))
        out.emplace_back("hands none: drinks and eats standing only");
    for (const auto& [code, words] : public_warnings)
        for (const Warning& warning : plan.warnings)
            if (warning.code == code && std::find(out.begin(), out.end(), words) == out.end())
                out.emplace_back(words);
    return out;
}

/// What the athlete has not told, each of which widens the plan's spread or lowers its rates.
std::vector<std::string> missing(const Athlete& athlete) {
    std::vector<std::string> out;
    if (!athlete.sweat && !athlete.learned_sweat)
        out.emplace_back("sweat test");
    if (athlete.rehearsed.carb_g_per_h <= 0)
        out.emplace_back("rehearsal");
    const bool paced = athlete.level != Level::unknown || !athlete.recent.empty() ||
                       athlete.threshold_power_w || athlete.threshold_run_s_per_km;
    if (!paced)
        out.emplace_back("level or result");
    return out;
}

std::string days_in_100(double chance) {
    return fmt::format("{:.1f}", 100 * chance);
}

std::string health_words(const Health& health) {
    std::vector<std::string> out;
    const auto add = [&](bool flag, const char* words) {
        if (flag)
            out.emplace_back(words);
    };
    add(health.glucose_lowering_medicine, "glucose-lowering medicine");
    add(health.heart_kidney_or_blood_pressure, "heart, kidney or blood pressure");
    add(health.pregnant_or_breastfeeding, "pregnant or breastfeeding");
    add(health.coeliac, "coeliac");
    add(health.fructose_malabsorption, "fructose malabsorption");
    add(health.past_eating_disorder, "past eating disorder");
    add(health.recent_gut_illness, "recent gut illness");
    return fmt::format("{}", fmt::join(out, "; "));
}

} // namespace

bool riskier(const SquadRisk& a, const SquadRisk& b) {
    const auto key = [](const SquadRisk& risk) {
        return std::tuple(risk.refused, risk.water_gain, risk.low_sodium_by_drinking,
                          risk.over_drinking_warnings, risk.warnings);
    };
    return key(a) > key(b);
}

SquadRisk squad_risk(const Plan& plan) {
    SquadRisk risk;
    risk.refused = plan.refused;
    risk.water_gain = static_cast<float>(plan.outlook.water_gain_over_1pct);
    risk.low_sodium_by_drinking = static_cast<float>(plan.outlook.low_sodium_by_drinking);
    for (const Warning& warning : plan.warnings)
        if (public_words(warning.code)) {
            ++risk.warnings;
            risk.over_drinking_warnings =
                static_cast<std::uint16_t>(risk.over_drinking_warnings + about_drinking(warning.code));
        }
    return risk;
}

std::vector<std::string> squad_heads(bool with_private) {
    std::vector<std::string> heads{"row",
                                   "name",
                                   "bib",
                                   "wave",
                                   "plan",
                                   "risk",
                                   "missing",
                                   "over_drinking_days_in_100",
                                   "low_sodium_by_drinking_days_in_100",
                                   "stores_empty_days_in_100",
                                   "stomach_full_days_in_100",
                                   "likely_time",
                                   "food_needed",
                                   "carb_g",
                                   "fluid_ml"};
    if (with_private)
        heads.insert(heads.end(), {"mass_kg", "health"});
    return heads;
}

std::vector<std::string> squad_line(std::uint64_t row, const Athlete& athlete, const Plan& plan,
                                    bool with_private) {
    const PlanOutlook& o = plan.outlook;
    std::vector<std::string> line{std::to_string(row),
                                  plan.athlete_name,
                                  plan.bib,
                                  plan.wave,
                                  plan.version,
                                  fmt::format("{}", fmt::join(risks(athlete, plan), "; ")),
                                  fmt::format("{}", fmt::join(missing(athlete), "; ")),
                                  days_in_100(o.water_gain_over_1pct),
                                  days_in_100(o.low_sodium_by_drinking),
                                  days_in_100(o.glycogen_gone),
                                  days_in_100(o.stomach_full),
                                  time_text(plan.total.p50_s),
                                  plan.fuelling_needed ? "yes" : "no",
                                  fmt::format("{:.0f}", plan.totals.carb_g),
                                  fmt::format("{:.0f}", plan.totals.fluid_ml)};
    if (with_private) {
        line.push_back(fmt::format("{:g}", athlete.mass_kg));
        line.push_back(health_words(athlete.health));
    }
    return line;
}

} // namespace tuck::faces
