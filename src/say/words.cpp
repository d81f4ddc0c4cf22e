#include "say/words.hpp"

#include "say/plan_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

namespace tuck::say {

namespace {

std::string as_it_is(const std::string& word) {
    return word;
}

std::string english_ordinal(int number) {
    return number == 2 ? "2nd" : number == 3 ? "3rd" : fmt::format("{}th", number);
}

std::string english_amount(double amount, const std::string& of) {
    if (amount == 0.5)
        return "1/2 " + of;
    if (amount == 1)
        return of == "swallow" || of == "cup" ? "1 " + of : of;
    return fmt::format("{:g} {}s", amount, of);
}

/// "a gel", "half an iso gel", "2 gels"
std::string english_spoken(double amount, const std::string& of) {
    const bool vowel = !of.empty() && std::string("aeiou").find(of[0]) != std::string::npos;
    const std::string one = (vowel ? "an " : "a ") + of;
    return amount == 0.5 ? "half " + one : amount == 1 ? one : english_amount(amount, of);
}

std::string english_logged(double amount, const std::string& of) {
    return (amount == 0.5 ? "half a" : fmt::format("{:g}", amount)) + " " + of;
}

constexpr Words english{
    .every = "every {:.0f}'",
    .every_plain = "every {:.0f} min",
    .each_station = "each station",
    .nth_station = "every {} station",
    .at_moments = "at {}",
    .at_station = "at {}",
    .mile = "mile ",
    .from = "from {}",
    .to = "to {}",
    .in_t1 = "in T1",
    .in_t2 = "in T2",
    .then = " then ",
    .drink_of = "{} of {}",
    .stop = "stop 20 s, at a station or where it is safe",
    .replaced = "not at {}: another takes its place",
    .left_out = "not at {}: hands stay on the bar",
    .before_stretch = "{} before the {} at km {:.0f}",
    .after_stretch = "{} after the {} at km {:.0f}",
    .last_and = " and ",
    .bottle_of = "a bottle of {}",
    .bottles_of = "{} bottles of {}",
    .nothing_to_carry = "Nothing to carry.",
    .carry = "Carry {}.",
    .on_bike = "on the bike: {}",
    .on_run = "on the run: {}",
    .on_swim = "on the swim: {}",
    .at_t1 = "in T1: {}",
    .at_t2 = "in T2: {}",
    .run_thirst = "on the run: water if you are thirsty",
    .run_nothing = "Nothing needed. A cup of water if you are thirsty.",
    .run_no_station = "Nothing is carried here, and no station is known.",
    .iso =
        "Iso drink: any sports drink powder that you know, about 6 g of carbohydrate in 100 ml, with salt. A "
        "ready sports drink does as well.",
    .ill = "If you feel ill: stop, and find a marshal or medic.",
    .missed =
        "Missed one: skip it, never double; bad stomach: ease off, small sips; drink to thirst, never more "
        "than this.",
    .no_food = "You need no food on the way.",
    .carry_water = "Carry a bottle of water; drink when you are thirsty, and no more.",
    .thirst_only = "Drink when you are thirsty, before and after.",
    .no_amounts = "This plan gives no amounts: ask your doctor or clinic what to eat and drink.",
    .thirst = "Drink when you are thirsty.",
    .ordinal = english_ordinal,
    .amount = english_amount,
    .spoken = english_spoken,
    .logged = english_logged,
    .noun = as_it_is,
    .stretch = as_it_is,
    .leg_name = faces::leg_name,
};

struct Noun {
    const char *label, *one, *many;
};

/// Units, and the pantry's labels. What is counted by its packet has one form.
constexpr Noun german_nouns[] = {
    {"swallow", "Schluck", "Schlucke"},
    {"cup", "Becher", "Becher"},
    {"bottle", "Flasche", "Flaschen"},
    {"flask", "Flasche", "Flaschen"},
    {"3 dates", "3 Datteln", "× 3 Datteln"},
    {"ORS", "Elektrolytlösung", "Elektrolytlösungen"},
    {"apple j.", "Apfelsaft", "Apfelsaft"},
    {"apricots", "Aprikosen", "Aprikosen"},
    {"banana", "Banane", "Bananen"},
    {"bar", "Riegel", "Riegel"},
    {"beans", "Geleebohnen", "Geleebohnen"},
    {"broth", "Brühe", "Brühe"},
    {"caf gel", "Koffein-Gel", "Koffein-Gels"},
    {"caffeine", "Koffeintablette", "Koffeintabletten"},
    {"carb drink", "Kohlenhydratgetränk", "Kohlenhydratgetränk"},
    {"cereal bar", "Müsliriegel", "Müsliriegel"},
    {"chew", "Kaubonbon", "Kaubonbons"},
    {"choc milk", "Kakao", "Kakao"},
    {"chocolate", "Schokolade", "Schokolade"},
    {"coffee", "Kaffee", "Kaffee"},
    {"cola", "Cola", "Cola"},
    {"crackers", "Cracker", "Cracker"},
    {"dark choc", "dunkle Schokolade", "dunkle Schokolade"},
    {"date", "Dattel", "Datteln"},
    {"dual gel", "Dual-Gel", "Dual-Gels"},
    {"energy dr.", "Energiegetränk", "Energiegetränk"},
    {"espresso", "Espresso", "Espressi"},
    {"fig bisc.", "Feigenkeks", "Feigenkekse"},
    {"fizz tab", "Brausetablette", "Brausetabletten"},
    {"fructose", "Fruktose", "Fruktose"},
    {"gel", "Gel", "Gels"},
    {"gingerbr.", "Lebkuchen", "Lebkuchen"},
    {"glucose", "Traubenzucker", "Traubenzucker"},
    {"grapes", "Trauben", "Trauben"},
    {"home 9 %", "Eigenmischung 9 %", "Eigenmischung 9 %"},
    {"home drink", "Eigenmischung", "Eigenmischung"},
    {"honey", "Honig", "Honig"},
    {"honey sw.", "Honigbrot", "Honigbrote"},
    {"iso drink", "Iso-Getränk", "Iso-Getränk"},
    {"iso gel", "Iso-Gel", "Iso-Gels"},
    {"jellies", "Fruchtgummi", "Fruchtgummi"},
    {"large gel", "großes Gel", "große Gels"},
    {"malto", "Maltodextrin", "Maltodextrin"},
    {"malto 9 %", "Malto 9 %", "Malto 9 %"},
    {"marshmall.", "Marshmallows", "Marshmallows"},
    {"melon", "Melone", "Melone"},
    {"milk", "Milch", "Milch"},
    {"oat bar", "Haferriegel", "Haferriegel"},
    {"orange", "Orange", "Orangen"},
    {"orange j.", "Orangensaft", "Orangensaft"},
    {"pasta", "Nudeln", "Nudeln"},
    {"porridge", "Haferbrei", "Haferbrei"},
    {"potato", "Kartoffel", "Kartoffeln"},
    {"pretzels", "Salzbrezeln", "Salzbrezeln"},
    {"puree", "Fruchtmus", "Fruchtmus"},
    {"raisins", "Rosinen", "Rosinen"},
    {"rice", "Reis", "Reis"},
    {"rice cake", "Reiskuchen", "Reiskuchen"},
    {"salt", "Salz", "Salz"},
    {"salt cap", "Salzkapsel", "Salzkapseln"},
    {"salt tab", "Salztablette", "Salztabletten"},
    {"sandwich", "Marmeladenbrot", "Marmeladenbrote"},
    {"sugar", "Zucker", "Zucker"},
    {"syrup", "Sirup", "Sirup"},
    {"tea", "Tee", "Tee"},
    {"water", "Wasser", "Wasser"},
    {"watermelon", "Wassermelone", "Wassermelone"},
    {"yoghurt", "Joghurt", "Joghurts"},
};

std::string german_word(const std::string& label, bool many) {
    const auto known = std::find_if(std::begin(german_nouns), std::end(german_nouns),
                                    [&](const Noun& noun) { return label == noun.label; });
    return known == std::end(german_nouns) ? label : many ? known->many : known->one;
}

std::string german_noun(const std::string& label) {
    return german_word(label, false);
}

std::string german_ordinal(int number) {
    return fmt::format("{}.", number);
}

/// "1/2 Riegel", "1 Gel", "3 Schlucke"; a digit needs no gender.
std::string german_amount(double amount, const std::string& of) {
    return (amount == 0.5 ? "1/2" : fmt::format("{:g}", amount)) + " " + german_word(of, amount > 1);
}

/// Of what keeps both hands on the bar, in the dative; a place may have several reasons.
std::string german_stretch(const std::string& name) {
    constexpr std::pair<std::string_view, const char*> known[] = {
        {"steep climb", "dem steilen Anstieg"},
        {"fast descent", "der schnellen Abfahrt"},
        {"strong crosswind", "dem starken Seitenwind"},
        {"sharp bend", "der scharfen Kurve"},
        {"steep slope", "dem steilen Hang"}};
    for (const auto& [english_name, german_name] : known)
        if (name.starts_with(english_name))
            return german_name;
    return "der schwierigen Stelle";
}

std::string german_leg(LegKind leg) {
    return leg == LegKind::swim   ? "Schwimmen"
           : leg == LegKind::bike ? "Rad"
           : leg == LegKind::run  ? "Laufen"
                                  : faces::leg_name(leg);
}

constexpr Words german{
    .every = "alle {:.0f}'",
    .every_plain = "alle {:.0f} min",
    .each_station = "an jeder Station",
    .nth_station = "an jeder {} Station",
    .at_moments = "bei {}",
    .at_station = "{}",
    .mile = "Meile ",
    .from = "ab {}",
    .to = "bis {}",
    .in_t1 = "in T1",
    .in_t2 = "in T2",
    .then = ", dann ",
    .drink_of = "{} {}",
    .stop = "20 s anhalten, an einer Station oder wo es sicher ist",
    .replaced = "nicht bei {}: dort kommt etwas anderes",
    .left_out = "nicht bei {}: die Hände bleiben am Lenker",
    .before_stretch = "{} vor {} bei km {:.0f}",
    .after_stretch = "{} nach {} bei km {:.0f}",
    .last_and = " und ",
    .bottle_of = "1 Flasche {}",
    .bottles_of = "{} Flaschen {}",
    .nothing_to_carry = "Nichts mitzunehmen.",
    .carry = "Nimm mit: {}.",
    .on_bike = "auf dem Rad: {}",
    .on_run = "beim Laufen: {}",
    .on_swim = "beim Schwimmen: {}",
    .at_t1 = "in T1: {}",
    .at_t2 = "in T2: {}",
    .run_thirst = "beim Laufen: Wasser, wenn du Durst hast",
    .run_nothing = "Nichts nötig. Ein Becher Wasser, wenn du Durst hast.",
    .run_no_station = "Hier ist nichts dabei, und keine Station ist bekannt.",
    .iso =
        "Iso-Getränk: ein Sportgetränkpulver, das du kennst, etwa 6 g Kohlenhydrate in 100 ml, mit Salz. Ein "
        "fertiges Sportgetränk geht auch.",
    .ill = "Wenn dir schlecht wird: anhalten und zu Streckenposten oder Sanitätern gehen.",
    .missed =
        "Etwas verpasst: auslassen, nie verdoppeln; Magen schlecht: langsamer, kleine Schlucke; nach Durst "
        "trinken, nie mehr als hier steht.",
    .no_food = "Unterwegs brauchst du nichts zu essen.",
    .carry_water = "Nimm eine Flasche Wasser mit; trink, wenn du Durst hast, und nicht mehr.",
    .thirst_only = "Trink, wenn du Durst hast, vorher und nachher.",
    .no_amounts =
        "Dieser Plan nennt keine Mengen: frag Ärztin, Arzt oder Klinik, was du essen und trinken sollst.",
    .thirst = "Trink, wenn du Durst hast.",
    .ordinal = german_ordinal,
    .amount = german_amount,
    .spoken = german_amount,
    .logged = german_amount,
    .noun = german_noun,
    .stretch = german_stretch,
    .leg_name = german_leg,
};

} // namespace

const Words& words(Language language) {
    return language == Language::german ? german : english;
}

} // namespace tuck::say
