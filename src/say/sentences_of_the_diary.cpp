// What the diary, a sweat test and a rehearsal say.
#include "say/sentence_tables.hpp"

namespace tuck::say {

namespace {

constexpr Pair diary_pairs[] = {
    // A sweat test
    {"You weighed more after than before: you drank more than you lost. In a long race that is the dangerous "
     "mistake. Drink to thirst, and less than this.",
     "Du warst nachher schwerer als vorher: du hast mehr getrunken, als du verloren hast. In einem langen "
     "Rennen ist das der gefährliche Fehler. Trink nach Durst, und weniger als hier."},
    {"You drank more than you sweated. Drink to thirst, and less than this.",
     "Du hast mehr getrunken als geschwitzt. Trink nach Durst, und weniger als hier."},
    {"You lost over 4 % of your body mass in water. Go slower or cooler next time, and drink to thirst "
     "earlier; do not make it up in one go.",
     "Du hast über 4 % deiner Körpermasse an Wasser verloren. Geh es nächstes Mal langsamer oder kühler an "
     "und trink früher nach Durst; hol es nicht auf einmal nach."},
    {"Go for 60 minutes or more: the scale's step weighs less then.",
     "Nimm dir 60 Minuten oder mehr: der Schritt der Waage zählt dann weniger."},
    {"A scale that shows 50 g or less would halve the error.",
     "Eine Waage, die 50 g oder weniger anzeigt, würde den Fehler halbieren."},
    {"Empty the bladder first. If you must go on the way, go, and measure it or repeat the test another day: "
     "never hold it and never go dry for a test.",
     "Leere die Blase vorher. Musst du unterwegs, dann geh, und miss es oder wiederhol den Test an einem "
     "anderen Tag: nie verkneifen, nie für einen Test dursten."},
    {"In the cool a field test is 14 to 41 % off (Cheuvront 2002): test again in race weather.",
     "In der Kühle liegt ein Feldtest 14 bis 41 % daneben (Cheuvront 2002): miss noch einmal bei "
     "Wettkampfwetter."},
    {"Indoors without a fan you sweat more than on the road: repeat it with a fan or outdoors.",
     "Drinnen ohne Ventilator schwitzt du mehr als auf der Straße: wiederhol es mit Ventilator oder "
     "draußen."},
    {"Weigh with bare skin, dried off, both times; weigh bottles before and after.",
     "Wieg dich beide Male ohne Kleider und abgetrocknet; wieg die Flaschen vorher und nachher."},
    {"Two or three tests in the weather of the race tell more than one.",
     "Zwei oder drei Tests bei Wettkampfwetter sagen mehr als einer."},
    {"Neither power, distance nor energy given: the energy is that of the athlete's level over this time.",
     "Weder Leistung noch Strecke noch Energie genannt: gerechnet mit der Energie des Niveaus über diese "
     "Zeit."},
    {"Sun not given: half of a clear sky assumed.", "Sonne nicht genannt: die halbe eines klaren Himmels."},
    {"Wind not given: {} assumed.", "Wind nicht genannt: {} angenommen."},
    {"Drink to thirst on your long sessions and note what you drank: bottle, volume, minutes, weather.",
     "Trink auf langen Einheiten nach Durst und schreib auf, was du getrunken hast: Flasche, Menge, Minuten, "
     "Wetter."},
    {"Note after each: thirst from 0 to 10, colour of the urine, how you felt.",
     "Schreib nach jeder auf: Durst von 0 bis 10, Farbe des Urins, wie es dir ging."},
    {"Little thirst and pale urine: that was enough. Never force more.",
     "Wenig Durst und heller Urin: das war genug. Zwing dich nie zu mehr."},
    {"Three sessions in race weather show what you drink by thirst; plan no more than that.",
     "Drei Einheiten bei Wettkampfwetter zeigen, was du nach Durst trinkst; plan nicht mehr als das."},
    {"sweat = before - after + drunk + eaten - urine - stool + sweat in clothes - breath and fuel",
     "Schweiß = vorher - nachher + getrunken + gegessen - Urin - Stuhl + Schweiß in der Kleidung - Atem und "
     "Brennstoff"},
    {"breath and fuel: {}, 0.20 g for each of {}", "Atem und Brennstoff: {}, je 0.20 g für {}"},
    {"{} used, as given", "{} verbraucht, wie angegeben"},
    {"{} for this time at the athlete's level", "{} für diese Zeit auf diesem Niveau"},
    {"{} kcal from {} W", "{} kcal aus {} W"},
    {"{} kcal from {} in {} min", "{} kcal aus {} in {} min"},
    {"patch on the {}: {} there, {} for the whole body", "Pflaster ({}): dort {}, am ganzen Körper {}"},
    {"common practice, no source", "übliche Praxis, keine Quelle"},
    {"our choice, no source", "unsere Wahl, keine Quelle"},
    {"the athlete's own input", "eigene Angabe"},
    {"the athlete's own diary", "eigenes Tagebuch"},
    {"the energy models of the plan", "die Energiemodelle des Plans"},
    {"Baker 2017 (table 3)", "Baker 2017 (Tabelle 3)"},
    {"Cheuvront & Montain 2017", "Cheuvront & Montain 2017"},
    {"Baker 2009, as used in Baker 2016", "Baker 2009, nach Baker 2016"},
    {"Baker 2009", "Baker 2009"},
    {"Baker 2020, mean bias", "Baker 2020, mittlere Abweichung"},
    {"stands without the value of a patch", "steht ohne den Wert eines Pflasters da"},
    {"stands beside a value of the whole body; leave one out",
     "steht neben einem Wert des ganzen Körpers; lass eins von beiden weg"},
    {"ACSM cycling equation; Moseley & Jeukendrup 2001 (about 20 % efficiency)",
     "ACSM-Gleichung für das Rad; Moseley & Jeukendrup 2001 (etwa 20 % Wirkungsgrad)"},
    {"a gain of {} in one session is not believable; check the two weights",
     "{} mehr nach einer Einheit sind nicht zu glauben; prüf die beiden Gewichte"},
    {"a loss of {} is more than {} of body mass; check the two weights",
     "{} weniger sind mehr als {} der Körpermasse; prüf die beiden Gewichte"},
    {"this makes {} of sweat, less than nothing; check the weights and what was drunk and eaten",
     "das ergibt {} Schweiß, weniger als nichts; prüf die Gewichte und was getrunken und gegessen wurde"},
    {"this makes {} of sweat; allowed up to {}: check weights and minutes",
     "das ergibt {} Schweiß; erlaubt bis {}: prüf Gewichte und Minuten"},
    {"this athlete asks for no scales: nothing is worked out or kept from a weighing",
     "hier soll nicht gewogen werden: aus einer Wägung wird nichts gerechnet oder behalten"},

    // What has been learned
    {"Sweat: no test yet; athletes differ by 45 %.",
     "Schweiß: noch kein Test; Sportler unterscheiden sich um 45 %."},
    {"Sweat: {} % of the model's mean at {} (90 % sure: {}), from {}.",
     "Schweiß: {} % des Modellmittels bei {} (zu 90 % sicher: {}), aus {}."},
    {"On the run: {} % of the model's mean (90 % sure: {}).",
     "Beim Laufen: {} % des Modellmittels (zu 90 % sicher: {})."},
    {"Sweat sodium: no test yet; 40 mmol/L is assumed, 18 to 71 is seen.",
     "Natrium im Schweiß: noch kein Test; 40 mmol/L angenommen, gesehen werden 18 bis 71."},
    {"Sweat sodium: {} mmol/L (90 % sure: {}), from {}.",
     "Natrium im Schweiß: {} mmol/L (zu 90 % sicher: {}), aus {}."},
    {"Gut on the bike: no rate has gone well at race effort yet. {}",
     "Magen auf dem Rad: bei Wettkampftempo ging noch keine Menge gut. {}"},
    {"Gut on the run: no rate has gone well at race effort yet. {}",
     "Magen beim Laufen: bei Wettkampftempo ging noch keine Menge gut. {}"},
    {"Gut on the bike: {} and {} went well at race effort. {}",
     "Magen auf dem Rad: {} und {} gingen bei Wettkampftempo gut. {}"},
    {"Gut on the run: {} and {} went well at race effort. {}",
     "Magen beim Laufen: {} und {} gingen bei Wettkampftempo gut. {}"},
    {"Pace: bike {} in {} min, from a race.", "Tempo: Rad {} in {} min, aus einem Rennen."},
    {"Pace: run {} in {} min, from a race.", "Tempo: Lauf {} in {} min, aus einem Rennen."},
    {"Pace: swim {} in {} min, from a race.", "Tempo: Schwimmen {} in {} min, aus einem Rennen."},
    {"No session at race effort yet: start with the plan's own rate.",
     "Noch keine Einheit bei Wettkampftempo: fang mit der Menge des Plans an."},
    {"Nothing was eaten on a run at race effort yet.",
     "Beim Laufen mit Wettkampftempo wurde noch nichts gegessen."},
    {"There was vomiting or blood in the last session: see a doctor before the next one.",
     "In der letzten Einheit gab es Erbrechen oder Blut: vor der nächsten zum Arzt."},
    {"The worst symptom {} was {} of 10 at {}: down to {}.",
     "Die stärkste Beschwerde {} war {} von 10 bei {}: hinunter auf {}."},
    {"The worst symptom {} was {} of 10: no more than {}, in smaller doses.",
     "Die stärkste Beschwerde {} war {} von 10: nicht mehr als {}, in kleineren Portionen."},
    {"The worst symptom {} was {} of 10: hold {}.",
     "Die stärkste Beschwerde {} war {} von 10: bei {} bleiben."},
    {"The worst symptom {} was {} of 10, and above 3 the time before: {}.",
     "Die stärkste Beschwerde {} war {} von 10, und das Mal davor über 3: {}."},
    {"Hold {}: {}.", "Bei {} bleiben: {}."},
    {"a rehearsal counts when the run is part of it", "eine Probe zählt, wenn der Lauf dazugehört"},
    {"{} % of what was planned was taken, and a step counts from 90 %",
     "{} % des Geplanten wurden genommen, und ein Schritt zählt ab 90 %"},
    {"{} went well once {}: once more before a step up.",
     "{} ging einmal {} gut: noch einmal, bevor es mehr wird."},
    {"{} went well on the bike, but the worst symptom of the run after it was {} of 10: hold.",
     "{} ging auf dem Rad gut, aber die stärkste Beschwerde beim Laufen danach war {} von 10: dabei "
     "bleiben."},
    {"{} went well on the bike: the most that is planned without declared gut training.",
     "{} ging auf dem Rad gut: das Meiste, was ohne Magentraining geplant wird."},
    {"{} went well on the run: the most that is planned without declared gut training.",
     "{} ging beim Laufen gut: das Meiste, was ohne Magentraining geplant wird."},
    {"{} went well on the bike: the most that is planned.",
     "{} ging auf dem Rad gut: das Meiste, was geplant wird."},
    {"{} went well on the run: the most that is planned.",
     "{} ging beim Laufen gut: das Meiste, was geplant wird."},
    {"Two good sessions at {} on the bike: next {}, but no new step in the last 10 days before a race.",
     "Zwei gute Einheiten mit {} auf dem Rad: als Nächstes {}, aber kein neuer Schritt in den letzten 10 "
     "Tagen vor einem Rennen."},
    {"Two good sessions at {} on the run: next {}, but no new step in the last 10 days before a race.",
     "Zwei gute Einheiten mit {} beim Laufen: als Nächstes {}, aber kein neuer Schritt in den letzten 10 "
     "Tagen vor einem Rennen."},
    {"No steps of gut training for this athlete: a doctor or dietitian sets the rate.",
     "Keine Schritte eines Magentrainings: hier setzt eine Ärztin, ein Arzt oder eine Ernährungsfachkraft "
     "die Menge fest."},
    {"A slump in the last session: start easier, or eat earlier; more only by the steps above.",
     "Ein Einbruch in der letzten Einheit: ruhiger anfangen oder früher essen; mehr nur in den Schritten "
     "oben."},
    {"{} of the planned drink were left, with a thirst of {} of 10: the bottle was there and was not used. A "
     "reminder helps.",
     "{} des geplanten Getränks blieben übrig, bei Durst {} von 10: die Flasche war da und blieb ungenutzt. "
     "Eine Erinnerung hilft."},
    {"{} of the planned drink were left, with a thirst of {} of 10: less is fine.",
     "{} des geplanten Getränks blieben übrig, bei Durst {} von 10: weniger ist gut."},
    {"{} of the planned drink were left: less is fine.",
     "{} des geplanten Getränks blieben übrig: weniger ist gut."},
    {"Thirst was {} of 10 though the planned drink was taken: look at the ceiling of the plan, there may be "
     "room below it.",
     "Der Durst war {} von 10, obwohl das geplante Getränk genommen wurde: sieh auf die Obergrenze des "
     "Plans, darunter mag noch Platz sein."},
    {"{} stop for the gut: look at fibre, fat and coffee of the meal before, not only at the rate.",
     "{} Halt wegen des Darms: sieh auf Ballaststoffe, Fett und Kaffee der Mahlzeit davor, nicht nur auf die "
     "Menge."},
    {"{} stops for the gut: look at fibre, fat and coffee of the meal before, not only at the rate.",
     "{} Halte wegen des Darms: sieh auf Ballaststoffe, Fett und Kaffee der Mahlzeit davor, nicht nur auf "
     "die Menge."},
    {"The sweat test of {} (line {}) is far from the others. Check its numbers; \"tuck diary correct {}\" "
     "puts it right.",
     "Der Schweißtest vom {} (Zeile {}) liegt weit von den anderen. Prüf seine Zahlen; \"tuck diary correct "
     "{}\" berichtigt ihn."},
    {"A sweat test at about {}, riding, at race effort, 60 to 90 min.",
     "Ein Schweißtest bei etwa {}, auf dem Rad, mit Wettkampftempo, 60 bis 90 min."},
    {"A sweat test at about {}, running, at race effort, 60 to 90 min.",
     "Ein Schweißtest bei etwa {}, beim Laufen, mit Wettkampftempo, 60 bis 90 min."},
    {"A sweat test at about {}, swimming, at race effort, 60 to 90 min.",
     "Ein Schweißtest bei etwa {}, beim Schwimmen, mit Wettkampftempo, 60 bis 90 min."},
    {"A sweat sodium test of the whole body, or a patch on the forearm.",
     "Ein Natriumtest des Schweißes am ganzen Körper, oder ein Pflaster am Unterarm."},
    {"A bottle log by thirst on a long session in race weather.",
     "Auf einer langen Einheit bei Wettkampfwetter nach Durst trinken und aufschreiben."},
    {"A rehearsal at {} with a run off the bike.", "Eine Probe mit {} und einem Lauf nach dem Rad."},
    {"A rehearsal of race food at race effort, with a run off the bike.",
     "Eine Probe des Wettkampfessens bei Wettkampftempo, mit einem Lauf nach dem Rad."},

    // Of the diary, in a plan
    {"From the diary: your sweat is {} % of the model's mean (90 % sure: {}), by {} sweat test.",
     "Aus dem Tagebuch: du schwitzt {} % des Modellmittels (zu 90 % sicher: {}), nach {} Schweißtest."},
    {"From the diary: your sweat is {} % of the model's mean (90 % sure: {}), by {} sweat tests.",
     "Aus dem Tagebuch: du schwitzt {} % des Modellmittels (zu 90 % sicher: {}), nach {} Schweißtests."},
    {"From the diary: your sweat sodium is {} mmol/L (90 % sure: {}).",
     "Aus dem Tagebuch: dein Schweiß hat {} mmol/L Natrium (zu 90 % sicher: {})."},
    {"From the diary: {} and {} went well for you.", "Aus dem Tagebuch: {} und {} gingen bei dir gut."},
    {"From the diary: more went badly, so at most {}.",
     "Aus dem Tagebuch: mehr ging schlecht, also höchstens {}."},
    {"From the diary: {} went well, and come first.", "Aus dem Tagebuch: {} gingen gut und kommen zuerst."},
    {"From the diary: your own race times.", "Aus dem Tagebuch: deine eigenen Wettkampfzeiten."},
    {"{} g/h on the bike and {} g/h on the run", "{} g/h auf dem Rad und {} g/h beim Laufen"},
    {"{} g/h on the bike", "{} g/h auf dem Rad"},
    {"{} g/h on the run", "{} g/h beim Laufen"},

    // Its lines
    {"{} (no longer counts)", "{} (zählt nicht mehr)"},
    {"{} (corrects line {})", "{} (berichtigt Zeile {})"},
    {"withdraws line {}", "nimmt Zeile {} zurück"},
    {"sweat test, {}, {} min at {}, drank {}, with sodium",
     "Schweißtest, {}, {} min bei {}, getrunken {}, mit Natrium"},
    {"sweat test, {}, {} min at {}, drank {}", "Schweißtest, {}, {} min bei {}, getrunken {}"},
    {"rehearsal, bike {}, run {}, worst symptom {}", "Probe, Rad {}, Lauf {}, stärkste Beschwerde {}"},
    {"race, {}, {}", "Rennen, {}, {}"},
    {"race, {}", "Rennen, {}"},
    {"{}: the last line was cut short by a crash and does not count; the next entry moves it to a file "
     "beside the diary",
     "{}: die letzte Zeile ist abgerissen und zählt nicht; der nächste Eintrag legt sie in einer Datei "
     "daneben ab"},
    {"{}: {} lines cannot be read and do not count; tuck diary mend sets them aside",
     "{}: {} Zeilen sind nicht lesbar und zählen nicht; tuck diary mend legt sie beiseite"},

    // Rehearsals
    {"The race needs no food on the way, so there is no food to rehearse; practise drinking to thirst.",
     "Das Rennen braucht unterwegs kein Essen, also ist keines zu üben; üb das Trinken nach Durst."},
    {"Without the run a session does not count towards the next step: the gut is tested there.",
     "Ohne den Lauf zählt eine Einheit nicht für den nächsten Schritt: dort zeigt sich der Magen."},
    {"At {} less is safe to drink than on race day: fewer swallows.",
     "Bei {} ist weniger zu trinken sicher als am Wettkampftag: weniger Schlucke."},
    {"The race also has {}, which this session has no place for.",
     "Im Rennen gibt es auch {}; in dieser Einheit ist dafür kein Platz."},
    {"{}, {}, as the race: its clothes, its breakfast, its hour; no new step after this one.",
     "{}, {}, wie das Rennen: Kleider, Frühstück und Uhrzeit; danach kein neuer Schritt."},
    {"{}, {}, race effort at the end.", "{}, {}, am Ende Wettkampftempo."},
    {"then {}, {}", "dann {}, {}"},
    {"{} min ride", "{} min Rad"},
    {"{} min run", "{} min Lauf"},
    {"race food at {}", "Wettkampfessen mit {}"},
    {"drink to thirst", "nach Durst trinken"},
    {"Rehearsal, as the race", "Probe, wie das Rennen"},
    {"Rehearsal", "Probe"},
    {"Rehearsal of {}", "Probe für {}"},
    {"Thirst first; nothing new after this. Log it in the diary.",
     "Zuerst der Durst; danach nichts Neues. Ins Tagebuch eintragen."},
    {"The race is too near for a rehearsal: none in the last ten days at a new step. Race food at a rate "
     "that went well before is fine.",
     "Das Rennen ist für eine Probe zu nah: in den letzten zehn Tagen kein neuer Schritt. Wettkampfessen in "
     "einer Menge, die schon gut ging, ist in Ordnung."},
    {"The rates rise only if each session goes well: worst symptom at most 3, 90 % taken, with the run. "
     "Steps of 10 g/h where the worst symptom is at most 1, else 5; none in the last ten days (common "
     "practice, no source).",
     "Die Mengen steigen nur, wenn jede Einheit gut geht: stärkste Beschwerde höchstens 3, 90 % genommen, "
     "mit dem Lauf. Schritte von 10 g/h, wo sie höchstens 1 ist, sonst 5; keine in den letzten zehn Tagen "
     "(übliche Praxis, keine Quelle)."},
    {"By then {} can be reached, not {}: the race is planned at what was rehearsed.",
     "Bis dahin sind {} zu erreichen, nicht {}: das Rennen wird mit dem geplant, was geübt wurde."},

    // Words that fill places
    {"{} tests", "{} Tests"},
    {"{} test", "{} Test"},
    {"on the bike", "auf dem Rad"},
    {"on the run", "beim Laufen"},
    {"bike", "Rad"},
    {"run", "Laufen"},
    {"swim", "Schwimmen"},
    {"forearm", "Unterarm"},
    {"chest", "Brust"},
    {"back", "Rücken"},
    {"thigh", "Oberschenkel"},
};

} // namespace

std::span<const Pair> sentences_of_the_diary() {
    return diary_pairs;
}

} // namespace tuck::say
