#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <unordered_map>

#include "base/ascii.hpp"
#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "exchange/electrical_test.hpp"
#include "exchange/place_finder.hpp"

namespace pinfold {
namespace {

/// Columns as the format counts them, both included; short lines have blanks there.
std::string_view signs_at(std::string_view line, std::size_t from, std::size_t to) {
    return line.size() < from ? std::string_view{} : line.substr(from - 1, to - from + 1);
}

/// One pad as a record names it.
struct TestPad {
    std::string_view net, reference, contact;
};

/// Where the place of a pad begins: its access side `A` with two digits and, right after, `X`.
std::size_t place_in(std::string_view line) {
    for (std::size_t at = 3; at + 3 < line.size(); ++at) {
        if (line[at] == 'A' && is_digit(line[at + 1]) && is_digit(line[at + 2]) &&
            line[at + 3] == 'X') {
            return at;
        }
    }
    return std::string_view::npos;
}

/// By the columns, or nothing if they do not hold.
std::optional<TestPad> by_columns(std::string_view line) {
    if (signs_at(line, 27, 27) != "-" || (line.size() >= 42 && line[41] != 'X'))
        return std::nullopt;
    return TestPad{trimmed(signs_at(line, 4, 17)), trimmed(signs_at(line, 21, 26)),
                   trimmed(signs_at(line, 28, 31))};
}

/// By the pattern `NET REFERENCE -CONTACT ... AnnX`, whatever the columns.
std::optional<TestPad> by_pattern(std::string_view line) {
    const std::size_t place = place_in(line);
    if (place == std::string_view::npos) return std::nullopt;
    std::string_view rest = trimmed(line.substr(3, place - 3));
    const std::size_t blank = rest.find(' ');
    if (blank == std::string_view::npos) return std::nullopt;
    TestPad pad{rest.substr(0, blank), {}, {}};
    rest = trimmed(rest.substr(blank));
    const std::size_t dash = rest.find('-');
    if (dash == std::string_view::npos) return std::nullopt;
    pad.reference = trimmed(rest.substr(0, dash));
    rest = rest.substr(dash + 1);
    pad.contact = rest.substr(0, rest.find(' '));
    if (pad.reference.empty() || pad.contact.empty()) return std::nullopt;
    return pad;
}

/// What the lines of a file say of pads and nets.
class ElectricalTestReader {
public:
    explicit ElectricalTestReader(const std::shared_ptr<const Source>& source)
        : body_(body_of(*source)), places_(source) {}

    Netlist read() {
        for (std::size_t at = 0; at < body_.size() && !ended_;) {
            const std::size_t end = std::min(body_.find('\n', at), body_.size());
            read_line(body_.substr(at, end - at), at);
            at = end + 1;
        }
        if (!findings_.empty()) throw InputError(std::move(findings_));
        if (!ended_) remark_on_end();
        if (nodes_.empty()) {
            throw InputError({{Severity::error, "netlist-syntax",
                               "this file has no test record; an electrical test has lines such as "
                               "'327GND              J1    -1          A01X+000000Y+000000', a "
                               "pin list two cells with a comma or semicolon between",
                               places_.at(0)}});
        }
        return take();
    }

private:
    struct Net {
        std::string_view name;
        bool unconnected = false;
        Mark at;  ///< its first record
    };
    struct Node {
        TestPad pad;
        std::size_t net = 0;  ///< in `nets_`
        Mark at;
    };

    void read_line(std::string_view line, std::size_t at) {
        if (line.ends_with('\r')) line.remove_suffix(1);
        if (line.starts_with("999")) {
            ended_ = true;
        } else if (line.starts_with('P') || line.starts_with('C')) {
            read_parameter(line);
        } else if (line.size() > 3 && (line[0] == '3' || line[0] == '0') && is_test(line)) {
            read_record(line, at);
        }
    }

    /// 317, 327, 307 and what continues them. 367 is a hole nobody tests.
    static bool is_test(std::string_view line) {
        const std::string_view kind = line.substr(1, 2);
        return kind == "17" || kind == "27" || line.starts_with("307");
    }

    void read_parameter(std::string_view line) {
        const std::string_view rest = signs_at(line, 4, line.size());
        if (rest.starts_with("NNAME")) {
            const std::string_view words = trimmed(rest.substr(5));
            const std::size_t blank = std::min(words.find(' '), words.size());
            full_names_.emplace(words.substr(0, blank), trimmed(words.substr(blank)));
        } else if (line.starts_with('P') && rest.starts_with("JOB")) {
            if (job_.empty()) job_ = trimmed(rest.substr(3));
        } else if (line.starts_with('P') && rest.starts_with("TITLE")) {
            if (title_.empty()) title_ = trimmed(rest.substr(5));
        }
    }

    void read_record(std::string_view line, std::size_t at) {
        std::optional<TestPad> pad = by_columns(line);
        if (!pad && place_in(line) != std::string_view::npos) {
            pad = by_pattern(line);
            if (pad) remark_on_shift(at);
        }
        const std::string_view reference = trimmed(signs_at(line, 21, 26));
        const bool has_part =
            pad ? !pad->reference.empty() : !trimmed(signs_at(line, 21, 31)).empty();
        if (!has_part || reference == "VIA" || (pad && pad->reference == "VIA")) return;
        if (!pad || pad->contact.empty()) {
            complain(findings_, "netlist-syntax",
                     "this test record names no pad; the reference stands in columns 21 to 26, '-' "
                     "in column 27, the contact in columns 28 to 31",
                     places_.at(at));
            return;
        }
        if (pad->net.empty() && line[0] == '0') pad->net = last_net_;
        if (pad->net.empty()) {
            complain(findings_, "netlist-syntax",
                     "this test record names no net; it stands in columns 4 to 17, N/C for none",
                     places_.at(at));
            return;
        }
        last_net_ = pad->net;
        const Mark mark = places_.at(at);
        nodes_.push_back({*pad, net_of(*pad, mark), mark});
    }

    /// Pads that are not connected are each a net of their own.
    std::size_t net_of(const TestPad& pad, const Mark& at) {
        if (pad.net == "N/C") {
            nets_.push_back({{}, true, at});
            return nets_.size() - 1;
        }
        const auto [found, is_new] = net_numbers_.try_emplace(pad.net, nets_.size());
        if (is_new) nets_.push_back({pad.net, false, at});
        return found->second;
    }

    void remark_on_end() {
        remarks_.push_back({Severity::warning, "netlist-end",
                            "the file ends without its last record, 999; it may have been cut",
                            places_.at(body_.size())});
    }

    void remark_on_shift(std::size_t at) {
        if (shifted_) return;
        shifted_ = true;
        remarks_.push_back({Severity::warning, "netlist-columns",
                            "columns have shifted here; read by its pattern, as are others like it",
                            places_.at(at)});
    }

    /// The nodes of one pad lie together once sorted: by reference, contact, then connected first.
    void settle_pads() {
        std::ranges::stable_sort(nodes_, [&](const Node& one, const Node& other) {
            if (one.pad.reference != other.pad.reference) {
                return one.pad.reference < other.pad.reference;
            }
            if (one.pad.contact != other.pad.contact) return one.pad.contact < other.pad.contact;
            return !nets_[one.net].unconnected && nets_[other.net].unconnected;
        });
        std::vector<Node> settled;
        for (const Node& node : nodes_) {
            const bool is_same = !settled.empty() &&
                                 settled.back().pad.reference == node.pad.reference &&
                                 settled.back().pad.contact == node.pad.contact;
            if (!is_same) {
                settled.push_back(node);
            } else if (settled.back().net != node.net && !nets_[node.net].unconnected) {
                complain(
                    findings_, "netlist-pad-twice",
                    fmt::format("pad {} of {} is on two nets, {} and {}", node.pad.contact,
                                node.pad.reference, name_of(settled.back().net), name_of(node.net)),
                    node.at, {{settled.back().at, "first here"}});
            }
        }
        nodes_ = std::move(settled);
    }

    std::string name_of(std::size_t net) const {
        const auto full = full_names_.find(nets_[net].name);
        return std::string(full == full_names_.end() ? nets_[net].name : full->second);
    }

    Netlist take() {
        settle_pads();
        if (!findings_.empty()) throw InputError(std::move(findings_));
        Netlist netlist;
        netlist.board = job_;
        netlist.title = title_;
        netlist.remarks = std::move(remarks_);
        for (std::size_t n = 0; n < nets_.size(); ++n) {
            netlist.nets.push_back({name_of(n), nets_[n].unconnected, {}, nets_[n].at});
        }
        for (const Node& node : nodes_) add_node(netlist, node);
        std::erase_if(netlist.nets, [](const Netlist::Net& net) { return net.nodes.empty(); });
        return netlist;
    }

    void add_node(Netlist& netlist, const Node& node) {
        const std::string reference(node.pad.reference), contact(node.pad.contact);
        if (netlist.components.empty() || netlist.components.back().reference != reference) {
            netlist.components.push_back({reference, {}, {}, {}, {}, {}, node.at});
        }
        netlist.components.back().pads.push_back({contact, {}});
        Netlist::Net& net = netlist.nets[node.net];
        if (net.unconnected && net.name.empty()) {
            net.name = fmt::format("unconnected-({}-Pad{})", reference, contact);
        }
        net.nodes.push_back({reference, contact, node.at});
    }

    std::string_view body_;
    PlaceFinder places_;
    bool ended_ = false;
    bool shifted_ = false;
    std::string job_, title_;
    std::string_view last_net_;
    std::unordered_map<std::string_view, std::string_view> full_names_;  ///< by alias
    std::unordered_map<std::string_view, std::size_t> net_numbers_;
    std::vector<Net> nets_;
    std::vector<Node> nodes_;
    Findings findings_, remarks_;
};

}  // namespace

Netlist read_electrical_test(const std::shared_ptr<const Source>& source) {
    require_plain_text(source);
    return ElectricalTestReader(source).read();
}

}  // namespace pinfold
