#include "body/sweat_salt.hpp"

#include <algorithm>

namespace tuck::body {

const std::vector<PatchSite>& patch_sites() {
    static const std::vector<PatchSite> sites = {
        {"forearm", 0.57, 11.05, 0, "Baker 2009, as used in Baker 2016"},
        {"five_sites", 0.68, 0.44, 0, "Baker 2009"},
        {"thigh", 0.75, 11.37, 0, "Baker 2009"},
        {"dorsal_forearm", 1, -10, 20, "Baker 2020, mean bias"},
        {"ventral_forearm", 1, 0, 19, "Baker 2020, mean bias"},
        {"upper_arm", 1, -9, 20, "Baker 2020, mean bias"},
        {"chest", 1, -22, 25, "Baker 2020, mean bias"},
        {"upper_back", 1, -23, 24, "Baker 2020, mean bias"},
        {"calf", 1, 4, 18, "Baker 2020, mean bias"},
    };
    return sites;
}

std::optional<double> whole_body_sodium_from_patch(const std::string& site, double patch_mmol_per_l) {
    const auto& sites = patch_sites();
    const auto found =
        std::find_if(sites.begin(), sites.end(), [&](const PatchSite& s) { return s.name == site; });
    if (found == sites.end()) {
        return std::nullopt;
    }
    return std::max(0.0, found->slope * patch_mmol_per_l + found->intercept);
}

double isonatric_intake_mmol_per_l(double serum_mmol_per_l) {
    return 0.97 * serum_mmol_per_l + 23.1;
}

double sweat_salt_g_per_l(double sodium_mmol_per_l, double chloride_mmol_per_l) {
    return 0.02299 * sodium_mmol_per_l + 0.03545 * chloride_mmol_per_l;
}

} // namespace tuck::body
