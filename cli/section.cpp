#include <filesystem>
#include <memory>

#include "commands.hpp"
#include "document/section_text.hpp"
#include "exchange/section_json.hpp"
#include "output.hpp"
#include "physics/field.hpp"
#include "physics/read_section.hpp"

namespace pinfold::cli {
namespace {

/// Finer than what the checks of a design ask for: this command is for looking closely.
constexpr double wanted_error = 0.001;

struct Options {
    std::filesystem::path section;
    std::string format = "text";
    std::filesystem::path output;
};

int run(const Options& options) {
    const Section section = read_section(read_source(options.section));
    const FieldSolution solution = solve_field(section, wanted_error);
    const bool json = options.format == "json";
    deliver(json ? section_json(section, solution) : section_text(section, solution),
            options.output, {options.section});
    return clean;
}

}  // namespace

void add_section(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "section", "Solve the field of a bare cross-section: matrices per metre and impedances");
    command->add_option("section", options->section, "Section file (YAML)")->required();
    command->add_option("--format", options->format, "text or json")
        ->check(CLI::IsMember({"text", "json"}));
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
