#include <memory>

#include "check/undecided.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/power_text.hpp"
#include "exchange/power_json.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    require_decided(design);
    const Wiring wiring = trace(design);
    const Power power = power_of(design, wiring);
    deliver(options.format == "json" ? power_json(design, wiring, power)
                                     : power_text(design, wiring, power),
            options.output, inputs_of(design));
    return has_errors(power.findings) ? found_faults : clean;
}

}  // namespace

void add_power(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "power", "Voltages, currents and heat of every supply, and the power budget");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text or json")
        ->check(CLI::IsMember({"text", "json"}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of pin maps to look in first")
        ->expected(1)
        ->take_all();
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
