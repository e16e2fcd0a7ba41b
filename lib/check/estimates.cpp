#include "check/estimates.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

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

/// The longest wire of each net that is drawn.
std::map<std::size_t, double> drawn_lengths(const Design& design, std::size_t board) {
    std::map<std::size_t, double> longest;
    const Breakout made = breakout_of(design, board);
    for (std::size_t w = 0; w < made.wires.size(); ++w) {
        double& length = longest[made.escape.wires[w].net];
        length = std::max(length, made.wires[w].length_mm);
    }
    return longest;
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

}  // namespace

EstimatedLengths with_estimated_lengths(const Design& design) {
    EstimatedLengths estimated{design, {}};
    for (const std::size_t b : boards_to_estimate(design)) {
        try {
            for (const auto& [net, length] : drawn_lengths(design, b)) {
                estimated.design.boards[b].nets[net].length = Millimetres(length);
            }
            estimated.boards.push_back(design.boards[b].name);
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
    const Findings given = check_lengths(design, wiring, memory);
    Findings findings;
    for (Finding& finding : check_lengths(estimated.design, wiring, memory)) {
        const bool is_known = std::ranges::any_of(given, [&](const Finding& known) {
            return known.rule == finding.rule && known.places == finding.places;
        });
        if (!is_skew(finding) || is_known) continue;
        finding.severity = Severity::note;
        finding.rule = "skew-estimated";
        finding.text += fmt::format(
            "; an estimate: the lengths on {} are those that `pinfold "
            "draw` draws, as the board's file gives none",
            fmt::join(estimated.boards, ", "));
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace pinfold
