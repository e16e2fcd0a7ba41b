#include "exchange/read_readings.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

#include "base/quantity.hpp"
#include "base/spelling.hpp"
#include "base/utf8.hpp"
#include "exchange/meter_word.hpp"
#include "exchange/place_finder.hpp"
#include "exchange/sheet_columns.hpp"

namespace pinfold {
namespace {

constexpr int most_reading_rows = 20'000;
constexpr std::size_t most_reading_faults = 50;  ///< told of one file

class ReadingsReader {
public:
    ReadingsReader(std::shared_ptr<const Source> source, const Design& design, const Wiring& wiring)
        : source_(std::move(source)), design_(design), wiring_(wiring) {}

    MeterReadings read() {
        if (const auto broken = first_invalid_utf8(body_of(*source_))) {
            refuse("csv-encoding", "the readings are not UTF-8; save the table as CSV in UTF-8",
                   PlaceFinder(source_).at(*broken));
            throw InputError(std::move(findings_));
        }
        read_lines();
        if (findings_.empty() && readings_.rows.empty() && readings_.blank == 0) {
            refuse("readings-none",
                   readings_.remarks.empty() ? "there is no reading in here; write rows such as "
                                               "base.plug.1,lid.plug.1,closed"
                                             : "no reading in here tells closed from open",
                   {source_, 1, 1, 0});
        }
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return std::move(readings_);
    }

private:
    void refuse(const char* rule, std::string text, const Mark& at) {
        findings_.push_back({Severity::error, rule, std::move(text), at});
    }

    void read_lines() {
        SheetCutter cutter(source_, findings_);
        bool is_first = true;
        while (!cutter.at_end() && findings_.size() < most_reading_faults &&
               row_ <= most_reading_rows) {
            const SheetLine line = cutter.line();
            const auto is_empty = [](const SheetCell& cell) { return cell.text.empty(); };
            if (std::ranges::all_of(line, is_empty)) continue;
            if (is_first) columns_ = columns_by_head(line);
            const bool head = is_first && (columns_.is_head() || is_other_head(line));
            is_first = false;
            if (!head) read_row(line);
        }
    }

    /// A first line whose points and reading all mean nothing is a heading in other words.
    bool is_other_head(const SheetLine& line) {
        const SheetColumns columns = columns_by_shape(line);
        if (columns.reading >= line.size()) return false;
        const auto is_point = [&](std::size_t column) {
            const std::string& text = line[column].text;
            return text.find('.') != std::string::npos ||
                   find_point(design_, wiring_, text).point.has_value();
        };
        if (is_point(columns.from) || is_point(columns.to)) return false;
        return meter_word(line[columns.reading].text).kind == MeterWord::unknown;
    }

    void read_row(const SheetLine& line) {
        const SheetColumns columns = columns_.is_head() ? columns_ : columns_by_shape(line);
        ++row_;
        if (row_ > most_reading_rows) {
            return refuse(
                "readings-many",
                fmt::format("more than {} rows; measure one assembly a file", most_reading_rows),
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
        remark_on_number(reading.row, line.front().at);
        reading.at = line[columns.from].at;
        const auto from = point_at(line[columns.from]);
        const auto to = point_at(line[columns.to]);
        const std::size_t faults = findings_.size();
        if (columns.with < line.size()) reading.with = devices_at(line[columns.with]);
        if (!from || !to || findings_.size() > faults) return;
        reading.from = *from;
        reading.to = *to;
        if (*from == *to) {
            return refuse("reading-same-point", "both ends of this reading are one point",
                          line[columns.to].at);
        }
        settle(reading, columns.reading < line.size() ? line[columns.reading]
                                                      : SheetCell{"", line.back().at});
    }

    int number_of(const SheetLine& line, const SheetColumns& columns) const {
        if (columns.no >= line.size()) return row_;
        const auto number = parse_whole(line[columns.no].text);
        return number && *number > 0 ? *number : row_;
    }

    void remark_on_number(int number, const Mark& at) {
        if (numbers_.insert(number).second) return;
        readings_.remarks.push_back(
            {Severity::warning, "reading-number",
             fmt::format("two rows are numbered {}; what is said of one may mean the other",
                         number),
             at});
    }

    std::optional<Point> point_at(const SheetCell& cell) {
        // `base.plug.1 D2+`: what stands after a blank is the sheet's own explanation.
        const NamedPoint whole = find_point(design_, wiring_, cell.text);
        if (whole.point) return whole.point;
        const NamedPoint named =
            find_point(design_, wiring_, cell.text.substr(0, cell.text.find(' ')));
        if (!named.point) refuse("point-unknown", whole.complaint, cell.at);
        return named.point;
    }

    /// The devices that were plugged in: names between blanks or `+`.
    std::vector<std::size_t> devices_at(const SheetCell& cell) {
        std::vector<std::size_t> devices;
        std::string_view rest = trimmed(cell.text);
        while (!rest.empty()) {
            const std::string_view name = rest.substr(0, rest.find_first_of(" +"));
            rest = trimmed(rest.substr(std::min(name.size() + 1, rest.size())));
            if (name.empty()) continue;
            if (const auto device = device_named(name, cell.at)) devices.push_back(*device);
        }
        std::ranges::sort(devices);
        devices.erase(std::unique(devices.begin(), devices.end()), devices.end());
        return devices;
    }

    std::optional<std::size_t> device_named(std::string_view name, const Mark& at) {
        std::vector<std::string> known;
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            if (!design_.boards[b].is_device) continue;
            if (design_.boards[b].name == name) return b;
            known.push_back(design_.boards[b].name);
        }
        refuse("device-unknown",
               fmt::format("no device is named '{}' here{}; devices: {}", name,
                           did_you_mean(name, known), fmt::join(known, ", ")),
               at);
        return std::nullopt;
    }

    void settle(MeterReading& reading, const SheetCell& cell) {
        const MeterWord word = meter_word(cell.text);
        if (word.kind == MeterWord::blank) {
            ++readings_.blank;
            return;
        }
        if (word.kind == MeterWord::unknown) {
            return refuse("reading-unknown",
                          fmt::format("a reading is closed, open, OL, ohms such as '0.4 ohm', or "
                                      "with a device plugged in volts such as '0.55 V', not '{}'",
                                      cell.text),
                          cell.at);
        }
        if (word.kind == MeterWord::volts && reading.with.empty()) {
            return refuse("reading-volts",
                          "volts are what a diode of a device shows; name the device that was "
                          "plugged in under a heading 'with', or measure continuity",
                          cell.at);
        }
        reading.closed = word.kind == MeterWord::closed;
        if (word.kind == MeterWord::volts) reading.volts = Volts(word.number);
        if (word.kind == MeterWord::ohms) {
            reading.ohms = Ohms(word.number);
            reading.closed = *reading.ohms <= most_when_closed;
        }
        if (is_between(reading)) return leave_out(*reading.ohms, cell.at);
        readings_.rows.push_back(std::move(reading));
    }

    /// Copper alone does not read so; a device may.
    static bool is_between(const MeterReading& reading) {
        return reading.with.empty() && reading.ohms && !reading.closed &&
               *reading.ohms < least_when_open;
    }

    void leave_out(Ohms ohms, const Mark& at) {
        readings_.remarks.push_back(
            {Severity::warning, "reading-between",
             fmt::format("{:.6g} ohm is neither closed (at most {:g} ohm) nor open (at least "
                         "{:g} ohm); this row is left out: clean the contacts, unplug what "
                         "is still plugged in and measure again",
                         ohms.value(), most_when_closed.value(), least_when_open.value()),
             at});
    }

    std::shared_ptr<const Source> source_;
    const Design& design_;
    const Wiring& wiring_;
    SheetColumns columns_;
    Findings findings_;
    MeterReadings readings_;
    int row_ = 0;
    std::set<int> numbers_;
};

}  // namespace

MeterReadings read_readings(std::shared_ptr<const Source> source, const Design& design,
                            const Wiring& wiring) {
    return ReadingsReader(std::move(source), design, wiring).read();
}

}  // namespace pinfold
