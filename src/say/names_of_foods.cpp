// The long names of the pantry.
#include "say/sentence_tables.hpp"

namespace tuck::say {

namespace {

constexpr Pair food_names[] = {
    {"Energy bar for use in sport", "Energieriegel für den Sport"},
    {"Oat bar, hard, plain (2 x 21 g)", "Haferriegel, hart, ohne Zusatz (2 x 21 g)"},
    {"Cereal bar with fruit", "Müsliriegel mit Früchten"},
    {"White bread, 2 slices, with jam", "Weißbrot mit Marmelade, 2 Scheiben"},
    {"White bread, 2 slices, with honey", "Weißbrot mit Honig, 2 Scheiben"},
    {"Rice cake, home-made: cooked white rice + sugar + salt",
     "Reiskuchen, selbst gemacht: gekochter weißer Reis + Zucker + Salz"},
    {"Gingerbread / honey cake slice", "Lebkuchen oder Honigkuchen, eine Scheibe"},
    {"Fig-filled biscuit (2 pieces of 16 g)", "Keks mit Feigenfüllung (2 Stück zu 16 g)"},
    {"Oat porridge made with water (1 cup)", "Haferbrei mit Wasser (1 Tasse)"},
    {"White rice, cooked, no salt (1 cup)", "Weißer Reis, gekocht, ohne Salz (1 Tasse)"},
    {"Pasta, cooked, no salt (1 cup)", "Nudeln, gekocht, ohne Salz (1 Tasse)"},
    {"Cola with caffeine, flat", "Cola mit Koffein, ohne Kohlensäure"},
    {"Coffee, brewed, no sugar", "Filterkaffee ohne Zucker"},
    {"Espresso", "Espresso"},
    {"Tea, black, brewed, no sugar", "Schwarzer Tee ohne Zucker"},
    {"Energy drink with sugar and caffeine", "Energiegetränk mit Zucker und Koffein"},
    {"Caffeine tablet, 100 mg", "Koffeintablette, 100 mg"},
    {"Sports chew (1 piece)", "Kaubonbon für den Sport (1 Stück)"},
    {"Jelly sweets / gummy candy (10 small pieces)", "Fruchtgummi (10 kleine Stücke)"},
    {"Jelly beans (10 large)", "Geleebohnen (10 große)"},
    {"Marshmallows (4 regular)", "Marshmallows (4 gewöhnliche)"},
    {"Milk, reduced fat (2 %)", "Milch, fettarm (2 %)"},
    {"Chocolate milk, reduced fat", "Kakao, fettarm"},
    {"Yoghurt, plain, low-fat (1 pot)", "Naturjoghurt, fettarm (1 Becher)"},
    {"Tap water", "Leitungswasser"},
    {"Isotonic-type sports drink, ready to drink", "Isotonisches Sportgetränk, trinkfertig"},
    {"Home-made 6 % drink: sugar + salt", "Eigenmischung 6 %: Zucker + Salz"},
    {"Home-made 9 % drink, glucose:fructose 1:0.8", "Eigenmischung 9 %, Glukose:Fruktose 1:0.8"},
    {"Home-made 9 % drink, 1:0.8 from sugar + maltodextrin",
     "Eigenmischung 9 %, 1:0.8 aus Zucker + Maltodextrin"},
    {"Oral rehydration solution, WHO/UNICEF reduced osmolarity",
     "Elektrolytlösung zum Trinken (WHO/UNICEF, verminderte Osmolarität)"},
    {"Apple juice, unsweetened", "Apfelsaft, ungesüßt"},
    {"Orange juice, chilled", "Orangensaft, gekühlt"},
    {"Banana, ripe, peeled, medium", "Banane, reif, geschält, mittelgroß"},
    {"Dates, small semi-dry type, pitted (3 pieces)", "Datteln, klein, halbtrocken, entsteint (3 Stück)"},
    {"Dates, large soft type, pitted (1 piece)", "Dattel, groß, weich, entsteint (1 Stück)"},
    {"Raisins, seedless (small box)", "Rosinen, kernlos (kleine Schachtel)"},
    {"Apricots, dried (10 halves)", "Aprikosen, getrocknet (10 Hälften)"},
    {"Orange, navel, peeled (1 fruit)", "Orange, kernlos, geschält (1 Stück)"},
    {"Watermelon, diced (1 cup)", "Wassermelone, gewürfelt (1 Tasse)"},
    {"Melon, green-fleshed, diced (1 cup)", "Melone mit grünem Fleisch, gewürfelt (1 Tasse)"},
    {"Grapes, seedless (1 cup)", "Trauben, kernlos (1 Tasse)"},
    {"Energy gel, 25 g carbohydrate", "Energiegel, 25 g Kohlenhydrate"},
    {"Isotonic gel, thin, taken without water", "Isotonisches Gel, dünn, geht ohne Wasser"},
    {"Caffeinated gel, 25 g carbohydrate", "Gel mit Koffein, 25 g Kohlenhydrate"},
    {"Gel with glucose and fructose, 29 g carbohydrate", "Gel mit Glukose und Fruktose, 29 g Kohlenhydrate"},
    {"Large gel with glucose and fructose", "Großes Gel mit Glukose und Fruktose"},
    {"Fruit puree pouch, no added sugar", "Fruchtmus im Beutel, ohne Zuckerzusatz"},
    {"Table sugar (1 level teaspoon)", "Haushaltszucker (1 gestrichener Teelöffel)"},
    {"Table salt (1/6 teaspoon, 1 g)", "Kochsalz (1/6 Teelöffel, 1 g)"},
    {"Glucose powder (dextrose monohydrate)", "Traubenzucker (Dextrose-Monohydrat)"},
    {"Glucose powder, anhydrous", "Traubenzucker, wasserfrei"},
    {"Maltodextrin powder (DE about 18)", "Maltodextrin (DE etwa 18)"},
    {"Fructose powder", "Fruchtzucker"},
    {"Isotonic drink powder for 500 ml", "Isotonisches Getränkepulver für 500 ml"},
    {"High-carbohydrate drink powder for 500 ml", "Getränkepulver mit vielen Kohlenhydraten für 500 ml"},
    {"Crackers, salted, plain (5 pieces)", "Cracker, gesalzen (5 Stück)"},
    {"Pretzels, hard, salted (small bag)", "Salzbrezeln, hart (kleine Tüte)"},
    {"Potatoes, boiled, peeled, salted in cooking (1 small)",
     "Kartoffel, geschält, in Salzwasser gekocht (1 kleine)"},
    {"Bouillon from dry powder, made up (1 cup)", "Brühe aus Pulver, angerührt (1 Tasse)"},
    {"Electrolyte tablet for 500 ml", "Elektrolyt-Brausetablette für 500 ml"},
    {"Electrolyte capsule", "Elektrolytkapsel"},
    {"Salt tablet, 620 mg sodium chloride", "Salztablette, 620 mg Natriumchlorid"},
    {"Honey (1 tablespoon)", "Honig (1 Esslöffel)"},
    {"Maple syrup (1 tablespoon)", "Ahornsirup (1 Esslöffel)"},
    {"Milk chocolate bar", "Tafel Milchschokolade"},
    {"Dark chocolate, 45-59 % cocoa (4 squares)", "Zartbitterschokolade, 45-59 % Kakao (4 Stücke)"},
};

} // namespace

std::span<const Pair> names_of_foods() {
    return food_names;
}

} // namespace tuck::say
