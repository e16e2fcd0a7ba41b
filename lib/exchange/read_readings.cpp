#include "exchange/read_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/quantity.hpp"
#include "base/utf8.hpp"

namespace pinfold {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t most_rows = 20'000;
constexpr std::size_t most_faults = 50;  ///< told of one file

struct Cell {
    std::string text;
    Mark at;
};
using Line = std::vector<Cell>;

std::string trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

std::string lowered(std::string_view text) {
    std::string low = trimmed(text);
    for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return low;
}

template <std::size_t N>
bool is_one_of(const std::string& word, const std::array<std::string_view, N>& words) {
    return std::ranges::find(words, word) != words.end();
}

/// Closed, open, ohms, blank; or nothing that can be understood.
struct Value {
    enum Kind { closed, open, ohms, blank, unknown } kind = unknown;
    double number = 0;
};

std::optional<double> number_with_unit(std::string text) {
    std::ranges::replace(text, ',', '.');
    struct Unit {
        std::string_view name;
        double worth;
    };
    // Longest first; M and m are told apart before the text is lowered.
    constexpr std::array<Unit, 17> units{{{"kohm", 1e3},
                                          {"Mohm", 1e6},
                                          {"mohm", 1e-3},
                                          {"kOhm", 1e3},
                                          {"MOhm", 1e6},
                                          {"mOhm", 1e-3},
                                          {"k\u03A9", 1e3},
                                          {"M\u03A9", 1e6},
                                          {"m\u03A9", 1e-3},
                                          {"ohms", 1},
                                          {"ohm", 1},
                                          {"Ohm", 1},
                                          {"\u03A9", 1},
                                          {"\u2126", 1},
                                          {"R", 1},
                                          {"k", 1e3},
                                          {"M", 1e6}}};
    double worth = 1;
    for (const Unit& unit : units) {
        if (!text.ends_with(unit.name)) continue;
        worth = unit.worth;
        text.resize(text.size() - unit.name.size());
        break;
    }
    const auto number = parse_number(trimmed(text));
    if (!number || *number < 0) return std::nullopt;
    return *number * worth;
}

Value value_of(const std::string& cell) {
    constexpr std::array<std::string_view, 9> closed{"closed", "close",   "beep", "beeps", "short",
                                                     "yes",    "through", "c",    "x"};
    constexpr std::array<std::string_view, 12> open{
        "open", "ol", "o.l", "o.l.", "0l", "0.l", "o", "inf", "no", "\u221E", ">", "overload"};
    const std::string word = lowered(cell);
    if (word.empty() || word == "?" || word == "-") return {Value::blank};
    if (is_one_of(word, closed)) return {Value::closed};
    if (is_one_of(word, open)) return {Value::open};
    const auto number = number_with_unit(trimmed(cell));
    if (number) return {Value::ohms, *number};
    return {};
}

/// Cuts a text into lines of cells.
class Cutter {
public:
    Cutter(const std::shared_ptr<const Source>& source, Findings& findings)
        : source_(source), text_(source->text), findings_(findings) {
        if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
        separator_ = separator();
    }

    bool at_end() const { return at_ >= text_.size(); }

    Line line() {
        line_begins_ = at_;
        ++line_;
        Line cells;
        if (text_[at_] == '#') at_ = end_of_line();
        while (!at_end() && text_[at_] != '\n' && text_[at_] != '\r') {
            cells.push_back(cell());
            if (at_end() || text_[at_] != separator_) break;
            ++at_;
            if (at_end() || text_[at_] == '\n' || text_[at_] == '\r') cells.push_back({"", mark()});
        }
        if (text_.substr(std::min(at_, text_.size()), 2) == "\r\n") ++at_;
        if (!at_end()) ++at_;
        return cells;
    }

private:
    std::size_t end_of_line() const {
        return std::min(text_.find_first_of("\r\n", at_), text_.size());
    }

    /// What parts the cells of the first line that is no comment.
    char separator() const {
        for (std::size_t at = at_; at < text_.size();) {
            const std::size_t end = std::min(text_.find_first_of("\r\n", at), text_.size());
            const std::string_view line = text_.substr(at, end - at);
            if (!line.empty() && line.front() != '#') {
                for (const char mark : {';', '\t'}) {
                    if (line.find(mark) != std::string_view::npos) return mark;
                }
                return ',';
            }
            at = end + 1;
        }
        return ',';
    }

    Mark mark() const {
        const std::string_view before = text_.substr(line_begins_, at_ - line_begins_);
        return {source_, line_, code_points(before) + 1, line_begins_};
    }

    Cell cell() {
        Cell cell{"", mark()};
        if (text_[at_] == '"') {
            cell.text = quoted(cell.at);
        } else {
            const std::size_t end = std::min({text_.find(separator_, at_), end_of_line()});
            cell.text = trimmed(text_.substr(at_, end - at_));
            at_ = end;
        }
        if (cell.text.starts_with('\'')) cell.text.erase(0, 1);
        return cell;
    }

    /// A cell in quotes ends on its own line: no name and no reading goes on to the next.
    std::string quoted(const Mark& at) {
        std::string text;
        for (++at_; !at_end() && text_[at_] != '\n' && text_[at_] != '\r'; ++at_) {
            if (text_[at_] != '"') {
                text += text_[at_];
            } else if (text_.substr(at_, 2) == "\"\"") {
                text += text_[at_++];
            } else {
                ++at_;
                const std::size_t end = std::min({text_.find(separator_, at_), end_of_line()});
                if (!trimmed(text_.substr(at_, end - at_)).empty()) {
                    refuse("text after a closing quote", at);
                }
                at_ = end;
                return text;
            }
        }
        refuse("a quote that is not closed on its line", at);
        return text;
    }

    void refuse(std::string_view what, const Mark& at) {
        findings_.push_back({Severity::error, "csv-quote", std::string(what), at});
    }

    std::shared_ptr<const Source> source_;
    std::string_view text_;
    Findings& findings_;
    char separator_ = ',';
    std::size_t at_ = 0;
    std::size_t line_begins_ = 0;
    int line_ = 0;
};

constexpr std::size_t no_column = static_cast<std::size_t>(-1);

struct Columns {
    std::size_t no = no_column, from = no_column, to = no_column, reading = no_column;
    bool is_head() const { return from != no_column && to != no_column && reading != no_column; }
};

Columns columns_by_head(const Line& line) {
    constexpr std::array<std::string_view, 5> no{"no", "no.", "number", "row", "nr"};
    constexpr std::array<std::string_view, 6> from{"from",    "a",      "point a",
                                                   "point_a", "point1", "one"};
    constexpr std::array<std::string_view, 6> to{"to",      "b",      "point b",
                                                 "point_b", "point2", "other"};
    constexpr std::array<std::string_view, 6> reading{"reading", "measured", "result",
                                                      "value",   "state",    "meter"};
    Columns columns;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const std::string word = lowered(line[i].text);
        if (is_one_of(word, no)) columns.no = i;
        if (is_one_of(word, from)) columns.from = i;
        if (is_one_of(word, to)) columns.to = i;
        if (is_one_of(word, reading)) columns.reading = i;
    }
    return columns;
}

/// Without a head: a number in front is the row's; three cells are two points and a reading; of
/// more the last is the reading.
Columns columns_by_shape(const Line& line) {
    Columns columns;
    const bool numbered = line.size() > 3 && parse_whole(line[0].text).has_value();
    const std::size_t first = numbered ? 1 : 0;
    if (numbered) columns.no = 0;
    columns.from = first;
    columns.to = first + 1;
    columns.reading = std::max(first + 2, std::min<std::size_t>(line.size(), first + 4) - 1);
    return columns;
}

class ReadingsReader {
public:
    ReadingsReader(std::shared_ptr<const Source> source, const Design& design, const Wiring& wiring)
        : source_(std::move(source)), design_(design), wiring_(wiring) {}

    MeterReadings read() {
        if (const auto broken = first_invalid_utf8(source_->text)) {
            (void)broken;
            refuse("csv-encoding", "the readings are not UTF-8; save the table as CSV in UTF-8",
                   {source_, 1, 1, 0});
            throw InputError(std::move(findings_));
        }
        Cutter cutter(source_, findings_);
        bool is_first = true;
        while (!cutter.at_end() && findings_.size() < most_faults) {
            const Line line = cutter.line();
            const auto is_empty = [](const Cell& cell) { return cell.text.empty(); };
            if (std::ranges::all_of(line, is_empty)) continue;
            if (is_first) columns_ = columns_by_head(line);
            const bool head = is_first && (columns_.is_head() || is_other_head(line));
            is_first = false;
            if (!head) read_row(line);
        }
        if (findings_.empty() && readings_.rows.empty() && readings_.blank == 0) {
            refuse("readings-none",
                   "there is no reading in here; write rows such as base.plug.1,lid.plug.1,closed",
                   {source_, 1, 1, 0});
        }
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return std::move(readings_);
    }

private:
    void refuse(const char* rule, std::string text, const Mark& at) {
        findings_.push_back({Severity::error, rule, std::move(text), at});
    }

    /// A first line whose points and reading all mean nothing is a heading in other words.
    bool is_other_head(const Line& line) {
        const Columns columns = columns_by_shape(line);
        if (columns.reading >= line.size()) return false;
        const auto is_point = [&](std::size_t column) {
            const std::string& text = line[column].text;
            return text.find('.') != std::string::npos ||
                   find_point(design_, wiring_, text).point.has_value();
        };
        if (is_point(columns.from) || is_point(columns.to)) return false;
        return value_of(line[columns.reading].text).kind == Value::unknown;
    }

    void read_row(const Line& line) {
        const Columns columns = columns_.is_head() ? columns_ : columns_by_shape(line);
        ++row_;
        if (row_ > static_cast<int>(most_rows)) {
            return refuse("readings-many",
                          fmt::format("more than {} rows; measure one assembly a file", most_rows),
                          line.front().at);
        }
        if (line.size() <= std::max(columns.from, columns.to)) {
            return refuse("reading-short",
                          "a row holds two points and a reading, such as "
                          "base.plug.1,lid.plug.1,closed",
                          line.front().at);
        }
        MeterReading reading;
        reading.row = number_of(line, columns);
        reading.at = line[columns.from].at;
        const auto from = point_at(line[columns.from]);
        const auto to = point_at(line[columns.to]);
        const Cell value =
            columns.reading < line.size() ? line[columns.reading] : Cell{"", line.back().at};
        if (!from || !to) return;
        reading.from = *from;
        reading.to = *to;
        if (*from == *to) {
            return refuse("reading-same-point", "both ends of this reading are one point",
                          line[columns.to].at);
        }
        settle(reading, value);
    }

    int number_of(const Line& line, const Columns& columns) const {
        if (columns.no >= line.size()) return row_;
        const auto number = parse_whole(line[columns.no].text);
        return number && *number > 0 ? *number : row_;
    }

    std::optional<Point> point_at(const Cell& cell) {
        // `base.plug.1 D2+`: what stands after a blank is the sheet's own explanation.
        const NamedPoint whole = find_point(design_, wiring_, cell.text);
        if (whole.point) return whole.point;
        const NamedPoint named =
            find_point(design_, wiring_, cell.text.substr(0, cell.text.find(' ')));
        if (!named.point) refuse("point-unknown", whole.complaint, cell.at);
        return named.point;
    }

    void settle(MeterReading& reading, const Cell& cell) {
        const Value value = value_of(cell.text);
        if (value.kind == Value::blank) {
            ++readings_.blank;
            return;
        }
        if (value.kind == Value::unknown) {
            return refuse("reading-unknown",
                          fmt::format("a reading is closed, open, OL, or ohms such as '0.4 ohm', "
                                      "not '{}'",
                                      cell.text),
                          cell.at);
        }
        reading.closed = value.kind == Value::closed;
        if (value.kind == Value::ohms) {
            reading.ohms = Ohms(value.number);
            reading.closed = *reading.ohms <= most_when_closed;
            if (!reading.closed && *reading.ohms < least_when_open) {
                readings_.remarks.push_back(
                    {Severity::warning, "reading-between",
                     fmt::format(
                         "{:.6g} ohm is neither closed (at most {:g} ohm) nor open (at least "
                         "{:g} ohm); this row is left out: clean the contacts, unplug what "
                         "is still plugged in and measure again",
                         value.number, most_when_closed.value(), least_when_open.value()),
                     cell.at});
                return;
            }
        }
        readings_.rows.push_back(std::move(reading));
    }

    std::shared_ptr<const Source> source_;
    const Design& design_;
    const Wiring& wiring_;
    Columns columns_;
    Findings findings_;
    MeterReadings readings_;
    int row_ = 0;
};

}  // namespace

MeterReadings read_readings(std::shared_ptr<const Source> source, const Design& design,
                            const Wiring& wiring) {
    return ReadingsReader(std::move(source), design, wiring).read();
}

}  // namespace pinfold
