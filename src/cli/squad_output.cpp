#include "cli/squad_output.hpp"

#include "base/utf8.hpp"
#include "io/csv.hpp"
#include "sheet/sheet.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tuck::cli {

namespace {

constexpr std::size_t cards_in_a_volume = 500, sheets_in_a_volume = 100;

std::string volume_name(const char* kind, unsigned number) {
    return fmt::format("{}-{:03}.pdf", kind, number);
}

std::vector<std::string> with_place(std::vector<std::string> heads) {
    heads.insert(heads.end(), {"file", "page"});
    return heads;
}

} // namespace

SquadOutput::SquadOutput(const SquadFolder& folder, io::Outputs& outputs, std::vector<std::string> heads,
                         const faces::CardOptions& card)
    : folder_(folder), outputs_(outputs), summary_(folder, outputs, with_place(std::move(heads))),
      changes_(folder, outputs), bad_(folder.open(outputs, "bad-rows.csv")), options_(card), cards_(card),
      changed_cards_(card) {
    bad_.write(io::csv_line({"where", "what"}));
}

void SquadOutput::add_faults(const std::vector<io::Fault>& faults) {
    for (const auto& fault : io::first_of(faults))
        bad_.write(io::csv_line({shown(fault.place.empty() ? fault.file : fault.file + ": " + fault.place),
                                 shown(words_of(fault))}));
}

SquadPlace SquadOutput::add_card(const SquadRow& row) {
    if (!row.card)
        return {};
    SquadPlace place{volume_name("cards", card_volumes_ + 1), cards_.add(*row.card)};
    if (changes_.add(row.row, row.bib, row.name, row.card_text, place.file, place.page))
        changed_cards_.add(*row.card);
    if (changed_cards_.cards() == cards_in_a_volume)
        write_changed();
    if (cards_.cards() == cards_in_a_volume)
        write_cards();
    return place;
}

SquadPlace SquadOutput::add(const SquadRow& row) {
    auto place = add_card(row);
    auto line = row.line;
    line.insert(line.end(), {place.file, place.page > 0 ? std::to_string(place.page) : ""});
    summary_.add(row.risk, line);
    if (row.kitchen)
        kitchen_.push_back(*row.kitchen);
    if (kitchen_.size() == cards_in_a_volume)
        write_kitchen();
    if (!row.sheet.empty())
        add_sheet(row.sheet);
    return place;
}

void SquadOutput::finish() {
    write_cards();
    write_changed();
    write_sheets();
    write_kitchen();
    summary_.finish();
    changed_ = changes_.finish();
}

void SquadOutput::remove_old_volumes() const {
    remove_later_volumes(folder_, "cards", card_volumes_);
    remove_later_volumes(folder_, "changed", changed_volumes_);
    remove_later_volumes(folder_, "sheets", sheet_volumes_);
    remove_later_volumes(folder_, "kitchen", kitchen_volumes_);
}

std::vector<std::string> SquadOutput::files() const {
    std::vector<std::string> names{"summary.csv", "cards.csv", "changed.csv", "bad-rows.csv"};
    for (const auto& [kind, count] :
         {std::pair{"cards", card_volumes_}, std::pair{"changed", changed_volumes_},
          std::pair{"sheets", sheet_volumes_}, std::pair{"kitchen", kitchen_volumes_}})
        for (unsigned number = 1; number <= count; ++number)
            names.push_back(volume_name(kind, number));
    return names;
}

void SquadOutput::write_volume(const char* kind, unsigned number, const std::string& bytes) {
    auto& file = folder_.open(outputs_, volume_name(kind, number));
    file.write(bytes);
    file.finish(); // there may be more of them than a process may hold open
}

void SquadOutput::write_cards() {
    if (cards_.cards() > 0)
        write_volume("cards", ++card_volumes_, cards_.finish());
}

/// The cards alone that must be printed anew.
void SquadOutput::write_changed() {
    if (changed_cards_.cards() > 0)
        write_volume("changed", ++changed_volumes_, changed_cards_.finish());
}

void SquadOutput::add_sheet(const std::vector<faces::pdf::Page>& pages) {
    if (!sheets_)
        sheets_ = std::make_unique<faces::pdf::Writer>(
            "Sheets", "Each sheet is one athlete's plan for one day, not medical advice", fonts_);
    for (const auto& page : pages)
        sheets_->add(page);
    if (++sheets_held_ == sheets_in_a_volume)
        write_sheets();
}

void SquadOutput::write_sheets() {
    if (!sheets_)
        return;
    write_volume("sheets", ++sheet_volumes_, sheets_->finish());
    sheets_.reset();
    sheets_held_ = 0;
}

void SquadOutput::write_kitchen() {
    if (kitchen_.empty())
        return;
    const auto content = faces::squad_kitchen(kitchen_.front().event, kitchen_);
    faces::pdf::Writer writer("Kitchen", "What a squad buys and mixes, not medical advice", fonts_);
    for (const auto& page : faces::sheet_pages(content, {options_.paper, ""}, fonts_))
        writer.add(page);
    write_volume("kitchen", ++kitchen_volumes_, writer.finish());
    kitchen_.clear();
}

SquadPlans::SquadPlans(const std::string& target, bool with_row, io::Outputs& outputs)
    : with_row_(with_row), to_stdout_(target == "-") {
    if (!target.empty() && !to_stdout_)
        file_ = &outputs.open(target);
}

void SquadPlans::add(const SquadRow& row, const SquadPlace& place) {
    if (!file_ && !to_stdout_)
        return;
    nlohmann::ordered_json who{{"bib", row.bib}, {"name", row.name}};
    if (with_row_)
        who["row"] = row.row;
    if (!place.file.empty()) {
        who["file"] = place.file;
        who["page"] = place.page;
    }
    auto line = row.ndjson.substr(0, row.ndjson.rfind('}'));
    line += ",\"squad\":" + who.dump() + "}\n";
    file_ ? file_->write(line) : io::say(line);
}

} // namespace tuck::cli
