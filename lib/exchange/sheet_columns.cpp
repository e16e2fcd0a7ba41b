#include "exchange/sheet_columns.hpp"

#include <algorithm>

#include "base/quantity.hpp"
#include "exchange/meter_word.hpp"

namespace pinfold {

SheetColumns columns_by_head(const SheetLine& line) {
    constexpr std::array<std::string_view, 5> no{"no", "no.", "number", "row", "nr"};
    constexpr std::array<std::string_view, 6> from{"from",    "a",      "point a",
                                                   "point_a", "point1", "one"};
    constexpr std::array<std::string_view, 6> to{"to",      "b",      "point b",
                                                 "point_b", "point2", "other"};
    constexpr std::array<std::string_view, 6> reading{"reading", "measured", "result",
                                                      "value",   "state",    "meter"};
    constexpr std::array<std::string_view, 4> with{"with", "plugged in", "plugged", "device"};
    SheetColumns columns;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const std::string word = lowered(line[i].text);
        if (is_one_of(word, no)) columns.no = i;
        if (is_one_of(word, from)) columns.from = i;
        if (is_one_of(word, to)) columns.to = i;
        if (is_one_of(word, reading)) columns.reading = i;
        if (is_one_of(word, with)) columns.with = i;
    }
    return columns;
}

SheetColumns columns_by_shape(const SheetLine& line) {
    SheetColumns columns;
    const bool numbered = line.size() > 3 && parse_whole(line[0].text).has_value();
    const std::size_t first = numbered ? 1 : 0;
    if (numbered) columns.no = 0;
    columns.from = first;
    columns.to = first + 1;
    columns.reading = std::max(first + 2, std::min<std::size_t>(line.size(), first + 4) - 1);
    if (numbered) columns.with = first + 4;
    return columns;
}

}  // namespace pinfold
