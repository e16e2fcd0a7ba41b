// Lines of a filled-in sheet: cells between commas, semicolons or tabs, each with its place.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.hpp"

namespace pinfold {

struct SheetCell {
    std::string text;
    Mark at;
};
using SheetLine = std::vector<SheetCell>;

/// Cuts a text into lines of cells.
///
/// A cell in quotes ends on its own line: no name and no reading goes on to the next. Lines that
/// begin with # are empty, a mark of text (') in front of a cell is dropped. Broken quotes are
/// noted as `csv-quote`. The findings must outlive it.
class SheetCutter {
public:
    SheetCutter(std::shared_ptr<const Source> source, Findings& findings);

    bool at_end() const { return at_ >= text_.size(); }
    SheetLine line();

private:
    std::size_t end_of_line() const;
    std::size_t end_of_cell() const;
    char separator() const;
    Mark mark() const;
    SheetCell cell();
    std::string quoted(const Mark& at);
    void refuse(std::string_view what, const Mark& at);

    std::shared_ptr<const Source> source_;
    std::string_view text_;
    Findings& findings_;
    char separator_ = ',';
    std::size_t at_ = 0;
    std::size_t line_begins_ = 0;
    int line_ = 0;
};

}  // namespace pinfold
