// Salt in sweat: patches, isonatric intake, salt from its ions.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tuck::body {

/// How a patch of one site reads against the whole body: a regression (slope, intercept) where one is
/// published, else the raw bias to take off. mmol/L.
struct PatchSite {
    std::string name;
    double slope = 1;
    double intercept = 0;
    double spread_95 = 0; // 95 % limits of the raw or corrected value, +-; 0: not published
    std::string source;
};
const std::vector<PatchSite>& patch_sites();

/// Whole-body sweat sodium, mmol/L, from a patch at a site of the list; nothing for an unknown site.
std::optional<double> whole_body_sodium_from_patch(const std::string& site, double patch_mmol_per_l);

/// Sodium plus potassium of an intake that leaves plasma sodium as it is, mmol/L: 0.97 Na + 23.1
/// (Nguyen & Kurtz 2005).
double isonatric_intake_mmol_per_l(double serum_mmol_per_l);

/// Salt in sweat, g/L, from sodium and chloride in mmol/L (their molar masses).
double sweat_salt_g_per_l(double sodium_mmol_per_l, double chloride_mmol_per_l);

} // namespace tuck::body
