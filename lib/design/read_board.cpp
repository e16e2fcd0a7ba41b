#include "design/read_board.hpp"

#include <fmt/format.h>

#include "design/copper.hpp"
#include "design/read.hpp"

namespace pinfold {
namespace {

std::vector<WrittenLength> read_lengths(Fields& fields, Findings& findings) {
    std::vector<WrittenLength> lengths;
    for (const Yaml::Entry& entry : fields.map("lengths")) {
        const std::string text = text_of(entry.value, "a length", findings);
        const Reading reading = parse_quantity(text, dimension_of<Millimetres>());
        if (reading.value) {
            lengths.push_back({entry.key, Millimetres(*reading.value), entry.at});
        } else {
            complain(findings, "yaml-unit",
                     fmt::format("the length of '{}' {}", entry.key, reading.complaint),
                     entry.value.at);
        }
    }
    return lengths;
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
    fields.require("ports");
    std::vector<WrittenPort> written;
    for (const Yaml::Entry& entry : fields.map("ports")) {
        written.push_back(read_port(entry, false, desk));
        board.ports.push_back(written.back().port);
    }
    const std::vector<WrittenLength> lengths = read_lengths(fields, desk.findings);
    fields.done();
    lay_copper(board, written, lengths, separate, desk);
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
