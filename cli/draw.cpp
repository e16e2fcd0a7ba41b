#include <memory>

#include "boards.hpp"
#include "check/undecided.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/breakout_svg.hpp"
#include "document/breakout_text.hpp"
#include "exchange/breakout_json.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::string board;
    std::string port;
    std::string course;
    bool own_order = false;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

BreakoutWish wish_of(const Options& options) {
    BreakoutWish wish;
    wish.port = options.port;
    wish.own_order = options.own_order;
    if (options.course == "in-line") wish.course = Course::in_line;
    if (options.course == "right") wish.course = Course::to_right;
    if (options.course == "left") wish.course = Course::to_left;
    return wish;
}

/// The same board with the ribbon in the far row's own order; nothing if that does not fit.
std::optional<Breakout> in_own_order(const Design& design, std::size_t board, BreakoutWish wish) {
    if (wish.own_order) return std::nullopt;
    wish.own_order = true;
    try {
        return breakout_of(design, board, wish);
    } catch (const InputError&) {
        return std::nullopt;
    }
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    const std::size_t board = find_board(design, options.board);
    const BreakoutWish wish = wish_of(options);
    if (!wish.own_order) require_decided(design, board);
    const Breakout made = breakout_of(design, board, wish);
    const std::string text = options.format == "svg" ? breakout_svg(design, made)
                             : options.format == "json"
                                 ? breakout_json(design, made)
                                 : breakout_report(made, in_own_order(design, board, wish));
    deliver(text, options.output, inputs_of(design));
    return made.fits() ? clean : found_faults;
}

}  // namespace

void add_draw(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        app.add_subcommand("draw", "Draw the breakout of a board, with its crossings and lengths");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--board", options->board, "The board, by its name in the design")
        ->required();
    command->add_option("--port", options->port,
                        "The port of the near row; the first that takes a ribbon unless given");
    command
        ->add_option("--course", options->course,
                     "How the traces reach the far row if no placing is to say so")
        ->check(CLI::IsMember({"in-line", "left", "right"}));
    command->add_flag("--own-order", options->own_order,
                      "The near row in the far row's own order, whatever its list says");
    command->add_option("--format", options->format, "text (default), svg or json")
        ->check(CLI::IsMember({"text", "svg", "json"}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps")
        ->type_name("DIR");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
