#include "exchange/ipc356.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "base/fields.hpp"
#include "exchange/place_finder.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_records = 4'000'000;

/// Columns are counted from 1, as in the standard.
std::string_view columns(std::string_view line, std::size_t first, std::size_t last) {
    if (line.size() < first) return {};
    return line.substr(first - 1, last - first + 1);
}

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t");
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

/// Records that name a pad: through hole, hole or surface, and their continuations.
bool is_test_record(std::string_view line) {
    constexpr std::array<std::string_view, 5> codes{"317", "327", "017", "027", "307"};
    return std::ranges::find(codes, line.substr(0, 3)) != codes.end();
}

class Reader {
public:
    explicit Reader(const std::shared_ptr<const Source>& source)
        : body_(body_of(*source)), places_(source) {}

    Netlist read() {
        while (at_ < body_.size() && read_line()) {
        }
        if (records_ == 0) {
            complain(findings_, "test-file-empty",
                     "this file holds no test record (317, 327, ...) of IPC-D-356", places_.at(0));
        }
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return std::move(netlist_);
    }

private:
    /// False at the record that ends the file.
    bool read_line() {
        const std::size_t start = at_;
        const std::size_t end = std::min(body_.find('\n', at_), body_.size());
        std::string_view line = body_.substr(start, end - start);
        at_ = end + 1;
        while (line.ends_with('\r') || line.ends_with(' ')) line.remove_suffix(1);
        if (line.starts_with("999")) return false;
        const bool is_name =
            columns(line, 4, 8) == "NNAME" && (line.front() == 'P' || line.front() == 'C');
        if (is_name) read_alias(line);
        if (is_test_record(line)) read_record(line, start);
        return true;
    }

    void read_alias(std::string_view line) {
        const std::string_view alias = trimmed(columns(line, 9, 14));
        const std::string_view name = trimmed(columns(line, 15, 72));
        if (!alias.empty() && !name.empty()) aliases_.emplace(alias, name);
    }

    struct PadName {
        std::string_view reference, pad;
    };

    /// The pad of a record; none for a via or a feature without a part.
    std::optional<PadName> pad_of(std::string_view line, std::size_t start) {
        PadName name{trimmed(columns(line, 21, 26)), trimmed(columns(line, 28, 31))};
        if (columns(line, 27, 27) != "-") {
            const std::string_view rest = columns(line, 21, 41);
            const std::size_t dash = rest.find('-');
            if (dash == std::string_view::npos) return std::nullopt;
            name.reference = trimmed(rest.substr(0, dash));
            const std::string_view behind = rest.substr(dash + 1, 4);
            name.pad = behind.substr(0, behind.find(' '));
            if (shoved_++ == 0) {
                netlist_.remarks.push_back(
                    {Severity::warning, "test-file-columns",
                     "column 27 is not '-'; references that are too long were read by their '-'",
                     places_.at(start)});
            }
        }
        if (name.reference.empty() || name.pad.empty() || name.reference == "VIA") {
            return std::nullopt;
        }
        return name;
    }

    void read_record(std::string_view line, std::size_t start) {
        if (++records_ > most_records) {
            throw InputError({{Severity::error, "netlist-size",
                               fmt::format("more than {} records in one file", most_records),
                               places_.at(start)}});
        }
        const std::string_view written = trimmed(columns(line, 4, 17));
        const auto pad = pad_of(line, start);
        if (!pad || written.empty()) return;
        const Mark at = places_.at(start);
        const std::size_t net = net_of(written, *pad, at);
        Netlist::Node node{std::string(pad->reference), std::string(pad->pad), at};
        const auto [before, is_new] = placed_.try_emplace(node, net);
        if (is_new) {
            component_of(node).pads.push_back({node.pad, {}});
            netlist_.nets[net].nodes.push_back(std::move(node));
        } else if (before->second != net) {
            complain(
                findings_, "netlist-short",
                fmt::format("pad {} of {} is on two nets, '{}' and '{}'", node.pad, node.reference,
                            netlist_.nets[before->second].name, netlist_.nets[net].name),
                at, {{before->first.at, "first here"}});
        }
    }

    /// A pad that is on no net has one of its own, the same in each of its records.
    std::size_t net_of(std::string_view written, const PadName& pad, const Mark& at) {
        const bool is_alone = written == "N/C";
        const auto alias = aliases_.find(written);
        std::string name = is_alone ? fmt::format("unconnected-({}-Pad{})", pad.reference, pad.pad)
                           : alias == aliases_.end() ? std::string(written)
                                                     : std::string(alias->second);
        const auto [found, is_new] = nets_.try_emplace(name, netlist_.nets.size());
        if (is_new) netlist_.nets.push_back({std::move(name), is_alone, {}, at});
        return found->second;
    }

    Netlist::Component& component_of(const Netlist::Node& node) {
        const auto [found, is_new] =
            components_.try_emplace(node.reference, netlist_.components.size());
        if (is_new) {
            Netlist::Component part;
            part.reference = node.reference;
            part.at = node.at;
            netlist_.components.push_back(std::move(part));
        }
        return netlist_.components[found->second];
    }

    std::string_view body_;
    PlaceFinder places_;
    std::size_t at_ = 0;
    std::size_t records_ = 0, shoved_ = 0;
    Netlist netlist_;
    Findings findings_;
    std::map<std::string_view, std::string_view> aliases_;
    std::map<std::string, std::size_t> nets_, components_;
    std::map<Netlist::Node, std::size_t> placed_;
};

}  // namespace

Netlist read_ipc356(const std::shared_ptr<const Source>& source) {
    require_plain_text(source);
    return Reader(source).read();
}

}  // namespace pinfold
