// The rules of the judge, one function each. Figures stand beside their rule, with where they come from.
#pragma once

#include "schedule/judge_days.hpp"

#include <array>

namespace tuck::schedule::judging {

inline constexpr double grain = 0.01; // g, ml, mg: below what a plan prints

struct Judged {
    const Case& asked;
    std::array<JudgedDay, 3> days; // the likely, the slow and the fast one
    const JudgedDay& likely() const { return days[0]; }
    const JudgedDay& slow() const { return days[1]; }
};

/// Collects what one rule finds: no more than one finding for each moment, the likely day's first.
class Findings {
public:
    Findings(const char* rule, std::vector<Breach>& out) : rule_(rule), out_(out), begin_(out.size()) {}

    void add(const Sitting& at, double value, double allowed, const char* unit, std::string text);
    void add(int leg_index, double value, double allowed, const char* unit, std::string text);

private:
    void keep(Breach breach);

    const char* rule_;
    std::vector<Breach>& out_;
    size_t begin_;
};

/// "bike 1:20", for a sentence.
std::string moment_text(const Sitting& at);

void carb_hour(const Judged& judged, Findings& findings);
void carb_two_hours(const Judged& judged, Findings& findings);
void glucose_hour(const Judged& judged, Findings& findings);
void fructose_hour(const Judged& judged, Findings& findings);
void fluid_hour(const Judged& judged, Findings& findings);
void fluid_most(const Judged& judged, Findings& findings);
void caffeine_hour(const Judged& judged, Findings& findings);
void caffeine_day(const Judged& judged, Findings& findings);
void fluid_sweat(const Judged& judged, Findings& findings);
void gel_water(const Judged& judged, Findings& findings);

void fluid_leg(const Judged& judged, Findings& findings);
void fluid_day(const Judged& judged, Findings& findings);
void carb_leg(const Judged& judged, Findings& findings);

void inside_leg(const Judged& judged, Findings& findings);
void mount(const Judged& judged, Findings& findings);
void dismount(const Judged& judged, Findings& findings);
void busy(const Judged& judged, Findings& findings);
void solids_early(const Judged& judged, Findings& findings);
void solids_late(const Judged& judged, Findings& findings);
void solids_short_bike(const Judged& judged, Findings& findings);
void solids_run(const Judged& judged, Findings& findings);
void cold_hands(const Judged& judged, Findings& findings);
void before_finish(const Judged& judged, Findings& findings);
void hands(const Judged& judged, Findings& findings);
void apart(const Judged& judged, Findings& findings);

void known_food(const Judged& judged, Findings& findings);
void one_item(const Judged& judged, Findings& findings);
void swallows(const Judged& judged, Findings& findings);
void whole_units(const Judged& judged, Findings& findings);
void fits_leg(const Judged& judged, Findings& findings);
void allergen(const Judged& judged, Findings& findings);
void avoided(const Judged& judged, Findings& findings);
void caffeine_barred(const Judged& judged, Findings& findings);
void gel_and_strong_drink(const Judged& judged, Findings& findings);
void nutrition(const Judged& judged, Findings& findings);

void belt(const Judged& judged, Findings& findings);
void pockets(const Judged& judged, Findings& findings);
void bottles(const Judged& judged, Findings& findings);
void flask(const Judged& judged, Findings& findings);
void handed(const Judged& judged, Findings& findings);
void station(const Judged& judged, Findings& findings);
void carried(const Judged& judged, Findings& findings);
void recipe(const Judged& judged, Findings& findings);

} // namespace tuck::schedule::judging
