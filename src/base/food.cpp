#include "tuck/food.hpp"

#include <array>
#include <utility>

namespace tuck {

namespace {

constexpr std::array<std::pair<Form, const char*>, 8> form_words{{{Form::solid, "solid"},
                                                                  {Form::bar, "bar"},
                                                                  {Form::gel, "gel"},
                                                                  {Form::chew, "chew"},
                                                                  {Form::drink, "drink"},
                                                                  {Form::powder, "powder"},
                                                                  {Form::tablet, "tablet"},
                                                                  {Form::capsule, "capsule"}}};

} // namespace

const char* to_string(Form form) {
    for (const auto& [known, word] : form_words)
        if (known == form)
            return word;
    return "solid";
}

std::optional<Form> form_from(const std::string& word) {
    for (const auto& [form, known] : form_words)
        if (word == known)
            return form;
    return std::nullopt;
}

const std::vector<std::string>& allergen_names() {
    static const std::vector<std::string> names{"gluten",   "crustaceans", "eggs",  "fish",    "peanuts",
                                                "soybeans", "milk",        "nuts",  "celery",  "mustard",
                                                "sesame",   "sulphites",   "lupin", "molluscs"};
    return names;
}

} // namespace tuck
