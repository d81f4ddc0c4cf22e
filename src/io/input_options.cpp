#include "io/input_options.hpp"

#include "io/athlete_fields.hpp"
#include "io/event_fields.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace tuck::io {

namespace {

using ReadText = double (*)(const std::string&);

Json as_is(const std::string& text) {
    return text;
}

Json as_time(const std::string& text) {
    duration_s(text);
    return text;
}

Json as_clock(const std::string& text) {
    clock_min(text);
    return text;
}

/// A line of one's own holds commas: each use is one.
Json one_line(const std::string& text) {
    return Json::array({text});
}

Json as_sun(const std::string& text) {
    sun_light(text); // refuses what is none
    return text;
}

/// "10km", or "half" and "marathon" (World Athletics: 21.0975 and 42.195 km).
double raced_m(const std::string& text) {
    return text == "half" || text == "half marathon" ? 21097.5
           : text == "marathon"                      ? 42195
                                                     : distance_m(text);
}

/// "10km=52:30", "half=1:38:00@2026-09-01".
Json as_results(const char* sport, const std::string& text) {
    Json results = Json::array();
    for (const auto& part : comma_list(text)) {
        const auto equals = part.find('=');
        if (equals == std::string::npos)
            throw std::invalid_argument(fmt::format(
                "\"{}\" is not a result; allowed: distance=time, such as 10km=52:30 or 10km=52:30@2026-09-01",
                part));
        const auto at = std::min(part.find('@', equals), part.size());
        Json result = {{"sport", sport},
                       {"distance_m", raced_m(part.substr(0, equals))},
                       {"time", as_time(part.substr(equals + 1, at - equals - 1))}};
        if (at < part.size())
            result["date"] = calendar_date(part.substr(at + 1));
        results.push_back(result);
    }
    return results;
}

/// Lists options and columns; `at` is where the object stands in an event file.
class Lister {
public:
    explicit Lister(std::string at) : at_(std::move(at)) {}

    std::vector<InputOption> options;
    std::vector<InputColumn> columns;

    template <class Number>
    void number(const Field& f, Number&, ReadText read, const Range&, Need) {
        add(f, read, Cell::number);
    }
    template <class Number>
    void number(const Field& f, std::optional<Number>&, ReadText read, const Range&) {
        add(f, read, Cell::number);
    }
    void whole(const Field& f, int&, const Range&, Need = Need::optional) {
        add(f, whole_number, Cell::number);
    }
    void whole(const Field& f, std::optional<int>&, const Range&) { add(f, whole_number, Cell::number); }
    void seed(const Field& f, unsigned long long&) { add(f, whole_number, Cell::number); }
    void flag(const Field& f, bool&) { add(f, yes_or_no, Cell::yes_no); }
    void words(const Field& f, std::string&, std::size_t = 0, Need = Need::optional) {
        add(f, as_is, Cell::text);
    }
    template <typename T>
    void choice(const Field& f, T&, const Words<T>& words, Need = Need::optional) {
        std::string known;
        for (const auto& [word, meaning] : words)
            known += (known.empty() ? "" : ", ") + word;
        add(f, as_is, Cell::text, known);
    }
    template <typename T>
    void choice(const Field& f, std::optional<T>&, const Words<T>& words) {
        T any{};
        choice(f, any, words);
    }
    void list(const Field& f, std::vector<std::string>&, const std::vector<std::string>&, std::size_t = 0,
              Need = Need::optional) {
        add(f, comma_list, Cell::list);
        if (f.option)
            options.back().adds_up = true;
    }
    void volumes(const Field& f, std::optional<std::vector<double>>&, const Range&, std::size_t,
                 Need = Need::optional) {
        add(f, volumes_ml, Cell::text);
    }
    void time(const Field& f, std::optional<double>&, double) { add(f, as_time, Cell::text); }
    void clock(const Field& f, std::optional<int>&) { add(f, as_clock, Cell::text); }
    void moment(const Field& f, std::optional<Seconds>&) { add(f, as_clock, Cell::text); }
    void own_lines(const Field& f, Event&) {
        add(f, one_line, Cell::list);
        if (f.option)
            options.back().adds_up = true;
    }
    void sun(const Field& f, Weather&) { add(f, as_sun, Cell::text); }
    void day(const Field& f, std::optional<std::string>&) { add(f, calendar_date, Cell::text); }
    template <typename T>
    void object(const Field& f, T& value) {
        if (f.column)
            columns.push_back({f.column, at_ + "/" + f.key, Cell::flags, nullptr, f.about});
        Lister inner(at_ + "/" + f.key);
        visit_fields(value, inner);
        take(inner);
    }
    template <typename T>
    void object(const Field& f, std::optional<T>& value) {
        object(f, value.emplace());
    }
    template <typename T>
    void objects(const Field&, std::vector<T>&, std::size_t) {}
    void results(const Field& f, std::vector<RecentResult>&) {
        struct Row {
            const char *option, *sport, *example;
        };
        for (const auto& row :
             {Row{"--recent-swim", "swim", "400m=7:20"}, Row{"--recent-bike", "bike", "40km=1:12:00"},
              Row{"--recent-run", "run", "10km=52:30, half=1:38:00, 10km=52:30@2026-09-01"}}) {
            add(
                {f.key, row.option, "a result", row.example, "RESULT"},
                [sport = row.sport](const std::string& text) { return as_results(sport, text); }, Cell::text);
            options.back().adds_up = true;
        }
    }

private:
    void add(const Field& f, std::function<Json(const std::string&)> read, Cell cell,
             const std::string& words = "") {
        const std::string pointer = at_ + "/" + f.key, example = *f.example ? f.example : words;
        if (f.column)
            columns.push_back({f.column, pointer, cell, read,
                               example.empty() ? f.about : fmt::format("{}: {}", f.about, example)});
        if (f.option)
            options.push_back({f.option, pointer,
                               example.empty() ? f.about : fmt::format("{}: {}", f.about, example), f.kind,
                               false, std::move(read)});
    }
    void take(Lister& inner) {
        options.insert(options.end(), inner.options.begin(), inner.options.end());
        columns.insert(columns.end(), inner.columns.begin(), inner.columns.end());
    }

    std::string at_;
};

template <typename T>
Lister listed(const char* at) {
    T any;
    Lister lister(at);
    visit_fields(any, lister);
    return lister;
}

} // namespace

const std::vector<InputOption>& athlete_field_options() {
    static const auto options = listed<AthleteInput>("/athlete").options;
    return options;
}

const std::vector<InputOption>& event_field_options() {
    static const auto options = listed<Event>("").options;
    return options;
}

const std::vector<InputColumn>& roster_columns() {
    static const auto columns = [] {
        auto all = listed<AthleteInput>("/athlete").columns;
        const auto event = listed<Event>("").columns;
        all.insert(all.end(), event.begin(), event.end());
        return all;
    }();
    return columns;
}

} // namespace tuck::io
