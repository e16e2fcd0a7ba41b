// Marks in files that are not YAML: the line and column of a byte.
#pragma once

#include <cstddef>
#include <memory>
#include <string_view>

#include "base/finding.hpp"

namespace pinfold {

/// The text of a source without a byte order mark at its start.
std::string_view body_of(const Source& source);

/// The largest netlist that is read.
constexpr std::size_t largest_netlist_bytes = std::size_t{256} << 20;

/// Throws InputError, with the place, unless the body of `source` is at most
/// `largest_netlist_bytes` of UTF-8 without control characters other than tab and line ends.
void require_plain_text(const std::shared_ptr<const Source>& source);

/// Whether `text` is UTF-8 without control characters other than tab and line ends, and without
/// the two code points that XML 1.0, section 2.2, leaves out (U+FFFE, U+FFFF).
bool is_plain_text(std::string_view text);

/// Finds the marks of byte offsets into `body_of(source)`.
///
/// Fast when asked in rising order, as a reader does; right in any order.
class PlaceFinder {
public:
    explicit PlaceFinder(std::shared_ptr<const Source> source);
    Mark at(std::size_t offset);

private:
    std::shared_ptr<const Source> source_;
    std::string_view body_;
    std::size_t offset_ = 0;
    std::size_t line_begins_ = 0;
    int line_ = 1;
    int column_ = 1;
};

}  // namespace pinfold
