// The chain behind a number, as text. It prints what was recorded while deciding.
#include "say/plan_words.hpp"
#include "text/layout.hpp"
#include "text/plan_text.hpp"
#include "text/trace_pointer.hpp"

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

/// "bike"; empty for what is of no single leg.
std::string leg_word(const Plan& plan, const TraceKey& key) {
    return key.leg_index < 0 ? "" : to_string(plan.durations.at(static_cast<size_t>(key.leg_index)).kind);
}

/// "/needs/2/fluid_ml_per_h" of a bike leg -> "needs 2 fluid ml per h bike": what a person might type.
std::string spoken(const Plan& plan, const TraceKey& key) {
    const std::string pointer = pointer_of(key), leg = leg_word(plan, key);
    std::string words = pointer + " " + leg;
    if (key.part == PlanPart::durations && !leg.empty())
        words += " time";
    std::replace(words.begin(), words.end(), '/', ' ');
    std::replace(words.begin(), words.end(), '_', ' ');
    return words + " " + pointer;
}

/// A single number goes without its unit, which its name says.
std::string value_text(const Plan& plan, const Trace& trace) {
    const auto leg = leg_word(plan, trace.key);
    const auto value = trace.values.size() == 1 ? number_text(trace.values.front())
                                                : values_text(trace.values, Units::metric);
    return leg + (leg.empty() || value.empty() ? "" : " ") + value;
}

class Chain {
public:
    explicit Chain(const Plan& plan) : plan_(plan) {}
    void add(const Trace& trace, size_t depth) {
        const std::string indent(2 * depth, ' ');
        const auto value = value_text(plan_, trace);
        put(indent + (depth > 0 ? "from " : "") + pointer_of(trace.key) +
                (value.empty() ? "" : " = " + value),
            indent);
        if (!seen_.insert(&trace).second) {
            put("(said above)", indent + "  ");
            return;
        }
        for (const auto& reason : trace.because)
            put(fmt::format("{} [{}]", reason.text, reason.source), indent + "  - ");
        for (const auto& key : trace.from)
            if (const auto* origin = trace_of(plan_, key))
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
    std::set<const Trace*> seen_;
};

bool matches(const Plan& plan, const Trace& trace, const std::string& asked) {
    const auto words = lower(spoken(plan, trace.key));
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

std::vector<const Trace*> found_by(const Plan& plan, const std::string& asked) {
    std::vector<const Trace*> found;
    if (!asked.starts_with('/')) {
        for (const auto& trace : plan.traces)
            if (matches(plan, trace, asked))
                found.push_back(&trace);
    } else if (const auto* trace = trace_of(plan, asked))
        found.push_back(trace);
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
        Json one{{"number", pointer_of(trace.key)}, {"asked", i < asked}, {"value", value_text(plan, trace)}};
        one["because"] = Json::array();
        for (const auto& reason : trace.because)
            one["because"].push_back({{"text", reason.text}, {"source", reason.source}});
        one["from"] = Json::array();
        for (const auto& key : trace.from) {
            one["from"].push_back(pointer_of(key));
            if (const auto* origin = trace_of(plan, key);
                origin && std::find(chain.begin(), chain.end(), origin) == chain.end())
                chain.push_back(origin);
        }
        out["numbers"].push_back(std::move(one));
    }
    return out.dump(2) + "\n";
}

std::vector<std::string> explained_numbers(const Plan& plan) {
    std::vector<std::string> out;
    for (const auto& trace : plan.traces)
        out.push_back(pointer_of(trace.key));
    return out;
}

} // namespace tuck::faces
