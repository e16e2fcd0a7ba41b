#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "colour.hpp"
#include "commands.hpp"
#include "exchange/board_yaml.hpp"
#include "exchange/pin_list.hpp"
#include "exchange/place_finder.hpp"
#include "exchange/read_netlist.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path netlist;
    std::vector<std::string> connectors;
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

ReadNetlist read_either(const Options& options, const std::vector<PartWords>& parts,
                        Library& library) {
    const auto source = read_source(options.netlist, largest_netlist_bytes);
    if (is_pin_list(*source)) return {"pin list", read_pin_list(source, parts, library)};
    return read_netlist(source);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.netlist.parent_path());
    std::vector<PartWords> parts;
    for (const std::string& text : options.connectors) parts.push_back(part_words(text));
    const auto [form, drawn] = read_either(options, parts, library);
    const std::string from = fmt::format("{} ({})", options.netlist.filename().string(), form);
    const AdoptedBoard board = adopted_board(drawn, parts, from, library);
    tell(drawn.remarks);
    tell(board.doubts);
    deliver(board.text, options.output, {options.netlist});
    return clean;
}

}  // namespace

void add_adopt(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "adopt", "Write the board file of an adapter you own from its netlist or pin list");
    command
        ->add_option("netlist", options->netlist,
                     "KiCad netlist, its XML, IPC-D-356 file, or two columns of CSV")
        ->required();
    command
        ->add_option("--connector", options->connectors,
                     "What a part is: J1=hdmi-a, \"J1=hdmi-a receptacle\", J2=ffc-0.50-bottom, "
                     "\"J3=csi-15 in ffc-1.00-bottom\", J4=pads; once for each")
        ->type_name("REF=NAME")
        ->required()
        ->expected(1)
        ->take_all()
        ->allow_extra_args(false);
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->add_option("--pinmaps", options->pinmaps, "A folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
