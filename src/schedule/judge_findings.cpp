#include "schedule/judge_rules.hpp"

#include "base/clock.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace tuck::schedule::judging {

std::string moment_text(const Sitting& at) {
    if (is_transition(at.leg))
        return at.leg == LegKind::t1 ? "T1" : "T2";
    return fmt::format("{} {}", to_string(at.leg), hours_text(at.at_s));
}

void Findings::add(const Sitting& at, double value, double allowed, const char* unit, std::string text) {
    keep({rule_, at.leg_index, at.at_s, value, allowed, unit, std::move(text)});
}

void Findings::add(int leg_index, double value, double allowed, const char* unit, std::string text) {
    keep({rule_, leg_index, 0, value, allowed, unit, std::move(text)});
}

void Findings::keep(Breach breach) {
    const bool known = std::any_of(out_.begin() + static_cast<std::ptrdiff_t>(begin_), out_.end(),
                                   [&breach](const Breach& other) {
                                       return other.leg_index == breach.leg_index &&
                                              other.at_s == breach.at_s && other.text == breach.text;
                                   });
    if (!known)
        out_.push_back(std::move(breach));
}

} // namespace tuck::schedule::judging
