#include "document/rule_text.hpp"

#include <fmt/format.h>

#include "document/columns.hpp"

namespace pinfold {

std::string rule_list_text() {
    Rows rows;
    for (const Rule& rule : all_rules()) {
        rows.push_back({std::string(rule.name), std::string(name_of(rule.severity)),
                        std::string(rule.summary)});
    }
    return in_columns(rows);
}

std::string rule_text(const Rule& rule) {
    return fmt::format("{} ({})\n", rule.name, name_of(rule.severity)) +
           in_lines(fmt::format("Found: {}", rule.summary), "    ") +
           in_lines(fmt::format("Why it matters: {}", rule.why), "    ") +
           in_lines(fmt::format("Source: {}", rule.source), "    ");
}

}  // namespace pinfold
