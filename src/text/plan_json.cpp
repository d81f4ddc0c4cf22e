#include "text/plan_json.hpp"

#include "base/rounded.hpp"
#include "say/in_short.hpp"
#include "say/line_words.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace tuck::faces {

namespace {

using Json = nlohmann::ordered_json;

/// A whole number as JSON shows it best.
Json whole(double value) {
    return static_cast<long long>(std::llround(value));
}

Json place(int leg_index, LegKind leg) {
    return {{"leg", to_string(leg)}, {"leg_index", leg_index}};
}

Json spread_json(const Spread& spread) {
    return {{"p10_s", whole(spread.p10_s)}, {"p50_s", whole(spread.p50_s)}, {"p90_s", whole(spread.p90_s)}};
}

Json reasons_json(const std::vector<Reason>& reasons) {
    Json out = Json::array();
    for (const auto& reason : reasons)
        out.push_back({{"text", reason.text}, {"source", reason.source}});
    return out;
}

Json items_json(const std::vector<FeedItem>& items) {
    Json out = Json::array();
    for (const auto& item : items)
        out.push_back({{"food", item.food},
                       {"amount", item.amount},
                       {"unit", item.unit},
                       {"from", item.from},
                       {"label", item.label}});
    return out;
}

Json durations_json(const Plan& plan) {
    Json out = Json::array();
    for (const auto& duration : plan.durations) {
        Json row = place(duration.leg_index, duration.kind);
        row.update(spread_json(duration.time));
        row["km"] = rounded(duration.distance_m / 1000, 3);
        out.push_back(row);
    }
    return out;
}

Json needs_json(const Plan& plan) {
    Json out = Json::array();
    for (const auto& need : plan.needs) {
        Json row = place(need.leg_index, need.kind);
        row["carb_g_per_h"] = rounded(need.carb_g_per_h, 1);
        row["fluid_ml_per_h"] = rounded(need.fluid_ml_per_h, 1);
        row["sodium_mg_per_h"] = rounded(need.sodium_mg_per_h, 1);
        row["sweat_ml_per_h"] = rounded(need.sweat_ml_per_h, 1);
        row["because"] = reasons_json(need.because);
        out.push_back(row);
    }
    return out;
}

Json feeds_json(const Plan& plan) {
    Json out = Json::array();
    for (const auto& feed : plan.feeds) {
        Json row = place(feed.leg_index, feed.leg);
        row["at_s"] = whole(feed.at_s);
        row["km"] = rounded(feed.km, 2);
        row["items"] = items_json(feed.items);
        row["carb_g"] = rounded(feed.carb_g, 2);
        row["glucose_g"] = rounded(feed.glucose_g, 2);
        row["fructose_g"] = rounded(feed.fructose_g, 2);
        row["fluid_ml"] = rounded(feed.fluid_ml, 1);
        row["sodium_mg"] = rounded(feed.sodium_mg, 1);
        row["caffeine_mg"] = rounded(feed.caffeine_mg, 1);
        out.push_back(row);
    }
    return out;
}

/// How a line is counted: by the clock or by the road, and where it begins and ends if not with its leg.
Json rhythm_json(const Line& line) {
    constexpr const char* kinds[] = {"moments", "every", "stations"};
    Json out{{"kind", kinds[static_cast<int>(line.rhythm.kind)]}, {"by", line.by_km ? "km" : "clock"}};
    if (line.rhythm.kind == Rhythm::Kind::every)
        out["every_s"] = whole(line.rhythm.every_s);
    if (line.rhythm.kind == Rhythm::Kind::stations)
        out["step"] = line.rhythm.step;
    if (line.window.from)
        out["from_s"] = whole(line.window.from->at_s);
    if (line.window.to)
        out["to_s"] = whole(line.window.to->at_s);
    return out;
}

Json lines_json(const Plan& plan) {
    Json out = Json::array();
    for (const auto& line : plan.lines) {
        Json row = place(line.leg_index, line.leg);
        row["from_s"] = whole(line.at.front().at_s);
        row["to_s"] = whole(line.at.back().at_s);
        row["every_s"] = whole(say::steady_s(line));
        row["at_s"] = Json::array();
        for (const LegMoment& at : line.at)
            row["at_s"].push_back(whole(at.at_s));
        std::vector<FeedItem> items;
        for (const LineItem& item : line.items)
            items.push_back({item.food, item.amount, item.unit, item.from.front().name, item.label});
        row["items"] = items_json(items);
        row["rhythm"] = rhythm_json(line);
        row["when"] = say::when(line);
        row["what"] = say::what(line);
        row["beside"] = say::beside(line);
        row["text"] = say::text(line);
        out.push_back(row);
    }
    return out;
}

Json supplies_json(const Plan& plan, Json& document) {
    Json carry = Json::array(), mix = Json::array();
    for (const auto& item : plan.carry)
        carry.push_back({{"food", item.food},
                         {"amount", item.amount},
                         {"unit", item.unit},
                         {"where", item.where},
                         {"text", item.text}});
    for (const auto& bottle : plan.mix) {
        Json add = Json::array();
        for (const auto& part : bottle.add)
            add.push_back({{"food", part.food}, {"grams", rounded(part.grams, 1)}});
        mix.push_back({{"bottle", bottle.bottle},
                       {"volume_ml", whole(bottle.volume_ml)},
                       {"add", add},
                       {"text", bottle.text}});
    }
    document["carry"] = carry;
    return mix;
}

Json special_needs_json(const Plan& plan) {
    Json out = Json::array();
    for (const auto& stop : plan.special_needs) {
        Json row = place(stop.leg_index, stop.leg);
        row["km"] = rounded(stop.km, 3);
        row["counted_on"] = stop.counted_on;
        row["text"] = stop.text;
        out.push_back(row);
    }
    return out;
}

Json moments_json(const std::vector<Moment>& moments) {
    Json out = Json::array();
    for (const auto& moment : moments)
        out.push_back({{"when", moment.when},
                       {"clock", moment.clock},
                       {"text", moment.text},
                       {"source", moment.source}});
    return out;
}

Json percentiles_json(const Percentiles& p, int decimals) {
    return {{"p05", rounded(p.p05, decimals)},
            {"p50", rounded(p.p50, decimals)},
            {"p95", rounded(p.p95, decimals)}};
}

/// For someone who must not be shown them, percentages of body mass stay out of every face.
Json errors_json(const PlanOutlook& o, bool mass_hidden) {
    Json out = Json::object();
    if (!mass_hidden) {
        out["mass_change_pct"] = percentiles_json(o.mass_error_pct, 3);
        out["water_change_pct"] = percentiles_json(o.water_error_pct, 3);
    }
    out["serum_sodium_mmol_per_l"] = percentiles_json(o.serum_error_mmol_per_l, 3);
    out["glycogen_left_g"] = percentiles_json(o.glycogen_error_g, 2);
    return out;
}

Json limits_json(const PlanOutlook& o, bool mass_hidden) {
    Json out = Json::array();
    for (const auto& row : o.chances) {
        if (mass_hidden && row.of_mass)
            continue;
        Json limit{{"code", row.code}, {"what", row.what}};
        if (row.caution <= 1)
            limit["caution"] = rounded(row.caution, 4);
        if (row.refuse <= 1)
            limit["refuse"] = rounded(row.refuse, 4);
        limit["because"] = row.because;
        limit["source"] = "our choice, no source";
        out.push_back(limit);
    }
    return out;
}

Json bands_json(const PlanOutlook& o, bool mass_hidden) {
    Json out = Json::array();
    for (const auto& band : o.bands) {
        Json row{{"at_s", whole(band.at_s)}};
        if (!mass_hidden)
            row["mass_change_pct"] = percentiles_json(band.mass_change_pct, 2);
        row["glycogen_g"] = percentiles_json(band.glycogen_g, 0);
        row["gut_fluid_ml"] = percentiles_json(band.gut_fluid_ml, 0);
        out.push_back(row);
    }
    return out;
}

Json drivers_json(const PlanOutlook& o) {
    Json out = Json::array();
    for (const auto& driver : o.drivers)
        out.push_back({{"input", driver.input},
                       {"share", rounded(driver.share, 3)},
                       {"of_mass", rounded(driver.of_mass, 3)},
                       {"of_sodium", rounded(driver.of_sodium, 3)},
                       {"of_glycogen", rounded(driver.of_glycogen, 3)}});
    return out;
}

Json outlook_json(const Plan& plan) {
    const auto& o = plan.outlook;
    Json out{{"days", o.days}};
    if (!plan.mass_hidden) {
        out["mass_change_pct"] = percentiles_json(o.mass_change_pct, 2);
        out["water_change_pct"] = percentiles_json(o.water_change_pct, 2);
    }
    out["serum_sodium_mmol_per_l"] = percentiles_json(o.serum_sodium_mmol_per_l, 1);
    out["glycogen_left_g"] = percentiles_json(o.glycogen_left_g, 0);
    out["error"] = errors_json(o, plan.mass_hidden);
    out["chance"] = {{"mass_gain", rounded(o.mass_gain, 4)},
                     {"water_gain", rounded(o.water_gain, 4)},
                     {"water_gain_over_1pct", rounded(o.water_gain_over_1pct, 4)},
                     {"water_loss_over_2pct", rounded(o.water_loss_over_2pct, 4)},
                     {"water_loss_over_4pct", rounded(o.water_loss_over_4pct, 4)},
                     {"low_sodium", rounded(o.low_sodium, 4)},
                     {"low_sodium_by_drinking", rounded(o.low_sodium_by_drinking, 4)},
                     {"glycogen_gone", rounded(o.glycogen_gone, 4)},
                     {"stomach_full", rounded(o.stomach_full, 4)}};
    Json errors = Json::object();
    for (const auto& row : o.chances)
        errors[row.code] = rounded(row.error, 5);
    out["chance_error"] = errors;
    out["limits"] = limits_json(o, plan.mass_hidden);
    out["worst"] = {{"at_s", whole(o.worst.at_s)},
                    {"clock", o.worst.clock},
                    {"cause", o.worst.cause},
                    {"share", rounded(o.worst.share, 3)}};
    out["bands"] = bands_json(o, plan.mass_hidden);
    out["drivers"] = drivers_json(o);
    out["text"] = o.sentence;
    return out;
}

void words_json(const Plan& plan, Json& document) {
    document["if_then"] = Json::array();
    for (const auto& line : plan.if_then)
        document["if_then"].push_back({{"when", line.when}, {"text", line.text}});
    document["unmet"] = Json::array();
    for (const auto& unmet : plan.unmet) {
        document["unmet"].push_back({{"need", unmet.need},
                                     {"rule", unmet.rule},
                                     {"short", rounded(unmet.cost_g_per_h, 1)},
                                     {"unit", unmet.unit},
                                     {"lift", unmet.lift},
                                     {"lift_gives", rounded(unmet.lift_gives, 1)}});
        if (unmet.unit == std::string("g/h")) // the first release's key, true for grams alone
            document["unmet"].back()["cost_g_per_h"] = rounded(unmet.cost_g_per_h, 1);
    }
    if (plan.own) {
        document["broken_rules"] = Json::array();
        for (const auto& breach : plan.broken_rules)
            document["broken_rules"].push_back({{"rule", breach.rule},
                                                {"leg_index", breach.leg_index},
                                                {"at_s", rounded(breach.at_s, 0)},
                                                {"value", rounded(breach.value, 1)},
                                                {"allowed", rounded(breach.allowed, 1)},
                                                {"unit", breach.unit},
                                                {"danger", breach.danger},
                                                {"text", breach.text}});
    }
    document["assumptions"] = plan.assumptions;
    document["warnings"] = Json::array();
    for (const auto& warning : plan.warnings)
        document["warnings"].push_back(
            {{"code", warning.code}, {"severity", to_string(warning.severity)}, {"text", warning.text}});
    document["cautions"] = plan.cautions;
}

Json weather_json(const Weather& weather) {
    Json out{{"temperature_c", weather.temperature_c}};
    const auto put = [&out](const char* key, const std::optional<double>& value) {
        if (value)
            out[key] = *value;
    };
    put("humidity_pct", weather.humidity_pct);
    put("wind_m_s", weather.wind_m_s);
    put("wind_from_deg", weather.wind_from_deg);
    put("water_temperature_c", weather.water_temperature_c);
    put("sun_w_m2", weather.sun_w_m2);
    put("sun_share", weather.sun_share);
    put("cloud_pct", weather.cloud_pct);
    return out;
}

/// Inputs under their keys in the athlete's or the event's file; a key that is given several times is a list.
Json inputs_json(const Plan& plan) {
    Json out = Json::object();
    for (const auto& input : plan.inputs) {
        const Json value = input.number ? Json(*input.number) : Json(input.word);
        if (!out.contains(input.key))
            out[input.key] = value;
        else if (out[input.key].is_array())
            out[input.key].push_back(value);
        else
            out[input.key] = Json::array({out[input.key], value});
    }
    return out;
}

/// What the paper needs beside the answer.
void faces_json(const Plan& plan, Json& document) {
    document["race"] = plan.race;
    document["bib"] = plan.bib;
    document["wave"] = plan.wave;
    document["date"] = plan.date;
    document["start_clock"] = plan.start_clock;
    document["inputs"] = inputs_json(plan);
    document["weather"] = weather_json(plan.weather);
    document["shopping"] = Json::array();
    for (const auto& item : plan.shopping)
        document["shopping"].push_back({{"food", item.food},
                                        {"amount", rounded(item.amount, 1)},
                                        {"unit", item.unit},
                                        {"text", item.text}});
    document["day_sums"] = Json::array();
    for (const auto& point : plan.day_sums)
        document["day_sums"].push_back({{"at_s", whole(point.at_s)},
                                        {"carb_g", rounded(point.carb_g, 1)},
                                        {"carb_need_g", rounded(point.carb_need_g, 1)},
                                        {"fluid_ml", rounded(point.fluid_ml, 0)},
                                        {"fluid_up_to_ml", rounded(point.fluid_up_to_ml, 0)},
                                        {"sweat_ml", rounded(point.sweat_ml, 0)}});
    document["clock_note"] = plan.clock_note;
    document["in_short"] = say::in_short(plan);
    document["refill_note"] = plan.refill_note;
    document["stop_line"] = plan.stop_line;
}

Json document_of(const Plan& plan) {
    Json out{{"schema", "tuck.plan/1"}};
    out["event"] = plan.event_name;
    out["athlete"] = plan.athlete_name;
    out["version"] = plan.version;
    out["refused"] = plan.refused;
    out["fuelling_needed"] = plan.fuelling_needed;
    out["fuelling_because"] = reasons_json(plan.fuelling_because);
    out["still_matters"] = plan.still_matters;
    out["durations"] = durations_json(plan);
    out["total"] = spread_json(plan.total);
    out["needs"] = needs_json(plan);
    out["feeds"] = feeds_json(plan);
    out["lines"] = lines_json(plan);
    out["totals"] = {{"carb_g", rounded(plan.totals.carb_g, 1)},
                     {"fluid_ml", rounded(plan.totals.fluid_ml, 1)},
                     {"sodium_mg", rounded(plan.totals.sodium_mg, 1)},
                     {"caffeine_mg", rounded(plan.totals.caffeine_mg, 1)},
                     {"sweat_ml", rounded(plan.totals.sweat_ml, 1)}};
    Json mix = supplies_json(plan, out);
    out["mix"] = mix;
    out["special_needs"] = special_needs_json(plan);
    out["before"] = moments_json(plan.before);
    out["after"] = moments_json(plan.after);
    out["outlook"] = outlook_json(plan);
    words_json(plan, out);
    faces_json(plan, out);
    return out;
}

} // namespace

std::string plan_json(const Plan& plan) {
    return document_of(plan).dump(2) + "\n";
}

std::string plan_json_line(const Plan& plan) {
    return document_of(plan).dump() + "\n";
}

} // namespace tuck::faces
