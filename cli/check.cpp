#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "check/check.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/report.hpp"
#include "exchange/check_json.hpp"
#include "exchange/sarif.hpp"
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

std::string written(const Design& design, const Verdict& verdict, const std::string& format) {
    if (format == "json") return check_json(design, verdict);
    if (format == "sarif") return sarif_of(verdict.findings);
    return check_report(design, verdict);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    const Verdict verdict = check_design(design);
    deliver(written(design, verdict, options.format), options.output, inputs_of(design));
    return verdict.clean() ? clean : found_faults;
}

}  // namespace

void add_check(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "check", "Prove that every promised signal arrives, and list every fault with its repairs");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text, json or sarif")
        ->check(CLI::IsMember({"text", "json", "sarif"}));
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->add_option("--pinmaps", options->pinmaps, "A folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
