#include "schedule/rule_words.hpp"

namespace tuck::schedule {

RuleWords words_of(Rule rule) {
    switch (rule) {
    case Rule::carb:
        return {"carbohydrate in any hour", "a higher rate once it has been rehearsed"};
    case Rule::glucose:
        return {"60 g/h by the glucose path", "foods with glucose and fructose, or gut training"};
    case Rule::fructose:
        return {"40 g/h by the fructose path", "foods with more glucose, or gut training"};
    case Rule::fluid_hour:
    case Rule::fluid_sweat:
        return {"the fluid ceiling",
                "a sweat test, which may allow more; never drink more to wash food down"};
    case Rule::gel_water:
        return {"water with every gel", "isotonic gels, or solids on the bike once rehearsed"};
    case Rule::caffeine:
        return {"the caffeine cap", "nothing: it stays"};
    case Rule::supply:
        return {"what can be carried or is handed out",
                "another bottle, more room in the belt, or aid stations "
                "(name them, or ask for typical ones)"};
    case Rule::none:
        break;
    }
    return {"the rhythm and whole units", "nothing needed: half a feed is within the plan's grain"};
}

} // namespace tuck::schedule
