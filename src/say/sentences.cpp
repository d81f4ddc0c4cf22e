#include "say/sentences.hpp"

#include "say/sentence_tables.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace tuck::say {

namespace {

constexpr std::string_view open_place = "{}";

/// What stands in the places of `pattern`, each as short as it can be; nothing where the sentence is another
/// one.
std::optional<std::vector<std::string_view>> places_in(std::string_view pattern, std::string_view sentence) {
    std::vector<std::string_view> out;
    auto next = pattern.find(open_place);
    if (sentence.substr(0, next) != pattern.substr(0, next) && next != std::string_view::npos)
        return std::nullopt;
    if (next == std::string_view::npos)
        return pattern == sentence ? std::optional(out) : std::nullopt;
    sentence.remove_prefix(next);
    while (next != std::string_view::npos) {
        pattern.remove_prefix(next + open_place.size());
        next = pattern.find(open_place);
        const auto after = pattern.substr(0, next);
        const auto end = next == std::string_view::npos
                             ? (sentence.ends_with(after) ? sentence.size() - after.size() : sentence.npos)
                             : sentence.find(after);
        if (end == std::string_view::npos || end > sentence.size())
            return std::nullopt;
        out.push_back(sentence.substr(0, end));
        sentence.remove_prefix(end + after.size());
    }
    return out;
}

std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

std::string part_in_german(std::string_view part);

/// The German of a pair. What stands in quotes was typed, or is a name: it stays.
std::string with_parts(const Pair& pair, const std::vector<std::string_view>& filling) {
    std::string out;
    std::string_view rest = pair.german;
    for (const auto part : filling) {
        const auto at = rest.find(open_place);
        out += rest.substr(0, at);
        const bool quoted = !out.empty() && (out.back() == '"' || out.back() == '\'');
        out += quoted ? std::string(part) : part_in_german(part);
        rest.remove_prefix(at + open_place.size());
    }
    return out + std::string(rest);
}

std::optional<std::string> in_german(std::string_view sentence) {
    for (const auto table : {sentences_of_plans(), sentences_of_the_diary(), sentences_of_squads(),
                             sentences_of_faults(), names_of_foods()})
        for (const Pair& pair : table)
            if (const auto filling = places_in(pair.english, sentence))
                return with_parts(pair, *filling);
    return std::nullopt;
}

/// What filled a place: known words, several of them, or amounts.
std::string part_in_german(std::string_view part) {
    for (const std::string_view mark : {";", "),"}) {
        const auto at = part.find(std::string(mark) + " ");
        if (at == std::string_view::npos)
            continue;
        const auto head = part.substr(0, at + mark.size() - 1), tail = part.substr(at + mark.size() + 1);
        return part_in_german(head) + mark.back() + " " + part_in_german(tail);
    }
    if (auto known = in_german(part))
        return *known;
    std::string out(part);
    for (const auto& [english, german] : {std::pair{" to ", " bis "}, {" and ", " und "}, {" or ", " oder "}})
        out = replaced(out, english, german);
    return out;
}

/// "\"7o\": give a unit": what was typed stands in front.
std::string_view typed_in_front(std::string_view what) {
    const auto end = what.starts_with('"') ? what.find("\": ", 1) : std::string_view::npos;
    return end == std::string_view::npos ? std::string_view() : what.substr(0, end + 3);
}

std::optional<std::string> fault_in_german(const Fault& fault) {
    std::string_view what = fault.what;
    std::string out;
    auto known = in_german(what);
    if (!known) {
        const auto typed = typed_in_front(what);
        out = typed;
        what.remove_prefix(typed.size());
        known = in_german(what);
    }
    if (!known)
        return std::nullopt;
    out += *known;
    if (!fault.nearest.empty())
        return out + "; gemeint vielleicht \"" + fault.nearest + "\"?";
    return fault.allowed.empty() ? out : out + "; erlaubt: " + part_in_german(fault.allowed);
}

} // namespace

Told told(const std::string& sentence, Language language) {
    if (language == Language::german)
        if (auto german = in_german(sentence))
            return {*german, Language::german};
    return {sentence, sentence.empty() ? language : Language::english};
}

Told told_each(const std::string& sentences, Language language) {
    Told out{"", language};
    for (std::size_t at = 0; at < sentences.size();) {
        const auto end = std::min(sentences.find("; ", at), sentences.size());
        const auto one = told(sentences.substr(at, end - at), language);
        out.text += (out.text.empty() ? "" : "; ") + one.text;
        if (one.language != language)
            return {sentences, Language::english};
        at = end + 2;
    }
    return out;
}

Told told_fault(const Fault& fault, Language language) {
    if (language == Language::german)
        if (auto german = fault_in_german(fault))
            return {*german, Language::german};
    return {words_of(fault), Language::english};
}

} // namespace tuck::say
