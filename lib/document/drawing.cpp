#include "document/drawing.hpp"

#include <fmt/format.h>

#include "document/text_width.hpp"

namespace pinfold {
namespace {

constexpr int page_columns = 76;
constexpr int body_columns = 46;

/// Blanks before the text up to `width` page_columns.
std::string set_right(std::string_view text, int width) {
    const int missing = width - display_width(text);
    return std::string(static_cast<std::size_t>(missing > 0 ? missing : 0), ' ') +
           std::string(text);
}

/// Two texts at the left and right edge of the drawing.
std::string at_both_ends(std::string_view left, std::string_view right) {
    const int room = page_columns - display_width(right);
    return padded(left, room > display_width(left) ? room : display_width(left) + 2) +
           std::string(right);
}

std::string_view bared_end(CopperView copper) {
    switch (copper) {
        case CopperView::towards_you: return "|######|";
        case CopperView::below: return "|......|";
        case CopperView::sockets: return "[socket]";
    }
    return "";
}

/// One conductor's line: contact numbers outside, an arrow at contact 1.
std::string conductor_line(const RibbonView& view, bool first, std::string_view body) {
    const EndView& a = view.a;
    const EndView& b = view.b;
    const bool one_a = first ? a.one_at_first : a.one_at_last;
    const bool one_b = first ? b.one_at_first : b.one_at_last;
    return fmt::format("{} {} {}{}{} {} {}", set_right(first ? a.at_first : a.at_last, 4),
                       one_a ? '>' : ' ', bared_end(a.copper), body, bared_end(b.copper),
                       one_b ? '<' : ' ', first ? b.at_first : b.at_last);
}

std::string body_text(std::string_view text, char fill) {
    std::string body = fmt::format("{0}{0} {1} ", fill, text);
    body.resize(body_columns, fill);
    return body;
}

std::string without_trailing_blanks(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

std::string end_in_words(const EndView& end, std::string_view name) {
    std::string words = fmt::format("End {} ({}): {}", name, end.place, in_words(end.copper));
    if (end.one_at_first) words += ", contact 1 at the marked edge";
    if (end.one_at_last) words += ", contact 1 at the far edge";
    return words;
}

}  // namespace

std::string_view in_words(CopperView copper) {
    switch (copper) {
        case CopperView::towards_you: return "copper towards you";
        case CopperView::below: return "copper below";
        case CopperView::sockets: return "socket";
    }
    return "";
}

std::string described(const RibbonView& view) {
    return fmt::format(
        "{} seen from above, end a on the left, conductor 1 along the upper, marked edge. {}. {}.",
        view.name, end_in_words(view.a, "a"), end_in_words(view.b, "b"));
}

std::vector<std::string> draw_in_text(const RibbonView& view) {
    const std::string last = fmt::format("conductor {}", view.conductors);
    std::vector<std::string> lines{
        at_both_ends("end a: " + view.a.place, "end b: " + view.b.place),
        at_both_ends(in_words(view.a.copper), in_words(view.b.copper)), "",
        conductor_line(view, true, body_text("conductor 1, marked edge", '='))};
    if (view.conductors > 1) {
        const std::string between = fmt::format("{:7}{}{:46}{}", "", bared_end(view.a.copper), "",
                                                bared_end(view.b.copper));
        if (view.conductors > 2) lines.push_back(between);
        lines.push_back(conductor_line(view, false, body_text(last, '-')));
    }
    for (std::string& line : lines) line = without_trailing_blanks(std::move(line));
    return lines;
}

}  // namespace pinfold
