#include "cli/request.hpp"

#include "ask/odd.hpp"
#include "cli/card_options.hpp"
#include "cli/entry_options.hpp"
#include "cli/profile.hpp"
#include "cli/tell.hpp"

namespace tuck::cli {

Ask ask_of(const Request& request) {
    Ask ask;
    if (!request.event_file.empty())
        ask.event = request.event_file;
    ask.options = request.options;
    ask.pantry = request.foods;
    ask.own_foods.assign(request.own_foods.begin(), request.own_foods.end());
    if (!request.diary.empty())
        ask.diary = request.diary;
    ask.edits = request.edits;
    if (const auto profile = standing_profile(); !request.no_profile && !profile.empty())
        ask.profile = profile;
    if (request.card)
        ask.card = limits_of(*request.card);
    return ask;
}

Asked asked_by(const Request& request) {
    auto asked = read_ask(ask_of(request));
    tell_notes(asked.notes);
    return asked;
}

Answer answer_of(const Request& request, const Want& want) {
    const auto asked = asked_by(request);
    if (const auto note = ask::past_note(asked.event, today()); !note.empty())
        tell_notes({note});
    return answer(asked, want);
}

Plan plan_of(const Request& request) {
    return answer_of(request).plan;
}

} // namespace tuck::cli
