#include "body/guidance.hpp"

#include <stdexcept>

namespace tuck::body {

const std::vector<CarbGuidance>& carb_guidance() {
    static const std::vector<CarbGuidance> rows = {
        {"ioc_2010", 0, 0, 0, ""},
        {"ioc_2010", 45, 0, 0, "very small amounts or a mouth rinse"},
        {"ioc_2010", 75, 0, 30, ""},
        {"ioc_2010", 120, 0, 60, ""},
        {"ioc_2010", 180, 0, 90, "glucose and fructose, 2:1"},
        {"jeukendrup_2014", 0, 0, 0, ""},
        {"jeukendrup_2014", 30, 0, 0, "small amounts or a mouth rinse if all out"},
        {"jeukendrup_2014", 75, 30, 30, ""},
        {"jeukendrup_2014", 120, 60, 60, ""},
        {"jeukendrup_2014", 150, 90, 90, "only from several sugars"},
        {"burke_2011", 0, 0, 0, "about 1 h hard: small amounts or a mouth rinse"},
        {"burke_2011", 75, 30, 60, ""},
        {"burke_2011", 150, 0, 90, "from several sugars"},
    };
    return rows;
}

const CarbGuidance& carb_guidance_for(const std::string& source, double minutes) {
    const CarbGuidance* found = nullptr;
    for (const CarbGuidance& row : carb_guidance()) {
        if (row.source == source && minutes >= row.from_min) {
            found = &row;
        }
    }
    if (found == nullptr) {
        throw std::invalid_argument("carbohydrate guidance: no row for source '" + source +
                                    "' at that duration");
    }
    return *found;
}

CaffeineLimit caffeine_limit(CaffeineUser user, double mass_kg) {
    constexpr double dose_mg = 200;
    constexpr double minor_mg_per_kg = 3;
    switch (user) {
    case CaffeineUser::adult:
        return {dose_mg, 400};
    case CaffeineUser::pregnant:
        return {dose_mg, 200};
    case CaffeineUser::minor:
        break;
    }
    return {minor_mg_per_kg * mass_kg, minor_mg_per_kg * mass_kg};
}

} // namespace tuck::body
