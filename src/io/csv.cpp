#include "io/csv.hpp"

#include <iterator>
#include <string_view>
#include <utf8.h>

namespace tuck::io {

namespace {

constexpr std::size_t longest_record = 64u << 10;

bool is_utf8(const std::string& text) {
    return utf8::is_valid(text.begin(), text.end());
}

std::string utf8_of(char32_t point) {
    std::string out;
    const bool fits = point <= 0x10FFFF && (point < 0xD800 || point > 0xDFFF);
    utf8::append(fits ? point : U'\uFFFD', std::back_inserter(out));
    return out;
}

/// Microsoft's code page 1252: ISO 8859-1 but for 0x80 to 0x9F; five of those bytes stand for nothing.
char32_t windows_1252_point(unsigned char byte) {
    static constexpr char32_t above[32] = {0x20AC, 0xFFFD, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                           0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0xFFFD, 0x017D, 0xFFFD,
                                           0xFFFD, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                           0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0xFFFD, 0x017E, 0x0178};
    return byte >= 0x80 && byte < 0xA0 ? above[byte - 0x80] : byte;
}

bool is_number(const std::string& text) {
    return text.find_first_not_of("0123456789.-") == std::string::npos;
}

} // namespace

CsvReader::CsvReader(std::istream& in) : in_(in) {
    const auto begins = [this](std::string_view mark) {
        while (ahead_.size() < mark.size() && in_.peek() == static_cast<unsigned char>(mark[ahead_.size()]))
            ahead_ += static_cast<char>(in_.get());
        const bool found = ahead_.size() >= mark.size() && ahead_.compare(0, mark.size(), mark) == 0;
        if (found)
            ahead_.erase(0, mark.size());
        return found;
    };
    if (begins("\xEF\xBB\xBF"))
        units_ = Units::bytes;
    else if (begins("\xFF\xFE"))
        units_ = Units::utf16_little;
    else if (begins("\xFE\xFF"))
        units_ = Units::utf16_big;
    find_separator();
}

/// The next piece, as bytes of UTF-8 (or of what the file is in). False at the end.
bool CsvReader::fill() {
    if (taken_ < ahead_.size())
        return true;
    ahead_.clear();
    taken_ = 0;
    char first = 0, second = 0;
    if (!in_.get(first))
        return false;
    if (units_ == Units::bytes) {
        ahead_ = first;
        return true;
    }
    const auto unit = [&]() -> char32_t {
        const auto low = static_cast<unsigned char>(units_ == Units::utf16_little ? first : second);
        const auto high = static_cast<unsigned char>(units_ == Units::utf16_little ? second : first);
        return static_cast<char32_t>(high << 8 | low);
    };
    if (!in_.get(second))
        return false;
    char32_t point = unit();
    const bool pair = point >= 0xD800 && point < 0xDC00;
    if (pair && in_.get(first) && in_.get(second))
        point = 0x10000 + ((point - 0xD800) << 10) + (unit() - 0xDC00);
    ahead_ = utf8_of(point);
    return true;
}

void CsvReader::find_separator() {
    std::string line;
    char c = 0;
    while (line.size() < longest_record && get(c)) {
        line += c;
        if (c == '\n')
            break;
    }
    if (line.compare(0, 4, "sep=") == 0 && line.size() > 4) {
        separator_ = line[4];
        return;
    }
    std::size_t most = 0;
    for (const char separator : {',', ';', '\t'}) {
        std::size_t count = 0;
        bool quoted = false;
        for (const char each : line) {
            quoted = quoted != (each == '"');
            count += !quoted && each == separator;
        }
        if (count > most) {
            most = count;
            separator_ = separator;
        }
    }
    bytes_ = 0;
    ahead_ = line + ahead_.substr(taken_);
    taken_ = 0;
}

bool CsvReader::get(char& c) {
    if (!fill())
        return false;
    c = ahead_[taken_++];
    ++bytes_;
    return true;
}

int CsvReader::peek() {
    return fill() ? static_cast<unsigned char>(ahead_[taken_]) : std::istream::traits_type::eof();
}

void CsvReader::to_utf8(std::string& cell) {
    if (is_utf8(cell))
        return;
    windows_1252_ = true;
    std::string out;
    for (const char c : cell)
        out += utf8_of(windows_1252_point(static_cast<unsigned char>(c)));
    cell = std::move(out);
}

bool CsvReader::next(CsvRecord& record) {
    while (!ended_) {
        record = {};
        if (!read_record(record))
            return false;
        for (auto& cell : record.cells)
            to_utf8(cell);
        const bool empty_line = record.cells.size() == 1 && record.cells[0].empty() && record.problem.empty();
        if (!empty_line)
            return true;
    }
    return false;
}

bool CsvReader::read_record(CsvRecord& record) {
    std::string cell;
    bool quoted = false, was_quoted = false, any = false;
    std::size_t length = 0;
    const auto fail = [&](const char* problem) {
        if (record.problem.empty())
            record.problem = problem;
    };
    for (char c; get(c);) {
        any = true;
        if (++length > longest_record) {
            fail("a record of more than 64 kB; a quote may be missing");
            ended_ = true;
            break;
        }
        if (quoted) {
            if (c != '"')
                cell += c;
            else if (peek() == '"') {
                get(c);
                cell += c;
            } else
                quoted = false;
            continue;
        }
        if (c == '"' && cell.empty() && !was_quoted)
            quoted = was_quoted = true;
        else if (c == separator_) {
            record.cells.push_back(std::move(cell));
            cell.clear();
            was_quoted = false;
        } else if (c == '\n')
            break;
        else if (c == '\r' && peek() == '\n')
            continue;
        else if (c == '"' || was_quoted) {
            fail("a quote inside a cell; allowed: the whole cell in quotes, quotes in it doubled");
            cell += c;
        } else
            cell += c;
    }
    if (quoted)
        fail("a cell that begins with a quote and never ends");
    if (any)
        record.cells.push_back(std::move(cell));
    return any;
}

std::string csv_cell(const std::string& text) {
    std::string out;
    bool begins = !is_number(text);
    for (const char c : text) {
        if (begins && std::string("=+-@").find(c) != std::string::npos)
            out += '\'';
        out += c;
        const bool parts = std::string(";\t\r\n").find(c) != std::string::npos;
        begins = parts || (begins && (c == ' ' || c == '"'));
    }
    return out;
}

std::string csv_line(const std::vector<std::string>& cells) {
    std::string out;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::string cell = csv_cell(cells[i]);
        out += i > 0 ? "," : "";
        if (cell.find_first_of(",\"\r\n") == std::string::npos) {
            out += cell;
            continue;
        }
        out += '"';
        for (const char c : cell)
            out += c == '"' ? std::string("\"\"") : std::string(1, c);
        out += '"';
    }
    return out + "\r\n";
}

} // namespace tuck::io
