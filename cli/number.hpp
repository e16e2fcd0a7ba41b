// Numbers on the command line.
#pragma once

#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdlib>
#include <string>

namespace pinfold::cli {

/// Beside CLI::Range, which lets `nan` through.
inline CLI::Validator a_number() {
    return CLI::Validator(
        [](const std::string& text) {
            return std::isnan(std::strtod(text.c_str(), nullptr)) ? "'" + text + "' is no number"
                                                                  : std::string();
        },
        "");
}

}  // namespace pinfold::cli
