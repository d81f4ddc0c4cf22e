// The pantry: one JSON file per group of foods, read whole and checked, and written back in one layout.
#pragma once

#include "io/fault.hpp"
#include "tuck/document.hpp"
#include "tuck/food.hpp"

#include <string>
#include <vector>

namespace tuck::io {

/// One file of foods, in the order of the file.
struct FoodFile {
    std::string group;
    std::string about;
    std::vector<Food> foods;
};

/// Folder of the pantry: `asked` if given, else beside the installed program (<exe>/../share/tuck/foods),
/// else the source tree. Throws InputError naming every place tried.
std::string pantry_folder(const std::string& asked = "");

/// Reads every *.json of the folder in name order and checks every food (see food_check.hpp). All faults of
/// all files in one InputError; an id that stands twice is a fault.
Pantry load_pantry(const std::string& folder);

/// The *.json files of a folder in name order. Throws InputError when it cannot be read or holds none.
std::vector<std::string> food_files(const std::string& folder);

/// Judges the files together, as one pantry: adds all faults and notes and returns the number of foods read.
size_t check_files(const std::vector<std::string>& paths, std::vector<Fault>& faults,
                   std::vector<Fault>& notes);

/// Adds the foods of one more file, checked, to the pantry: the user's own foods. Throws InputError with all
/// faults; an id that the pantry already has is a fault, and the pantry is then as it was.
void add_foods(Pantry& pantry, const Document& file);

/// Reads one file without judging its numbers. What cannot be read as a food is added to `faults`; a file
/// that cannot be read at all throws InputError.
FoodFile read_food_file(const Document& document, std::vector<Fault>& faults);

/// The JSON text of a file, in the layout of the pantry. Reading it gives the same foods again.
std::string food_file_text(const FoodFile& file);

/// One food as a JSON object, indented by `indent` spaces; `with_group` adds the group.
std::string food_text(const Food& food, int indent = 0, bool with_group = false);

} // namespace tuck::io
