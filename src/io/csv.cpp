#include "io/csv.hpp"

namespace tuck::io {

namespace {

constexpr std::size_t longest_record = 64u << 10;

bool is_number(const std::string& text) {
    return text.find_first_not_of("0123456789.-") == std::string::npos;
}

} // namespace

CsvReader::CsvReader(std::istream& in, char mark) : in_(in), mark_(mark) {
    const std::string bom = "\xEF\xBB\xBF";
    while (ahead_.size() < bom.size() && in_.peek() == static_cast<unsigned char>(bom[ahead_.size()]))
        ahead_ += static_cast<char>(in_.get());
    if (ahead_ == bom)
        ahead_.clear();
}

bool CsvReader::get(char& c) {
    if (!ahead_.empty()) {
        c = ahead_.front();
        ahead_.erase(0, 1);
    } else if (!in_.get(c)) {
        return false;
    }
    ++bytes_;
    return true;
}

int CsvReader::peek() {
    return ahead_.empty() ? in_.peek() : static_cast<unsigned char>(ahead_.front());
}

bool CsvReader::next(CsvRecord& record) {
    while (!ended_) {
        record = {};
        if (!read_record(record))
            return false;
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
        else if (c == mark_) {
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
