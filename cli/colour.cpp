#include "colour.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cstdlib>

namespace pinfold::cli {
namespace {

struct Paint {
    std::string_view word;
    std::string_view code;
};
constexpr std::array<Paint, 3> paints{
    {{"error: ", "\x1b[1;31m"}, {"warning: ", "\x1b[1;33m"}, {"note: ", "\x1b[1;36m"}}};

/// A line that opens with a finding's place and severity; quoted lines are indented.
std::string painted_line(std::string_view line) {
    if (line.starts_with(' ')) return std::string(line);
    for (const Paint& paint : paints) {
        const std::string inside = fmt::format(": {}", paint.word);
        const std::size_t found = line.starts_with(paint.word) ? 0 : line.find(inside);
        if (found == std::string_view::npos) continue;
        const std::size_t word = line.starts_with(paint.word) ? 0 : found + 2;
        return fmt::format("{}{}{}\x1b[0m{}", line.substr(0, word), paint.code,
                           line.substr(word, paint.word.size() - 1),
                           line.substr(word + paint.word.size() - 1));
    }
    return std::string(line);
}

}  // namespace

bool wants_colour(std::FILE* stream) {
    const char* refused = std::getenv("NO_COLOR");
    if (refused && *refused) return false;
    const char* terminal = std::getenv("TERM");
    if (!terminal || std::string_view(terminal) == "dumb") return false;
    return isatty(fileno(stream)) == 1;
}

std::string painted(std::string_view text, std::FILE* stream) {
    if (!wants_colour(stream)) return std::string(text);
    std::string result;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        result += painted_line(text.substr(0, end));
        text.remove_prefix(end);
    }
    return result;
}

void tell(const Findings& findings) {
    for (const Finding& finding : findings) {
        std::fputs(painted(to_text(finding), stderr).c_str(), stderr);
    }
}

}  // namespace pinfold::cli
