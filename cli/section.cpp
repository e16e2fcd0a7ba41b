#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "colour.hpp"
#include "commands.hpp"
#include "document/section_text.hpp"
#include "exchange/section_json.hpp"
#include "number.hpp"
#include "output.hpp"
#include "physics/field.hpp"
#include "physics/read_section.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path section;
    double error_percent = 0.1;  ///< finer than what checks ask for: this is for looking closely
    std::string format = "text";
    std::filesystem::path output;
};

Finding coarse(const Section& section, const FieldSolution& solution) {
    return {Severity::warning, "field-coarse",
            fmt::format("the field is right to an estimated {:.2g} %, not to what was asked for: "
                        "that would take a finer mesh than is made",
                        100.0 * solution.error_estimate),
            section.at};
}

int run(const Options& options) {
    const Section section = read_section(read_source(options.section));
    const FieldSolution solution = solve_field(section, 0.01 * options.error_percent);
    const bool json = options.format == "json";
    deliver(json ? section_json(section, solution) : section_text(section, solution),
            options.output, {options.section});
    if (100.0 * solution.error_estimate > options.error_percent) tell({coarse(section, solution)});
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
    command
        ->add_option("--error", options->error_percent,
                     "Error wanted of the field in percent, 0.1 unless given")
        ->check(CLI::Range(1e-6, 10.0))
        ->check(a_number())
        ->type_name("PERCENT");
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
