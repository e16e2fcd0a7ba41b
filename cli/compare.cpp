#include "check/compare.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "boards.hpp"
#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/compare_report.hpp"
#include "exchange/compare_json.hpp"
#include "exchange/place_finder.hpp"
#include "exchange/read_netlist.hpp"
#include "exchange/sarif.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design, netlist;
    std::string board;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

std::string written(const Board& board, const Comparison& comparison, const std::string& form,
                    const std::string& format) {
    if (format == "json") return compare_json(board, comparison, form);
    if (format == "sarif") return sarif_of(comparison.findings);
    return compare_report(board, comparison, form);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    const std::size_t board = find_board(design, options.board);
    require_decided(design);
    const auto [form, drawn] = read_netlist(read_source(options.netlist, largest_netlist_bytes));
    tell(drawn.remarks);
    const Comparison comparison = compare(design, board, drawn);
    std::vector<std::filesystem::path> inputs = inputs_of(design);
    inputs.push_back(options.netlist);
    deliver(written(design.boards[board], comparison, form, options.format), options.output,
            inputs);
    return comparison.same ? clean : found_faults;
}

}  // namespace

void add_compare(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "compare", "Hold the netlist of a layout or a test file against a board of the design");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("netlist", options->netlist, "KiCad netlist, its XML, or IPC-D-356 file")
        ->required();
    command->add_option("--board", options->board, "The board, by its name in the design")
        ->required();
    command->add_option("--format", options->format, "text, json or sarif")
        ->check(CLI::IsMember({"text", "json", "sarif"}));
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->add_option("--pinmaps", options->pinmaps, "A folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
