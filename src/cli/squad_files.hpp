// What a squad leaves in its folder.
#pragma once

#include "text/squad_summary.hpp"

#include <cstdint>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace tuck::cli {

/// A file that is written bit by bit beside its place and renamed when it is whole; gone otherwise.
class GrowingFile {
public:
    /// Throws io::InputError when it cannot be opened.
    explicit GrowingFile(std::string path);
    ~GrowingFile();
    GrowingFile(const GrowingFile&) = delete;
    GrowingFile& operator=(const GrowingFile&) = delete;
    /// Throws io::InputError when the disk is full or gone.
    void write(const std::string& bytes);
    std::uint64_t size() const { return size_; }
    void finish();

private:
    std::string path_, beside_;
    std::ofstream out_;
    std::uint64_t size_ = 0;
};

/// summary.csv: riskiest first. Lines wait in a file; 40 bytes of each stay in memory.
class Summary {
public:
    Summary(const std::string& folder, bool with_private);
    ~Summary();
    void add(const faces::SquadRisk& risk, const std::vector<std::string>& line);
    void finish();

private:
    struct Entry {
        faces::SquadRisk risk;
        std::uint64_t at = 0;
        std::uint32_t length = 0;
    };
    static_assert(sizeof(Entry) <= 64);

    std::string path_, unsorted_path_;
    bool with_private_;
    std::vector<Entry> entries_;
    std::ofstream unsorted_;
    std::uint64_t at_ = 0;
};

/// cards.csv, which says what every card said, and changed.csv: the cards that are new or say something else
/// than at the last run, and those that are gone.
class Changes {
public:
    explicit Changes(std::string folder);
    void add(std::uint64_t row, const std::string& bib, const std::string& name,
             const std::string& card_text);
    /// How many cards are new, changed or gone. A first run calls none of them changed.
    std::uint64_t finish();

private:
    struct Known {
        std::uint64_t key = 0, card = 0;
        bool seen = false;
    };
    Known* find(std::uint64_t key);

    std::string folder_;
    bool first_run_ = true;
    std::vector<Known> before_; // sorted by key
    GrowingFile cards_, changed_;
    std::uint64_t count_ = 0;
};

/// Removes volumes of an earlier, longer run: cards-007.pdf when this run ended with cards-006.pdf.
void remove_later_volumes(const std::string& folder, const std::string& kind, unsigned last);

} // namespace tuck::cli
