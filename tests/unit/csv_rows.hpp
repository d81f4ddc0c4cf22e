// Rows of a CSV file by the names of its columns.
#pragma once

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace tuck::example {

using CsvRow = std::map<std::string, std::string>;

/// One line of comma-separated values; a field in double quotes may hold commas, "" stands for a quote.
inline std::vector<std::string> csv_fields(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"')
            fields.back() += line[i++];
        else if (line[i] == '"')
            quoted = !quoted;
        else if (line[i] == ',' && !quoted)
            fields.emplace_back();
        else
            fields.back() += line[i];
    }
    return fields;
}

inline std::vector<CsvRow> csv_rows(const std::string& path) {
    std::ifstream stream(path);
    std::string line;
    if (!std::getline(stream, line))
        throw std::runtime_error("no rows in " + path);
    const auto heads = csv_fields(line);
    std::vector<CsvRow> rows;
    while (std::getline(stream, line)) {
        const auto fields = csv_fields(line);
        if (fields.size() != heads.size())
            throw std::runtime_error(path + ": " + line);
        CsvRow row;
        for (std::size_t i = 0; i < heads.size(); ++i)
            row[heads[i]] = fields[i];
        rows.push_back(std::move(row));
    }
    return rows;
}

} // namespace tuck::example
