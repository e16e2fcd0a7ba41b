#include "exchange/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/ascii.hpp"
#include "base/finding.hpp"
#include "base/utf8.hpp"

namespace pinfold {
namespace {

constexpr std::size_t exact_digits = 15;  // what a double holds of any decimal number

bool is_ascii(char c) { return static_cast<unsigned char>(c) < 0x80; }

bool is_whole_number(std::string_view cell) {
    if (cell.size() > exact_digits || !std::ranges::all_of(cell, is_digit)) return false;
    return cell == "0" || cell.front() != '0';
}

/// Truth values as spreadsheets spell them here and there. English measured in one program, the
/// others from memory.
bool is_truth_value(std::string_view cell) {
    constexpr std::array<std::string_view, 10> words{"TRUE", "FALSE", "WAHR",  "FALSCH", "VRAI",
                                                     "FAUX", "VERO",  "FALSO", "WAAR",   "ONWAAR"};
    std::string upper(cell);
    std::ranges::transform(upper, upper.begin(),
                           [](char c) { return is_letter(c) ? static_cast<char>(c & ~0x20) : c; });
    return std::ranges::find(words, upper) != words.end() || upper == "VERDADERO";
}

/// `MAR1`, `sep-2`, `Mai 3`, `June 3, 24`: letters, then nothing but digits and separators.
bool is_like_a_date(std::string_view cell) {
    const auto letters =
        static_cast<std::size_t>(std::ranges::find_if_not(cell, is_letter) - cell.begin());
    const std::string_view rest = cell.substr(letters);
    return letters >= 3 && std::ranges::any_of(rest, is_digit) &&
           rest.find_first_not_of("0123456789 -/.,:") == std::string_view::npos;
}

std::string csv_cell(std::string_view cell) {
    std::string text = could_be_misread(cell) ? "'" : "";
    text += cell;
    const bool blank_at_end = !text.empty() && (text.front() == ' ' || text.back() == ' ');
    if (text.find_first_of(",\"\r\n\t") == std::string::npos && !blank_at_end) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + "\"";
}

/// Reads cells off a text, one after the other.
class Scanner {
public:
    explicit Scanner(std::string_view text) : text_(text) {
        if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
    }

    bool at_end() const { return at_ >= text_.size(); }

    std::string cell() {
        std::string cell = !at_end() && text_[at_] == '"' ? quoted_cell() : bare_cell();
        if (cell.starts_with('\'')) cell.erase(0, 1);
        return cell;
    }

    /// Steps over a comma; false at the end of a line, which it steps over too.
    bool more_in_line() {
        if (at_end()) return false;
        if (text_[at_] == ',') {
            ++at_;
            return true;
        }
        if (text_[at_] != '\r' && text_[at_] != '\n') refuse("text after a closing quote");
        if (text_.substr(at_, 2) == "\r\n") ++at_;
        ++at_;
        ++line_;
        return false;
    }

private:
    std::string bare_cell() {
        const std::size_t end = std::min(text_.find_first_of(",\r\n", at_), text_.size());
        std::string cell(text_.substr(at_, end - at_));
        if (cell.find('"') != std::string::npos) refuse("a quote inside a cell without quotes");
        at_ = end;
        return cell;
    }

    std::string quoted_cell() {
        std::string cell;
        for (++at_; !at_end(); ++at_) {
            if (text_[at_] == '\n') ++line_;
            if (text_[at_] != '"') {
                cell += text_[at_];
            } else if (text_.substr(at_, 2) == "\"\"") {
                cell += text_[at_++];
            } else {
                ++at_;
                return cell;
            }
        }
        refuse("a quote that is never closed");
    }

    [[noreturn]] void refuse(std::string_view what) const {
        throw InputError({{Severity::error, "csv-quote",
                           fmt::format("{} in line {} of the table", what, line_), Mark{}}});
    }

    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1;
};

}  // namespace

bool could_be_misread(std::string_view cell) {
    if (cell.empty() || is_whole_number(cell)) return false;
    return !is_letter(cell.front()) || is_truth_value(cell) || is_like_a_date(cell);
}

std::string write_csv(const CsvRows& rows) {
    std::string text;
    for (const std::vector<std::string>& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (i > 0) text += ',';
            text += csv_cell(row[i]);
        }
        if (row.size() == 1 && row.front().empty()) text += "\"\"";
        text += "\r\n";
    }
    return std::ranges::all_of(text, is_ascii) ? text : std::string(byte_order_mark) + text;
}

CsvRows read_csv(std::string_view text) {
    CsvRows rows;
    Scanner scanner(text);
    while (!scanner.at_end()) {
        std::vector<std::string> row{scanner.cell()};
        while (scanner.more_in_line()) row.push_back(scanner.cell());
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace pinfold
