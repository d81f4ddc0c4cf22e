// A coach's table, and what a packet was taken to say.
#include "say/sentence_tables.hpp"

namespace tuck::say {

namespace {

constexpr Pair squad_pairs[] = {
    // Risks of a race, in a list
    {"refused", "abgelehnt"},
    {"much more drunk than sweated", "viel mehr getrunken als geschwitzt"},
    {"heat: do not race", "Hitze: nicht starten"},
    {"heat: races are cancelled", "Hitze: Rennen werden abgesagt"},
    {"heat: high risk", "Hitze: hohes Risiko"},
    {"not enough to finish on", "zu wenig, um anzukommen"},
    {"long day: over-drinking", "langer Tag: zu viel trinken"},
    {"low sodium by drinking", "wenig Natrium durch Trinken"},
    {"low sodium by salty sweat", "wenig Natrium durch salzigen Schweiß"},
    {"water loss", "Wasserverlust"},
    {"stores run empty", "Speicher werden leer"},
    {"near the border of 75 min", "nahe der Grenze von 75 min"},
    {"hands none: drinks and eats standing only", "ohne Hände: trinkt und isst nur im Stehen"},
    {"sweat test", "Schweißtest"},
    {"rehearsal", "Probe"},
    {"level or result", "Niveau oder Ergebnis"},

    // A food from its packet
    {"NO ALLERGENS given: counted as free of all 14 groups; read the packet and add them with --allergen",
     "KEINE ALLERGENE genannt: gilt als frei von allen 14 Gruppen; lies die Packung und trag sie nach"},
    {"a gel is taken with water (an isotonic gel: --needs-water no)", "ein Gel wird mit Wasser genommen"},
    {"used for: {} (else --fits)", "gedacht für: {}"},
    {"{} weigh {}: water with the sugar dissolved in it", "{} wiegen {}: Wasser mit gelöstem Zucker"},
    {"{} kJ taken as {} kcal (4.184 kJ each)", "{} kJ als {} kcal genommen (je 4.184 kJ)"},
    {"no fibre on the label: counted as 0 g", "keine Ballaststoffe auf der Packung: gelten als 0 g"},
    {"no caffeine given: counted as 0 mg; a packet with caffeine says so",
     "kein Koffein genannt: gilt als 0 mg; eine Packung mit Koffein sagt es"},
    {"sugars counted as {}, all of the carbohydrate: the label is rounded",
     "Zucker als {} genommen, alle Kohlenhydrate: die Packung ist gerundet"},
    {"{} salt is {} sodium (salt = sodium x 2.5)", "{} Salz sind {} Natrium (Salz = Natrium x 2.5)"},
    {"everything that is not fructose counted as glucose", "alles, was nicht Fruktose ist, gilt als Glukose"},
    {"sugars counted half as fructose, the rest of the carbohydrate as glucose: an estimate, 25 % either way",
     "Zucker gilt halb als Fruktose, die übrigen Kohlenhydrate als Glukose: geschätzt, auf 25 % genau"},
    {"what is left of the serving counted as water: {}", "der Rest der Portion gilt als Wasser: {}"},
    {"bike, run", "Rad, Lauf"},
    {"bike, before", "Rad, vorher"},
    {"before, after", "vorher, nachher"},
};

} // namespace

std::span<const Pair> sentences_of_squads() {
    return squad_pairs;
}

} // namespace tuck::say
