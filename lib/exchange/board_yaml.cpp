#include "exchange/board_yaml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <memory>
#include <stdexcept>

#include "base/shown.hpp"
#include "base/yaml_text.hpp"
#include "design/read.hpp"

namespace pinfold {
namespace {

constexpr std::size_t remark_width = 98;

/// `words` after `head`, broken between words; lines after the first begin with `indent`.
std::string wrapped(std::string head, const std::string& indent,
                    const std::vector<std::string>& words) {
    std::string text, line = std::move(head);
    bool fresh = true;
    for (const std::string& word : words) {
        if (!fresh && line.size() + 1 + word.size() > remark_width) {
            text += line + "\n";
            line = indent;
            fresh = true;
        }
        if (!fresh) line += ' ';
        line += word;
        fresh = false;
    }
    return text + line + "\n";
}

std::string remark_lines(const std::string& head, std::string_view text) {
    std::vector<std::string> words;
    const std::string line = shown(text);
    for (std::size_t at = 0; at <= line.size();) {
        const std::size_t end = std::min(line.find(' ', at), line.size());
        words.push_back(line.substr(at, end - at));
        at = end + 1;
    }
    return wrapped("# " + head, "#   ", words);
}

std::string list(const std::string& key, const std::vector<std::string>& texts) {
    std::vector<std::string> words;
    for (const std::string& text : texts) words.push_back(yaml_text(text) + ",");
    if (words.empty()) return fmt::format("    {}: []\n", key);
    words.front() = "[" + words.front();
    words.back().back() = ']';
    return wrapped(fmt::format("    {}: ", key), "      ", words);
}

std::vector<std::string> entries_of(const AdoptedPort& port) {
    std::vector<std::string> entries;
    for (const AdoptedContact& contact : port.contacts) entries.push_back(contact.wired);
    return entries;
}

/// Whether our own netlists would say of the port's part what this one does.
bool is_named_by_kind(const AdoptedPort& port) {
    const std::size_t count = port.contacts.size();
    return port.part == fmt::format("{} {}", port.connector, name_of(port.gender)) ||
           port.part == fmt::format("{} {}-way", port.receptacle, count) ||
           port.part == fmt::format("{} pads", count);
}

std::string port_yaml(const AdoptedPort& port) {
    std::string text = fmt::format("  {}:\n", yaml_text(port.name));
    const auto line = [&](const char* key, const std::string& value) {
        text += fmt::format("    {}: {}\n", key, value);
    };
    if (!port.connector.empty()) {
        line("connector", fmt::format("{} {}", port.connector, name_of(port.gender)));
    }
    if (!port.receptacle.empty()) {
        line("receptacle", port.receptacle);
        if (port.connector.empty()) line("positions", std::to_string(port.contacts.size()));
        line("first-contact", "left");
    }
    line("reference", yaml_text(port.reference));
    if (!port.footprint.empty()) line("footprint", yaml_text(port.footprint));
    if (!port.part.empty() && !is_named_by_kind(port)) line("part", yaml_text(port.part));
    std::vector<std::string> known = port.connector_shell;
    std::ranges::sort(known, natural_less);
    if (port.shell != known) text += list("shell", port.shell);
    const bool is_pads = port.connector.empty() && port.receptacle.empty();
    if (!port.by_table) text += list(is_pads ? "pads" : "wired", entries_of(port));
    return text;
}

/// Whether the text is a board file that joins what was adopted.
bool reads_back(const std::string& text, const Adoption& adoption, Library& library) {
    Design design;
    try {
        read_board(std::make_shared<const Source>(Source{"the board file", text}), "adopted",
                   design, library);
        return joins_as_adopted(adoption, netlist_of(design, 0));
    } catch (const InputError&) {
        return false;
    }
}

}  // namespace

std::string board_yaml(const Adoption& adoption, const std::string& from) {
    std::string text = remark_lines("Adopted from ", from + ".");
    if (!adoption.doubts.empty()) text += "# To be settled against the part in hand:\n";
    for (const Finding& doubt : adoption.doubts) {
        text += remark_lines("- ", fmt::format("{} [{}]", doubt.text, doubt.rule));
    }
    text += "pinfold-board: 1\n";
    if (!adoption.title.empty()) text += fmt::format("title: {}\n", quoted_yaml(adoption.title));
    if (adoption.separate_grounds) text += "ground: separate\n";
    text += "ports:\n";
    for (const AdoptedPort& port : adoption.ports) text += port_yaml(port);
    return text;
}

AdoptedBoard adopted_board(const Netlist& drawn, const std::vector<PartWords>& parts,
                           const std::string& from, Library& library) {
    for (const NetNaming naming : {NetNaming::by_signal, NetNaming::by_number}) {
        Adoption adoption = adopt(drawn, parts, library, naming);
        std::string text = board_yaml(adoption, from);
        if (reads_back(text, adoption, library)) return {std::move(text), adoption.doubts};
    }
    throw std::logic_error("the board file does not read back as it was written");
}

}  // namespace pinfold
