// What to tell a user whose command line cannot be understood.
#pragma once

#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace pinfold::cli {

/// The complaint, with the nearest command or option if one was misspelt, and where to find help.
/// `arguments` as given, without the program's name.
std::string misuse(const CLI::App& app, const CLI::ParseError& error,
                   const std::vector<std::string>& arguments);

}  // namespace pinfold::cli
