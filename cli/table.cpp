#include <memory>

#include "check/undecided.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/html_table.hpp"
#include "document/table_sheet.hpp"
#include "document/table_text.hpp"
#include "exchange/csv.hpp"
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

std::string in_format(const WiringTable& table, const std::string& format) {
    if (format == "csv") return write_csv(to_sheet(table));
    if (format == "markdown") return to_markdown(table);
    if (format == "html") return to_html(table);
    return to_text(table);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    require_decided(design);
    const WiringTable table = wiring_table(design, trace(design));
    deliver(in_format(table, options.format), options.output, inputs_of(design));
    return table.arrives ? clean : found_faults;
}

}  // namespace

void add_table(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        app.add_subcommand("table", "Write the wiring table for whoever assembles the design");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text, csv, markdown or html")
        ->check(CLI::IsMember({"text", "csv", "markdown", "html"}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of pin maps to look in first")
        ->expected(1)
        ->take_all();
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
