#include "usage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/spelling.hpp"

namespace pinfold::cli {
namespace {

const CLI::App* command_named(const CLI::App& app, const std::string& name) {
    for (const CLI::App* command : app.get_subcommands({})) {
        if (command->get_name() == name) return command;
    }
    return nullptr;
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
    return names;
}

/// Every way to write an option of `app`, dashes included.
std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options()) {
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
        for (const std::string& name : option->get_snames()) names.push_back("-" + name);
    }
    return names;
}

/// The first argument written as a long option that `command` does not have.
std::optional<std::string> unknown_option(const CLI::App& command,
                                          const std::vector<std::string>& arguments) {
    const std::vector<std::string> known = option_names(command);
    for (const std::string& argument : arguments) {
        if (argument == "--") break;
        const std::string name = argument.substr(0, argument.find('='));
        if (argument.starts_with("--") && std::ranges::find(known, name) == known.end()) {
            return name;
        }
    }
    return std::nullopt;
}

std::string with_help(const std::string& text, const std::string& command) {
    return fmt::format("pinfold: {}\ntry 'pinfold {}--help'\n", text,
                       command.empty() ? "" : command + " ");
}

}  // namespace

std::string misuse(const CLI::App& app, const CLI::ParseError& error,
                   const std::vector<std::string>& arguments) {
    const auto word = std::ranges::find_if(
        arguments, [](const std::string& text) { return !text.starts_with('-'); });
    const CLI::App* command = word == arguments.end() ? nullptr : command_named(app, *word);
    const std::string name = command ? command->get_name() : "";

    const CLI::App& asked = command ? *command : app;
    if (const std::optional<std::string> option = unknown_option(asked, arguments)) {
        return with_help(fmt::format("unknown option '{}'{}", *option,
                                     did_you_mean(*option, option_names(asked))),
                         name);
    }
    if (!command && word != arguments.end()) {
        return with_help(
            fmt::format("unknown command '{}'{}", *word, did_you_mean(*word, command_names(app))),
            name);
    }
    if (!command) return with_help("which command?", name);
    return with_help(error.what(), name);
}

}  // namespace pinfold::cli
