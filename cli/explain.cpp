#include <fmt/format.h>

#include <memory>

#include "base/spelling.hpp"
#include "check/rules.hpp"
#include "commands.hpp"
#include "document/rule_text.hpp"
#include "output.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::string rule;
};

const Rule& rule_named(const std::string& name) {
    if (const Rule* rule = find_rule(name)) return *rule;
    std::vector<std::string> known;
    for (const Rule& rule : all_rules()) known.emplace_back(rule.name);
    const std::string guess = did_you_mean(name, known);  // a rule misspelt is no refusal
    const Rule* family = find_refusal(name);
    if (family && guess.empty()) return *family;
    throw InputError(
        {{Severity::error, "rule-unknown",
          fmt::format("no rule '{}'{}; 'pinfold explain' lists them all", name, guess), Mark{}}});
}

int run(const Options& options) {
    deliver(options.rule.empty() ? rule_list_text() : rule_text(rule_named(options.rule)), {}, {});
    return clean;
}

}  // namespace

void add_explain(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand("explain", "List the rules, or explain one");
    command->add_option("rule", options->rule, "Rule, as it stands in [brackets] in a finding");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
