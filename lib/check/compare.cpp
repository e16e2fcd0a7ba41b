#include "check/compare.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <optional>
#include <unordered_map>

#include "check/cause_words.hpp"
#include "check/exchanged_parts.hpp"
#include "check/match_parts.hpp"
#include "check/series_parts.hpp"

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

Finding exchange(const PadWords& words, std::size_t a, std::size_t b) {
    const auto& ports = words.compared().ports;
    const auto& board = words.compared().board.ports;
    const std::string& one = ports[b].reference;  // as they were matched before
    const std::string& other = ports[a].reference;
    Finding made = words.about_port(
        "drawn-connectors-exchanged",
        fmt::format("{} and {} have changed places: {} is wired as the board file's {}, and {} as "
                    "its {}",
                    one, other, one, board[b].name, other, board[a].name),
        b);
    made.notes.push_back({board[a].at, "and the other here"});
    words.add_place(made, a);
    return made;
}

/// Ports without a part, and those whose part was not found by its reference.
void tell_matches(const PadWords& words, Findings& findings) {
    const Compared& compared = words.compared();
    for (const PortMatch& match : compared.ports) {
        const Port& port = compared.board.ports[match.port];
        if (match.reference.empty()) {
            const std::string wanted =
                port.reference.empty() ? "" : fmt::format(" ({})", port.reference);
            findings.push_back(words.about_port(
                "part-missing", fmt::format("no part of the netlist is {}{}", port.name, wanted),
                match.port));
        } else if (match.by != "reference") {
            findings.push_back(words.about_port(
                "part-matched",
                fmt::format("{} was taken for {} by its {}", match.reference, port.name, match.by),
                match.port));
        }
    }
}

/// Ports with a shield pad that is on a net of the netlist.
std::vector<bool> shields_drawn(const Compared& compared) {
    std::vector<bool> drawn(compared.board.ports.size());
    for (const ComparedPad& pad : compared.pads) {
        if (pad.is_shield && pad.drawn != no_net) drawn[pad.port] = true;
    }
    return drawn;
}

/// Shield pads may bear other names than the connector's own; on ground they are the same metal.
void tell_missing(const PadWords& words, const std::map<std::size_t, Places>& missing,
                  Findings& findings) {
    const std::vector<bool> has_shield = shields_drawn(words.compared());
    for (const auto& [port, pads] : missing) {
        const bool renamed = !has_shield[port] && std::ranges::all_of(pads, [&](std::size_t p) {
            return words.compared().pads[p].is_shield;
        });
        Finding made = words.about_pads(
            "pad-missing",
            renamed ? fmt::format("the shield pads {} are on no net of the netlist; name the "
                                  "footprint's own with 'shell'",
                                  words.names_of(pads))
                    : fmt::format("{} {} on no net of the netlist: the part lacks the pad, or it "
                                  "is wired to nothing",
                                  words.names_of(pads), pads.size() == 1 ? "is" : "are"),
            pads);
        if (renamed) made.severity = Severity::warning;
        if (const Mark at = words.part_at(port); at.source) made.at = at;
        findings.push_back(std::move(made));
    }
}

/// What an extra pad on each net of the netlist means: an error where it joins a signal, a warning
/// where it joins ground.
std::unordered_map<std::size_t, Severity> severity_on(const PadWords& words) {
    std::unordered_map<std::size_t, Severity> severities;
    for (std::size_t p = 0; p < words.compared().pads.size(); ++p) {
        const std::size_t drawn = words.compared().pads[p].drawn;
        if (drawn == no_net) continue;
        Severity& worst = severities.try_emplace(drawn, Severity::warning).first->second;
        if (worst != Severity::error && !words.lies_on_ground(p)) worst = Severity::error;
    }
    return severities;
}

std::string_view where_extra(Severity severity) {
    switch (severity) {
        case Severity::error: return "joined to a net of the board";
        case Severity::warning: return "on ground";
        case Severity::note: break;
    }
    return "joined to nothing";
}

/// Extra pads, those of one part that are equally bad in one finding.
void tell_extra(const PadWords& words, const std::vector<ExtraPad>& extra, Findings& findings) {
    if (extra.empty()) return;
    const auto severities = severity_on(words);
    std::map<std::pair<std::size_t, Severity>, std::vector<const Netlist::Node*>> sorted;
    for (const ExtraPad& pad : extra) {
        const auto found = severities.find(pad.net);
        const Severity severity = found == severities.end() ? Severity::note : found->second;
        sorted[{pad.port, severity}].push_back(pad.node);
    }
    for (const auto& [key, nodes] : sorted) {
        const auto& [port, severity] = key;
        std::vector<std::string> names;
        for (const Netlist::Node* node : nodes) {
            if (names.size() == most_pads_told) break;
            names.push_back(fmt::format("{}.{}", node->reference, node->pad));
        }
        Finding made{
            severity, "pad-extra",
            fmt::format("the board file knows no pad {}{}; here {} {}", fmt::join(names, ", "),
                        nodes.size() > most_pads_told ? " and more" : "",
                        nodes.size() == 1 ? "it is" : "they are", where_extra(severity)),
            nodes[0]->at};
        const Port& at = words.compared().board.ports[port];
        made.notes.push_back({at.at, "the board file's port is here"});
        words.add_place(made, port);
        findings.push_back(std::move(made));
    }
}

void append(Findings& findings, Findings more) {
    std::ranges::move(more, std::back_inserter(findings));
}

std::size_t pads_of_parts(const std::vector<PortMatch>& ports,
                          const std::vector<ComparedPad>& pads) {
    return static_cast<std::size_t>(std::ranges::count_if(
        pads, [&](const ComparedPad& pad) { return !ports[pad.port].reference.empty(); }));
}

}  // namespace

Comparison compare(const Design& design, std::size_t b, const Netlist& drawn) {
    const Board& board = design.boards[b];
    const Netlist meant = netlist_of(design, b);
    Comparison result;
    result.ports = match_parts(board, meant, drawn);
    SeriesParts series = join_series_parts(meant, drawn, result.ports, board);
    const PadTable table(board, meant, drawn, series.net);
    PadReading reading = read_pads(table, result.ports);
    std::optional<std::pair<std::size_t, std::size_t>> exchanged;
    if (reading.diagnosis.count() + reading.laid.missing.size() > 1) {
        exchanged = exchange_parts(table, result.ports, reading);
    }

    const PadWords words({design, board, meant, drawn, result.ports, reading.laid.pads});
    if (exchanged) result.findings.push_back(exchange(words, exchanged->first, exchanged->second));
    tell_matches(words, result.findings);
    tell_missing(words, reading.laid.missing, result.findings);
    tell_extra(words, reading.laid.extra, result.findings);
    append(result.findings, told(words, std::move(reading.diagnosis)));
    append(result.findings, std::move(series.findings));
    sort_by_severity(result.findings);
    result.same = !has_errors(result.findings);
    result.nets = meant.nets.size();
    result.pads = pads_of_parts(result.ports, reading.laid.pads);
    return result;
}

}  // namespace pinfold
