// What the plan stands on, and the mark that tells one plan from another.
#include "plan/stages.hpp"

#include <cstdint>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace tuck::plan {

namespace {

class Inputs {
public:
    explicit Inputs(std::vector<PlanInput>& out) : out_(out) {}

    void number(const char* key, double value) { out_.push_back({key, value, {}}); }
    template <class Number>
    void number(const char* key, const std::optional<Number>& value) {
        if (value)
            number(key, *value);
    }
    void word(const char* key, const std::string& value) {
        if (!value.empty())
            out_.push_back({key, std::nullopt, value});
    }
    void yes(const char* key, bool value) {
        if (value)
            word(key, "yes");
    }
    void words(const char* key, const std::vector<std::string>& values) {
        word(key, fmt::format("{}", fmt::join(values, ",")));
    }

private:
    std::vector<PlanInput>& out_;
};

const char* word_of(Sex sex) {
    return sex == Sex::female ? "female" : sex == Sex::male ? "male" : "";
}

const char* word_of(Position position) {
    constexpr const char* words[] = {"", "upright", "hoods", "drops", "aero"};
    return words[static_cast<int>(position)];
}

const char* word_of(Hands hands) {
    return hands == Hands::none ? "none" : hands == Hands::bottle ? "bottle" : "bottle and food";
}

void add_athlete(const Athlete& athlete, Inputs& in) {
    if (!athlete.health.past_eating_disorder)
        in.number("mass_kg", athlete.mass_kg);
    in.number("height_m", athlete.height_m);
    in.number("age_y", athlete.age_y);
    in.word("sex", word_of(athlete.sex));
    in.word("level", athlete.level == Level::unknown ? "" : to_string(athlete.level));
    in.word("position", word_of(athlete.position));
    in.number("threshold_power_w", athlete.threshold_power_w);
    in.number("threshold_run_s_per_km", athlete.threshold_run_s_per_km);
    in.number("critical_swim_speed_m_s", athlete.critical_swim_speed_m_s);
    for (const auto& result : athlete.recent)
        in.word("recent", fmt::format("{} {:g} m in {:g} s{}", to_string(result.sport), result.distance_m,
                                      result.time_s, result.date ? " on " + *result.date : ""));
    if (athlete.learned_sweat) {
        in.number("sweat_factor", athlete.learned_sweat->factor);
        in.number("sweat_factor_log_sd", athlete.learned_sweat->log_sd);
        in.number("sweat_tests", athlete.learned_sweat->tests);
        in.number("sweat_factor_on_run", athlete.learned_sweat->run_factor);
    } else if (athlete.sweat) {
        in.number("sweat_ml_per_h", athlete.sweat->sweat_ml_per_h);
        in.number("sweat_temperature_c", athlete.sweat->temperature_c);
        in.number("sweat_humidity_pct", athlete.sweat->humidity_pct);
        if (athlete.sweat->sport)
            in.word("sweat_sport", to_string(*athlete.sweat->sport));
        if (athlete.sweat_on_run)
            in.number("sweat_on_run_ml_per_h", athlete.sweat_on_run->sweat_ml_per_h);
    }
    in.number("sweat_sodium_mmol_per_l", athlete.sweat_sodium_mmol_per_l);
    in.number("sweat_sodium_log_sd", athlete.sweat_sodium_log_sd);
    in.number("rehearsed_carb_g_per_h", athlete.rehearsed.carb_g_per_h);
    in.number("rehearsed_fluid_ml_per_h", athlete.rehearsed.fluid_ml_per_h);
    if (athlete.rehearsed.at_most_g_per_h > 0)
        in.number("at_most_carb_g_per_h", athlete.rehearsed.at_most_g_per_h);
    if (athlete.rehearsed.run_at_most_g_per_h > 0)
        in.number("at_most_carb_on_run_g_per_h", athlete.rehearsed.run_at_most_g_per_h);
    in.yes("gut_trained", athlete.rehearsed.gut_trained);
    in.yes("solids_on_run", athlete.rehearsed.solids_on_run);
    in.yes("strong_drink", athlete.rehearsed.strong_drink);
    in.yes("caffeine", athlete.caffeine);
    in.number("morning_coffee_mg", athlete.morning_coffee_mg);
    in.word("hands", athlete.hands ? word_of(*athlete.hands) : "");
    in.number("swallow_ml", athlete.swallow_ml);
    in.words("like", athlete.like);
    in.words("avoid", athlete.avoid);
    in.words("only", athlete.only);
    in.words("allergy", athlete.allergy);
}

std::string stations_text(const Leg& leg) {
    std::string text;
    for (const auto& station : leg.stations)
        text += fmt::format("{}km {:g}{}{}", text.empty() ? "" : "; ", station.km,
                            station.form == ServedIn::bottle ? " bottle" : "",
                            station.serves.empty() ? "" : fmt::format(" {}", fmt::join(station.serves, ",")));
    return text;
}

void add_leg(const Leg& leg, std::size_t place, Inputs& in) {
    const auto key = [&](const char* what) { return fmt::format("leg_{}_{}", place, what); };
    in.word(key("kind").c_str(), to_string(leg.kind));
    if (leg.distance_m > 0)
        in.number(key("distance_m").c_str(), leg.distance_m);
    in.number(key("time_s").c_str(), leg.time_s);
    in.number(key("ascent_m").c_str(), leg.ascent_m);
    in.word(key("stations").c_str(), stations_text(leg));
    if (leg.track) {
        in.word(key("course").c_str(), leg.track->name.empty() ? "yes" : leg.track->name);
        in.number(key("laps").c_str(), leg.laps);
    }
    in.number(key("cutoff_s").c_str(), leg.cutoff_s);
}

void add_event(const Event& event, Inputs& in) {
    in.word("distance", event.preset);
    for (std::size_t i = 0; i < event.legs.size(); ++i)
        add_leg(event.legs[i], i, in);
    if (event.kit.bike_bottles_ml)
        in.word("bike_bottles_ml", fmt::format("{:g}", fmt::join(*event.kit.bike_bottles_ml, ",")));
    in.number("run_flask_ml", event.kit.run_flask_ml);
    if (event.kit.run_gels)
        in.number("run_gels", *event.kit.run_gels);
    in.word("stations", event.station_policy == StationPolicy::typical ? "typical" : "");
    if (event.start_min)
        in.number("start_min", *event.start_min);
    if (event.wave_offset_min > 0)
        in.number("wave_offset_min", event.wave_offset_min);
    if (event.delay_min > 0)
        in.number("delay_min", event.delay_min);
    in.number("cutoff_s", event.cutoff_s);
    in.yes("salt_water", event.salt_water);
    in.yes("draft_legal", event.draft_legal);
    if (event.bike_rhythm_s)
        in.number("bike_rhythm_s", *event.bike_rhythm_s);
    for (const auto& pin : event.pins)
        in.word("pin", pin.said);
    in.number("days", event.days);
    in.number("seed", static_cast<double>(event.seed));
}

/// FNV-1a, 32 bits.
class Mark {
public:
    void add(const std::string& text) {
        for (const char c : text)
            hash_ = (hash_ ^ static_cast<unsigned char>(c)) * 16777619u;
        hash_ = (hash_ ^ 0x1fu) * 16777619u; // texts do not run together
    }
    void add(double value) { add(fmt::format("{}", value)); }
    template <class Number>
    void add(const std::optional<Number>& value) {
        add(value ? fmt::format("{}", *value) : "-");
    }
    std::string text() const { return fmt::format("{:04x}", (hash_ >> 16 ^ hash_) & 0xffffu); }

private:
    std::uint32_t hash_ = 2166136261u;
};

/// What is given and not listed among the inputs.
void add_unlisted(const Athlete& athlete, const Event& event, Mark& mark) {
    mark.add(athlete.mass_kg);
    const Health& h = athlete.health;
    for (const bool one :
         {h.glucose_lowering_medicine, h.heart_kidney_or_blood_pressure, h.pregnant_or_breastfeeding,
          h.coeliac, h.fructose_malabsorption, h.past_eating_disorder, h.recent_gut_illness})
        mark.add(one ? 1.0 : 0.0);
    const Weather& w = event.weather;
    mark.add(w.temperature_c);
    for (const auto& value :
         {w.humidity_pct, w.wind_m_s, w.water_temperature_c, w.wind_from_deg, w.sun_w_m2, w.sun_share,
          w.cloud_pct, event.latitude_deg, event.longitude_deg, event.utc_offset_h})
        mark.add(value);
    for (const auto& hour : w.hourly) {
        mark.add(hour.hour);
        mark.add(hour.temperature_c);
        for (const auto& value : {hour.humidity_pct, hour.wind_m_s, hour.sun_w_m2})
            mark.add(value);
    }
    for (const auto& leg : event.legs) {
        mark.add(leg.wind_m_s);
        mark.add(leg.wind_from_deg);
        if (leg.special_needs) {
            mark.add(leg.special_needs->km);
            mark.add(leg.special_needs->gels);
            for (const double ml : leg.special_needs->bottles_ml)
                mark.add(ml);
        }
        if (leg.track)
            for (const auto& piece : leg.track->pieces)
                for (const auto& point : piece) {
                    mark.add(point.along_m);
                    mark.add(point.height_m);
                }
    }
}

void add_plan(const Plan& plan, Mark& mark) {
    for (const auto& text :
         {plan.event_name, plan.athlete_name, plan.bib, plan.wave, plan.date, plan.start_clock})
        mark.add(text);
    for (const auto& leg : plan.durations)
        mark.add(leg.time.p50_s);
    for (const auto& line : plan.lines)
        for (const auto& item : line.items) {
            mark.add(static_cast<double>(line.rhythm.kind));
            mark.add(item.label);
        }
    for (const auto& feed : plan.feeds) {
        mark.add(feed.at_s);
        mark.add(feed.km);
        for (const auto& item : feed.items) {
            mark.add(item.food + item.unit + item.from);
            mark.add(item.amount);
        }
        for (const double amount :
             {feed.carb_g.count(), feed.fluid_ml.count(), feed.sodium_mg.count(), feed.caffeine_mg.count()})
            mark.add(amount);
    }
    for (const auto& mix : plan.mix)
        mark.add(mix.text);
    for (const auto& item : plan.carry)
        mark.add(item.text);
}

} // namespace

std::vector<PlanInput> inputs_of(const Athlete& athlete, const Event& event) {
    std::vector<PlanInput> out;
    Inputs in(out);
    add_athlete(athlete, in);
    add_event(event, in);
    return out;
}

std::string mark_of(const Athlete& athlete, const Event& event, const Plan& plan) {
    Mark mark;
    for (const auto& input : plan.inputs) {
        mark.add(input.key + input.word);
        mark.add(input.number);
    }
    add_unlisted(athlete, event, mark);
    add_plan(plan, mark);
    return mark.text();
}

} // namespace tuck::plan
