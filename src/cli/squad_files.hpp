// What a squad leaves in its folder.
#pragma once

#include "io/outputs.hpp"
#include "text/squad_summary.hpp"

#include <cstdint>
#include <deque>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace tuck::cli {

/// The folder of a squad, for one run at a time. What a run has not finished stands in a folder of its own
/// inside, which goes away with the run, or with the next one where a run was killed.
class SquadFolder {
public:
    /// Makes the folder if needed. Throws io::InputError, also while another run is at work in it.
    explicit SquadFolder(std::string path);
    ~SquadFolder();
    SquadFolder(const SquadFolder&) = delete;
    SquadFolder& operator=(const SquadFolder&) = delete;

    std::string place(const std::string& name) const { return path_ + "/" + name; }
    std::string unfinished(const std::string& name) const;
    /// A file of the folder, to stand there when `outputs` are committed.
    io::NewFile& open(io::Outputs& outputs, const std::string& name) const;

private:
    std::string path_;
    int lock_ = -1;
    bool made_ = false; // by this run, and gone with it where nothing stands in it
};

/// summary.csv: riskiest first. Lines wait in a file; 40 bytes of each stay in memory.
class Summary {
public:
    Summary(const SquadFolder& folder, io::Outputs& outputs, const std::vector<std::string>& heads);
    void add(const faces::SquadRisk& risk, const std::vector<std::string>& line);
    void finish();

private:
    struct Entry {
        faces::SquadRisk risk;
        std::uint64_t at = 0;
        std::uint32_t length = 0;
    };
    static_assert(sizeof(Entry) <= 64);

    std::string unsorted_path_;
    io::NewFile& sorted_;
    std::vector<std::string> heads_;
    std::deque<Entry> entries_; // grows without a second copy of itself
    std::ofstream unsorted_;
    std::uint64_t at_ = 0;
};

/// cards.csv, which says what every card said, and changed.csv: the cards that are new or say something else
/// than at the last run, and those that are gone. Rows that share bib and name are told apart by their order.
class Changes {
public:
    Changes(const SquadFolder& folder, io::Outputs& outputs);
    /// Whether the card is new or says something else than at the last run. `page` of `file` holds it.
    bool add(std::uint64_t row, const std::string& bib, const std::string& name, const std::string& card_text,
             const std::string& file, std::size_t page);
    /// How many cards are new, changed or gone. A first run calls none of them changed.
    std::uint64_t finish();
    /// How many rows share bib and name with an earlier one of this run.
    std::uint64_t alike() const { return alike_; }

private:
    struct Known {
        std::uint64_t key = 0, card = 0;
        std::uint32_t met = 0, passed = 0; // in the first of equal keys: how many were met again
    };
    /// The first of those with this key, and how many there are.
    std::pair<Known*, std::size_t> find(std::uint64_t key);

    std::string old_cards_;
    bool first_run_ = true;
    std::vector<Known> before_; // sorted by key, then in the order of the rows
    io::NewFile &cards_, &changed_;
    std::deque<std::uint64_t> keys_; // of this run
    std::uint64_t count_ = 0, alike_ = 0;
};

/// Removes volumes of an earlier, longer run: cards-007.pdf when this run ended with cards-006.pdf.
void remove_later_volumes(const SquadFolder& folder, const std::string& kind, unsigned last);

} // namespace tuck::cli
