#include "design/read_board.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "design/copper.hpp"
#include "design/read.hpp"
#include "design/read_stack_up.hpp"
#include "design/read_track_limits.hpp"

namespace pinfold {
namespace {

/// `lengths: {D2+: 14.2 mm}`
std::vector<WrittenSize> read_sizes(Fields& fields, const std::string& key, const char* size,
                                    Findings& findings) {
    std::vector<WrittenSize> sizes;
    for (const Yaml::Entry& entry : fields.map(key)) {
        const std::string text = text_of(entry.value, "a length", findings);
        const Reading reading = parse_quantity(text, dimension_of<Millimetres>());
        if (reading.value) {
            sizes.push_back({entry.key, Millimetres(*reading.value), entry.at});
        } else {
            complain(findings, "yaml-unit",
                     fmt::format("the {} of '{}' {}", size, entry.key, reading.complaint),
                     entry.value.at);
        }
    }
    return sizes;
}

WrittenTraces read_traces(Fields& fields, const std::optional<StackUp>& stack_up,
                          Findings& findings) {
    WrittenTraces traces;
    traces.lengths = read_sizes(fields, "lengths", "length", findings);
    traces.widths = read_sizes(fields, "widths", "width", findings);
    if (!traces.widths.empty() && !stack_up) {
        complain(findings, "stack-up-missing",
                 "'widths' say nothing without the thickness of the copper; give 'stack-up'",
                 fields.at("widths"));
    }
    for (const WrittenSize& width : traces.widths) {
        const auto same = [&](const WrittenSize& length) {
            return plain_name(length.signal) == plain_name(width.signal);
        };
        if (std::ranges::any_of(traces.lengths, same)) continue;
        complain(findings, "length-missing",
                 fmt::format("the width of '{}' says nothing without its length; give it in "
                             "'lengths'",
                             width.signal),
                 width.at);
    }
    return traces;
}

}  // namespace

Board read_copper_board(const Yaml& yaml, std::string name, bool is_file, ReaderDesk& desk) {
    Board board;
    board.name = std::move(name);
    board.at = yaml.at;
    Fields fields(yaml, desk.findings);
    if (is_file) fields.version("pinfold-board");
    board.title = fields.text_or("title", {});
    const bool separate =
        *fields.word_or<bool>("ground", {{"one", false}, {"separate", true}}, false);
    board.permittivity = fields.plain_number("permittivity").value_or(board.permittivity);
    board.stack_up = read_stack_up(fields, desk.findings);
    board.track_limits = read_track_limits(fields, desk.findings);
    const WrittenPairTraces pair_traces = read_pair_traces(fields, board.stack_up, desk.findings);
    fields.require("ports");
    std::vector<WrittenPort> written;
    for (const Yaml::Entry& entry : fields.map("ports")) {
        written.push_back(read_port(entry, false, desk));
        board.ports.push_back(written.back().port);
    }
    const WrittenTraces traces = read_traces(fields, board.stack_up, desk.findings);
    fields.done();
    lay_copper(board, written, traces, separate, desk);
    lay_pair_traces(board, pair_traces, desk);
    return board;
}

void read_board(std::shared_ptr<const Source> source, std::string name, Design& design,
                Library& library) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    ReaderDesk desk{design, library, findings};
    Board board = read_copper_board(yaml, std::move(name), true, desk);
    if (!findings.empty()) throw InputError(std::move(findings));
    design.boards.push_back(std::move(board));
}

}  // namespace pinfold
