#include "document/order_report.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/shown.hpp"
#include "breakout/board_breakouts.hpp"
#include "document/breakout_text.hpp"
#include "document/columns.hpp"
#include "document/report.hpp"

namespace pinfold {
namespace {

std::string_view meaning_of(Aim aim) {
    switch (aim) {
        case Aim::guards: return "sides of fast pairs without a ground";
        case Aim::hazards: return "harm if reversed or one place off";
        case Aim::noise: return "coupling, neighbours' worth";
        case Aim::crossings: return "traces that cross, both boards";
        case Aim::mismatch: return "length mismatch, mm (estimate)";
        case Aim::returns: return "supply conductors without a ground";
    }
    return "";
}

std::string padded(const std::string& text, std::size_t width) {
    return fmt::format("{:>{}}", text, width);
}

/// One row for each aim: what the order has, the proof, what the aim alone would reach.
std::string figure_table(const RibbonOrder& order) {
    const bool measured = order.drawn.has_value();
    std::string text =
        fmt::format("  {:<9}  {:<36}{}{}{}{}\n", "aim", "", measured ? padded("drawn", 10) : "",
                    padded("best", 10), padded("bound", 10), padded("alone", 10));
    for (const Aim aim : order.problem.ranking) {
        const auto& alone = order.alone[static_cast<std::size_t>(aim)];
        text += fmt::format("  {:<9}  {:<36}{}{}{}{}\n", name_of(aim), meaning_of(aim),
                            measured ? padded(in_words(aim, figure(*order.drawn, aim)), 10) : "",
                            padded(in_words(aim, figure(order.best.cost, aim)), 10),
                            padded(in_words(aim, figure(order.best.bound, aim)), 10),
                            padded(alone ? in_words(aim, *alone) : "-", 10));
    }
    return text;
}

std::string names_in_lines(const std::vector<std::string>& names) { return list_text(names, 4, 5); }

std::string proof_of(const RibbonOrder& order) {
    if (!order.best.proved) {
        return "NOT proved: the time or the memory was used up; the gap is that between best and "
               "bound\n";
    }
    std::string count;
    if (order.best.optima) {
        count = *order.best.optima == 1
                    ? "; it is the only one as good"
                    : fmt::format("; {} orders are as good, this is the first of them",
                                  *order.best.optima);
    }
    return fmt::format(
        "proved: no order of these conductors is better by the aims in their "
        "ranking{}\n",
        count);
}

std::string verdict_on_drawn(const RibbonOrder& order) {
    if (order.split) return "the order as drawn parts the halves of a pair\n";
    const auto worse = std::ranges::find_if(order.problem.ranking, [&](Aim aim) {
        return figure(*order.drawn, aim) != figure(order.best.cost, aim);
    });
    if (worse == order.problem.ranking.end()) return "the order as drawn is as good as the best\n";
    return fmt::format("the order as drawn is not the best: {} {}, {} could be had\n",
                       name_of(*worse), in_words(*worse, figure(*order.drawn, *worse)),
                       in_words(*worse, figure(order.best.cost, *worse)));
}

std::string cargo_text(const RibbonOrder& order) {
    std::string text;
    for (const CargoNet& net : order.cargo.nets) {
        if (net.why.empty()) continue;
        text += fmt::format("  {}: {} conductor{} ({})\n", net.name, net.conductors,
                            net.conductors == 1 ? "" : "s", net.why);
    }
    if (!order.cargo.left_out.empty()) {
        text += fmt::format("  left out, for want of conductors: {}\n",
                            fmt::join(order.cargo.left_out, ", "));
    }
    return text;
}

std::string ribbon_text(const Ordering& ordering, const RibbonOrder& order) {
    if (!order.rules.empty()) {
        std::string text = fmt::format("{}: there is no order; these clash:\n", order.ribbon);
        for (const std::string& rule : order.rules) text += fmt::format("  - {}\n", rule);
        return text;
    }
    std::string text = fmt::format(
        "{}: {} conductors, {}\n    {}\n", order.ribbon, order.problem.conductors,
        order.chosen ? "best order, conductor 1 first" : "order as drawn, conductor 1 first",
        names_in_lines(order.conductors));
    text += cargo_text(order) + "\n" + figure_table(order) + "\n";
    if (order.drawn) text += verdict_on_drawn(order);
    text +=
        order.drawn && order.best.proved ? std::string("the best is proved\n") : proof_of(order);
    text += fmt::format("coupling is weighed {}\n", order.problem.coupling.source);
    for (const PortRef port : order.counted_later) {
        text += fmt::format("chosen before the order at {}, with which its crossings are counted\n",
                            name_of(ordering.design, port));
    }
    for (const PortList& list : order.lists) {
        text += fmt::format("\nto paste at {}:\n    wired: {}\n",
                            name_of(ordering.design, list.port), list_text(list.names, 11, 12));
    }
    return text;
}

std::string breakouts_text(const Design& design) {
    std::string text;
    for (const BoardBreakout& breakout : board_breakouts(design)) {
        const std::string what =
            breakout.made ? breakout_summary(*breakout.made) : "not drawn: " + breakout.refusal;
        text += "\n" + in_lines(fmt::format("breakout of {}: {}", breakout.board, what));
    }
    return text;
}

}  // namespace

std::string in_words(Aim aim, std::int64_t figure) {
    // A run at 45 degrees is longer than a straight one by the root of two less one of its way
    // sideways.
    constexpr double slant = 0.41421356;
    switch (aim) {
        case Aim::noise: return fmt::format("{:.2f}", static_cast<double>(figure) / 1000.0);
        case Aim::mismatch:
            return fmt::format("{:.2f}", static_cast<double>(figure) * slant / 1000.0);
        default: return fmt::format("{}", figure);
    }
}

std::string order_report(const Ordering& ordering) {
    std::string text;
    for (const RibbonOrder& order : ordering.ribbons) {
        text += (text.empty() ? "" : "\n") + ribbon_text(ordering, order);
    }
    if (ordering.ribbons.empty()) text = "no ribbon of this design joins two ports\n";
    if (!ordering.has_order()) return shown_page(text);
    text += breakouts_text(ordering.design);
    return shown_page(text + "\nchecked with the order in place:\n" +
                      check_report(ordering.design, ordering.verdict));
}

}  // namespace pinfold
