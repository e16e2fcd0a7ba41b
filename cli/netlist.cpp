#include <fmt/format.h>

#include <memory>
#include <stdexcept>

#include "boards.hpp"
#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/netlist.hpp"
#include "design/read.hpp"
#include "exchange/electrical_test.hpp"
#include "exchange/kicad_text.hpp"
#include "exchange/kicad_xml.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::string board;
    std::string format = "kicad";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

constexpr const char* electrical = "ipc-d-356a";

std::string in_format(const Netlist& netlist, const Board& board, const std::string& format) {
    if (format == electrical) return electrical_test(netlist, board);
    return format == "kicad-xml" ? kicad_xml(netlist) : kicad_text(netlist);
}

Netlist read_back(const std::string& text, const std::string& format) {
    const auto source = std::make_shared<const Source>(Source{"the netlist", text});
    if (format == electrical) return read_electrical_test(source);
    return format == "kicad-xml" ? read_kicad_xml(source) : read_kicad_text(source);
}

/// The netlist as a file, read back and compared before anybody sees it.
std::string written(const Netlist& netlist, const Board& board, const std::string& format) {
    std::string text = in_format(netlist, board, format);
    if (!same_partition(netlist, read_back(text, format))) {
        throw std::logic_error("the netlist does not read back as it was written");
    }
    return text;
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    const std::size_t number = find_board(design, options.board);
    require_decided(design, number);
    const Board& board = design.boards[number];
    Netlist netlist = netlist_of(design, number);
    if (options.format == electrical) netlist = placed_part(std::move(netlist), board);
    const std::string text = written(netlist, board, options.format);
    tell(netlist.remarks);
    deliver(text, options.output, inputs_of(design));
    return clean;
}

}  // namespace

void add_netlist(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand("netlist", "Write the netlist of one board");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--board", options->board, "The board, by its name in the design")
        ->required();
    command->add_option("--format", options->format, "kicad (default), kicad-xml or ipc-d-356a")
        ->check(CLI::IsMember({"kicad", "kicad-xml", electrical}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps")
        ->type_name("DIR");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
