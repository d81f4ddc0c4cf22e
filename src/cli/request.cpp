#include "cli/request.hpp"

#include "cli/card_options.hpp"
#include "cli/entry_options.hpp"
#include "io/diary_file.hpp"
#include "io/pantry.hpp"
#include "io/units.hpp"
#include "tuck/compose.hpp"

#include <algorithm>
#include <map>

namespace tuck::cli {

namespace {

/// The diary outranks the athlete's file; what is typed outranks both.
Athlete taught(const Request& request, const Athlete& said, const Learned& learned) {
    Athlete athlete = with_learned(said, learned);
    if (request.options.says("--sweat-rate"))
        athlete.learned_sweat.reset();
    if (request.options.says("--sweat-sodium")) {
        athlete.sweat_sodium_mmol_per_l = said.sweat_sodium_mmol_per_l;
        athlete.sweat_sodium_log_sd.reset();
    }
    if (request.options.says("--rehearsed-carb"))
        athlete.rehearsed.carb_g_per_h = said.rehearsed.carb_g_per_h;
    if (request.options.says("--rehearsed-fluid"))
        athlete.rehearsed.fluid_ml_per_h = said.rehearsed.fluid_ml_per_h;
    return athlete;
}

void require_known(const char* option, const std::vector<std::string>& words, const Pantry& pantry) {
    for (const auto& word : words) {
        const bool known = std::any_of(pantry.foods.begin(), pantry.foods.end(), [&word](const auto& entry) {
            return entry.first == word || entry.second.group == word;
        });
        if (!known)
            throw io::InputError(option, "",
                                 "\"" + word + "\" is no food and no group of the pantry; see tuck foods");
    }
}

bool rides(const Event& event) {
    return std::any_of(event.legs.begin(), event.legs.end(),
                       [](const Leg& leg) { return leg.kind == LegKind::bike; });
}

/// "0:40=gel_25" or "6km=gel_25".
Pin pin_of(const std::string& text, const Asked& asked) {
    const auto wrong = [&text](const std::string& what) {
        return io::InputError("--pin", "", "\"" + text + "\": " + what);
    };
    const auto sign = text.find('=');
    if (sign == std::string::npos)
        throw wrong("allowed: TIME=FOOD (0:40=gel_25) or KILOMETRE=FOOD (6km=gel_25)");
    const std::string when = text.substr(0, sign);
    Pin pin{LegKind::run, {}, {}, text.substr(sign + 1), text};
    try {
        if (when.find(':') == std::string::npos) {
            pin.km = io::distance_m(when) / 1000;
        } else {
            pin.leg = rides(asked.event) ? LegKind::bike : LegKind::run;
            pin.at_s = 60.0 * io::clock_min(when);
        }
    } catch (const std::invalid_argument& fault) {
        throw wrong(fault.what());
    }
    const Food* food = asked.pantry.find(pin.food);
    if (!food)
        throw wrong("\"" + pin.food + "\" is no food of the pantry; see tuck foods");
    if (food->form != Form::gel && food->form != Form::bar && food->form != Form::chew &&
        food->form != Form::solid)
        throw wrong("allowed: something to eat; drink and salt have lines of their own");
    return pin;
}

double delay_min_of(const std::string& text) {
    constexpr double longest_min = 360;
    double minutes = 0;
    try {
        minutes = io::duration_s(text) / 60;
    } catch (const std::invalid_argument& fault) {
        throw io::InputError("--delay", "", fault.what());
    }
    if (minutes > longest_min)
        throw io::InputError("--delay", "", "\"" + text + "\": allowed: up to 6h");
    return minutes;
}

void apply(const Edits& edits, Asked& asked) {
    require_known("--without", edits.without, asked.pantry);
    require_known("--only", edits.only, asked.pantry);
    auto& avoid = asked.athlete.avoid;
    avoid.insert(avoid.end(), edits.without.begin(), edits.without.end());
    asked.athlete.only = edits.only;
    if (!edits.bike_rhythm.empty()) {
        const std::map<std::string, int> rhythms{{"10min", 600}, {"15min", 900}, {"20min", 1200}};
        const auto rhythm = rhythms.find(edits.bike_rhythm);
        if (rhythm == rhythms.end())
            throw io::InputError("--bike-rhythm", "",
                                 "\"" + edits.bike_rhythm + "\": allowed: 10min, 15min, 20min");
        asked.event.bike_rhythm_s = rhythm->second;
    }
    if (!edits.delay.empty())
        asked.event.delay_min = delay_min_of(edits.delay);
    for (const auto& pin : edits.pins)
        asked.event.pins.push_back(pin_of(pin, asked));
    if (edits.swim.empty())
        return;
    if (edits.swim != "cancelled")
        throw io::InputError("--swim", "", "\"" + edits.swim + "\": allowed: cancelled");
    const auto dry = without_swim(asked.event);
    if (!dry)
        throw io::InputError("--swim", "", "this day does not begin with a swim and go on after it");
    asked.event = *dry;
}

} // namespace

Asked asked_by(const Request& request) {
    const auto file =
        request.event_file.empty() ? std::nullopt : std::optional<std::string>(request.event_file);
    const auto input = io::plan_input(file, request.options);
    Asked asked{input.athlete, input.event, io::load_pantry(io::pantry_folder(request.foods)), {}};
    for (const auto& path : request.own_foods)
        io::add_foods(asked.pantry, path);
    io::check_foods(input, asked.pantry);
    if (!request.diary.empty()) {
        const auto diary = io::read_existing_diary(request.diary);
        tell_state(diary, request.diary);
        asked.learned = learn(diary.entries, input.athlete, wanted_for(input.event));
        asked.athlete = taught(request, input.athlete, asked.learned);
    }
    apply(request.edits, asked);
    if (request.card)
        limit_lines(*request.card, asked.event);
    return asked;
}

namespace {

Plan compose_asked(const Asked& asked, const Event& event) {
    Plan plan = compose_plan(asked.athlete, event, asked.pantry);
    const auto own = own_numbers(asked.learned);
    plan.assumptions.insert(plan.assumptions.begin(), own.begin(), own.end());
    plan.warnings.insert(plan.warnings.end(), asked.learned.warnings.begin(), asked.learned.warnings.end());
    return plan;
}

} // namespace

Plan plan_of(const Request& request) {
    const auto asked = asked_by(request);
    return compose_asked(asked, asked.event);
}

std::optional<Event> without_swim(Event event) {
    auto& legs = event.legs;
    if (legs.size() < 2 || legs[0].kind != LegKind::swim)
        return std::nullopt;
    legs.erase(legs.begin(), legs.begin() + (is_transition(legs[1].kind) ? 2 : 1));
    return legs.empty() ? std::nullopt : std::optional(event);
}

std::string lp_of(const Request& request) {
    const auto asked = asked_by(request);
    const auto text = compose_lp(asked.athlete, asked.event, asked.pantry);
    if (text.empty())
        throw io::InputError("--lp", "", "this plan schedules nothing");
    return text;
}

PlanPair plans_of(const Request& request) {
    const auto asked = asked_by(request);
    PlanPair out{compose_asked(asked, asked.event), std::nullopt};
    if (const auto other = without_swim(asked.event))
        out.no_swim = compose_asked(asked, *other);
    return out;
}

} // namespace tuck::cli
