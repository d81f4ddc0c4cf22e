#include "need/guidance.hpp"

#include <limits>

namespace tuck::need {

const std::vector<GuidanceBand>& guidance() {
    constexpr double for_ever = std::numeric_limits<double>::infinity();
    static const std::vector<GuidanceBand> bands{
        {0, rinse_from_min, 0, false, "under 45 min: no carbohydrate is needed",
         "IOC consensus 2010; ACSM/AND/DC 2016 (from memory)", "Jeukendrup 2014 sets the border at 30 min"},
        {rinse_from_min, fuel_from_min, 0, false,
         "45 to 75 min: nothing is needed; a mouth rinse or very small amounts may help when it is hard all "
         "the way",
         "IOC consensus 2010; Jeukendrup 2014; Carter 2004 (rinse)", ""},
        {fuel_from_min, 120, 30, false, "from 75 min to 2 h: up to 30 g/h, any sugar",
         "IOC consensus 2010; Jeukendrup 2014", "ACSM/AND/DC 2016 (from memory) allows 30 to 60"},
        {120, two_sugars_from_min, 60, false, "2 h to 2.5 h: up to 60 g/h, any sugar",
         "IOC consensus 2010; Burke 2011", ""},
        {two_sugars_from_min, for_ever, 90, true, "over 2.5 h: up to 90 g/h, glucose and fructose together",
         "Burke 2011; Jeukendrup 2014", "IOC consensus 2010 sets the border at 3 h"},
    };
    return bands;
}

const GuidanceBand& guidance_for(double minutes) {
    for (const auto& band : guidance())
        if (minutes < band.to_min)
            return band;
    return guidance().back();
}

double unrehearsed_carb_g_per_h(double minutes) {
    return minutes < 120   ? figure("food.unrehearsed_2h_g_per_h")
           : minutes < 180 ? figure("food.unrehearsed_3h_g_per_h")
                           : figure("food.unrehearsed_long_g_per_h");
}

} // namespace tuck::need
