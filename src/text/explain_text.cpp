// The chain behind a number, as text. It prints what was recorded while deciding.
#include "say/plan_words.hpp"
#include "text/layout.hpp"
#include "text/plan_text.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <set>

namespace tuck::faces {

namespace {

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
    return text;
}

/// "/needs/2/fluid_ml_per_h" of a bike leg -> "bike fluid ml per h needs": what a person might type.
std::string spoken(const Plan& plan, const std::string& number) {
    std::string words = number;
    for (const char* list : {"/needs/", "/durations/"}) {
        const std::string prefix = list;
        if (number.rfind(prefix, 0) != 0)
            continue;
        const auto index = static_cast<size_t>(std::stoul(number.substr(prefix.size())));
        if (index < plan.durations.size())
            words += std::string(" ") + to_string(plan.durations[index].kind);
        if (prefix == "/durations/")
            words += " time";
    }
    std::replace(words.begin(), words.end(), '/', ' ');
    std::replace(words.begin(), words.end(), '_', ' ');
    return words + " " + number;
}

std::string value_text(const Plan& plan, const std::string& number) {
    const auto numbered = [&number](const char* prefix, size_t size) -> size_t {
        const std::string p = prefix;
        if (number.rfind(p, 0) != 0)
            return size;
        const auto index = static_cast<size_t>(std::stoul(number.substr(p.size())));
        return std::min(index, size);
    };
    if (const auto i = numbered("/durations/", plan.durations.size()); i < plan.durations.size()) {
        const auto& d = plan.durations[i];
        return fmt::format("{} {} ({} - {})", to_string(d.kind), time_text(d.time.p50_s),
                           time_text(d.time.p10_s), time_text(d.time.p90_s));
    }
    if (const auto i = numbered("/needs/", plan.needs.size()); i < plan.needs.size()) {
        const auto& n = plan.needs[i];
        const auto field = number.substr(number.rfind('/') + 1);
        if (field == "heat") // a table: its rows are the value
            return to_string(n.kind);
        const double value = field == "carb_g_per_h"      ? n.carb_g_per_h
                             : field == "fluid_ml_per_h"  ? n.fluid_ml_per_h
                             : field == "sodium_mg_per_h" ? n.sodium_mg_per_h
                                                          : n.sweat_ml_per_h;
        return fmt::format("{} {:.0f}", to_string(n.kind), value);
    }
    if (number == "/total")
        return fmt::format("{} ({} - {})", time_text(plan.total.p50_s), time_text(plan.total.p10_s),
                           time_text(plan.total.p90_s));
    if (number == "/fuelling_needed")
        return plan.fuelling_needed ? "true" : "false";
    if (number == "/totals")
        return fmt::format("{:.0f} g, {:.0f} ml, {:.0f} mg sodium", plan.totals.carb_g, plan.totals.fluid_ml,
                           plan.totals.sodium_mg);
    return "";
}

const Trace* find_trace(const Plan& plan, const std::string& number) {
    for (const auto& trace : plan.traces)
        if (trace.number == number)
            return &trace;
    return nullptr;
}

class Chain {
public:
    explicit Chain(const Plan& plan) : plan_(plan) {}
    void add(const Trace& trace, size_t depth) {
        const std::string indent(2 * depth, ' ');
        const auto value = value_text(plan_, trace.number);
        put(indent + (depth > 0 ? "from " : "") + trace.number + (value.empty() ? "" : " = " + value),
            indent);
        if (!seen_.insert(trace.number).second) {
            put("(said above)", indent + "  ");
            return;
        }
        for (const auto& reason : trace.because)
            put(fmt::format("{} [{}]", reason.text, reason.source), indent + "  - ");
        for (const auto& number : trace.from)
            if (const auto* origin = find_trace(plan_, number))
                add(*origin, depth + 1);
    }
    std::string text;

private:
    void put(const std::string& words, const std::string& first) {
        // The first line already carries its indent where `words` begins with it.
        const bool own = words.rfind(first, 0) == 0 && first.find('-') == std::string::npos;
        for (const auto& row : wrap(own ? words.substr(first.size()) : words, 80, first))
            text += row + "\n";
    }
    const Plan& plan_;
    std::set<std::string> seen_;
};

bool matches(const Plan& plan, const Trace& trace, const std::string& asked) {
    if (trace.number == asked)
        return true;
    const auto words = lower(spoken(plan, trace.number));
    size_t at = 0;
    const auto text = lower(asked);
    while (at < text.size()) {
        const auto space = std::min(text.find(' ', at), text.size());
        const auto word = text.substr(at, space - at);
        at = space + 1;
        if (!word.empty() && words.find(word) == std::string::npos)
            return false;
    }
    return true;
}

std::vector<const Trace*> found_by(const Plan& plan, const std::string& number) {
    std::vector<const Trace*> found;
    for (const auto& trace : plan.traces)
        if (trace.number == number)
            found = {&trace};
    if (found.empty() && !number.empty() && number.front() == '/') {
        // The nearest family that holds the number: "/feeds/3/carb_g" is one of "/feeds".
        for (const auto& trace : plan.traces)
            if (number.rfind(trace.number + "/", 0) == 0 &&
                (found.empty() || trace.number.size() > found.front()->number.size()))
                found = {&trace};
    } else if (found.empty()) {
        for (const auto& trace : plan.traces)
            if (matches(plan, trace, number))
                found.push_back(&trace);
    }
    return found;
}

} // namespace

std::string explain_text(const Plan& plan, const std::string& number) {
    std::string out;
    for (const auto* trace : found_by(plan, number)) {
        Chain chain(plan);
        chain.add(*trace, 0);
        out += (out.empty() ? "" : "\n") + chain.text;
    }
    return out;
}

std::string explain_json(const Plan& plan, const std::string& number) {
    using Json = nlohmann::ordered_json;
    auto chain = found_by(plan, number);
    if (chain.empty())
        return {};
    const auto asked = chain.size();
    Json out{{"schema", "tuck.explain/1"}, {"plan", plan.version}, {"numbers", Json::array()}};
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const auto& trace = *chain[i];
        Json one{{"number", trace.number}, {"asked", i < asked}, {"value", value_text(plan, trace.number)}};
        one["because"] = Json::array();
        for (const auto& reason : trace.because)
            one["because"].push_back({{"text", reason.text}, {"source", reason.source}});
        one["from"] = trace.from;
        out["numbers"].push_back(std::move(one));
        for (const auto& name : trace.from)
            if (const auto* origin = find_trace(plan, name);
                origin && std::find(chain.begin(), chain.end(), origin) == chain.end())
                chain.push_back(origin);
    }
    return out.dump(2) + "\n";
}

std::vector<std::string> explained_numbers(const Plan& plan) {
    std::vector<std::string> out;
    for (const auto& trace : plan.traces)
        out.push_back(trace.number);
    return out;
}

} // namespace tuck::faces
