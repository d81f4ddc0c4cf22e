// One athlete's line in the summary of a squad: the risks, and which fact is missing.
#pragma once

#include "tuck/athlete.hpp"
#include "tuck/plan.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace tuck::faces {

/// Orders the summary: refused plans, then chances of drinking too much, of low sodium by drinking, then how
/// many other warnings there are.
struct SquadRisk {
    bool refused = false;
    float water_gain = 0, low_sodium_by_drinking = 0;
    std::uint16_t over_drinking_warnings = 0, warnings = 0;
};

/// True when `a` stands above `b`.
bool riskier(const SquadRisk& a, const SquadRisk& b);

SquadRisk squad_risk(const Plan& plan);

/// `with_private`: body mass and health too. Otherwise nothing that tells of either.
std::vector<std::string> squad_heads(bool with_private);
std::vector<std::string> squad_line(std::uint64_t row, const Athlete& athlete, const Plan& plan,
                                    bool with_private);

} // namespace tuck::faces
