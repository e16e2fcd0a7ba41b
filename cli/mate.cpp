#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <memory>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "check/mate.hpp"
#include "check/undecided.hpp"
#include "commands.hpp"
#include "design/pairing.hpp"
#include "document/mate_report.hpp"
#include "exchange/mate_json.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path board_a, board_b;
    PairingWords words;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.board_a.parent_path());
    const Design design = pair_boards(read_source(options.board_a), read_source(options.board_b),
                                      options.words, library);
    require_decided(design);
    const Mating mating = mate(design);
    deliver(options.format == "json" ? mate_json(mating) : mate_report(design, mating),
            options.output, {options.board_a, options.board_b});
    return mating.mates ? clean : found_faults;
}

}  // namespace

void add_mate(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    PairingWords& words = options->words;
    CLI::App* command = app.add_subcommand(
        "mate", "Compare two adapters contact by contact over a ribbon: do they mate pin for pin?");
    command->add_option("board_a", options->board_a, "Board file at end a")->required();
    command->add_option("board_b", options->board_b, "Board file at end b")->required();
    command->add_option("--ribbon", words.ribbon, "Ribbon type, such as ffc-0.50")->required();
    command->add_option("--conductors", words.conductors, "How many conductors it has")->required();
    command->add_option("--copper", words.copper, "same-side or opposite-side");
    command->add_option("--sockets", words.sockets,
                        "same-edge or opposite-edge, for a ribbon of round wires");
    command->add_option("--port-a", words.port_a, "Port of board A, if it takes several ribbons");
    command->add_option("--port-b", words.port_b, "Port of board B, if it takes several ribbons");
    command->add_option("--lay", words.lay,
                        "How the ribbon runs from a: straight, bend-up, bend-down, fold-left, "
                        "fold-right, half-twist");
    command->add_option("--face-a", words.face_a, "Where board A's component side looks: up, down");
    command->add_option("--face-b", words.face_b,
                        "Where board B's component side looks: up, down, left, right, forward, "
                        "back");
    command->add_option("--touches-a", words.touches_a,
                        "The row a both-sided receptacle of board A touches with: top, bottom");
    command->add_option("--touches-b", words.touches_b, "The same for board B");
    command->add_option("--format", options->format, "text or json")
        ->check(CLI::IsMember({"text", "json"}));
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->add_option("--pinmaps", options->pinmaps, "A folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
