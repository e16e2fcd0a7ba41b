// Helpers for tests: sources from text, the shipped pin maps, and what findings say.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// The repository, wherever the tests are run.
std::filesystem::path repository();

/// The program under test.
std::string program();

/// The pin maps of the source tree.
inline Library shipped_library() { return Library({repository() / "pinmaps"}); }

inline std::shared_ptr<const Source> text_source(std::string text) {
    return std::make_shared<const Source>(Source{"input", std::move(text)});
}

inline std::vector<std::string> rules_of(const Findings& findings) {
    std::vector<std::string> rules;
    for (const Finding& finding : findings) rules.push_back(finding.rule);
    return rules;
}

/// What `read` says about an input it must refuse, as the user would read it.
template <class Read>
std::string complaint(const Read& read) {
    try {
        read();
    } catch (const InputError& error) {
        std::string all;
        for (const Finding& finding : error.findings()) all += to_text(finding);
        return all;
    }
    return "no complaint";
}

}  // namespace pinfold
