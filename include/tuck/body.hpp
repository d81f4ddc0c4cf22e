// Body: what each leg uses and loses, and the minutes that it is made of.
#pragma once

#include "tuck/effort.hpp"
#include "tuck/quantity.hpp"

#include <string>
#include <vector>

namespace tuck {

/// Where the heat goes, W, for the average athlete of the published models (no own sweat factor).
/// It closes: metabolic = mechanical + respiratory + dry + evaporated + stored.
struct HeatBalance {
    double metabolic_w = 0;
    double mechanical_w = 0;
    double respiratory_w = 0;             // warming and wetting the breath
    double respiratory_evaporation_w = 0; // the wetting alone
    double dry_w = 0; // to air, sky and sun, or to water; below 0: heat comes in; in cold air clothes hold it
    double sun_w = 0; // taken up from the sun: part of dry
    double sun_shed_w = 0;   // of it the air takes away again: part of dry
    double stored_w = 0;     // warms the body: for half an hour, and for good what cannot evaporate
    double required_w = 0;   // that sweat must take away
    double evaporated_w = 0; // that it can: less than required where the air is too humid
    double sweat_w = 0;      // latent heat of all sweat, dripping included
};

/// The race minute by minute, if nothing is eaten or drunk: column by column, one row a minute. The last
/// minute of a leg may be shorter. Rates hold through the minute; stores and changes are at its end.
struct BodyMinutes {
    std::vector<int> leg_index;
    std::vector<double> at_s, length_s; // from the start of the race, at the median durations
    std::vector<double> air_c, humidity_pct, wind_m_s, sun_w_m2, sun_height_deg;
    std::vector<double> solar_w_per_m2; // taken up from the sun, per m2 of skin
    std::vector<double> metabolic_w, mechanical_w, respiratory_w, dry_w, stored_w, required_w, evaporated_w;
    std::vector<double> sweat_ml_per_h; // median of this athlete
    std::vector<double> breath_ml_per_h, sodium_mg_per_h;
    std::vector<double> carb_g_per_h, fat_g_per_h; // asked of food and stores together
    std::vector<double> glycogen_g;                // left without food; below half of it fat stands in
    std::vector<double> water_change_g;            // water made by burning - sweat - breath
    std::vector<double> mass_change_g;             // water change - fuel burnt
    // What another day would change: per C of air with its vapour kept, per % of relative humidity, per unit
    // of ln(pace).
    std::vector<double> sweat_ml_per_h_per_c, sweat_ml_per_h_per_pct, sweat_ml_per_h_per_pace;
    // And the bends: warm skin no longer follows the air, wet skin wastes sweat.
    std::vector<double> sweat_ml_per_h_per_c2, sweat_ml_per_h_per_pct2;
    std::vector<double> metabolic_w_per_pace;
    std::size_t size() const { return leg_index.size(); }
};

struct LegBody {
    int leg_index = 0;
    LegKind kind = LegKind::bike;
    double metabolic_w = 0;
    double energy_kcal_per_h = 0;
    double carb_share = 0; // of the energy
    double carb_use_g_per_h = 0;
    double fat_use_g_per_h = 0;
    double sweat_ml_per_h = 0;     // median prediction
    double sweat_p20_ml_per_h = 0; // 20th percentile
    double sweat_p80_ml_per_h = 0; // 80th percentile
    double sweat_log_sd = 0;       // of the logarithm, between days and, without a test, athletes
    HeatBalance heat;              // mean of its minutes
    double air_first_c = 0, air_last_c = 0;
    double humidity_pct = 0, wind_m_s = 0, sun_w_m2 = 0; // means of its minutes
    std::vector<Reason> because;
    std::vector<Reason> heat_because; // the heat balance as rows of a table
};

struct Body {
    std::vector<LegBody> legs;
    BodyMinutes minutes;
    double sweat_log_sd = 0; // between days and (without a test) between athletes; wider in heat
    bool sweat_measured = false;
    double sweat_sodium_mg_per_l = 0;
    bool sodium_measured = false;
    double sodium_log_sd = 0;   // of the own value on a day; 0: not known
    Grams glycogen_start_g = 0; // legs and liver, ordinary diet
    Grams liver_glycogen_start_g = 0;
    double total_body_water_l = 0;
    std::vector<Reason> sodium_because, glycogen_because, water_because;
    std::vector<std::string> assumptions;
};

/// Metabolic power, carbohydrate use, heat and sweat of every minute; the legs are their means. A measured
/// sweat rate outranks the model: it scales every leg by measured / modelled in the conditions of the test,
/// and the spread grows with the distance from those conditions. Weather by the hour is read along the clock;
/// one temperature is taken as that of the whole race. Pure.
Body describe_body(const Athlete& athlete, const Event& event, const Effort& effort);

namespace body {

/// Share of energy from carbohydrate, 0..1, at a fraction of VO2max (0.25-0.95): a logistic through the
/// captions of Rapoport 2010 (computed, not the author's printed fit). Honest band: +-0.10.
double carb_share_from_intensity(double fraction_of_vo2max);

} // namespace body

} // namespace tuck
