// The commands of the pinfold program. Each one lives in the source file of its name.
#pragma once

#include <CLI/CLI.hpp>

namespace pinfold::cli {

/// What a command tells the shell, after the manner of POSIX diff.
enum ExitCode { clean = 0, found_faults = 1, unusable_input = 2, broken_program = 3 };

void add_check(CLI::App& app, int& exit_code);
void add_mate(CLI::App& app, int& exit_code);
void add_table(CLI::App& app, int& exit_code);
void add_power(CLI::App& app, int& exit_code);
void add_netlist(CLI::App& app, int& exit_code);
void add_probe(CLI::App& app, int& exit_code);
void add_diagnose(CLI::App& app, int& exit_code);
void add_pinmap(CLI::App& app, int& exit_code);
void add_compare(CLI::App& app, int& exit_code);
void add_adopt(CLI::App& app, int& exit_code);
void add_explain(CLI::App& app, int& exit_code);
void add_section(CLI::App& app, int& exit_code);
void add_line(CLI::App& app, int& exit_code);
void add_order(CLI::App& app, int& exit_code);
void add_draw(CLI::App& app, int& exit_code);
void add_new(CLI::App& app, int& exit_code);

}  // namespace pinfold::cli
