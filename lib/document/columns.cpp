#include "document/columns.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "document/text_width.hpp"

namespace pinfold {
namespace {

std::vector<int> widths_of(const Rows& rows) {
    std::vector<int> widths;
    for (const std::vector<std::string>& row : rows) {
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], display_width(row[i]));
        }
    }
    return widths;
}

std::string without_blanks_at_end(std::string line) {
    return line.erase(line.find_last_not_of(' ') + 1);
}

}  // namespace

std::string in_columns(const Rows& rows, std::string_view indent) {
    const std::vector<int> widths = widths_of(rows);
    std::string text;
    for (const std::vector<std::string>& row : rows) {
        std::string line(indent);
        for (std::size_t i = 0; i < row.size(); ++i) line += padded(row[i], widths[i] + 2);
        text += without_blanks_at_end(std::move(line)) + "\n";
    }
    return text;
}

std::string in_lines(std::string_view text, std::string_view indent) {
    std::string lines;
    for (const std::string& line : wrapped(text, page_width - static_cast<int>(indent.size()))) {
        lines += fmt::format("{}{}\n", indent, line);
    }
    return lines;
}

}  // namespace pinfold
