#include <fmt/format.h>

#include <memory>

#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/diagnosis_text.hpp"
#include "exchange/diagnosis_json.hpp"
#include "exchange/read_readings.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::filesystem::path readings;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    require_decided(design);
    const Wiring wiring = trace(design);
    const MeterReadings readings = read_readings(read_source(options.readings), design, wiring);
    tell(readings.remarks);
    const Diagnosis diagnosis = diagnose(design, wiring, readings);
    std::vector<std::filesystem::path> inputs = inputs_of(design);
    inputs.push_back(options.readings);
    deliver(options.format == "json" ? diagnosis_json(diagnosis) : to_text(diagnosis),
            options.output, inputs);
    return diagnosis.sound && diagnosis.contradictions.empty() ? clean : found_faults;
}

}  // namespace

void add_diagnose(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "diagnose", "Name the causes that explain meter readings, and what to measure next");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("readings", options->readings, "Readings (CSV): from, to, reading")
        ->required();
    command->add_option("--format", options->format, "text or json")
        ->check(CLI::IsMember({"text", "json"}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
