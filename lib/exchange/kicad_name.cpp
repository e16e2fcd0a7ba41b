#include "exchange/kicad_name.hpp"

#include <algorithm>
#include <array>

namespace pinfold {
namespace {

struct Word {
    char meant;
    std::string_view written;
};

constexpr std::array<Word, 10> escapes{{{'/', "{slash}"},
                                        {'\\', "{backslash}"},
                                        {'<', "{lt}"},
                                        {'>', "{gt}"},
                                        {':', "{colon}"},
                                        {'"', "{dblquote}"},
                                        {' ', "{space}"},
                                        {'\n', "{return}"},
                                        {'\t', "{tab}"},
                                        {'{', "{brace}"}}};

const Word* word_at(std::string_view text) {
    const auto found = std::ranges::find_if(
        escapes, [&](const Word& word) { return text.starts_with(word.written); });
    return found == escapes.end() ? nullptr : &*found;
}

}  // namespace

std::string to_kicad_name(std::string_view name) {
    std::string text;
    for (std::size_t i = 0; i < name.size(); ++i) {
        const auto word = std::ranges::find(escapes, name[i], &Word::meant);
        const bool stays = word == escapes.end() || (name[i] == '{' && !word_at(name.substr(i)));
        if (stays) {
            text += name[i];
        } else {
            text += word->written;
        }
    }
    return text;
}

std::string from_kicad_name(std::string_view name) {
    if (name.find('{') == std::string_view::npos) return std::string(name);
    std::string text;
    while (!name.empty()) {
        const Word* word = word_at(name);
        text += word ? word->meant : name.front();
        name.remove_prefix(word ? word->written.size() : 1);
    }
    return text;
}

}  // namespace pinfold
