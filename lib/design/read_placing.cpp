#include "design/read_placing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

const Words<bool> side_words{{"top", false}, {"bottom", true}};

class PlacingReader {
public:
    PlacingReader(const Yaml& yaml, const Port& port, const Design& design, Findings& findings)
        : fields_(yaml, findings), port_(port), design_(design), findings_(findings) {
        placing_.at = yaml.at;
        for (const PortContact& contact : port.contacts) labels_.push_back(contact.label);
        for (const std::string& pad : port.shell) labels_.push_back(pad);
    }

    Placing read() {
        placing_.x = place("x");
        placing_.y = place("y");
        placing_.angle = fields_.whole_or("angle", 0, 0) % 360;
        placing_.bottom = fields_.word_or<bool>("side", side_words, false).value_or(false);
        placing_.drill = fields_.maybe<Millimetres>("drill");
        placing_.pad_width = fields_.maybe<Millimetres>("pad-width");
        placing_.pad_length = fields_.maybe<Millimetres>("pad-length");
        read_rows();
        for (const Yaml::Entry& entry : fields_.map("pads-at")) read_pad(entry);
        fields_.done();
        return std::move(placing_);
    }

private:
    /// A length that may be nothing, or less.
    static std::optional<Millimetres> coordinate(std::string_view text) {
        const std::size_t blank = text.find(' ');
        const auto number = parse_number(text.substr(0, blank));
        if (!number || blank == std::string_view::npos) return std::nullopt;
        for (const UnitName& unit : dimension_of<Millimetres>().units) {
            if (unit.symbol == text.substr(blank + 1)) return Millimetres(*number * unit.factor);
        }
        return std::nullopt;
    }

    Millimetres place(Fields& fields, const std::string& key) {
        const std::string text = fields.text(key);
        const auto found = coordinate(text);
        if (!found && !text.empty()) {
            complain(findings_, "yaml-unit",
                     fmt::format("'{}' must be a place such as '12.5 mm' or '-3 mm', not '{}'", key,
                                 text),
                     fields.at(key));
        }
        return found.value_or(Millimetres(0.0));
    }
    Millimetres place(const std::string& key) { return place(fields_, key); }

    std::optional<Millimetres> usual_pitch() const {
        if (port_.ribbon) return design_.receptacle_types.at(port_.ribbon->receptacle).pitch;
        if (port_.connector.empty()) return std::nullopt;
        return design_.connectors.at(port_.connector).pitch;
    }

    /// One row in the order of the contacts, for parts that can have no other.
    std::vector<std::string> usual_row() const {
        const bool one_row = port_.ribbon
                                 ? design_.receptacle_types.at(port_.ribbon->receptacle).rows == 1
                                 : port_.connector.empty();
        if (!one_row) return {};
        std::vector<std::string> row(labels_.begin(),
                                     labels_.begin() + static_cast<long>(port_.contacts.size()));
        if (port_.ribbon && port_.ribbon->mouth.first == Hand::right) std::ranges::reverse(row);
        return row;
    }

    void read_rows() {
        const auto pitch = fields_.maybe<Millimetres>("pitch");
        const auto distance = fields_.maybe<Millimetres>("row-distance");
        std::vector<std::vector<std::string>> rows;
        for (const Yaml& row : fields_.list("rows")) rows.push_back(read_row(row));
        if (rows.empty() && !usual_row().empty()) rows.push_back(usual_row());
        if (rows.empty()) return;
        const auto step = pitch ? pitch : usual_pitch();
        if (!step || (rows.size() > 1 && !distance)) {
            fields_.require(step ? "row-distance" : "pitch");
            return;
        }
        for (std::size_t r = 0; r < rows.size(); ++r) {
            const double y = (static_cast<double>(r) - static_cast<double>(rows.size() - 1) / 2) *
                             (distance ? distance->value() : 0.0);
            lay_row(rows[r], *step, y);
        }
    }

    std::vector<std::string> read_row(const Yaml& yaml) {
        std::vector<std::string> row;
        if (yaml.kind != Yaml::Kind::list) {
            complain(findings_, "yaml-shape", "a row is a list of contacts, such as [1, 3, 5]",
                     yaml.at);
            return row;
        }
        for (const Yaml& item : yaml.items) {
            row.push_back(text_of(item, "a contact", findings_));
            require_label(row.back(), item.at);
            if (in_rows_.insert(row.back()).second) continue;
            complain(
                findings_, "contact-twice",
                fmt::format("contact '{}' stands twice in the rows of {}", row.back(), port_.name),
                item.at);
        }
        return row;
    }

    void require_label(const std::string& label, const Mark& at) {
        if (label.empty() || std::ranges::find(labels_, label) != labels_.end()) return;
        complain(findings_, "contact-unknown",
                 fmt::format("{} has no contact or shield pad '{}'{}", port_.name, label,
                             did_you_mean(label, labels_)),
                 at);
    }

    void lay_row(const std::vector<std::string>& row, Millimetres pitch, double y) {
        const double first = -static_cast<double>(row.size() - 1) / 2.0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const double x = (first + static_cast<double>(i)) * pitch.value();
            placing_.pads.push_back({row[i], Millimetres(x), Millimetres(y)});
        }
    }

    /// Takes the place of the pad in a row, if it has one.
    void read_pad(const Yaml::Entry& entry) {
        require_label(entry.key, entry.at);
        Fields fields(entry.value, findings_);
        const PlacedPad pad{entry.key, place(fields, "x"), place(fields, "y")};
        fields.done();
        std::erase_if(placing_.pads, [&](const PlacedPad& p) { return p.label == pad.label; });
        placing_.pads.push_back(pad);
    }

    Fields fields_;
    const Port& port_;
    const Design& design_;
    Findings& findings_;
    std::vector<std::string> labels_;
    std::set<std::string> in_rows_;
    Placing placing_;
};

}  // namespace

std::optional<Placing> read_placing(const Yaml& yaml, const Port& port, const Design& design,
                                    Findings& findings) {
    return PlacingReader(yaml, port, design, findings).read();
}

}  // namespace pinfold
