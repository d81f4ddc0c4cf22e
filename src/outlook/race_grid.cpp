#include "outlook/race_grid.hpp"

#include "base/conditions.hpp"
#include "outlook/engine.hpp"
#include "outlook/physiology.hpp"
#include "tuck/figures.hpp"

#include <algorithm>
#include <cmath>

namespace tuck::outlook {

namespace {

// Spreads of a day; each is one SD. Absolute unless said otherwise.
constexpr double forecast_error_c = figure("day.forecast_error_c");
constexpr double humidity_error_pct = figure("day.humidity_error_pct");
constexpr double carb_share_error = figure("day.carb_share_error");
constexpr double glycogen_log_sd = figure("day.glycogen_log_sd");
constexpr double sodium_cv = figure("day.sweat_sodium_cv");
constexpr double sodium_cv_tested = figure("day.sweat_sodium_cv_tested");
constexpr double serum_mmol_per_l = figure("day.serum_mmol_per_l");
constexpr double serum_error = figure("day.serum_error_mmol_per_l");
constexpr double start_water_of_mass = figure("day.start_water_of_mass");
constexpr double gut_spread = figure("day.gut_log_sd"), comfort_spread = figure("day.comfort_log_sd");
constexpr double comfortable_ml = figure("day.comfortable_ml");
constexpr double usual_carb_uptake_g_per_h = figure("day.usual_uptake_g_per_h");
// A station is missed by these chances unless the event says otherwise. What is carried is dropped or
// forgotten, or comes late.
constexpr double missed_station_bike = figure("day.missed_station_bike");
constexpr double missed_station_run = figure("day.missed_station_run");
constexpr double missed_share = figure("day.missed_feed"), late_share = figure("day.late_feed");
constexpr int late_minutes = 5;
constexpr double station_km = 0.1; // a feed this far before a station is still that station's
constexpr double longer_day = 0.10;
constexpr double most_drink_ml_per_h = figure("day.most_drink_ml_per_h");
// WBGT rises some 0.7 per C of air; nothing is slower below 15 C of WBGT (Mantzios 2022).
constexpr double run_slower_per_c = figure("day.run_slower_per_wbgt") * 0.7, heat_from_c = 17;
constexpr double mark_every_s = 300;
constexpr double next_to_no_sweat_ml_per_h = 20;
constexpr double z80 = 0.8416212335729143;

float to_float(double value) {
    return static_cast<float>(value);
}

double log_sd_of_cv(double cv) {
    return std::sqrt(std::log(1 + cv * cv));
}

bool on_land(LegKind kind) {
    return kind == LegKind::bike || kind == LegKind::run;
}

/// Where stations stand, thirst can be met; the event's legs and the effort's are in the same order.
bool has_stations(const Event& event, std::size_t leg) {
    return leg < event.legs.size() && on_land(event.legs[leg].kind) &&
           (!event.legs[leg].stations.empty() || event.station_policy == StationPolicy::typical);
}

double planned_ml_per_h(const Schedule& schedule, const LegEffort& leg) {
    double sum = 0;
    for (const auto& feed : schedule.feeds)
        if (feed.leg_index == leg.leg_index)
            sum += feed.fluid_ml;
    return leg.time.p50_s > 0 ? sum * 3600 / leg.time.p50_s : 0.0;
}

class Builder {
public:
    Builder(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
            const Schedule& schedule, Drinking drinking)
        : athlete_(athlete), event_(event), effort_(effort), body_(body), schedule_(schedule),
          lived_(drinking == Drinking::as_lived) {}

    RaceGrid build() {
        spreads();
        for (std::size_t i = 0; i < effort_.legs.size(); ++i)
            add_leg(i);
        for (std::size_t i = 0; i < body_.minutes.size(); ++i)
            add_minute(i);
        for (std::size_t i = 0; i < grid_.legs.size(); ++i)
            pace_of_leg(i);
        longer_days();
        add_doses();
        return std::move(grid_);
    }

private:
    void spreads() {
        for (std::uint32_t v = 0; v < first_leg_v; ++v)
            grid_.keys[v] = draw_key(event_.seed, v);
        grid_.air_sd_c = to_float(forecast_error_c);
        grid_.humidity_sd_pct = to_float(humidity_error_pct);
        const double cv = body_.sodium_measured ? sodium_cv_tested : sodium_cv;
        grid_.sodium_log_sd = to_float(body_.sodium_log_sd > 0 ? body_.sodium_log_sd : log_sd_of_cv(cv));
        grid_.sodium_mg_per_ml = to_float(body_.sweat_sodium_mg_per_l / 1000);
        grid_.share_sd = to_float(carb_share_error);
        grid_.liver_g = to_float(body_.liver_glycogen_start_g);
        grid_.muscle_g = to_float(body_.glycogen_start_g - body_.liver_glycogen_start_g);
        grid_.stores_log_sd = to_float(glycogen_log_sd);
        grid_.start_sodium = to_float(serum_mmol_per_l);
        grid_.start_sodium_sd = to_float(serum_error);
        grid_.mass_g = to_float(1000 * athlete_.mass_kg);
        grid_.start_water_sd_ml = to_float(1000 * athlete_.mass_kg * start_water_of_mass);
        grid_.dry_per_ml = less_sweat / grid_.mass_g;
        grid_.left_per_ml = (1 - left_at_none) / none_left_loss / grid_.mass_g;
        grid_.gut_log_sd = to_float(gut_spread);
        // A rate that has gone well in rehearsals is one that this gut takes (Jeukendrup 2017: it adapts).
        grid_.gut_median =
            to_float(std::max(1.0, athlete_.rehearsed.carb_g_per_h / usual_carb_uptake_g_per_h));
        grid_.comfort_ml = to_float(comfortable_ml);
        grid_.comfort_log_sd = to_float(comfort_spread);
        grid_.body_water_ml = to_float(1000 * body_.total_body_water_l);
        grid_.given_per_g = 1 / (sparing_from * (grid_.muscle_g + grid_.liver_g));
    }

    void add_leg(std::size_t i) {
        const auto& leg = effort_.legs[i];
        const auto& body = body_.legs[i];
        GridLeg out;
        out.time_log_sd = to_float(leg.log_sd);
        const double share = leg.kind == LegKind::run ? 1 : leg.kind == LegKind::bike ? 0.5 : 0;
        const double air_c = (body.air_first_c + body.air_last_c) / 2;
        out.slower_per_c = to_float(air_c > heat_from_c ? share * run_slower_per_c : 0.0);
        const bool sweats = body.sweat_p20_ml_per_h > 0;
        out.sweat_sd_down =
            sweats ? to_float(std::log(body.sweat_ml_per_h / body.sweat_p20_ml_per_h) / z80) : 0.0f;
        out.sweat_sd_up =
            sweats ? to_float(std::log(body.sweat_p80_ml_per_h / body.sweat_ml_per_h) / z80) : 0.0f;
        out.longest = leg.time.p50_s > 0 ? to_float(std::max(1.0, leg.time.p90_s / leg.time.p50_s)) : 1.0f;
        const Key key = draw_key(event_.seed, first_leg_v + static_cast<std::uint32_t>(i));
        out.key_a = key.a;
        out.key_b = key.b;
        grid_.legs.push_back(out);
    }

    /// How a leg's power follows its pace.
    void pace_of_leg(std::size_t leg) {
        double power = 0, slope = 0;
        for (std::size_t i = 0; i < body_.minutes.size(); ++i)
            if (place_of(body_.minutes.leg_index[i]) == leg) {
                power += body_.minutes.metabolic_w[i] * body_.minutes.length_s[i];
                slope += body_.minutes.metabolic_w_per_pace[i] * body_.minutes.length_s[i];
            }
        const double per_pace = power > 0 ? slope / power : 0;
        grid_.legs[leg].burn_pace = to_float(per_pace);
        grid_.legs[leg].per_burn_pace = per_pace > 0 ? to_float(1 / per_pace) : 0.0f;
    }

    /// Who is out longer races at a lower intensity, and the carbohydrate share follows it; the change is
    /// that of the legs by energy, through the days that are 10 % shorter and longer.
    void longer_days() {
        double hours = 0, energy = 0;
        for (const auto& leg : effort_.legs)
            hours += leg.time.p50_s / 3600;
        double change[2] = {};
        for (std::size_t i = 0; i < effort_.legs.size(); ++i) {
            const auto& leg = effort_.legs[i];
            if (hours > 0)
                grid_.legs[i].time_share = to_float(leg.time.p50_s / 3600 / hours);
            if (is_transition(leg.kind))
                continue;
            const double weight = body_.legs[i].metabolic_w * leg.time.p50_s;
            energy += weight;
            for (const int way : {0, 1}) {
                const double other = hours * (way == 1 ? 1 + longer_day : 1 - longer_day);
                const double intensity = leg.intensity + effort::race_intensity(other, athlete_.level) -
                                         effort::race_intensity(hours, athlete_.level);
                change[way] += weight * (body::carb_share_from_intensity(intensity) -
                                         body::carb_share_from_intensity(leg.intensity));
            }
        }
        if (energy <= 0)
            return;
        grid_.share_longer = to_float((change[1] - change[0]) / energy / (2 * longer_day));
        grid_.share_longer2 = to_float((change[1] + change[0]) / energy / (2 * longer_day * longer_day));
    }

    std::size_t place_of(int leg_index) const {
        std::size_t i = 0;
        while (i + 1 < effort_.legs.size() && effort_.legs[i].leg_index != leg_index)
            ++i;
        return i;
    }

    void add_minute(std::size_t i) {
        const BodyMinutes& b = body_.minutes;
        const std::size_t leg = place_of(b.leg_index[i]);
        Minute out;
        out.leg = static_cast<int>(leg);
        out.starts_leg = i == 0 || b.leg_index[i] != b.leg_index[i - 1];
        out.minutes = to_float(b.length_s[i] / 60);
        out.sweat = to_float(b.sweat_ml_per_h[i] / 60);
        out.sweat_c = to_float(b.sweat_ml_per_h_per_c[i] / 60);
        out.sweat_c2 = to_float(b.sweat_ml_per_h_per_c2[i] / 60);
        out.sweat_pct = to_float(b.sweat_ml_per_h_per_pct[i] / 60);
        out.sweat_pct2 = to_float(b.sweat_ml_per_h_per_pct2[i] / 60);
        out.sweat_pace = to_float(b.sweat_ml_per_h_per_pace[i] / 60);
        out.per_sweat =
            b.sweat_ml_per_h[i] > next_to_no_sweat_ml_per_h ? to_float(60 / b.sweat_ml_per_h[i]) : 0.0f;
        out.carb = to_float(b.carb_g_per_h[i] / 60);
        out.energy = to_float(
            (b.carb_g_per_h[i] + b.fat_g_per_h[i] * double{kcal_per_g_fat} / double{kcal_per_g_carb}) / 60);
        out.breath = to_float(b.breath_ml_per_h[i] / 60);
        if (lived_ && on_land(effort_.legs[leg].kind)) {
            const double more =
                std::max(0.0, most_drink_ml_per_h - planned_ml_per_h(schedule_, effort_.legs[leg]));
            out.emergency = to_float(more / 60);
            out.thirst = has_stations(event_, leg) ? out.emergency : 0.0f;
        }
        const double end_s = b.at_s[i] + b.length_s[i];
        const bool last = i + 1 == b.size();
        if (end_s >= next_mark_s_ || last) {
            out.marks = true;
            grid_.mark_s.push_back(end_s);
            next_mark_s_ = mark_every_s * (std::floor(end_s / mark_every_s) + 1);
        }
        grid_.minutes.push_back(out);
    }

    /// The first minute of the leg that a time of the leg falls into; late ones stay within their leg.
    std::size_t minute_of(std::size_t leg, double at_s) const {
        const auto first = std::find_if(grid_.minutes.begin(), grid_.minutes.end(),
                                        [leg](const Minute& m) { return m.leg == static_cast<int>(leg); });
        const auto end = std::find_if(first, grid_.minutes.end(),
                                      [leg](const Minute& m) { return m.leg != static_cast<int>(leg); });
        const auto wanted = static_cast<std::ptrdiff_t>(at_s / 60);
        return static_cast<std::size_t>(first - grid_.minutes.begin() +
                                        std::min(wanted, std::max<std::ptrdiff_t>(0, end - first - 1)));
    }

    /// The last station at or before a feed, and the chance to miss it; none where the leg has none.
    struct StationDraw {
        Key key;
        double missed = 0;
    };
    StationDraw station_of(std::size_t leg, const PlanFeed& feed) const {
        const auto stations =
            leg < event_.legs.size() ? schedule::stations_of(event_, effort_, leg) : std::vector<Station>{};
        std::size_t at = 0;
        while (at + 1 < stations.size() && stations[at + 1].km <= feed.km + station_km)
            ++at;
        const double usual = feed.leg == LegKind::bike ? missed_station_bike : missed_station_run;
        const auto stream = first_station_v + static_cast<std::uint32_t>(leg * stations_of_a_leg + at);
        return {draw_key(event_.seed, stream),
                stations.empty() ? usual : stations[at].miss_chance.value_or(usual)};
    }

    void place(std::size_t leg, double at_s, const Dose& dose) {
        placed_.emplace_back(minute_of(leg, at_s), dose);
    }

    void place_carried(std::size_t leg, const PlanFeed& feed, std::uint32_t stream, Dose dose) {
        dose.by_clock = feed.leg == LegKind::bike || (feed.leg == LegKind::run && !has_stations(event_, leg));
        const Key key = draw_key(event_.seed, first_feed_v + stream);
        dose.key_a = key.a;
        dose.key_b = key.b;
        dose.missed = lived_ ? to_float(missed_share) : 0.0f;
        dose.missed_or_late = lived_ ? to_float(missed_share + late_share) : 0.0f;
        place(leg, feed.at_s, dose);
        if (!lived_)
            return;
        dose.late = true;
        place(leg, feed.at_s + 60 * late_minutes, dose);
    }

    void place_served(std::size_t leg, const PlanFeed& feed, Dose dose) {
        const auto station = station_of(leg, feed);
        dose.station = true;
        dose.key_a = station.key.a;
        dose.key_b = station.key.b;
        dose.missed = dose.missed_or_late = lived_ ? to_float(station.missed) : 0.0f;
        place(leg, feed.at_s, dose);
    }

    /// Of a feed that is half carried and half handed out, the drink is the station's and the rest carried.
    void add_feed(const PlanFeed& feed, std::uint32_t stream) {
        const std::size_t leg = place_of(feed.leg_index);
        const auto served = std::count_if(feed.items.begin(), feed.items.end(),
                                          [](const FeedItem& item) { return item.from == "station"; });
        Dose dose;
        dose.plain_water = lived_ && feed.carb_g <= 0;
        dose.fluid = to_float(feed.fluid_ml);
        dose.fructose = to_float(feed.fructose_g);
        dose.glucose = to_float(feed.carb_g - feed.fructose_g);
        dose.sodium = to_float(feed.sodium_mg);
        if (served == 0)
            return place_carried(leg, feed, stream, dose);
        if (served == std::ssize(feed.items))
            return place_served(leg, feed, dose);
        Dose drink = dose;
        drink.glucose = drink.fructose = drink.sodium = dose.fluid = 0;
        place_served(leg, feed, drink);
        place_carried(leg, feed, stream, dose);
    }

    void add_doses() {
        if (grid_.minutes.empty())
            return;
        for (std::size_t k = 0; k < schedule_.feeds.size(); ++k)
            add_feed(schedule_.feeds[k], static_cast<std::uint32_t>(k));
        std::stable_sort(placed_.begin(), placed_.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (const auto& [minute, dose] : placed_) {
            Minute& at = grid_.minutes[minute];
            if (at.doses == 0)
                at.first_dose = static_cast<int>(grid_.doses.size());
            ++at.doses;
            grid_.doses.push_back(dose);
        }
    }

    const Athlete& athlete_;
    const Event& event_;
    const Effort& effort_;
    const Body& body_;
    const Schedule& schedule_;
    bool lived_;
    RaceGrid grid_;
    std::vector<std::pair<std::size_t, Dose>> placed_;
    double next_mark_s_ = mark_every_s;
};

} // namespace

RaceGrid race_grid(const Athlete& athlete, const Event& event, const Effort& effort, const Body& body,
                   const Schedule& schedule, Drinking drinking) {
    return Builder(athlete, event, effort, body, schedule, drinking).build();
}

} // namespace tuck::outlook
