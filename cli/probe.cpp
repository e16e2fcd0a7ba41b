#include <fmt/format.h>

#include <memory>

#include "bringup/remaining.hpp"
#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/probe_sheet.hpp"
#include "exchange/csv.hpp"
#include "exchange/read_readings.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::filesystem::path after;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

std::string in_format(const ProbeSheet& sheet, const std::string& format) {
    if (format == "csv") return write_csv(to_sheet(sheet));
    if (format == "html") return to_html(sheet);
    return to_text(sheet);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    require_decided(design);
    const Wiring wiring = trace(design);
    const Bench bench = set_up(design, wiring);
    ProbePlan plan = probe_plan(bench);
    std::vector<std::filesystem::path> inputs = inputs_of(design);
    if (!options.after.empty()) {
        inputs.push_back(options.after);
        const MeterReadings readings = read_readings(read_source(options.after), design, wiring);
        plan = remaining(bench, std::move(plan), readings, diagnose(design, wiring, readings));
    }
    deliver(in_format(probe_sheet(bench, plan), options.format), options.output, inputs);
    return plan.arrives ? clean : found_faults;
}

}  // namespace

void add_probe(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "probe", "Write the meter sheet: the fewest readings that prove an assembly before power");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text, csv or html")
        ->check(CLI::IsMember({"text", "csv", "html"}));
    command->add_option("--after", options->after, "Readings so far (CSV); what to measure next")
        ->type_name("READINGS");
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
