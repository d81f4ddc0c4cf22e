// Heat that endangers an event: categories by WBGT, and what the plan says of them.
#pragma once

#include "tuck/body.hpp"
#include "tuck/reason.hpp"

#include <optional>
#include <vector>

namespace tuck::need {

/// One category of heat for a race, from this WBGT on.
struct HeatCategory {
    double from_wbgt_c;
    const char* code;
    Severity severity;
    const char* text;
    const char* source;
};
/// Rising. ACSM 2007 (exertional heat illness): road races under 18 C low, 18-23 moderate, 23-28 high risk,
/// over 28 cancel or let people withdraw, as quoted in a secondary source; training over 32.2 C is cancelled
/// for everybody (its table as reprinted by NATA 2015).
const std::vector<HeatCategory>& heat_categories();

/// The hottest quarter of an hour on land, C; empty without a leg on land (Liljegren 2008).
std::optional<double> hottest_wbgt_c(const Effort& effort, const Body& body);

/// What a race in this heat is warned of; the organiser decides. Nothing below the high risk.
std::vector<Warning> heat_warnings(const Effort& effort, const Body& body);

} // namespace tuck::need
