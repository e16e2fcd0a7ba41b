#include "document/rule_text.hpp"

#include <fmt/format.h>

#include "document/columns.hpp"

namespace pinfold {

std::string rule_list_text() {
    Rows rows, refused;
    for (const Rule& rule : all_rules()) {
        rows.push_back({std::string(rule.name), std::string(name_of(rule.severity)),
                        std::string(rule.summary)});
    }
    for (const Rule& family : all_refusals()) {
        refused.push_back({std::string(family.name), std::string(family.summary)});
    }
    return in_columns(rows) +
           "\nNames by which an input is refused; one that ends in - begins many names:\n" +
           in_columns(refused);
}

std::string rule_text(const Rule& rule) {
    return fmt::format("{} ({})\n", rule.name, name_of(rule.severity)) +
           in_lines(fmt::format("Found: {}", rule.summary), "    ") +
           in_lines(fmt::format("Why it matters: {}", rule.why), "    ") +
           in_lines(fmt::format("Source: {}", rule.source), "    ");
}

}  // namespace pinfold
