#include <fmt/format.h>

#include <memory>

#include "base/spelling.hpp"
#include "colour.hpp"
#include "commands.hpp"
#include "document/interface_text.hpp"
#include "document/pinmap_text.hpp"
#include "document/ribbon_text.hpp"
#include "exchange/pinmap_json.hpp"
#include "output.hpp"
#include "shelves.hpp"

namespace pinfold::cli {
namespace {

struct Options {
    std::string name;
    std::string kind;
    std::string format = "text";
    std::filesystem::path output;
    std::vector<std::string> pinmaps;
};

std::string text_of(Library& library, PinMapKind kind, const std::string& id) {
    switch (kind) {
        case PinMapKind::connector: {
            const Connector& connector = library.connector(id, {});
            return connector_text(connector, library.interface(connector.interface, {}));
        }
        case PinMapKind::interface: return interface_text(library.interface(id, {}));
        case PinMapKind::ribbon: return ribbon_text(library.ribbon(id, {}));
        case PinMapKind::receptacle: return receptacle_text(library.receptacle(id, {}));
    }
    return {};
}

std::string json_of(Library& library, PinMapKind kind, const std::string& id) {
    switch (kind) {
        case PinMapKind::connector: {
            const Connector& connector = library.connector(id, {});
            return connector_json(connector, library.interface(connector.interface, {}));
        }
        case PinMapKind::interface: return interface_json(library.interface(id, {}));
        case PinMapKind::ribbon: return ribbon_json(library.ribbon(id, {}));
        case PinMapKind::receptacle: return receptacle_json(library.receptacle(id, {}));
    }
    return {};
}

[[noreturn]] void refuse_name(Library& library, const Options& options) {
    std::vector<std::string> known;
    for (const PinMapShelf& shelf : shelves_of(library)) {
        for (const PinMapEntry& entry : shelf.entries) known.push_back(entry.id);
    }
    throw InputError({{Severity::error, "pinmap-unknown",
                       fmt::format("no pin map '{}'{}; 'pinfold pinmap' lists them all",
                                   options.name, did_you_mean(options.name, known)),
                       Mark{}}});
}

/// The kind to show: the one asked for, else the first that has the name.
PinMapKind kind_to_show(Library& library, const Options& options) {
    const std::vector<PinMapKind> kinds = kinds_of(library, options.name);
    if (kinds.empty()) refuse_name(library, options);
    if (options.kind.empty()) return kinds.front();
    for (const PinMapKind kind : kinds) {
        if (name_of(kind) == options.kind) return kind;
    }
    throw InputError(
        {{Severity::error, "pinmap-unknown",
          fmt::format("'{}' is no {} but a {}", options.name, options.kind, name_of(kinds.front())),
          Mark{}}});
}

/// Says where the rest is, if a name stands for several things.
std::string others_of_that_name(const Library& library, PinMapKind shown, const std::string& id) {
    std::string text;
    for (const PinMapKind kind : kinds_of(library, id)) {
        if (kind == shown) continue;
        text += fmt::format("\nThe {0} of that name: pinfold pinmap {1} --kind {0}\n",
                            name_of(kind), id);
    }
    return text;
}

std::string answer(Library& library, const Options& options) {
    const bool json = options.format == "json";
    if (options.name.empty()) {
        return json ? pinmap_list_json(shelves_of(library)) : pinmap_list_text(shelves_of(library));
    }
    const PinMapKind kind = kind_to_show(library, options);
    if (json) return json_of(library, kind, options.name);
    return text_of(library, kind, options.name) + others_of_that_name(library, kind, options.name);
}

int run(const Options& options) {
    Library library = open_library(options.pinmaps, {});
    const std::string text = answer(library, options);
    tell(library.hidden());
    deliver(text, options.output, {});
    return clean;
}

}  // namespace

void add_pinmap(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand("pinmap", "List the pin maps, or show one");
    command->add_option("name", options->name, "Connector, interface, ribbon type or receptacle");
    command->add_option("--kind", options->kind, "Which of several with one name")
        ->check(CLI::IsMember({"connector", "interface", "ribbon", "receptacle"}));
    command->add_option("--format", options->format, "text (default) or json")
        ->check(CLI::IsMember({"text", "json"}));
    command->add_option("-o,--output", options->output, "File to write; - is the terminal");
    command->add_option("--pinmaps", options->pinmaps, "Folder of your own pin maps");
    command->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace pinfold::cli
