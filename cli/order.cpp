#include <chrono>
#include <memory>

#include "commands.hpp"
#include "document/order_report.hpp"
#include "exchange/order_json.hpp"
#include "inputs.hpp"
#include "number.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::string format = "text";
    double time = 10.0;
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

TimeLimit limit_of(double seconds) {
    const auto began = std::chrono::steady_clock::now();
    return {[began] {
                const std::chrono::duration<double> since =
                    std::chrono::steady_clock::now() - began;
                return since.count();
            },
            seconds};
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const auto source = read_source(options.design);
    const bool to_file = !options.output.empty() && options.output != "-";
    const Ordering ordering =
        order_design(source, options.design.parent_path(), library, limit_of(options.time),
                     to_file ? options.output.string() : source->name + " with its order");
    if (!options.output.empty() && ordering.has_order()) {
        deliver(ordering.text.empty() ? source->text : ordering.text, options.output,
                inputs_of(ordering.written));
    }
    if (options.output != "-") {
        deliver(options.format == "json" ? order_json(ordering) : order_report(ordering), {}, {});
    }
    return ordering.has_order() && ordering.verdict.clean() ? clean : found_faults;
}

}  // namespace

void add_order(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "order", "Choose the best conductor order where it is left open, with proof");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text or json")
        ->check(CLI::IsMember({"text", "json"}));
    command
        ->add_option("--time", options->time,
                     "Seconds to look for a proof, 10 unless given; then the best so far")
        ->check(CLI::Range(0.0, 86400.0))
        ->check(a_number())
        ->type_name("SECONDS");
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of pin maps to look in first");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
