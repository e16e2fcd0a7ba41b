#include "exchange/sheet_lines.hpp"

#include <algorithm>

#include "base/spelling.hpp"
#include "base/utf8.hpp"

namespace pinfold {
namespace {

/// The first semicolon or tab that is not quoted; comma if there is none.
char separator_of(std::string_view line) {
    bool is_quoted = false;
    for (const char c : line) {
        if (c == '"') is_quoted = !is_quoted;
        if (!is_quoted && (c == ';' || c == '\t')) return c;
    }
    return ',';
}

}  // namespace

SheetCutter::SheetCutter(std::shared_ptr<const Source> source, Findings& findings)
    : source_(std::move(source)), text_(source_->text), findings_(findings) {
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
    separator_ = separator();
}

SheetLine SheetCutter::line() {
    line_begins_ = at_;
    ++line_;
    SheetLine cells;
    if (text_[at_] == '#') at_ = end_of_line();
    while (!at_end() && text_[at_] != '\n' && text_[at_] != '\r') {
        cells.push_back(cell());
        if (at_end() || text_[at_] != separator_) break;
        ++at_;
        if (at_end() || text_[at_] == '\n' || text_[at_] == '\r') cells.push_back({"", mark()});
    }
    if (text_.substr(std::min(at_, text_.size()), 2) == "\r\n") ++at_;
    if (!at_end()) ++at_;
    return cells;
}

std::size_t SheetCutter::end_of_line() const {
    return std::min(text_.find_first_of("\r\n", at_), text_.size());
}

std::size_t SheetCutter::end_of_cell() const {
    return std::min(text_.find(separator_, at_), end_of_line());
}

/// What parts the cells of the first line that is no comment; in quotes nothing does.
char SheetCutter::separator() const {
    for (std::size_t at = at_; at < text_.size();) {
        const std::size_t end = std::min(text_.find_first_of("\r\n", at), text_.size());
        const std::string_view line = text_.substr(at, end - at);
        at = end + 1;
        if (!line.empty() && line.front() != '#') return separator_of(line);
    }
    return ',';
}

Mark SheetCutter::mark() const {
    const std::string_view before = text_.substr(line_begins_, at_ - line_begins_);
    return {source_, line_, code_points(before) + 1, line_begins_};
}

SheetCell SheetCutter::cell() {
    SheetCell cell{"", mark()};
    if (text_[at_] == '"') {
        cell.text = quoted(cell.at);
    } else {
        const std::size_t end = end_of_cell();
        cell.text = trimmed(text_.substr(at_, end - at_));
        at_ = end;
        if (cell.text.find('"') != std::string::npos) {
            refuse("a quote inside a cell without quotes; quote the whole cell", cell.at);
        }
    }
    if (cell.text.starts_with('\'')) cell.text.erase(0, 1);
    return cell;
}

std::string SheetCutter::quoted(const Mark& at) {
    std::string text;
    for (++at_; !at_end() && text_[at_] != '\n' && text_[at_] != '\r'; ++at_) {
        if (text_[at_] != '"') {
            text += text_[at_];
            continue;
        }
        ++at_;
        if (!at_end() && text_[at_] == '"') {
            text += '"';
            continue;
        }
        const std::size_t end = end_of_cell();
        if (!trimmed(text_.substr(at_, end - at_)).empty()) {
            refuse("text after a closing quote", at);
        }
        at_ = end;
        return text;
    }
    refuse("a quote that is not closed on its line", at);
    return text;
}

void SheetCutter::refuse(std::string_view what, const Mark& at) {
    findings_.push_back({Severity::error, "csv-quote", std::string(what), at});
}

}  // namespace pinfold
