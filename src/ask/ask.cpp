#include "tuck/ask.hpp"

#include "ask/edits.hpp"
#include "ask/odd.hpp"
#include "io/diary_file.hpp"
#include "io/options.hpp"
#include "io/pantry.hpp"
#include "tuck/compose.hpp"

#include <fmt/format.h>

namespace tuck {

namespace {

/// The diary outranks the athlete's file; what is typed outranks both.
Athlete taught(const Typed& typed, const Athlete& said, const Learned& learned) {
    Athlete athlete = with_learned(said, learned);
    if (typed.count("--sweat-rate"))
        athlete.learned_sweat.reset();
    if (typed.count("--sweat-sodium")) {
        athlete.sweat_sodium_mmol_per_l = said.sweat_sodium_mmol_per_l;
        athlete.sweat_sodium_log_sd.reset();
    }
    if (typed.count("--rehearsed-carb"))
        athlete.rehearsed.carb_g_per_h = said.rehearsed.carb_g_per_h;
    if (typed.count("--rehearsed-fluid"))
        athlete.rehearsed.fluid_ml_per_h = said.rehearsed.fluid_ml_per_h;
    return athlete;
}

Plan with_own_words(Plan plan, const Asked& asked) {
    const auto own = own_numbers(asked.learned);
    plan.assumptions.insert(plan.assumptions.begin(), own.begin(), own.end());
    plan.assumptions.insert(plan.assumptions.begin(), asked.instead.begin(), asked.instead.end());
    plan.warnings.insert(plan.warnings.end(), asked.learned.warnings.begin(), asked.learned.warnings.end());
    return plan;
}

} // namespace

Asked read_ask(const Ask& ask) {
    auto input = io::plan_input(ask.event, ask.options, ask.profile, ask.files);
    auto pantry = ask.known_pantry ? *ask.known_pantry : io::load_pantry(io::pantry_folder(ask.pantry));
    for (const auto& foods : ask.own_foods)
        io::add_foods(pantry, foods);
    io::check_foods(input, pantry);
    Asked asked{input.athlete, input.event, std::move(pantry), {}, {}, input.instead};
    if (ask.diary) {
        const auto diary = io::read_existing_diary(*ask.diary);
        asked.notes = io::notes_on(diary, ask.diary->name);
        asked.learned = learn(diary.entries, input.athlete, wanted_for(input.event));
        asked.athlete = taught(ask.options, input.athlete, asked.learned);
    }
    const auto odd = ask::odd_notes(asked.athlete, asked.event);
    asked.notes.insert(asked.notes.end(), odd.begin(), odd.end());
    ask::apply(ask.edits, asked);
    limit_lines(ask.card, asked.event);
    return asked;
}

Answer answer(const Asked& asked, const Want& want) {
    auto composed = compose(asked.athlete, asked.event, asked.pantry, want.lp, want.help);
    Answer out{with_own_words(std::move(composed.plan), asked), {}, std::move(composed.lp)};
    const auto dry = want.no_swim ? without_swim(asked.event) : std::nullopt;
    if (dry)
        out.no_swim = with_own_words(compose_plan(asked.athlete, *dry, asked.pantry), asked);
    return out;
}

void limit_lines(const CardLimits& card, Event& event) {
    if (card.bike_lines > 0)
        event.max_lines_bike = card.bike_lines;
    if (card.run_lines > 0)
        event.max_lines_run = card.run_lines;
}

std::optional<Event> without_swim(Event event) {
    auto& legs = event.legs;
    if (legs.size() < 2 || legs[0].kind != LegKind::swim)
        return std::nullopt;
    legs.erase(legs.begin(), legs.begin() + (is_transition(legs[1].kind) ? 2 : 1));
    return legs.empty() ? std::nullopt : std::optional(event);
}

} // namespace tuck
