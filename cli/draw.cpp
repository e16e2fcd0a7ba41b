#include <fmt/format.h>

#include <memory>

#include "base/quantity.hpp"
#include "boards.hpp"
#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/breakout_svg.hpp"
#include "document/breakout_text.hpp"
#include "exchange/breakout_json.hpp"
#include "inputs.hpp"
#include "number.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

/// Sizes as written: `0.127 mm`.
struct WrittenRules {
    std::string track, gap, via, hole;
};

struct Options {
    std::filesystem::path design;
    std::string board;
    std::string port;
    std::string course;
    bool own_order = false;
    WrittenRules rules;
    std::string format = "text";
    double scale = 1.0;
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

/// A size as written, `0.127 mm`; the same that a board's file may want.
std::optional<Millimetres> size_of(const char* option, const std::string& written) {
    constexpr double least = 0.001, most = 20.0;
    if (written.empty()) return std::nullopt;
    const Reading reading = parse_quantity(written, dimension_of<Millimetres>());
    if (reading.value && *reading.value >= least && *reading.value <= most) {
        return Millimetres(*reading.value);
    }
    const std::string complaint =
        reading.value
            ? fmt::format("must be from {:g} mm to {:g} mm, not '{}'", least, most, written)
            : reading.complaint;
    throw InputError(
        {{Severity::error, "trace-size", fmt::format("'{}' {}", option, complaint), Mark{}}});
}

TrackLimits limits_of(const WrittenRules& rules) {
    return {size_of("--track", rules.track), size_of("--gap", rules.gap),
            size_of("--via", rules.via), size_of("--hole", rules.hole), Mark{}};
}

BreakoutWish wish_of(const Options& options) {
    BreakoutWish wish;
    wish.port = options.port;
    wish.own_order = options.own_order;
    wish.rules = limits_of(options.rules);
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
    const std::string text = options.format == "svg" ? breakout_svg(design, made, options.scale)
                             : options.format == "json"
                                 ? breakout_json(design, made)
                                 : breakout_report(made, in_own_order(design, board, wish));
    deliver(text, options.output, inputs_of(design));
    tell(made.rows.findings);
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
    WrittenRules& rules = options->rules;
    command->add_option("--track", rules.track, "Width of tracks, such as '0.127 mm'");
    command->add_option("--gap", rules.gap, "Gap between copper");
    command->add_option("--via", rules.via, "Width of vias");
    command->add_option("--hole", rules.hole, "Hole of vias; half their width unless given");
    command->add_option("--format", options->format, "text (default), svg or json")
        ->check(CLI::IsMember({"text", "svg", "json"}));
    command
        ->add_option("--scale", options->scale,
                     "How much larger than the board the SVG is printed; 1 unless given")
        ->check(CLI::Range(0.1, 100.0))
        ->check(a_number())
        ->type_name("NUMBER");
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps")
        ->type_name("DIR");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
