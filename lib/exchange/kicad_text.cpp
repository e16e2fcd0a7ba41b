#include "exchange/kicad_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <string_view>

#include "exchange/kicad_tree.hpp"
#include "exchange/netlist_grower.hpp"

namespace pinfold {
namespace {

std::string in_quotes(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '\\' || c == '"') out += '\\';
        if (c == '\n') {
            out += "\\n";
        } else if (c == '\r') {
            out += "\\r";
        } else {
            out += c;
        }
    }
    return out + '"';
}

/// What the XML form has as attributes and text stays on the line, the rest goes below it.
std::string to_text(const Branch& branch, std::size_t level) {
    std::string text = fmt::format("({}", branch.word);
    for (const Branch& child : branch.branches) {
        if (is_attribute(branch.word, child.word)) text += " " + to_text(child, level + 1);
    }
    if (branch.text) text += " " + in_quotes(*branch.text);
    for (const Branch& child : branch.branches) {
        if (is_attribute(branch.word, child.word)) continue;
        text += fmt::format("\n{:{}}{}", "", 2 * (level + 1), to_text(child, level + 1));
    }
    return text + ")";
}

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

int hex_value(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

/// Reads S-expressions from left to right.
class TextReader {
public:
    explicit TextReader(const std::shared_ptr<const Source>& source)
        : body_(body_of(*source)), grower_(source) {}

    Netlist read() {
        while (skip_blanks()) read_token();
        if (grower_.depth() > 0) {
            throw InputError({{Severity::error,
                               "netlist-syntax",
                               fmt::format("the file ends inside {} open parenthes{}",
                                           grower_.depth(), grower_.depth() == 1 ? "is" : "es"),
                               grower_.mark(body_.size()),
                               {{grower_.opened_at(), "the innermost opens here"}}}});
        }
        if (!grower_.has_root()) fail("this file is empty; a netlist starts with '(export'", 0);
        return grower_.take();
    }

private:
    [[noreturn]] void fail(std::string text, std::size_t at) {
        throw InputError({{Severity::error, "netlist-syntax", std::move(text), grower_.mark(at)}});
    }

    /// Goes to the next token, past comments: `#` as the first character of a line.
    bool skip_blanks() {
        bool line_start = at_ == 0;
        for (; at_ < body_.size(); ++at_) {
            const char c = body_[at_];
            if (c == '#' && line_start) {
                at_ = std::min(body_.find('\n', at_), body_.size());
                if (at_ == body_.size()) return false;
            } else if (!is_blank(c)) {
                return true;
            }
            if (body_[at_] == '\n') line_start = true;
        }
        return false;
    }

    void read_token() {
        const std::size_t start = at_;
        const char c = body_[at_];
        if (grower_.depth() == 0 && (c != '(' || grower_.has_root())) {
            fail(grower_.has_root() ? "the netlist has ended; nothing may follow its last ')'"
                                    : "a netlist starts with '(export'",
                 start);
        }
        if (c == '(') {
            grower_.open(at_++);
        } else if (c == ')') {
            grower_.close();
            ++at_;
        } else {
            grower_.put_atom(c == '"' ? read_quoted() : read_bare(), start);
        }
    }

    std::string_view read_bare() {
        const std::size_t start = at_;
        while (at_ < body_.size() && !is_blank(body_[at_]) && body_[at_] != '(' &&
               body_[at_] != ')') {
            ++at_;
        }
        return body_.substr(start, at_ - start);
    }

    /// A text without escapes is a part of the file; one with them is put together.
    std::string_view read_quoted() {
        const std::size_t start = at_++;
        while (at_ < body_.size() && body_[at_] != '"' && body_[at_] != '\\' &&
               body_[at_] != '\n') {
            ++at_;
        }
        if (at_ < body_.size() && body_[at_] == '"') {
            return body_.substr(start + 1, at_++ - start - 1);
        }
        return read_escaped(start);
    }

    std::string_view read_escaped(std::size_t start) {
        std::string& unescaped = unescaped_.emplace_back(body_.substr(start + 1, at_ - start - 1));
        while (at_ < body_.size() && body_[at_] != '\n') {
            const char c = body_[at_++];
            if (c == '"') {
                grower_.require_sound(unescaped, start);
                return unescaped;
            }
            unescaped += c == '\\' ? read_escape() : c;
        }
        fail("this quote does not close on its line", start);
    }

    /// What follows a backslash; a character that needs none means itself.
    char read_escape() {
        const char c = at_ < body_.size() ? body_[at_] : '\n';
        if (c == '\n') return '\\';
        if (c == 'x') return read_hex();
        if (c >= '0' && c <= '7') return read_octal();
        ++at_;
        switch (c) {
            case 'n': return '\n';
            case 'r': return '\r';
            case 't': return '\t';
            case 'a': return '\a';
            case 'b': return '\b';
            case 'f': return '\f';
            case 'v': return '\v';
            default: return c;
        }
    }

    char read_hex() {
        const std::size_t start = at_++ - 1;
        int value = 0;
        int digits = 0;
        for (; digits < 2 && at_ < body_.size() && hex_value(body_[at_]) >= 0; ++digits) {
            value = value * 16 + hex_value(body_[at_++]);
        }
        if (digits == 0) fail("'\\x' needs one or two hexadecimal digits", start);
        return static_cast<char>(value);
    }

    char read_octal() {
        const std::size_t start = at_ - 1;
        int value = 0;
        for (int digits = 0; digits < 3 && at_ < body_.size(); ++digits) {
            const char c = body_[at_];
            if (c < '0' || c > '7') break;
            value = value * 8 + (c - '0');
            ++at_;
        }
        if (value > 255) fail("an octal escape goes up to \\377", start);
        return static_cast<char>(value);
    }

    std::string_view body_;
    std::size_t at_ = 0;
    std::deque<std::string> unescaped_;  ///< texts that are not in the file as they stand
    NetlistGrower grower_;
};

}  // namespace

std::string kicad_text(const Netlist& netlist) { return to_text(kicad_tree(netlist), 0) + "\n"; }

Netlist read_kicad_text(const std::shared_ptr<const Source>& source) {
    require_plain_text(source);
    return TextReader(source).read();
}

}  // namespace pinfold
