#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <exception>
#include <iostream>
#include <system_error>

#include "base/finding.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "usage.hpp"

namespace pinfold::cli {
namespace {

/// Says it on standard error as well as it can: there is nowhere left to complain.
void say(const std::string& text) { std::fputs(text.c_str(), stderr); }

/// A closed pipe ends the program quietly, a file grown too large is a failed write, and no file
/// that is opened later can take the place of a closed standard stream.
void settle_streams() {
    std::signal(SIGPIPE, SIG_DFL);
    std::signal(SIGXFSZ, SIG_IGN);
    for (int stream = 0; stream < 3; ++stream) {
        if (fcntl(stream, F_GETFD) == -1 && open("/dev/null", O_RDONLY) != stream) return;
    }
}

/// Options that several commands have read the same in each. --pinmaps may be repeated, but each
/// takes one folder: it must not swallow the design after it.
void settle_shared_options(CLI::App& command) {
    if (CLI::Option* output = command.get_option_no_throw("--output")) {
        output->type_name("FILE")->description("Write to this file; - is the terminal");
    }
    if (CLI::Option* pinmaps = command.get_option_no_throw("--pinmaps")) {
        pinmaps->type_name("DIR")->expected(1)->take_all()->allow_extra_args(false);
        pinmaps->description("Folder of your own pin maps; may be repeated");
    }
}

void add_commands(CLI::App& app, int& exit_code) {
    app.set_version_flag("--version", "pinfold " PINFOLD_VERSION, "Print the version and exit");
    app.set_help_flag("-h,--help", "Print this help and exit");
    app.get_formatter()->column_width(34);
    add_check(app, exit_code);
    add_mate(app, exit_code);
    add_table(app, exit_code);
    add_power(app, exit_code);
    add_netlist(app, exit_code);
    add_compare(app, exit_code);
    add_order(app, exit_code);
    add_draw(app, exit_code);
    add_new(app, exit_code);
    add_probe(app, exit_code);
    add_diagnose(app, exit_code);
    add_adopt(app, exit_code);
    add_pinmap(app, exit_code);
    add_explain(app, exit_code);
    add_section(app, exit_code);
    add_line(app, exit_code);
    app.require_subcommand(1);
    for (CLI::App* command : app.get_subcommands({})) settle_shared_options(*command);
}

/// Help and version go to standard output, everything else is a misuse.
int answer(const CLI::App& app, const CLI::ParseError& error,
           const std::vector<std::string>& arguments) {
    if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
        return app.exit(error) == 0 ? clean : broken_program;
    }
    say(arguments.empty() ? app.help() : misuse(app, error, arguments));
    return unusable_input;
}

int run(int argc, char** argv) {
    CLI::App app{"Join boards over ribbons and leads, and prove it before anything is made.",
                 "pinfold"};
    int exit_code = clean;
    add_commands(app, exit_code);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return answer(app, error, std::vector<std::string>(argv + 1, argv + argc));
    }
    return exit_code;
}

int run_and_complain(int argc, char** argv) {
    try {
        const int exit_code = run(argc, argv);
        if (std::cout.flush() && std::fflush(stdout) == 0 && !std::ferror(stdout)) {
            return exit_code;
        }
        say("error: cannot write to standard output [output-failed]\n");
    } catch (const InputError& error) {
        tell(error.findings());
    } catch (const std::system_error& error) {
        say(fmt::format("error: {} [output-failed]\n", error.what()));
    } catch (const std::exception& error) {
        say(fmt::format("pinfold: this is a fault of the program: {}\n", error.what()));
        return broken_program;
    }
    return unusable_input;
}

}  // namespace
}  // namespace pinfold::cli

int main(int argc, char** argv) {
    pinfold::cli::settle_streams();
    return pinfold::cli::run_and_complain(argc, argv);
}
