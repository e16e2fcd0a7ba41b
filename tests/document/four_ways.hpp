// Designs of two boards and one ribbon, for the tests of what is printed.
#pragma once

#include <fmt/format.h>

#include "design/read.hpp"
#include "document/table.hpp"
#include "support.hpp"

namespace pinfold {

inline Design read_text(const std::string& text) {
    Library library = shipped_library();
    return read_design(text_source(text), repository(), library);
}

inline WiringTable table_of(const std::string& text) {
    const Design design = read_text(text);
    return wiring_table(design, trace(design));
}

/// One end of a ribbon, as the design is to say it.
struct WrittenEnd {
    std::string receptacle = "ffc-0.50-bottom";
    std::string first = "left";
};

/// Four ways from board `left` to board `right`, without any promise.
inline std::string four_ways(const WrittenEnd& a, const WrittenEnd& b, const std::string& copper,
                             const std::string& more = {}) {
    constexpr auto board =
        "  {}:\n    ports:\n      pads: {{pads: [W, X, Y, Z]}}\n"
        "      tail: {{receptacle: {}, positions: 4, first-contact: {}, wired: [W, X, Y, Z]}}\n";
    return "pinfold: 1\ntitle: Four ways\nboards:\n" +
           fmt::format(board, "left", a.receptacle, a.first) +
           fmt::format(board, "right", b.receptacle, b.first) +
           fmt::format(
               "ribbons:\n  strap: {{type: ffc-0.50, conductors: 4, length: 90 mm, "
               "copper: {}}}\njoins:\n- left.tail + strap.a\n- strap.b + right.tail\n",
               copper) +
           more;
}

}  // namespace pinfold
