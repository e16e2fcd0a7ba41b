#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "check/judge_line.hpp"
#include "check/line_absent.hpp"
#include "check/undecided.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "design/read.hpp"
#include "document/line_text.hpp"
#include "exchange/line_json.hpp"
#include "exchange/touchstone.hpp"
#include "inputs.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::filesystem::path design;
    std::string format = "text";
    std::filesystem::path touchstone;
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

/// What was measured, and what is to be said of it.
struct Answer {
    LineMemory memory;  ///< the fields that the plans of `groups` point to
    std::vector<LineGroup> groups;
    std::vector<SingleLine> singles;
    std::vector<std::vector<LineChange>> changes;
    Findings findings;
};

/// Rows of pairs alone have neither singles nor changes. Changes are tried for a few lines only,
/// each costs as much as the line itself.
Answer answer_of(const Design& design, bool pairs_alone) {
    constexpr std::size_t most_lines = 8;
    const Wiring wiring = trace(design);
    Answer answer;
    answer.groups = measure_lines(design, wiring, answer.memory);
    answer.findings = judge_lines(design, answer.groups);
    for (Finding& absent : absent_lines(design, wiring, answer.groups)) {
        answer.findings.push_back(std::move(absent));
    }
    sort_by_severity(answer.findings);
    if (pairs_alone) return answer;
    answer.singles = measure_singles(design, wiring, answer.memory);
    if (answer.groups.size() > most_lines) return answer;
    for (const LineGroup& group : answer.groups) {
        answer.changes.push_back(helpful_changes(design, wiring, group, answer.memory));
    }
    return answer;
}

std::string written(const Design& design, const Answer& answer, const std::string& format) {
    if (format == "json") {
        return line_json(design, answer.groups, answer.singles, answer.changes, answer.findings);
    }
    if (format == "csv") return line_csv(design, answer.groups);
    std::string text = line_text(design, answer.groups, answer.singles, answer.changes);
    if (!answer.findings.empty()) text += "\n";
    for (const Finding& finding : answer.findings) text += to_text(finding);
    return text;
}

[[noreturn]] void refuse(std::string text) {
    throw InputError({{Severity::error, "touchstone-ports", std::move(text), Mark{}}});
}

/// The scattering of the one promise that has any; its file must be called for its ports.
std::string touchstone_of(const Design& design, const std::vector<LineGroup>& groups,
                          const std::filesystem::path& file) {
    const LineGroup* group = nullptr;
    for (const LineGroup& other : groups) {
        if (!design.carries[other.carry].rate) continue;
        if (group) {
            refuse(fmt::format("'{}' holds one line, and the design has several with a rate",
                               file.string()));
        }
        group = &other;
    }
    if (!group) refuse("there is no line with a rate to write");
    const std::vector<std::string> names = port_names(design, *group);
    const std::string wanted = fmt::format(".s{}p", names.size());
    if (file.extension() != wanted) {
        refuse(fmt::format("'{}' must end in {}: the line has {} ports", file.string(), wanted,
                           names.size()));
    }
    return write_touchstone(sweep_of(group->plan), names,
                            {"pinfold: " + design.carries[group->carry].name});
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, options.design.parent_path());
    const Design design = read_design(options.design, library);
    require_decided(design);
    const Answer answer = answer_of(design, options.format == "csv");
    if (!options.touchstone.empty()) {
        deliver(touchstone_of(design, answer.groups, options.touchstone), options.touchstone,
                inputs_of(design));
    }
    deliver(written(design, answer, options.format), options.output, inputs_of(design));
    if (options.format == "csv") tell(answer.findings);  // the other formats have them
    return has_errors(answer.findings) ? found_faults : clean;
}

}  // namespace

void add_line(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand(
        "line", "Say what ribbons do to every fast pair: impedance, loss, crosstalk, eye");
    command->add_option("design", options->design, "Design file (YAML)")->required();
    command->add_option("--format", options->format, "text, json or csv")
        ->check(CLI::IsMember({"text", "json", "csv"}));
    command->add_option("--touchstone", options->touchstone,
                        "Write the scattering to this file, FILE.sNp for N ports");
    command->add_option("-o,--output", options->output, "Write to this file (- for the terminal)");
    command->add_option("--pinmaps", options->pinmaps, "A folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
