#include "base/yaml.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <unordered_map>

#include "base/utf8.hpp"

namespace pinfold {
namespace {

constexpr std::size_t deepest = 32;
constexpr std::size_t most_values = 1'000'000;
constexpr std::size_t longest_key = 128;

[[noreturn]] void refuse(const char* rule, std::string text, Mark at,
                         std::vector<Note> notes = {}) {
    throw InputError({{Severity::error, rule, std::move(text), std::move(at), std::move(notes)}});
}

/// Turns yaml-cpp's marks (from 0, in bytes) into ours (from 1, in code points).
class Marker {
public:
    explicit Marker(std::shared_ptr<const Source> source, std::string_view text)
        : source_(std::move(source)), text_(text) {
        std::size_t points = 0;
        for (std::size_t at = 0; at != std::string_view::npos;) {
            lines_.push_back(at);
            at = text_.find('\n', at);
            if (at != std::string_view::npos) ++at;
        }
        for (std::size_t at = 0; at <= text_.size(); at += block) {
            points_before_.push_back(points);
            points += static_cast<std::size_t>(code_points(text_.substr(at, block)));
        }
    }

    std::size_t offset(int line, int byte_column) const {
        const std::size_t row =
            std::min(static_cast<std::size_t>(std::max(line, 0)), lines_.size() - 1);
        return std::min(lines_[row] + static_cast<std::size_t>(std::max(byte_column, 0)),
                        text_.size());
    }

    Mark at(int line, int byte_column) const {
        const std::size_t end = offset(line, byte_column);
        const std::size_t start = offset(line, 0);
        const std::size_t skipped = source_->text.size() - text_.size();
        return {source_, std::max(line, 0) + 1,
                static_cast<int>(points_before(end) - points_before(start)) + 1, start + skipped};
    }
    Mark at(const YAML::Mark& mark) const { return at(mark.line, mark.column); }

    Mark at_byte(std::size_t byte) const {
        const auto next = std::ranges::upper_bound(lines_, byte);
        const auto row = static_cast<int>(next - lines_.begin()) - 1;
        return at(row, static_cast<int>(byte - lines_[static_cast<std::size_t>(row)]));
    }

    /// The byte at one of yaml-cpp's marks; 0 at the end of the text.
    char byte_at(const YAML::Mark& mark) const {
        const std::size_t at = offset(mark.line, mark.column);
        return at < text_.size() ? text_[at] : '\0';
    }

private:
    static constexpr std::size_t block = 64;

    /// Looked up by blocks, so that a million marks in one line cost no scan of the line each.
    std::size_t points_before(std::size_t byte) const {
        const std::string_view rest = text_.substr(byte / block * block, byte % block);
        return points_before_[byte / block] + static_cast<std::size_t>(code_points(rest));
    }

    std::shared_ptr<const Source> source_;
    std::string_view text_;
    std::vector<std::size_t> lines_;
    std::vector<std::size_t> points_before_;  ///< code points before each block
};

/// Builds the plain tree from the parser's events.
class Builder : public YAML::EventHandler {
public:
    explicit Builder(const Marker& marker) : marker_(marker) {}

    Yaml root;
    int documents = 0;
    std::optional<std::pair<int, int>> last_quoted;  ///< line and byte column, from 0

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (++documents == 2) {
            refuse("yaml-second-document",
                   "the document ends before this: a file holds one document, and every list and "
                   "map in it is one piece",
                   marker_.at(mark));
        }
    }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        plain_only(mark, "?", anchor);
        Yaml value;
        value.at = marker_.at(mark);
        add(std::move(value));
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        refuse("yaml-anchor",
               "anchors and aliases (&name, *name) are not taken: write the value out, or quote "
               "the text",
               marker_.at(mark));
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& text) override {
        plain_only(mark, tag, anchor);
        if (tag == "!") last_quoted = {mark.line, mark.column};
        require_printable(mark, text);
        Yaml value;
        value.at = marker_.at(mark);
        if (tag == "!" || (text != "~" && text != "null" && text != "Null" && text != "NULL")) {
            value.kind = Yaml::Kind::scalar;
            value.scalar = text;
        }
        add(std::move(value));
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override {
        plain_only(mark, tag, anchor);
        open(mark, Yaml::Kind::list);
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override {
        plain_only(mark, tag, anchor);
        open(mark, Yaml::Kind::map);
    }
    void OnMapEnd() override { close(); }

private:
    /// A list or map being filled. In a map, a key waits until its value is there.
    struct Open {
        Yaml value;
        std::optional<Yaml> key;
        std::unordered_map<std::string, std::size_t> keys;
    };

    void plain_only(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) const {
        if (anchor != 0) {
            refuse("yaml-anchor",
                   "anchors and aliases (&name, *name) are not taken: write the value out, or "
                   "quote the text",
                   marker_.at(mark));
        }
        // A quoted text has the tag "!" of its own, as if one were written.
        if ((!tag.empty() && tag != "?" && tag != "!") || marker_.byte_at(mark) == '!') {
            refuse("yaml-tag", "tags (!name) are not taken: quote the text if it starts with '!'",
                   marker_.at(mark));
        }
    }

    /// Escapes such as "\e" bring in what the text itself may not hold. Line ends and tabs may
    /// stay. The parser turns "\N" and "\_" into bytes that are not UTF-8.
    void require_printable(const YAML::Mark& mark, std::string_view text) const {
        if (first_invalid_utf8(text)) {
            refuse("yaml-encoding",
                   "the escapes \\N and \\_ are not taken: write the character itself",
                   marker_.at(mark));
        }
        while (const auto at = first_control(text)) {
            if (text[*at] != '\n' && text[*at] != '\t') {
                refuse("yaml-control", "this text holds an escaped control character",
                       marker_.at(mark));
            }
            text.remove_prefix(*at + 1);
        }
    }

    void open(const YAML::Mark& mark, Yaml::Kind kind) {
        if (stack_.size() >= deepest) {
            refuse("yaml-too-deep", fmt::format("nested more than {} levels deep", deepest),
                   marker_.at(mark));
        }
        Open level;
        level.value.kind = kind;
        level.value.at = marker_.at(mark);
        stack_.push_back(std::move(level));
    }

    void close() {
        Yaml done = std::move(stack_.back().value);
        stack_.pop_back();
        add(std::move(done));
    }

    void add(Yaml value) {
        if (++values_ > most_values) {
            refuse("yaml-too-many", fmt::format("more than {} values", most_values), value.at);
        }
        if (stack_.empty()) {
            root = std::move(value);
            return;
        }
        Open& level = stack_.back();
        if (level.value.kind == Yaml::Kind::list) {
            level.value.items.push_back(std::move(value));
        } else if (!level.key) {
            require_key(value);
            level.key = std::move(value);
        } else {
            add_entry(level, std::move(value));
        }
    }

    static void require_key(const Yaml& key) {
        if (key.kind != Yaml::Kind::scalar) {
            refuse("yaml-key", "a key must be a text; quote it", key.at);
        }
        if (key.scalar.size() > longest_key) {
            refuse("yaml-key", fmt::format("a key has at most {} bytes", longest_key), key.at);
        }
        if (key.scalar == "<<") {
            refuse("yaml-anchor", "merge keys (<<) are not taken: write the fields out", key.at);
        }
    }

    static void add_entry(Open& level, Yaml value) {
        Yaml key = std::move(*level.key);
        level.key.reset();
        const auto [twin, is_new] = level.keys.try_emplace(key.scalar, level.value.entries.size());
        if (!is_new) {
            refuse("yaml-key-twice", fmt::format("'{}' stands twice in this map", key.scalar),
                   key.at, {{level.value.entries[twin->second].at, "first here"}});
        }
        level.value.entries.push_back({std::move(key.scalar), std::move(value), key.at});
    }

    const Marker& marker_;
    std::vector<Open> stack_;
    std::size_t values_ = 0;
};

/// Refuses what the parser would let through or misplace.
void require_clean_text(std::string_view text, const Marker& marker) {
    if (text.starts_with("\xFE\xFF") || text.starts_with("\xFF\xFE")) {
        refuse("yaml-encoding", "the file is UTF-16 or UTF-32; save it as UTF-8", marker.at(0, 0));
    }
    if (const auto bad = first_invalid_utf8(text)) {
        refuse("yaml-encoding",
               fmt::format("byte 0x{:02X} is not UTF-8; save the file as UTF-8",
                           static_cast<unsigned char>(text[*bad])),
               marker.at_byte(*bad));
    }
    bool leading = true;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool is_plain =
            c == '\n' || c == '\t' || (c == '\r' && text.substr(i + 1, 1) == "\n");
        if (!is_plain && first_control(text.substr(i, 2)) == std::size_t{0}) {
            const char code = c == '\xC2' ? text[i + 1] : c;
            refuse("yaml-control",
                   fmt::format("control character 0x{:02X}", static_cast<unsigned char>(code)),
                   marker.at_byte(i));
        }
        if (c == '\t' && leading) {
            refuse("yaml-tab", "a tab cannot indent; use blanks", marker.at_byte(i));
        }
        leading = c == '\n' || (leading && c == ' ');
    }
}

/// The parser takes a quoted text that runs into the end of the file; we do not.
void require_closed_quote(std::string_view text, const Marker& marker, const Builder& built) {
    if (!built.last_quoted) return;
    const auto [line, column] = *built.last_quoted;
    std::size_t at = marker.offset(line, column);
    const char quote = at < text.size() ? text[at] : '\0';
    if (quote != '"' && quote != '\'') return;
    for (++at; at < text.size(); ++at) {
        if (text[at] == '\\' && quote == '"') {
            ++at;
        } else if (text[at] == quote) {
            if (quote == '\'' && at + 1 < text.size() && text[at + 1] == quote) {
                ++at;
            } else {
                return;
            }
        }
    }
    refuse("yaml-quote", "this quote is never closed", marker.at(line, column));
}

}  // namespace

const Yaml* Yaml::find(std::string_view key) const {
    const auto entry = std::ranges::find(entries, key, &Entry::key);
    return entry == entries.end() ? nullptr : &entry->value;
}

Yaml parse_yaml(std::shared_ptr<const Source> source) {
    std::string_view text = source->text;
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    const Marker marker(source, text);
    require_clean_text(text, marker);

    Builder builder(marker);
    std::istringstream in{std::string(text)};
    try {
        YAML::Parser parser(in);
        while (parser.HandleNextDocument(builder)) {
        }
    } catch (const YAML::Exception& e) {
        refuse("yaml-broken", fmt::format("broken YAML: {}", e.msg), marker.at(e.mark));
    }
    require_closed_quote(text, marker, builder);
    if (builder.documents == 0) {
        refuse("yaml-empty", "the file is empty", marker.at(0, 0));
    }
    return std::move(builder.root);
}

}  // namespace pinfold
