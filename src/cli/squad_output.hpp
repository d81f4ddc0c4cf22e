// A squad's rows on their way into the files of its folder, in the order of the roster.
#pragma once

#include "card/card.hpp"
#include "cli/squad_files.hpp"
#include "io/fault.hpp"
#include "paper/pdf.hpp"
#include "sheet/squad_kitchen.hpp"
#include "text/squad_summary.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace tuck::cli {

/// One row, worked out: either faults, or everything that will be written of it.
struct SquadRow {
    std::uint64_t row = 0;
    std::vector<io::Fault> faults, notes;
    bool refused = false;
    std::string bib, name, card_text, ndjson;
    faces::SquadRisk risk;
    std::vector<std::string> line, unused;
    std::shared_ptr<const faces::CardSheets::Prepared> card;
    std::optional<faces::KitchenShare> kitchen;
    std::vector<faces::pdf::Page> sheet;
};

/// Where a card stands; without a card no file.
struct SquadPlace {
    std::string file;
    std::size_t page = 0;
};

/// The files of the folder, filled in the order of the rows.
class SquadOutput {
public:
    SquadOutput(const SquadFolder& folder, io::Outputs& outputs, std::vector<std::string> heads,
                const faces::CardOptions& card);

    void add_faults(const std::vector<io::Fault>& faults);
    SquadPlace add(const SquadRow& row);
    void finish();
    /// Once the new ones stand in their places.
    void remove_old_volumes() const;

    /// The names of all files of this run.
    std::vector<std::string> files() const;
    unsigned card_volumes() const { return card_volumes_; }
    std::uint64_t changed() const { return changed_; }
    std::uint64_t alike() const { return changes_.alike(); }

private:
    void write_volume(const char* kind, unsigned number, const std::string& bytes);
    void write_cards();
    void write_changed();
    void write_sheets();
    void write_kitchen();
    SquadPlace add_card(const SquadRow& row);
    void add_sheet(const std::vector<faces::pdf::Page>& pages);

    const SquadFolder& folder_;
    io::Outputs& outputs_;
    Summary summary_;
    Changes changes_;
    io::NewFile& bad_;
    faces::Fonts fonts_;
    faces::CardOptions options_;
    faces::CardSheets cards_, changed_cards_;
    std::unique_ptr<faces::pdf::Writer> sheets_;
    std::vector<faces::KitchenShare> kitchen_;
    std::size_t sheets_held_ = 0;
    unsigned card_volumes_ = 0, changed_volumes_ = 0, sheet_volumes_ = 0, kitchen_volumes_ = 0;
    std::uint64_t changed_ = 0;
};

/// Plans as lines of JSON, to a file or to standard output; each says whose it is and where its card stands.
class SquadPlans {
public:
    /// `with_row`: of a file; a filter of rows knows no numbers.
    SquadPlans(const std::string& target, bool with_row, io::Outputs& outputs);
    void add(const SquadRow& row, const SquadPlace& place);

private:
    bool with_row_, to_stdout_;
    io::NewFile* file_ = nullptr;
};

} // namespace tuck::cli
