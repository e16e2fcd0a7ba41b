#include "order/paste.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "base/yaml.hpp"
#include "base/yaml_text.hpp"

namespace pinfold {
namespace {

constexpr std::size_t widest = 100;

/// The byte of a text where a line begins; lines count from 1.
std::size_t line_begin(const std::string& text, int line) {
    std::size_t at = 0;
    for (int n = 1; n < line && at < text.size(); ++n) at = text.find('\n', at) + 1;
    return at;
}

/// The byte a mark points at; columns count code points.
std::size_t byte_of(const std::string& text, const Mark& mark) {
    std::size_t at = line_begin(text, mark.line);
    for (int column = 1; column < mark.column; ++column) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) ++at;
    }
    return at;
}

struct Replacement {
    std::size_t at = 0;
    std::size_t length = 0;
    std::string text;
};

std::string replaced(std::string text, std::vector<Replacement> replacements) {
    std::ranges::sort(replacements, std::ranges::greater{}, &Replacement::at);
    for (const Replacement& any : replacements) text.replace(any.at, any.length, any.text);
    return text;
}

/// The word `best` gives way to the list. It may stand in quotes.
Replacement list_in_place(const std::string& text, const PortList& list, const Mark& best) {
    const std::size_t at = byte_of(text, best);
    const std::size_t line = line_begin(text, best.line);
    std::size_t indent = text.find_first_not_of(" -", line) - line;
    const std::size_t column = at - line;
    if (column + 1 > indent + 1) indent = std::min(column + 1, indent + 8);
    const std::size_t length = text[at] == '\'' || text[at] == '"' ? 6 : 4;
    return {at, length, list_text(list.names, column, indent)};
}

/// Words in a row, broken at 100 columns; further lines begin `indent` blanks in.
std::string in_rows(const std::vector<std::string>& words, std::size_t first_column,
                    std::size_t indent) {
    std::string text;
    std::size_t column = first_column;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0 && column + 1 + words[i].size() > widest) {
            text += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (i > 0) {
            text += ' ';
            ++column;
        }
        text += words[i];
        column += words[i].size();
    }
    return text;
}

/// A tree in one row of words, between brackets and braces.
void add_words(const Yaml& yaml, std::vector<std::string>& words) {
    const std::size_t first = words.size();
    const bool is_map = yaml.kind == Yaml::Kind::map;
    if (yaml.kind != Yaml::Kind::list && !is_map) {
        words.push_back(yaml.kind == Yaml::Kind::scalar ? yaml_text(yaml.scalar) : "");
        return;
    }
    const auto part = [&] {
        if (words.size() > first) words.back() += ",";
    };
    for (const Yaml& item : yaml.items) part(), add_words(item, words);
    for (const Yaml::Entry& entry : yaml.entries) {
        part();
        const std::size_t begin = words.size();
        add_words(entry.value, words);
        words[begin].insert(0, yaml_text(entry.key) + ": ");
    }
    if (words.size() == first) words.emplace_back();
    words[first].insert(0, is_map ? "{" : "[");
    words.back() += is_map ? "}" : "]";
}

/// A board file as the value of a key: without its opening field, every line `indent` blanks in.
std::string as_value(const std::string& board_text, std::size_t indent) {
    std::string value;
    for (std::size_t at = 0; at < board_text.size();) {
        const std::size_t end = std::min(board_text.find('\n', at), board_text.size());
        const std::string line = board_text.substr(at, end - at);
        at = end + 1;
        if (line.starts_with("pinfold-board:") || line.starts_with("---")) continue;
        const bool is_blank = line.find_first_not_of(" \r") == std::string::npos;
        value += "\n" + (is_blank ? line : std::string(indent, ' ') + line);
    }
    return value;
}

bool in_braces(const std::string& text, const Yaml& map) {
    return text[byte_of(text, map.at)] == '{';
}

/// The value `FILE` of a board in the design gives way to what stands in the file. Between braces
/// there are no lines to keep, nor comments.
std::vector<Replacement> board_in_place(const std::string& text, const Yaml& boards,
                                        const Yaml::Entry& entry, const std::string& board_text) {
    const std::size_t at = byte_of(text, entry.value.at);
    const std::size_t line_end = std::min(text.find('\n', at), text.size());
    std::size_t word_end = at;
    if (text[at] == '\'' || text[at] == '"') {
        word_end = text.find(text[at], at + 1) + 1;
    } else {
        word_end += entry.value.scalar.size();
    }
    const auto indent = static_cast<std::size_t>(entry.at.column) + 1;
    Yaml board = parse_yaml(std::make_shared<const Source>(Source{entry.value.scalar, board_text}));
    if (in_braces(text, boards) || in_braces(board_text, board)) {
        std::erase_if(board.entries, [](const auto& any) { return any.key == "pinfold-board"; });
        std::vector<std::string> words;
        add_words(board, words);
        const std::size_t column = at - line_begin(text, entry.value.at.line);
        return {{at, word_end - at, in_rows(words, column, indent)}};
    }
    const std::size_t begin = text.find_last_not_of(' ', at - 1) + 1;
    return {{line_end, 0, as_value(board_text, indent)}, {begin, word_end - begin, ""}};
}

}  // namespace

std::string list_text(const std::vector<std::string>& names, std::size_t first_column,
                      std::size_t indent) {
    Yaml list;
    list.kind = Yaml::Kind::list;
    for (const std::string& name : names) {
        list.items.emplace_back();
        list.items.back().kind = Yaml::Kind::scalar;
        list.items.back().scalar = name;
    }
    std::vector<std::string> words;
    add_words(list, words);
    return in_rows(words, first_column, indent);
}

std::string with_lists(const Design& design, const Source& source,
                       const std::vector<PortList>& lists) {
    std::vector<Replacement> in_design;
    std::map<std::size_t, std::vector<Replacement>> in_boards;
    std::map<std::size_t, std::string> board_texts;
    for (const PortList& list : lists) {
        const Mark& best = *design.port(list.port).best;
        const bool is_here = best.source->name == source.name;
        if (is_here) {
            in_design.push_back(list_in_place(source.text, list, best));
            continue;
        }
        const std::string& text = best.source->text;
        board_texts[list.port.board] = text;
        in_boards[list.port.board].push_back(list_in_place(text, list, best));
    }
    const Yaml yaml = parse_yaml(std::make_shared<const Source>(source));
    const Yaml* boards = yaml.find("boards");
    for (const auto& [board, replacements] : in_boards) {
        const std::string text = replaced(board_texts[board], replacements);
        const auto entry =
            std::ranges::find(boards->entries, design.boards[board].name, &Yaml::Entry::key);
        const auto both = board_in_place(source.text, *boards, *entry, text);
        in_design.insert(in_design.end(), both.begin(), both.end());
    }
    return replaced(source.text, std::move(in_design));
}

}  // namespace pinfold
