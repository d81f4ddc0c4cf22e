// Does a food make sense? Sums, ranges and the usual mix-ups of units.
#pragma once

#include "io/fault.hpp"
#include "tuck/food.hpp"

#include <string>
#include <vector>

namespace tuck::io {

inline constexpr double caffeine_most_mg = 300;
inline constexpr std::size_t longest_label = 10; // it goes on the card

struct FoodCheck {
    std::vector<Fault> faults; // cannot be right: the food is refused
    std::vector<Fault> notes;  // unusual, or needs care: worth a second look
};

/// Judges one serving. `file` and `pointer` say where it stands, for the lines of the result.
/// Faults: negative or missing mass, parts above the whole, energy that does not follow from the parts,
/// units mixed up, words that are not known. Notes: outside what such foods usually hold.
FoodCheck check_food(const Food& food, const std::string& file, const std::string& pointer);

/// Energy in kcal by the factors of Annex XIV of EU Regulation 1169/2011: carbohydrate 4, fat 9, protein 4,
/// fibre 2 kcal/g (masses in g).
double label_energy_kcal(double carb_g, double fat_g, double protein_g, double fibre_g);
/// The same in kJ by the annex's own factors: 17, 37, 17 and 8 kJ/g. Not the kcal times 4.184.
double label_energy_kj(double carb_g, double fat_g, double protein_g, double fibre_g);

} // namespace tuck::io
