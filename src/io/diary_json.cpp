#include "io/diary_json.hpp"

#include "io/diary_fields.hpp"
#include "io/field_reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace tuck::io {

namespace {

class Reader : public FieldReader {
public:
    using FieldReader::FieldReader;
    void symptoms(Field f, Symptoms& value) {
        auto object = node_.object(f.key);
        if (!object)
            return;
        for (const auto& name : gut_symptoms())
            if (const auto mark = object->whole(name, 0, 10))
                value[name] = *mark;
        object->finish();
    }
    void legs(Field f, std::vector<RacedLeg>& value) {
        for (auto& item : node_.objects(f.key, 20)) {
            RacedLeg leg;
            leg.sport = item.choice<Sport>("sport", sport_words()).value_or(Sport::bike);
            if (!item.has("sport"))
                item.missing("sport");
            leg.distance_m = item.number("distance_m", 0, 1e6, "m").value_or(0);
            leg.time_s = item.number("time_s", 0, longest_event_s, "s").value_or(0);
            leg.planned_s = item.number("planned_s", 0, longest_event_s, "s").value_or(0);
            leg.ascent_m = item.number("ascent_m", 0, 20000, "m").value_or(0);
            item.finish();
            value.push_back(leg);
        }
    }
    void sodium(std::optional<SodiumTest>& value) {
        const auto body = node_.number("sweat_sodium_mmol_per_l", 5, 150, "mmol/L");
        const auto patch = node_.number("patch_sodium_mmol_per_l", 5, 200, "mmol/L");
        std::vector<std::pair<std::string, std::string>> sites;
        for (const auto& name : sweat_patch_sites())
            sites.emplace_back(name, name);
        const auto site = node_.choice<std::string>("patch_site", sites);
        if (body && patch)
            node_.fault("patch_sodium_mmol_per_l", "stands beside a value of the whole body; leave one out");
        if (patch && !node_.has("patch_site"))
            node_.fault("patch_site",
                        fmt::format("is missing; allowed: {}", fmt::join(sweat_patch_sites(), ", ")));
        if (site && !patch)
            node_.fault("patch_site", "stands without the value of a patch");
        if (body)
            value = SodiumTest{*body, ""};
        if (patch && site)
            value = SodiumTest{*patch, *site};
    }
};

class Writer {
public:
    explicit Writer(Json& json) : json_(json) {}
    void number(Field f, double value, double (*)(const std::string&), Range, Need need) {
        if (need == Need::required || value != 0)
            json_[f.key] = value;
    }
    template <class Number>
    void number(Field f, const std::optional<Number>& value, double (*)(const std::string&), Range) {
        if (value)
            json_[f.key] = *value;
    }
    void whole(Field f, int value, Range) { json_[f.key] = value; }
    void whole(Field f, const std::optional<int>& value, Range) {
        if (value)
            json_[f.key] = *value;
    }
    void flag(Field f, bool value) { json_[f.key] = value; }
    void words(Field f, const std::string& value) {
        if (!value.empty())
            json_[f.key] = value;
    }
    template <typename T>
    void choice(Field f, const T& value, const std::vector<std::pair<std::string, T>>& words) {
        for (const auto& [word, meaning] : words)
            if (meaning == value)
                json_[f.key] = word;
    }
    void symptoms(Field f, const Symptoms& value) {
        if (!value.empty())
            json_[f.key] = value;
    }
    void legs(Field f, const std::vector<RacedLeg>& value) {
        Json list = Json::array();
        for (const auto& leg : value)
            list.push_back({{"sport", to_string(leg.sport)},
                            {"distance_m", leg.distance_m},
                            {"time_s", leg.time_s},
                            {"planned_s", leg.planned_s},
                            {"ascent_m", leg.ascent_m}});
        json_[f.key] = list;
    }
    void sodium(const std::optional<SodiumTest>& value) {
        if (value && value->site.empty())
            json_["sweat_sodium_mmol_per_l"] = value->mmol_per_l;
        if (value && !value->site.empty()) {
            json_["patch_sodium_mmol_per_l"] = value->mmol_per_l;
            json_["patch_site"] = value->site;
        }
    }

private:
    Json& json_;
};

Json whole_json(const std::string& text) {
    return whole_number(text);
}

/// An option without a value says yes.
Json flag_json(const std::string& text) {
    return text.empty() || yes_or_no(text);
}

Json words_json(const std::string& text) {
    return text;
}

/// "nausea=2,cramps=1".
Json symptoms_json(const std::string& text) {
    Json out = Json::object();
    for (const auto& part : comma_list(text)) {
        const auto equals = part.find('=');
        const auto name = part.substr(0, equals);
        const auto& known = gut_symptoms();
        if (equals == std::string::npos || std::find(known.begin(), known.end(), name) == known.end())
            throw std::invalid_argument(
                fmt::format("\"{}\" is not a symptom with its mark; allowed: {}, such as "
                            "nausea=2",
                            part, fmt::join(known, ", ")));
        out[name] = whole_number(part.substr(equals + 1));
    }
    return out;
}

class OptionList {
public:
    std::vector<EntryOption> out;
    template <class Number>
    void number(const Field& f, Number&, double (*read)(const std::string&), Range, Need) {
        add(f, read);
    }
    template <class Number>
    void number(const Field& f, std::optional<Number>&, double (*read)(const std::string&), Range) {
        add(f, read);
    }
    void whole(const Field& f, int&, Range) { add(f, whole_json); }
    void whole(const Field& f, std::optional<int>&, Range) { add(f, whole_json); }
    void flag(const Field& f, bool&) { add(f, flag_json, true); }
    void words(const Field& f, std::string&) { add(f, words_json); }
    template <typename T>
    void choice(const Field& f, T&, const std::vector<std::pair<std::string, T>>&) {
        add(f, words_json);
    }
    void symptoms(const Field& f, Symptoms&) { add(f, symptoms_json); }
    void legs(Field, std::vector<RacedLeg>&) {}
    void sodium(std::optional<SodiumTest>&) {
        add({"sweat_sodium_mmol_per_l", "--sweat-sodium", "of the whole body: 45mmol/L"}, sodium_mmol_per_l);
        add({"patch_sodium_mmol_per_l", "--patch-sodium", "of a patch, with --site: 55mmol/L"},
            sodium_mmol_per_l);
        add({"patch_site", "--site", "of the patch: forearm, chest, thigh ..."}, words_json);
    }

private:
    void add(const Field& f, std::function<Json(const std::string&)> read, bool takes_no_value = false) {
        if (f.option)
            out.push_back({f.option, f.about, f.key, takes_no_value, std::move(read)});
    }
};

template <typename T>
std::vector<EntryOption> options_of() {
    T any;
    OptionList list;
    visit_fields(any, list);
    return list.out;
}

/// Between fields that must agree.
void check(Node& node, const DiaryEntry& entry) {
    if (const auto* r = std::get_if<RehearsalRecord>(&entry.what)) {
        if (r->bike.minutes + r->run.minutes <= 0)
            node.fault("bike_min", "is missing; give the time on the bike, of the run, or both");
        if (r->feeds_taken > r->feeds_planned)
            node.fault("feeds_taken", "is more than was planned");
    }
}

template <typename T>
void read_what(Node& node, DiaryEntry& entry) {
    T what;
    Reader reader(node);
    visit_fields(what, reader);
    entry.what = std::move(what);
    check(node, entry);
}

void read_what(Node& node, EntryKind kind, DiaryEntry& entry) {
    if (kind == EntryKind::sweat_test)
        read_what<SweatTest>(node, entry);
    else if (kind == EntryKind::rehearsal)
        read_what<RehearsalRecord>(node, entry);
    else
        read_what<RaceRecord>(node, entry);
}

void set_kind(EntryKind kind, DiaryEntry& entry) {
    if (kind == EntryKind::rehearsal)
        entry.what = RehearsalRecord{};
    else if (kind == EntryKind::race)
        entry.what = RaceRecord{};
    else
        entry.what = SweatTest{};
}

void read_date(Node& node, DiaryEntry& entry) {
    entry.date = node.required_text("date", 10);
    if (entry.date.empty())
        return;
    try {
        calendar_date(entry.date);
    } catch (const std::invalid_argument& error) {
        node.fault("date", error.what());
    }
}

/// A typed entry has no file: its faults are told under the option that fills the key.
Fault placed(Fault fault, EntryKind kind, const std::string& place) {
    const auto at_option = [&fault](const char* option) {
        fault.file = option;
        fault.place.clear();
        return fault;
    };
    if (fault.file.empty())
        for (const auto& option : entry_options(kind))
            if (fault.place.rfind("/" + option.key, 0) == 0 &&
                (fault.place.size() == option.key.size() + 1 || fault.place[option.key.size() + 1] == '/'))
                return at_option(option.option);
    if (fault.file.empty() && fault.place == "/date")
        return at_option("--date");
    if (fault.file.empty() && fault.place == "/note")
        return at_option("--note");
    fault.place = place + fault.place;
    return fault;
}

} // namespace

const std::vector<std::pair<std::string, EntryKind>>& kind_words() {
    static const std::vector<std::pair<std::string, EntryKind>> words = {
        {"sweat_test", EntryKind::sweat_test},
        {"rehearsal", EntryKind::rehearsal},
        {"race", EntryKind::race}};
    return words;
}

std::vector<EntryOption> entry_options(EntryKind kind) {
    return kind == EntryKind::sweat_test  ? options_of<SweatTest>()
           : kind == EntryKind::rehearsal ? options_of<RehearsalRecord>()
                                          : options_of<RaceRecord>();
}

Json laid_over(EntryKind kind, const OptionTexts& texts, Json base, std::vector<Fault>& faults) {
    for (const auto& option : entry_options(kind)) {
        const auto text = texts.find(option.option);
        if (text == texts.end())
            continue;
        try {
            base[option.key] = option.read(text->second);
        } catch (const std::invalid_argument& error) {
            faults.push_back({option.option, "", error.what()});
        }
    }
    return base;
}

DiaryEntry entry_from(const Json& json, const std::string& file, const std::string& place) {
    std::vector<Fault> faults;
    Node node(json, file, "", faults);
    DiaryEntry entry;
    const auto schema = node.required_text("schema");
    if (!schema.empty() && schema != diary_schema)
        node.fault("schema", fmt::format("\"{}\" is not known here; allowed: \"{}\"", schema, diary_schema));
    const auto kind = node.choice<EntryKind>("kind", kind_words());
    if (!node.has("kind"))
        node.missing("kind");
    entry.id = node.whole("id", 1, 2000000000).value_or(0);
    entry.corrects = node.whole("corrects", 1, 2000000000);
    entry.withdrawn = node.flag("withdrawn").value_or(false);
    entry.note = node.text("note", longest_words).value_or("");
    read_date(node, entry);
    if (kind && entry.withdrawn)
        set_kind(*kind, entry);
    else if (kind)
        read_what(node, *kind, entry);
    if (kind)
        node.finish();
    if (entry.withdrawn && !entry.corrects)
        node.fault("withdrawn", "names no line; \"corrects\" is missing");
    if (faults.empty())
        return entry;
    for (auto& fault : faults)
        fault = placed(fault, kind.value_or(EntryKind::sweat_test), place);
    throw InputError(faults);
}

Json json_of(const DiaryEntry& entry) {
    Json json = {{"schema", diary_schema}, {"kind", to_string(entry.kind())}, {"date", entry.date}};
    if (entry.id > 0)
        json["id"] = entry.id;
    if (entry.corrects)
        json["corrects"] = *entry.corrects;
    if (!entry.note.empty())
        json["note"] = entry.note;
    if (entry.withdrawn) {
        json["withdrawn"] = true;
        return json;
    }
    Writer writer(json);
    DiaryEntry copy = entry;
    std::visit([&writer](auto& what) { visit_fields(what, writer); }, copy.what);
    return json;
}

std::vector<std::pair<std::string, std::string>> flat_fields(const DiaryEntry& entry) {
    std::vector<std::pair<std::string, std::string>> out;
    const auto text = [](const Json& value) {
        return value.is_string() ? value.get<std::string>() : value.dump();
    };
    const Json json = json_of(entry);
    for (const auto& [key, value] : json.items()) {
        if (value.is_object()) { // symptoms
            for (const auto& [name, mark] : value.items())
                out.emplace_back(key.substr(0, key.find('_')) + "_" + name, text(mark));
        } else if (value.is_array()) { // legs of a race
            for (const auto& leg : value) {
                const auto sport = leg.at("sport").get<std::string>();
                for (const char* name : {"distance_m", "time_s", "planned_s"})
                    out.emplace_back(sport + "_" + name, text(leg.at(name)));
            }
        } else {
            out.emplace_back(key, text(value));
        }
    }
    return out;
}

} // namespace tuck::io
