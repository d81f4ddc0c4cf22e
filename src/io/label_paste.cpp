#include "io/label_paste.hpp"

#include "io/fault.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <string_view>

namespace tuck::io {

namespace {

struct Word {
    std::string_view text;   // small letters
    std::string_view option; // empty: an amount that no food needs
};

// The mandatory particulars of EU 1169/2011 (Annex XV) in five of its languages, and those of 21 CFR 101.9. A
// word stands before its beginning: "saturated fat" before "saturated".
constexpr Word words[] = {{"total carbohydrates", "--carbohydrate"},
                          {"total carbohydrate", "--carbohydrate"},
                          {"total carb.", "--carbohydrate"},
                          {"carbohydrates", "--carbohydrate"},
                          {"carbohydrate", "--carbohydrate"},
                          {"kohlenhydrate", "--carbohydrate"},
                          {"glucides", "--carbohydrate"},
                          {"hidratos de carbono", "--carbohydrate"},
                          {"carboidrati", "--carbohydrate"},
                          {"includes", ""},
                          {"added sugars", ""},
                          {"total sugars", "--sugars"},
                          {"of which sugars", "--sugars"},
                          {"sugar alcohol", ""},
                          {"sugars", "--sugars"},
                          {"davon zucker", "--sugars"},
                          {"zucker", "--sugars"},
                          {"dont sucres", "--sugars"},
                          {"sucres", "--sugars"},
                          {"azúcares", "--sugars"},
                          {"azucares", "--sugars"},
                          {"zuccheri", "--sugars"},
                          {"saturated fat", ""},
                          {"saturates", ""},
                          {"saturated", ""},
                          {"trans fat", ""},
                          {"polyunsaturated fat", ""},
                          {"monounsaturated fat", ""},
                          {"polyunsaturates", ""},
                          {"monounsaturates", ""},
                          {"calories from fat", ""},
                          {"gesättigte fettsäuren", ""},
                          {"fettsäuren", ""},
                          {"acides gras saturés", ""},
                          {"ácidos grasos saturados", ""},
                          {"saturadas", ""},
                          {"acidi grassi saturi", ""},
                          {"total fat", "--fat"},
                          {"fat", "--fat"},
                          {"fett", "--fat"},
                          {"matières grasses", "--fat"},
                          {"graisses", "--fat"},
                          {"grasas", "--fat"},
                          {"grassi", "--fat"},
                          {"dietary fiber", "--fibre"},
                          {"dietary fibre", "--fibre"},
                          {"fibre", "--fibre"},
                          {"fiber", "--fibre"},
                          {"ballaststoffe", "--fibre"},
                          {"fibres alimentaires", "--fibre"},
                          {"fibra alimentaria", "--fibre"},
                          {"fibre alimentari", "--fibre"},
                          {"fibra", "--fibre"},
                          {"protein", "--protein"},
                          {"eiweiß", "--protein"},
                          {"eiweiss", "--protein"},
                          {"protéines", "--protein"},
                          {"proteínas", "--protein"},
                          {"proteine", "--protein"},
                          {"salt", "--salt"},
                          {"salz", "--salt"},
                          {"sel", "--salt"},
                          {"sal", "--salt"},
                          {"sale", "--salt"},
                          {"sodium", "--sodium"},
                          {"natrium", "--sodium"},
                          {"sodio", "--sodium"},
                          {"caffeine", "--caffeine"},
                          {"koffein", "--caffeine"},
                          {"caféine", "--caffeine"},
                          {"cafeína", "--caffeine"},
                          {"caffeina", "--caffeine"},
                          {"fructose", "--fructose"},
                          {"fruktose", "--fructose"},
                          {"energy", "--energy"},
                          {"brennwert", "--energy"},
                          {"energie", "--energy"},
                          {"énergie", "--energy"},
                          {"energía", "--energy"},
                          {"energia", "--energy"},
                          {"valore energetico", "--energy"},
                          {"valor energético", "--energy"},
                          {"calories", "--energy"},
                          {"polyols", ""},
                          {"cholesterol", ""},
                          {"potassium", ""}};

constexpr std::string_view serving_words[] = {"serving", "portion", "porción", "porzione", "packet",
                                              "sachet",  "stick",   "dose",    "riegel"};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80;
}

/// Small letters; a comma between digits is a point, or nothing where it parts thousands of kJ.
std::string plain(const std::string& given) {
    std::string text;
    for (const char c : given)
        text += static_cast<unsigned char>(c) < 0x80
                    ? static_cast<char>(std::tolower(static_cast<unsigned char>(c)))
                    : c;
    const std::pair<std::string_view, std::string_view> small[] = {
        {"É", "é"}, {"È", "è"}, {"Ä", "ä"}, {"Ö", "ö"},      {"Ü", "ü"},     {"Í", "í"},
        {"Ú", "ú"}, {"Á", "á"}, {"Ó", "ó"}, {"\u00a0", " "}, {"\u202f", " "}};
    for (const auto& [from, to] : small)
        for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
            text.replace(at, from.size(), to);
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
        if (text[i] != ',' || !is_digit(text[i - 1]) || !is_digit(text[i + 1]))
            continue;
        auto end = i + 1;
        while (end < text.size() && is_digit(text[end]))
            ++end;
        const auto unit = text.find_first_not_of(' ', end);
        const bool thousands = end - i == 4 && unit != std::string::npos && text.compare(unit, 2, "kj") == 0;
        if (thousands)
            text.erase(i, 1);
        else
            text[i] = '.';
    }
    return text;
}

struct Amount {
    std::string number, unit;
};

/// The next number with a unit that amounts have, from `at`; `at` then stands behind it.
bool next_amount(std::string_view text, std::size_t& at, Amount& out) {
    static constexpr std::string_view units[] = {"kcal", "kj", "mg", "ml", "g", "cal"};
    for (; at < text.size(); ++at) {
        // An O that a camera took for a zero.
        const bool zero = text[at] == 'o' && (at == 0 || text[at - 1] == ' ') && at + 1 < text.size() &&
                          (text[at + 1] == ' ' || text[at + 1] == 'g' || text[at + 1] == 'm');
        if (!zero && (!is_digit(text[at]) || (at > 0 && (is_letter(text[at - 1]) || text[at - 1] == '.'))))
            continue;
        auto end = at;
        while (end < text.size() && (is_digit(text[end]) || text[end] == '.' || (zero && end == at)))
            ++end;
        auto from = end;
        while (from < text.size() && text[from] == ' ')
            ++from;
        for (const auto unit : units) {
            const auto after = from + unit.size();
            if (text.compare(from, unit.size(), unit) != 0 || (after < text.size() && is_letter(text[after])))
                continue;
            out = {zero ? "0" : std::string(text.substr(at, end - at)), std::string(unit)};
            if (out.number.back() == '.')
                out.number.pop_back();
            at = after;
            return true;
        }
        at = end;
    }
    return false;
}

/// What stands in a label's text: the word and where.
struct Found {
    std::string_view option;
    std::size_t begin, end;
};

std::vector<Found> words_in(const std::string& text) {
    std::vector<Found> found;
    for (std::size_t at = 0; at < text.size();) {
        const bool begins = at == 0 || !is_letter(text[at - 1]);
        const Word* word = nullptr;
        for (const auto& each : words) {
            const auto end = at + each.text.size();
            const bool ends = end >= text.size() || !is_letter(text[end]);
            if (begins && ends && text.compare(at, each.text.size(), each.text) == 0 &&
                (!word || each.text.size() > word->text.size()))
                word = &each;
        }
        if (word)
            found.push_back({word->option, at, at + word->text.size()});
        at += word ? word->text.size() : 1;
    }
    return found;
}

bool of_energy(const Amount& amount) {
    return amount.unit == "kcal" || amount.unit == "kj" || amount.unit == "cal";
}

/// The first amount of a stretch that can be what the word says; of an energy kcal before kJ.
std::string amount_of(std::string_view option, std::string_view stretch, bool us) {
    Amount amount;
    std::string first;
    for (std::size_t at = 0; next_amount(stretch, at, amount);) {
        if (of_energy(amount) != (option == "--energy") || amount.unit == "ml")
            continue;
        auto text = amount.number + (amount.unit == "kj"    ? "kJ"
                                     : amount.unit == "cal" ? "kcal"
                                                            : amount.unit);
        if (option != "--energy" || amount.unit != "kj")
            return text;
        first = first.empty() ? text : first;
    }
    if (first.empty() && us && option == "--energy") { // "Calories 100"
        const auto digit = stretch.find_first_of("0123456789");
        if (digit != std::string_view::npos)
            first =
                std::string(stretch.substr(digit, stretch.find_first_not_of("0123456789.", digit) - digit)) +
                "kcal";
    }
    return first;
}

/// "Serving size 1 packet (32 g)", "per portion (40 g)": the first amount of a mass or volume behind the
/// word.
std::string serving_of(const std::string& text) {
    for (const auto word : serving_words)
        for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
            const auto line_end = std::min(text.find('\n', at), text.size());
            const std::string_view line(text.data() + at, std::min<std::size_t>(line_end - at, 40));
            Amount amount;
            std::size_t from = 0;
            if (next_amount(line, from, amount) && (amount.unit == "g" || amount.unit == "ml"))
                return amount.number + amount.unit;
        }
    return {};
}

std::size_t place_of(const std::string& text, std::initializer_list<std::string_view> any) {
    auto first = std::string::npos;
    for (const auto word : any)
        first = std::min(first, text.find(word));
    return first;
}

bool contains(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

} // namespace

PastedLabel read_pasted_label(const std::string& given, const std::string& name) {
    const auto text = plain(given);
    PastedLabel out;
    const bool us =
        contains(text, "nutrition facts") || contains(text, "total carb") || contains(text, "dietary fiber");
    out.style = us ? LabelStyle::us : LabelStyle::eu;
    const auto found = words_in(text);
    for (std::size_t i = 0; i < found.size(); ++i) {
        if (found[i].option.empty())
            continue;
        const auto end = i + 1 < found.size() ? found[i + 1].begin : text.size();
        const std::string option(found[i].option);
        const auto amount =
            amount_of(option, std::string_view(text).substr(found[i].end, end - found[i].end), us);
        if (!amount.empty())
            out.amounts.emplace(option, amount); // the first of two stands
    }
    if (out.amounts.empty())
        throw InputError(name, "", "no amount of a label was found in it; lines such as: Carbohydrate 60 g");
    if (out.amounts.count("--salt") && out.amounts.count("--sodium"))
        out.amounts.erase(us ? "--salt" : "--sodium");
    if (const auto serving = serving_of(text); !serving.empty())
        out.amounts.emplace("--serving", serving);
    const auto by_100_ml = place_of(text, {"100 ml", "100ml"}), by_100_g = place_of(text, {"100 g", "100g"}),
               by_serving = place_of(text, {"per serving", "per portion", "pro portion", "par portion",
                                            "por porción", "per porzione", "serving size"});
    const auto first = std::min({by_100_ml, by_100_g, by_serving});
    out.per = us || first == by_serving ? LabelPer::serving
              : first == by_100_ml      ? LabelPer::hundred_ml
                                        : LabelPer::hundred_g;
    if (!us && first == std::string::npos) {
        out.per = LabelPer::hundred_g;
        out.notes.push_back(
            "the text does not say for how much it is: per 100 g, as EU labels are (else --per)");
    }
    if (contains(text, "<") || contains(text, "less than"))
        out.notes.push_back("\"less than\" is counted as the amount itself");
    return out;
}

} // namespace tuck::io
