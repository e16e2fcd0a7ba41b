#include <fmt/format.h>

#include <chrono>
#include <memory>

#include "commands.hpp"
#include "document/order_report.hpp"
#include "order/new_design.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    NewDesign wanted;
    std::filesystem::path folder;
    std::vector<std::string> pinmaps;
};

Ordering ordered(const NewDesign& wanted, Library& library) {
    const auto began = std::chrono::steady_clock::now();
    const TimeLimit limit{[began] {
                              const std::chrono::duration<double> since =
                                  std::chrono::steady_clock::now() - began;
                              return since.count();
                          },
                          10.0};
    const auto source =
        std::make_shared<const Source>(Source{"design.yaml", new_design_text(wanted, library)});
    Ordering ordering = order_design(source, {}, library, limit);
    if (ordering.text.empty()) ordering.text = source->text;  // nothing was open
    return ordering;
}

/// The best order at what the interface allows; if the ribbon cannot carry so much, at the highest
/// of the usual currents that it can.
Ordering ordered_at_some_current(NewDesign wanted, Library& library) {
    Ordering first = ordered(wanted, library);
    if (first.has_order() && first.verdict.clean()) return first;
    for (const double current : {2.0, 1.5, 1.0, 0.9, 0.5, 0.25, 0.1}) {
        wanted.current_a = current;
        try {
            Ordering next = ordered(wanted, library);
            if (next.has_order() && next.verdict.clean()) return next;
        } catch (const InputError&) {
            break;  // an interface of several supplies takes no current here
        }
    }
    return first;
}

std::filesystem::path file_in(const std::filesystem::path& folder) {
    if (folder.empty() || folder == "-") return folder;
    const std::filesystem::path file = folder / "design.yaml";
    if (std::filesystem::exists(file)) {
        throw InputError(
            {{Severity::error, "output-exists",
              fmt::format("'{}' is there already; name another folder with -o", file.string()),
              Mark{}}});
    }
    std::error_code trouble;
    std::filesystem::create_directories(folder, trouble);
    if (trouble) {
        throw InputError(
            {{Severity::error, "output-failed",
              fmt::format("cannot make the folder '{}': {}", folder.string(), trouble.message()),
              Mark{}}});
    }
    return file;
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.folder);
    const Ordering ordering = ordered_at_some_current(options.wanted, library);
    if (!ordering.has_order() || !ordering.verdict.clean()) {
        // Nothing is written that does not check: the report is the reason.
        deliver(order_report(ordering), {}, {});
        return found_faults;
    }
    const std::filesystem::path file = file_in(options.folder);
    deliver(ordering.text, file, {});
    if (!file.empty() && file != "-") {
        deliver(
            fmt::format("{} is written; its order:\n\n{}", file.string(), order_report(ordering)),
            {}, {});
    }
    return clean;
}

}  // namespace

void add_new(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    NewDesign& wanted = options->wanted;
    CLI::App* command = app.add_subcommand(
        "new", "Write a design for an interface over a ribbon, with the best order");
    command->add_option("interface", wanted.interface, "Interface, such as hdmi")->required();
    command->add_option("--connector-a", wanted.connector_a, "Connector of the near device")
        ->required();
    command->add_option("--connector-b", wanted.connector_b, "Connector of the far device")
        ->required();
    command->add_option("--ribbon", wanted.ribbon, "Ribbon type, such as ffc-0.50")->required();
    command->add_option("--conductors", wanted.conductors, "How many conductors it has")
        ->required();
    command
        ->add_option("-o", options->folder, "Folder to write design.yaml into; - is the terminal")
        ->type_name("DIR");
    command->add_option("--pinmaps", options->pinmaps, "Folder of pin maps to look in first");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
