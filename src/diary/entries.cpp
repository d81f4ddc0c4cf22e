#include "tuck/diary.hpp"

#include <algorithm>

namespace tuck {

const std::vector<std::string>& gut_symptoms() {
    static const std::vector<std::string> words = {"nausea", "fullness", "reflux", "cramps", "urge"};
    return words;
}

const char* to_string(EntryKind kind) {
    switch (kind) {
    case EntryKind::sweat_test:
        return "sweat_test";
    case EntryKind::rehearsal:
        return "rehearsal";
    default:
        return "race";
    }
}

int FedLeg::worst() const {
    int out = 0;
    for (const auto& [name, mark] : symptoms)
        out = std::max(out, mark);
    return out;
}

int RehearsalRecord::worst() const {
    return std::max(bike.worst(), run.worst());
}

std::vector<DiaryEntry> standing_entries(const std::vector<DiaryEntry>& entries) {
    std::map<int, DiaryEntry> standing; // by the id of the first line
    std::map<int, int> first;           // of every line
    for (const auto& entry : entries) {
        const auto named = entry.corrects ? first.find(*entry.corrects) : first.end();
        const int root = named == first.end() ? entry.id : named->second;
        first[entry.id] = root;
        if (entry.withdrawn)
            standing.erase(root);
        else
            standing[root] = entry;
    }
    std::vector<DiaryEntry> out;
    for (const auto& [root, entry] : standing)
        out.push_back(entry);
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.date < b.date; });
    return out;
}

} // namespace tuck
