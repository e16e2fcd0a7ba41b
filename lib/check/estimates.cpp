#include "check/estimates.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "breakout/breakout.hpp"
#include "check/lengths.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_boards = 16;
constexpr std::size_t most_contacts = 120;

bool can_be_estimated(const Board& board) {
    std::size_t contacts = 0;
    for (const Port& port : board.ports) contacts += port.contacts.size();
    const bool takes_ribbon =
        std::ranges::any_of(board.ports, [](const Port& port) { return port.ribbon.has_value(); });
    return !board.is_device && takes_ribbon && contacts <= most_contacts &&
           std::ranges::none_of(board.nets, [](const Net& net) { return net.length.has_value(); });
}

/// Gives each net of a board that is drawn the length of its longest wire.
void estimate_board(EstimatedLengths& estimated, std::size_t board) {
    const Breakout made = breakout_of(estimated.drawn, board);
    std::vector<Net>& drawn = estimated.drawn.boards[board].nets;
    std::vector<Net>& bare = estimated.bare.boards[board].nets;
    const auto lengthen = [](Net& net, double length_mm) {
        net.length = std::max(net.length.value_or(Millimetres(0.0)), Millimetres(length_mm));
    };
    for (std::size_t w = 0; w < made.wires.size(); ++w) {
        const std::size_t net = made.escape.wires[w].net;
        lengthen(drawn[net], made.wires[w].length_mm);
        lengthen(bare[net], made.wires[w].bare_mm());
    }
    estimated.bent = estimated.bent || made.has_meanders();
    estimated.boards.push_back(estimated.drawn.boards[board].name);
}

std::vector<std::size_t> boards_to_estimate(const Design& design) {
    std::vector<std::size_t> boards;
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (can_be_estimated(design.boards[b])) boards.push_back(b);
    }
    if (boards.size() > most_boards) boards.clear();
    return boards;
}

bool is_skew(const Finding& finding) {
    return finding.rule == "skew-in-pair" || finding.rule == "skew-between-pairs";
}

bool has_limits(const Design& design) {
    return std::ranges::any_of(design.carries, [&](const Carry& carry) {
        return !carry.interface.empty() && carry.rate &&
               !design.interfaces.at(carry.interface).limits.empty();
    });
}

/// Skew that is found with these lengths and not in `known`.
Findings more_skew(const Design& design, const Wiring& wiring, LineMemory& memory,
                   const Findings& known) {
    Findings skews;
    for (Finding& finding : check_lengths(design, wiring, memory)) {
        const bool is_known = std::ranges::any_of(known, [&](const Finding& other) {
            return other.rule == finding.rule && other.places == finding.places;
        });
        if (is_skew(finding) && !is_known) skews.push_back(std::move(finding));
    }
    return skews;
}

void note(Findings& notes, Finding finding, const std::string& words) {
    finding.severity = Severity::note;
    finding.rule = "skew-estimated";
    finding.text += words;
    notes.push_back(std::move(finding));
}

}  // namespace

EstimatedLengths with_estimated_lengths(const Design& design) {
    EstimatedLengths estimated{design, design, false, {}};
    for (const std::size_t b : boards_to_estimate(design)) {
        try {
            estimate_board(estimated, b);
        } catch (const InputError&) {
            continue;  // not a board that can be drawn; `pinfold draw` says why
        }
    }
    return estimated;
}

Findings check_estimated_lengths(const Design& design, const Wiring& wiring, LineMemory& memory) {
    if (!has_limits(design) || boards_to_estimate(design).empty()) return {};
    const EstimatedLengths estimated = with_estimated_lengths(design);
    if (estimated.boards.empty()) return {};
    Findings notes;
    Findings known = check_lengths(design, wiring, memory);
    const std::string whence = fmt::format(
        "the lengths on {} are those that `pinfold draw` draws, as the board's file "
        "gives none",
        fmt::join(estimated.boards, ", "));
    const char* with = estimated.bent ? ", with the meanders that fit" : "";
    for (Finding& finding : more_skew(estimated.drawn, wiring, memory, known)) {
        known.push_back(finding);
        note(notes, std::move(finding), fmt::format("; an estimate{}: {}", with, whence));
    }
    if (!estimated.bent) return notes;
    for (Finding& finding : more_skew(estimated.bare, wiring, memory, known)) {
        note(notes, std::move(finding),
             fmt::format("; an estimate without meanders: {}; the meanders that it draws take this "
                         "away",
                         whence));
    }
    return notes;
}

}  // namespace pinfold
