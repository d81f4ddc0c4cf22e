// What a plan says: cautions, warnings, guesses, how sure it is, what was not reached.
#include "say/sentence_tables.hpp"

namespace tuck::say {

namespace {

constexpr Pair plan_pairs[] = {
    // Cautions and what to do if it goes wrong
    {"STOP if confused, staggering, vomiting, headache getting worse or hands swelling: find a marshal or "
     "medic. Do not force drink.",
     "STOPP bei Verwirrung, Taumeln, Erbrechen, stärker werdendem Kopfschmerz oder schwellenden Händen: zu "
     "Streckenposten oder Sanitätern. Nicht zum Trinken zwingen."},
    {"This is arithmetic on published averages, not medical advice.",
     "Das ist Rechnen mit veröffentlichten Mittelwerten, kein ärztlicher Rat."},
    {"Ask a doctor or sports dietitian first with diabetes, kidney or heart disease, high blood pressure, "
     "pregnancy, a past eating disorder, regular medicine, or under 18.",
     "Frag vorher ärztlich oder ernährungsfachlich nach: bei Diabetes, Nieren- oder Herzkrankheit, hohem "
     "Blutdruck, Schwangerschaft, früherer Essstörung, regelmäßigen Medikamenten oder unter 18."},
    {"Heat illness: confused, staggering, hot, no longer sweating. Cool first with water and ice, call a "
     "medic.",
     "Hitzeerkrankung: verwirrt, taumelnd, heiß, kein Schweiß mehr. Zuerst kühlen, mit Wasser und Eis; "
     "Sanitäter rufen."},
    {"Low blood sodium: bloated, headache, vomiting, swollen hands, confusion after much drinking. No more "
     "drink, call a medic; salt and more water do not cure it.",
     "Zu wenig Natrium im Blut: aufgebläht, Kopfschmerz, Erbrechen, geschwollene Hände, Verwirrung nach viel "
     "Trinken. Nichts mehr trinken, Sanitäter rufen; Salz und noch mehr Wasser heilen es nicht."},
    {"No painkillers (NSAIDs) before or during the race.",
     "Keine Schmerzmittel (NSAR) vor oder während des Rennens."},
    {"Nothing new on race day: every food, bottle and rate first in training.",
     "Nichts Neues am Wettkampftag: jedes Essen, jede Flasche, jede Menge zuerst im Training."},
    {"The event's rules and its medical staff come before this plan; help from outside is against the rules.",
     "Die Regeln des Veranstalters und seine Sanitäter gehen diesem Plan vor; Hilfe von außen ist gegen die "
     "Regeln."},
    {"Missed a feed", "Portion verpasst"},
    {"Bad stomach", "Magen schlecht"},
    {"Too hot", "Zu heiß"},
    {"Lost a bottle", "Flasche verloren"},
    {"Still out after {}", "Nach {} noch unterwegs"},
    {"Skip it. Next one on time. Never double.", "Auslassen. Die nächste zur Zeit. Nie verdoppeln."},
    {"Ease off {} min, no gel, small sips if thirsty. Restart at half.",
     "{} min langsamer, kein Gel, kleine Schlucke bei Durst. Dann mit der Hälfte weiter."},
    {"Ease off {} min, no gel, small sips if thirsty.",
     "{} min langsamer, kein Gel, kleine Schlucke bei Durst."},
    {"Slow down. Water on head and arms. Drink to thirst, within the plan.",
     "Langsamer. Wasser auf Kopf und Arme. Nach Durst trinken, im Rahmen des Plans."},
    {"No station on the bike: ease off, sip what is left. No gel without water. Do not chase the grams.",
     "Keine Station auf dem Rad: langsamer, den Rest in kleinen Schlucken. Kein Gel ohne Wasser. Den Gramm "
     "nicht hinterherjagen."},
    {"Water at the next station and one gel. Do not chase the grams.",
     "Wasser an der nächsten Station und ein Gel. Den Gramm nicht hinterherjagen."},
    {"Water at the next station. Eat on as planned. Do not chase the grams.",
     "Wasser an der nächsten Station. Weiter essen wie geplant. Den Gramm nicht hinterherjagen."},
    {"One gel with water, if you carry one.", "Ein Gel mit Wasser, wenn du eins dabeihast."},
    // The same in the brief words of a low card.
    {"Ease off {} min, no gel, sips. Then half.", "{} min langsamer, kein Gel, nippen. Dann die Hälfte."},
    {"Slow down, water on head and arms.", "Langsamer, Wasser auf Kopf und Arme."},
    {"Sip what is left. No gel without water.", "Den Rest in Schlucken. Kein Gel ohne Wasser."},
    {"Water at the next station, one gel.", "Wasser an der nächsten Station, ein Gel."},
    {"Water at the next station. Eat on.", "Wasser an der nächsten Station. Weiter essen."},
    {"Confused, vomiting, staggering, worse headache, swollen hands: find a marshal or medic. Do not force "
     "drink.",
     "Verwirrt, Erbrechen, Taumeln, stärkeres Kopfweh, dicke Hände: zu Streckenposten oder Sanitäter. Nicht "
     "zum Trinken zwingen."},
    {"Ill: marshal or medic.", "Krank: Streckenposten oder Sanitäter."},

    // Warnings
    {"On {} you lose over 4 % of body mass in water. Start slower, cool yourself, use nearer stations; drink "
     "within the plan.",
     "An {} verlierst du mehr als 4 % der Körpermasse an Wasser. Langsamer anfangen, kühlen, nähere "
     "Stationen nutzen; trinken wie im Plan."},
    {"On {} the stores run empty before the finish (the estimate is wide). Ride easier, eat well the days "
     "before, and rehearse a higher rate.",
     "An {} sind die Speicher vor dem Ziel leer (die Schätzung ist grob). Ruhiger fahren, an den Tagen "
     "vorher gut essen und eine höhere Menge üben."},
    {"On {} blood sodium falls low by salty sweat over many hours. Slow down, drink to thirst and no more, "
     "and have sweat sodium tested.",
     "An {} fällt das Natrium im Blut durch salzigen Schweiß über viele Stunden. Langsamer, nach Durst "
     "trinken und nicht mehr, und den Schweiß auf Natrium testen lassen."},
    {"On {} the stomach is overfull: smaller doses, a lower rate, rehearse first.",
     "An {} ist der Magen übervoll: kleinere Portionen, weniger je Stunde, vorher üben."},
    {"On {} drinking would make blood sodium low. Drink less, to thirst; no more salt, never another bottle.",
     "An {} würde das Trinken das Natrium im Blut senken. Weniger trinken, nach Durst; nicht mehr Salz, nie "
     "noch eine Flasche."},
    {"Over four hours{}: drinking more than you sweat is the dangerous mistake. Drink to thirst, never "
     "beyond the plan, and never so that you weigh more at the finish.",
     "Über vier Stunden{}: mehr zu trinken, als du schwitzt, ist der gefährliche Fehler. Trink nach Durst, "
     "nie über den Plan hinaus und nie so, dass du im Ziel mehr wiegst."},
    {" on a slow day", " an einem langsamen Tag"},
    {" and a light body", " und ein leichter Körper"},
    {" on a slow day and a light body", " an einem langsamen Tag, und ein leichter Körper"},
    {"Heat: WBGT near {} ({} or more; {}). High risk: who is not used to heat, or was ever ill with it, "
     "should not start; everybody else starts slower, cools with water on head and arms, and stops at the "
     "first sign of heat illness. The organiser decides.",
     "Hitze: WBGT um {} ({} oder mehr; {}). Hohes Risiko: wer Hitze nicht gewohnt ist oder je daran erkrankt "
     "war, soll nicht starten; alle anderen fangen langsamer an, kühlen mit Wasser auf Kopf und Armen und "
     "hören beim ersten Zeichen einer Hitzeerkrankung auf. Der Veranstalter entscheidet."},
    {"Heat: WBGT near {} ({} or more; {}). Races are cancelled or left to everybody's choice in this heat. "
     "The organiser decides; ask before you travel. No plan for food and drink makes it safe: who is not "
     "used to such heat stays out.",
     "Hitze: WBGT um {} ({} oder mehr; {}). Bei dieser Hitze werden Rennen abgesagt oder freigestellt. Der "
     "Veranstalter entscheidet; frag vor der Anreise. Kein Plan für Essen und Trinken macht es sicher: wer "
     "solche Hitze nicht gewohnt ist, bleibt draußen."},
    {"Heat: WBGT near {} ({} or more; {}). No body keeps its temperature at race effort here: exercise is "
     "cancelled for everybody. Do not race in this, whatever this page says about food and drink; the "
     "organiser decides.",
     "Hitze: WBGT um {} ({} oder mehr; {}). Bei Wettkampftempo hält hier kein Körper seine Temperatur: Sport "
     "wird für alle abgesagt. Nicht starten, was immer hier über Essen und Trinken steht; der Veranstalter "
     "entscheidet."},
    {"Guidance changes between a fast and a slow day: {} on a fast one, {} on the likely one, {} on a slow "
     "one. Keep the planned {}: a slow day never raises the dose.",
     "Die Empfehlung ändert sich zwischen schnellem und langsamem Tag: {} am schnellen, {} am "
     "wahrscheinlichen, {} "
     "am langsamen. Bleib bei den geplanten {}: ein langsamer Tag erhöht die Menge nie."},
    {"Kept out: {}. {} is the most that guidance gives for this duration.",
     "Nicht übernommen: {}. {} ist das Meiste, was für diese Dauer empfohlen wird."},
    {"Kept out: {}. {} is the most that has been rehearsed.",
     "Nicht übernommen: {}. {} ist das Meiste, was geübt wurde."},
    {"Kept out: {}. {} is the most that is planned before more has gone well in a rehearsal.",
     "Nicht übernommen: {}. {} ist das Meiste, was geplant wird, bevor mehr in einer Probe gut ging."},
    {"Not enough to finish on: {} of carbohydrate in {}, less than half of the {} aimed for. What would "
     "help: {}.",
     "Zu wenig, um damit anzukommen: {} Kohlenhydrate in {}, weniger als die Hälfte der angestrebten {}. Was "
     "helfen würde: {}."},
    {"On a fast day the bike takes less than two hours: leave the solid food for last.",
     "An einem schnellen Tag dauert das Rad unter zwei Stunden: Festes zuletzt essen."},
    {"On a fast day this is over before {} minutes and needs no food; the plan is for the likely day.",
     "An einem schnellen Tag ist es vor {} Minuten vorbei und braucht kein Essen; der Plan gilt dem "
     "wahrscheinlichen Tag."},
    {"On a fast day this is over before {} minutes, where nobody needs sodium on the way; what is planned "
     "does no harm.",
     "An einem schnellen Tag ist es vor {} Minuten vorbei, da braucht niemand unterwegs Natrium; das "
     "Geplante schadet nicht."},
    {"On a fast day this takes less than three hours and needs no loading: leave it out if it does not suit "
     "you.",
     "An einem schnellen Tag dauert es unter drei Stunden und braucht keine Ladetage: lass sie weg, wenn sie "
     "dir nicht passen."},
    {"On a slow day this lasts over {} minutes: the drink may then hold salt, but nothing is lost without "
     "it.",
     "An einem langsamen Tag dauert es über {} Minuten: dann darf das Getränk Salz haben, ohne geht nichts "
     "verloren."},
    {"On a slow day this lasts over 75 minutes: carry one gel.",
     "An einem langsamen Tag dauert es über 75 Minuten: nimm ein Gel mit."},
    {"On a slow day this takes over three hours: make the day before rich in carbohydrate; loading is still "
     "not needed.",
     "An einem langsamen Tag dauert es über drei Stunden: iss am Tag davor viele Kohlenhydrate; Ladetage "
     "braucht es trotzdem nicht."},
    {"Over 60 thirst may lag: use the plan as regular prompts in heat, with the same ceiling (common "
     "practice, no "
     "source).",
     "Über 60 kommt der Durst manchmal spät: nimm den Plan in der Hitze als regelmäßige Erinnerung, mit "
     "derselben Obergrenze (übliche Praxis, keine Quelle)."},
    {"Under 18: no caffeine, no loading, no gut training; a parent and a sports dietitian should see this "
     "plan.",
     "Unter 18: kein Koffein, keine Ladetage, kein Magentraining; Eltern und eine Ernährungsfachkraft sollen "
     "diesen Plan sehen."},
    {"less than 1 day in 100", "weniger als 1 von 100 Tagen"},
    {"{} day in 100", "{} von 100 Tagen"},
    {"{} days in 100", "{} von 100 Tagen"},
    {"no day", "keinem Tag"},

    // What was guessed
    {"No level and no results given: times are the middle of the field, and wide.",
     "Kein Niveau, keine Ergebnisse genannt: die Zeiten sind die des mittleren Feldes, und ungenau."},
    {"No sweat sodium test: {} assumed.", "Kein Natriumtest des Schweißes: {} angenommen."},
    {"No sweat test: the most to drink is set by what most athletes sweat.",
     "Kein Schweißtest: die Obergrenze folgt dem, was die meisten schwitzen."},
    {"Water temperature not given: {} assumed.", "Wassertemperatur nicht genannt: {} angenommen."},
    {"Run belt not given: room for {} gels (common practice).",
     "Laufgürtel nicht genannt: Platz für {} Gels (übliche Praxis)."},
    {"Simulated days: water that is not food is drunk between to thirst and as planned; some stations are "
     "missed, some feeds missed or late; who is very dry finds water anywhere (our choice).",
     "Simulierte Tage: Wasser wird irgendwo zwischen Durst und Plan getrunken; manche Station und manche "
     "Portion wird verpasst oder kommt spät; wer sehr trocken ist, findet überall Wasser (unsere Wahl)."},
    {"Simulated days: no stations known, so thirst alone finds no more than what is carried.",
     "Simulierte Tage: keine Station bekannt, also findet auch der Durst nur, was du dabeihast."},
    {"Hands not given: bottle and food can be taken while riding.",
     "Hände nicht genannt: Trinken und Essen gehen im Fahren."},
    {"Hands not given: a beginner takes the bottle, and food only off the bike.",
     "Hände nicht genannt: beim ersten Mal nur die Flasche im Fahren, Essen nur im Stehen."},
    {"Humidity not given: {} assumed.", "Luftfeuchte nicht genannt: {} angenommen."},
    {"Sun not given: half of a clear sky's, {} degrees high (date, start and latitude would tell).",
     "Sonne nicht genannt: die halbe eines klaren Himmels, {} Grad hoch (Tag, Start und Breite sagten es "
     "genau)."},
    {"Height not given: {} assumed.", "Körpergröße nicht genannt: {} angenommen."},
    {"Wind not given: {} assumed, from all sides.", "Wind nicht genannt: {} von allen Seiten angenommen."},
    {"Aid stations not given: the plan counts on none, so on the run there is only what you carry. Name the "
     "event's own, or ask for typical ones.",
     "Stationen nicht genannt: der Plan zählt auf keine, beim Laufen gibt es also nur, was du trägst. Nenne "
     "die des Rennens, oder nimm die üblichen an."},
    {"Aid stations assumed: every {} on the run and, over {}, every {} on the bike, with water and sports "
     "drink (common practice). Check the race's own list.",
     "Stationen angenommen: alle {} beim Laufen und, über {}, alle {} auf dem Rad, mit Wasser und "
     "Sportgetränk "
     "(übliche Praxis). Sieh auf der Liste des Rennens nach."},
    {"Bottles not given: {} on the bike, the usual kit (common practice).",
     "Flaschen nicht genannt: {} am Rad, das Übliche (übliche Praxis)."},
    {"Sport of the sweat rate not given: taken as that of the longest ride or run. Say it: {} or {}.",
     "Sportart der Schweißrate nicht genannt: die der längsten Strecke angenommen. Sag sie dazu: {} oder "
     "{}."},
    {"It is hotter than the sweat model knows (run): the rate is held.",
     "Heißer, als das Schweißmodell kennt (Laufen): die Rate bleibt stehen."},
    {"It is hotter than the sweat model knows (bike): the rate is held.",
     "Heißer, als das Schweißmodell kennt (Rad): die Rate bleibt stehen."},
    {"Hardly anybody was seen to sweat more than {} L/h ({}): the rate is held there.",
     "Kaum jemand schwitzte je mehr als {} L/h ({}): die Rate bleibt dort stehen."},
    {"Outside of what the sweat model was held against ({}): taken on along its lines.",
     "Außerhalb dessen, woran das Schweißmodell geprüft ist ({}): in seiner Richtung weitergeführt."},

    // How sure it is
    {"Probably {} lighter at the finish ({}), with {} of glycogen left; too much drink on {}, too little on "
     "{}; most telling after {}: {}.",
     "Im Ziel wohl {} leichter ({}), noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}; am meisten "
     "zählt nach {}: {}."},
    {"Probably {} lighter at the finish ({}), with {} of glycogen left; too much drink on {}, too little on "
     "{}.",
     "Im Ziel wohl {} leichter ({}), noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}."},
    {"Probably as heavy as at the start at the finish ({}), with {} of glycogen left; too much drink on {}, "
     "too little on {}.",
     "Im Ziel wohl so schwer wie am Start ({}), noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}."},
    {"Probably {} heavier at the finish ({}), with {} of glycogen left; too much drink on {}, too little on "
     "{}.",
     "Im Ziel wohl {} schwerer ({}), noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}."},
    {"Probably {} of glycogen left; too much drink on {}, too little on {}; most telling after {}: {}.",
     "Wohl noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}; am meisten zählt nach {}: {}."},
    {"Probably {} of glycogen left; too much drink on {}, too little on {}.",
     "Wohl noch {} Glykogen; zu viel getrunken an {}, zu wenig an {}."},
    {"{} lighter to as heavy as at the start", "{} leichter bis so schwer wie am Start"},
    {"{} lighter to {} heavier", "{} leichter bis {} schwerer"},
    {"as heavy as at the start to {} heavier", "so schwer wie am Start bis {} schwerer"},
    {"water lost", "verlorenes Wasser"},
    {"a full stomach", "ein voller Magen"},
    {"low blood sodium", "wenig Natrium im Blut"},
    {"empty stores", "leere Speicher"},
    {"your sweat rate", "deine Schweißrate"},
    {"carbohydrate share at race effort", "Anteil der Kohlenhydrate bei Wettkampftempo"},
    {"glycogen at the start", "Glykogen am Start"},
    {"what the gut takes up", "was der Darm aufnimmt"},
    {"your sweat sodium", "Natrium in deinem Schweiß"},
    {"what kidney and stores hold", "was Nieren und Speicher halten"},
    {"air temperature on the day", "Lufttemperatur am Tag"},
    {"stomach size", "Größe des Magens"},
    {"humidity on the day", "Luftfeuchte am Tag"},
    {"blood sodium at the start", "Natrium im Blut am Start"},
    {"pace on the day", "Tempo am Tag"},
    {"missed feeds", "verpasste Portionen"},
    {"late feeds", "späte Portionen"},
    {"how closely the plan is drunk", "wie genau nach Plan getrunken wird"},
    {"body water at the start", "Körperwasser am Start"},
    {"missed stations", "verpasste Stationen"},

    // What was not reached
    {"{}: {} less than aimed for. What binds: {}. What would help: {} ({} more).",
     "{}: {} weniger als angestrebt. Was bindet: {}. Was helfen würde: {} ({} mehr)."},
    {"{}: {} less than thirst may ask for. What binds: {}. What would help: {} ({} more).",
     "{}: {} weniger, als der Durst verlangen mag. Was bindet: {}. Was helfen würde: {} ({} mehr)."},
    {"{}: {} less than aimed for. What binds: {}.", "{}: {} weniger als angestrebt. Was bindet: {}."},
    {"{}: {} less than thirst may ask for. What binds: {}.",
     "{}: {} weniger, als der Durst verlangen mag. Was bindet: {}."},
    {"Also short, and nothing that was tried helps: {}.",
     "Auch zu wenig, und nichts, was versucht wurde, hilft: {}."},
    {"carbohydrate on the bike ({})", "Kohlenhydrate auf dem Rad ({})"},
    {"carbohydrate on the run ({})", "Kohlenhydrate beim Laufen ({})"},
    {"drink on the bike ({})", "Trinken auf dem Rad ({})"},
    {"drink on the run ({})", "Trinken beim Laufen ({})"},
    {"sodium on the bike ({})", "Natrium auf dem Rad ({})"},
    {"sodium on the run ({})", "Natrium beim Laufen ({})"},
    {"carbohydrate on the bike", "Kohlenhydrate auf dem Rad"},
    {"carbohydrate on the run", "Kohlenhydrate beim Laufen"},
    {"drink on the bike", "Trinken auf dem Rad"},
    {"drink on the run", "Trinken beim Laufen"},
    {"sodium on the bike", "Natrium auf dem Rad"},
    {"sodium on the run", "Natrium beim Laufen"},
    {"what is carried", "was du dabeihast"},
    {"what the bottles hold", "was in die Flaschen passt"},
    {"carbohydrate in any hour", "Kohlenhydrate in jeder Stunde"},
    {"the rhythm, whole units and all rules together", "Takt, ganze Stücke und alle Regeln zusammen"},
    {"hands stay on the bar: only the bottle on straight calm road",
     "die Hände bleiben am Lenker: nur die Flasche auf gerader, ruhiger Straße"},
    {"the room in the run belt", "der Platz im Laufgürtel"},
    {"the fluid ceiling", "die Obergrenze beim Trinken"},
    {"the foods that are left out", "das Essen, das ausgelassen ist"},
    {"aid stations: name them, or ask for typical ones", "Stationen: nenne sie, oder nimm die üblichen an"},
    {"a higher rate once it has been rehearsed", "eine höhere Menge, sobald sie geübt ist"},
    {"practise taking food while riding, then say so", "im Fahren essen üben, und es dann sagen"},
    {"room for two more gels in the belt", "Platz für zwei Gels mehr im Gürtel"},
    {"a sweat test, which may allow about a third more drink",
     "ein Schweißtest, der etwa ein Drittel mehr erlauben kann"},
    {"another bottle of {}", "noch eine Flasche von {}"},
    {"allow some of them", "etwas davon erlauben"},
    {"stopping at aid stations, or at a safe place, to eat and drink",
     "zum Essen und Trinken anhalten, an Stationen oder wo es sicher ist"},
    {"the event's aid stations (name them, or ask for typical ones)",
     "die Stationen des Rennens (nenne sie, oder nimm die üblichen an)"},
    {"a belt or pocket for gels", "ein Gürtel oder eine Tasche für Gels"},
    {"a bag of your own on the course, where the event allows one",
     "ein eigener Beutel an der Strecke, wo das Rennen es erlaubt"},
    {"a rehearsal", "eine Probe"},

    // How often it happens
    {"body mass at the finish above the start", "im Ziel schwerer als am Start"},
    {"body water at the finish above the start", "im Ziel mehr Körperwasser als am Start"},
    {"body water at the finish more than 1 % of body mass above the start",
     "im Ziel über 1 % der Körpermasse mehr Wasser als am Start"},
    {"body water more than 2 % of body mass down", "über 2 % der Körpermasse an Wasser verloren"},
    {"body water more than 4 % of body mass down", "über 4 % der Körpermasse an Wasser verloren"},
    {"glycogen gone before the finish", "Glykogen vor dem Ziel aufgebraucht"},
    {"serum sodium below 135 mmol/L, whatever the cause", "Natrium im Blut unter 135 mmol/L, gleich warum"},
    {"serum sodium below 135 mmol/L from planned drinking",
     "Natrium im Blut unter 135 mmol/L durch geplantes Trinken"},
    {"stomach overfull", "Magen übervoll"},
    {"Race plan", "Wettkampfplan"},
    {"Session plan", "Trainingsplan"},
};

} // namespace

std::span<const Pair> sentences_of_plans() {
    return plan_pairs;
}

} // namespace tuck::say
