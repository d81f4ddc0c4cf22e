#include "models/short_names.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>

namespace tuck::registry {

namespace {

/// Symbol and the names it may stand for, the first that the model has. Units are the same on both sides.
const std::vector<std::pair<std::string, std::vector<std::string>>>& symbols() {
    static const std::vector<std::pair<std::string, std::vector<std::string>>> all{
        // Road cycling, Martin 1998.
        {"Vg", {"Vg_m_s"}},
        {"Va", {"Va_m_s"}},
        {"CdA", {"CdA_m2"}},
        {"Fw", {"Fw_m2"}},
        {"rho", {"rho_kg_m3"}},
        {"m", {"mass_kg"}},
        {"P", {"power_w"}},
        {"I", {"inertia_kg_m2"}},
        {"r", {"radius_m"}},
        {"vi", {"Vi_m_s"}},
        {"vf", {"Vf_m_s"}},
        {"dt", {"dt_s"}},
        {"wind", {"wind_m_s", "headwind_m_s"}},
        {"headwind", {"headwind_m_s"}},
        {"wind_from", {"wind_from_deg"}},
        {"travel", {"travel_deg"}},
        // Time, distance, slope.
        {"D1", {"D1_km"}},
        {"D2", {"D2_km"}},
        {"d1", {"d1_m"}},
        {"t1", {"t1_s"}},
        {"d2", {"d2_m"}},
        {"t2", {"t2_s"}},
        {"t200", {"t200_s"}},
        {"t400", {"t400_s"}},
        {"E", {"E_pct"}},
        {"tMAP", {"tMAP_min"}},
        {"i", {"grade"}},
        {"gradient", {"grade"}},
        {"lat1", {"lat1_deg"}},
        {"lon1", {"lon1_deg"}},
        {"lat2", {"lat2_deg"}},
        {"lon2", {"lon2_deg"}},
        // Air and heat.
        {"t_C", {"Ta_C"}},
        {"tdb", {"Ta_C"}},
        {"air_C", {"Ta_C"}},
        {"twb", {"Tnw_C"}},
        {"tg", {"Tg_C"}},
        {"solar", {"sun"}},
        {"v_m_s", {"Va_m_s"}},
        {"alt_m", {"altitude_m"}},
        {"accl", {"acclimatised"}},
        // Sweat and sodium.
        {"drink_L", {"drink_kg"}},
        {"urine_L", {"urine_kg"}},
        {"kcal", {"energy_kcal"}},
        {"VO2_L_min", {"vo2_l_min"}},
        {"Na0", {"Na0_mmol_L"}},
        {"plasma_Na", {"Na_mmol_L"}},
        {"age", {"age_y"}},
        {"x", {"patch_mmol_L"}},
        {"forearm_mmol_L", {"patch_mmol_L"}},
        // Fuel.
        {"g_h", {"carb_g_h"}},
        {"pct", {"strength_pct"}},
    };
    return all;
}

const ModelInput* input_named(const Model& model, const std::string& name) {
    const auto found = std::find_if(model.inputs.begin(), model.inputs.end(),
                                    [&name](const ModelInput& input) { return input.name == name; });
    return found == model.inputs.end() ? nullptr : &*found;
}

std::string full_name(const Model& model, const std::string& name) {
    if (input_named(model, name))
        return name;
    for (const auto& [symbol, names] : symbols())
        if (symbol == name)
            for (const auto& full : names)
                if (input_named(model, full))
                    return full;
    return name;
}

std::string full_word(const Model& model, const std::string& name, const std::string& text) {
    const ModelInput* input = input_named(model, name);
    if (!input || input->words != std::vector<std::string>{"yes", "no"})
        return text;
    return text == "100" || text == "1" ? "yes" : text == "0" ? "no" : text;
}

} // namespace

ModelArguments with_full_names(const Model& model, const ModelArguments& arguments) {
    ModelArguments out;
    for (const auto& [name, text] : arguments) {
        const auto full = full_name(model, name);
        if (!out.emplace(full, full_word(model, full, text)).second)
            throw std::invalid_argument(fmt::format("{} is given twice, also as its symbol", full));
    }
    return out;
}

} // namespace tuck::registry
