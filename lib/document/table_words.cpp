#include "document/table_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"

namespace pinfold {
namespace {

std::string_view in_words(Turn turn) {
    switch (turn) {
        case Turn::straight: return "straight";
        case Turn::bend_up: return "bent up by 90 degrees";
        case Turn::bend_down: return "bent down by 90 degrees";
        case Turn::fold_left: return "folded at 45 degrees to the left";
        case Turn::fold_right: return "folded at 45 degrees to the right";
        case Turn::half_twist: return "turned over by a half twist";
    }
    return "";
}

}  // namespace

std::string one_line(std::string_view text) {
    std::string line(text);
    for (char& c : line) {
        if (c == '\n' || c == '\r') c = ' ';
    }
    return shown(line);
}

std::string in_words(Millimetres length) { return fmt::format("{:.6g} mm", length.value()); }

std::string in_words(Copper copper) {
    return copper == Copper::same_side ? "bared copper on the same face at both ends"
                                       : "bared copper on opposite faces at the two ends";
}

std::string in_words(const Lay& lay) {
    std::string course;
    for (const Turn turn : lay.turns) {
        if (!course.empty()) course += ", then ";
        course += in_words(turn);
    }
    if (course.empty()) course = "straight";
    return fmt::format("{}; component side of the board at end a {}, at end b {}", course,
                       name_of(lay.face_a), name_of(lay.face_b));
}

std::string contacts_in_words(ContactSide side, Entry entry) {
    if (side == ContactSide::both) return "contacts on both sides";
    if (entry == Entry::vertical) return "stands upright, contacts on one side of the slot";
    return side == ContactSide::bottom ? "bottom contacts: they touch the face towards the board"
                                       : "top contacts: they touch the face away from the board";
}

std::string first_contact_in_words(Hand first, Entry entry) {
    return fmt::format("on the {}, looking into the mouth with the {} below", name_of(first),
                       entry == Entry::vertical ? "contacts" : "board");
}

std::string copper_in_words(ContactSide side, Entry entry, bool drawn_up) {
    if (side == ContactSide::both) return "either way up; both rows of contacts take it";
    if (entry == Entry::vertical) return "copper towards the contacts";
    const bool up = side == ContactSide::top;
    return fmt::format("copper {} the board; on a board that lies face up, {}",
                       up ? "away from" : "towards",
                       up == drawn_up ? "as drawn" : "the drawing turned over");
}

std::string stock_in_words(Millimetres length, const std::vector<Millimetres>& stock) {
    if (stock.empty()) return "cut to length";
    std::vector<Millimetres> enough = stock;
    std::erase_if(enough, [&](Millimetres any) { return any < length; });
    if (enough.empty()) {
        return fmt::format("longer than every listed stock length ({} at most); have it made",
                           in_words(*std::ranges::max_element(stock)));
    }
    const Millimetres next = *std::ranges::min_element(enough);
    if (next == length) return "a listed stock length";
    return fmt::format("next listed stock length: {}", in_words(next));
}

std::string counted(std::size_t count, std::string_view one) {
    return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

}  // namespace pinfold
