// Every fault planted in the netlist of every board of the examples is found, told as one cause and
// named right. The faults are made here by hand, on the nets, independent of the code that finds
// them.
#include "check/compare.hpp"

#include <catch2/catch.hpp>
#include <iostream>
#include <map>

#include "check/drawn_boards.hpp"

using namespace pinfold;

namespace {

/// Whether two netlists join the same pads, seen by sets alone.
bool is_harmless(const Netlist& one, const Netlist& other) { return same_partition(one, other); }

struct Count {
    int planted = 0, harmless = 0, one_cause = 0, named = 0;
};

class Planter {
public:
    Planter(const Design& design, std::size_t board)
        : design_(design), board_(board), good_(netlist_of(design, board)) {}

    std::map<std::string, Count> run() {
        REQUIRE(compare(design_, board_, good_).same);
        for (const Netlist::Component& part : good_.components) {
            spoil(part.reference, contact_labels(design_.boards[board_], part.port));
        }
        for (std::size_t a = 0; a < good_.nets.size(); ++a) {
            for (std::size_t b = a + 1; b < good_.nets.size(); ++b) short_nets(a, b);
        }
        return counts_;
    }

private:
    void plant(const std::string& what, const Netlist& bad, const std::vector<std::string>& names) {
        Count& count = counts_[what];
        ++count.planted;
        const Comparison comparison = compare(design_, board_, bad);
        const std::vector<std::string> errors = errors_of(comparison);
        if (is_harmless(good_, bad)) {
            ++count.harmless;
            CHECK(comparison.same);
            return;
        }
        CHECK_FALSE(comparison.same);
        if (errors.size() == 1) ++count.one_cause;
        if (errors.size() == 1 && std::ranges::find(names, errors[0]) != names.end()) {
            ++count.named;
        } else {
            CAPTURE(what, rules_of(comparison.findings));
            CHECK(errors.size() == 1);
        }
    }

    void spoil(const std::string& reference, const std::vector<std::string>& labels) {
        const std::size_t n = labels.size();
        for (std::size_t i = 0; i < n; ++i) {
            open(reference, labels[i]);
            lose(reference, labels[i]);
            for (std::size_t k = i + 1; k < n; ++k) {
                plant("two pads exchanged",
                      permuted(good_, reference, labels,
                               [&](std::size_t p) { return p == i   ? k
                                                           : p == k ? i
                                                                    : p; }),
                      names_of_swap(reference, labels[i], labels[k]));
            }
        }
        if (n < 5) return;
        plant("mirrored",
              permuted(good_, reference, labels, [&](std::size_t p) { return n - 1 - p; }),
              {"drawn-mirrored"});
        if (n % 2 != 0) return;
        plant("rows exchanged",
              permuted(good_, reference, labels, [&](std::size_t p) { return p ^ 1U; }),
              {"drawn-rows-exchanged"});
    }

    /// A pad exchanged with one that is alone on its net is, by the sets, the same as the other end
    /// of its net moved there.
    std::vector<std::string> names_of_swap(const std::string& reference, const std::string& one,
                                           const std::string& other) const {
        std::vector<std::string> names{"drawn-pads-exchanged", "drawn-pair-swapped"};
        for (const std::string& pad : {one, other}) {
            const auto place = place_of(good_, reference, pad);
            if (good_.nets[place->net].nodes.size() == 1) names.emplace_back("drawn-misplaced");
        }
        return names;
    }

    void open(const std::string& reference, const std::string& pad) {
        Netlist bad = good_;
        const auto place = place_of(bad, reference, pad);
        Nodes& nodes = bad.nets[place->net].nodes;
        if (nodes.size() < 2) return;
        nodes.erase(nodes.begin() + static_cast<std::ptrdiff_t>(place->node));
        bad.nets.push_back({"planted", false, {{reference, pad}}, {}});
        plant("open", bad, {"drawn-open"});
    }

    void lose(const std::string& reference, const std::string& pad) {
        Netlist bad = good_;
        const auto place = place_of(bad, reference, pad);
        Nodes& nodes = bad.nets[place->net].nodes;
        if (nodes.size() < 2) return;
        nodes.erase(nodes.begin() + static_cast<std::ptrdiff_t>(place->node));
        plant("pad missing", bad, {"pad-missing"});
        bad = good_;
        if (bad.nets[place->net].name == "GND") return;
        bad.nets[place->net].nodes.push_back({reference, pad + "x"});
        plant("pad extra", bad, {"pad-extra"});
    }

    void short_nets(std::size_t a, std::size_t b) {
        Netlist bad = good_;
        for (Netlist::Node& node : bad.nets[b].nodes) bad.nets[a].nodes.push_back(node);
        bad.nets.erase(bad.nets.begin() + static_cast<std::ptrdiff_t>(b));
        plant("short", bad, {"drawn-short"});
    }

    const Design& design_;
    const std::size_t board_;
    const Netlist good_;
    std::map<std::string, Count> counts_;
};

Netlist board_netlist(const Design& design, const std::string& name) {
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (design.boards[b].name == name) return netlist_of(design, b);
    }
    FAIL("no board " << name);
    return {};
}

std::size_t base_of(const Design& design, const std::string& name = "base") {
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (design.boards[b].name == name) return b;
    }
    FAIL("no such board");
    return 0;
}

}  // namespace

TEST_CASE("every fault planted in every example board is one cause, named right") {
    std::map<std::string, Count> all;
    for (const char* file : {"lid-link/design.yaml", "kiln-display/design.yaml",
                             "mast-camera/design.yaml", "lid-supply/design.yaml"}) {
        const Design design = example(file);
        for (std::size_t b = 0; b < design.boards.size(); ++b) {
            if (design.boards[b].is_device) continue;
            for (const auto& [what, count] : Planter(design, b).run()) {
                Count& sum = all[what];
                sum.planted += count.planted;
                sum.harmless += count.harmless;
                sum.one_cause += count.one_cause;
                sum.named += count.named;
            }
        }
    }
    for (const auto& [what, count] : all) {
        std::cout << "compare, " << what << ": " << count.planted << " planted, " << count.harmless
                  << " harmless, " << count.one_cause << " told as one cause, " << count.named
                  << " named right\n";
        CHECK(count.named == count.planted - count.harmless);
    }
}

TEST_CASE("two connectors with each other's reference are one cause") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = board_netlist(design, "base");
    const auto other = [](const std::string& name) {
        return name == "J1" ? std::string("J2") : std::string("J1");
    };
    for (auto& part : drawn.components) part.reference = other(part.reference);
    for (auto& net : drawn.nets) {
        for (auto& node : net.nodes) node.reference = other(node.reference);
    }
    const Comparison comparison = compare(design, base_of(design), drawn);
    CHECK(errors_of(comparison) == std::vector<std::string>{"drawn-connectors-exchanged"});
}

TEST_CASE("two connectors of unlike size with each other's reference are one cause") {
    const Design design = example("mast-camera/design.yaml");
    Netlist drawn = board_netlist(design, "adapter");
    const std::string wide = drawn.components[0].reference, narrow = drawn.components[1].reference;
    for (auto& part : drawn.components) {
        part.reference = part.reference == wide ? narrow : wide;
        part.port.clear();
    }
    for (auto& net : drawn.nets) {
        for (auto& node : net.nodes) node.reference = node.reference == wide ? narrow : wide;
    }
    const Comparison comparison = compare(design, base_of(design, "adapter"), drawn);
    CHECK(errors_of(comparison) == std::vector<std::string>{"drawn-connectors-exchanged"});
}

namespace {

/// The base board with the last node of a net moved to new nets of parts between, `parts` one after
/// the other, pads 1 and 2 of each.
Netlist with_chain(Netlist drawn, const std::string& name, const std::vector<std::string>& parts) {
    const auto net = std::ranges::find(drawn.nets, name, &Netlist::Net::name);
    const Netlist::Node last = net->nodes.back();
    net->nodes.back() = {parts.front(), "1"};
    for (std::size_t p = 0; p < parts.size(); ++p) {
        drawn.components.push_back({parts[p], "22R", {}, {}, {}, {}, {}});
        const Netlist::Node next = p + 1 < parts.size() ? Netlist::Node{parts[p + 1], "1"} : last;
        drawn.nets.push_back({parts[p], false, {{parts[p], "2"}, next}, {}});
    }
    return drawn;
}

}  // namespace

TEST_CASE("parts one after the other stand in a net as one does") {
    const Design design = example("lid-link/design.yaml");
    const Netlist sound = board_netlist(design, "base");
    const Comparison chained =
        compare(design, base_of(design), with_chain(sound, "SDA", {"R1", "L1", "R2"}));
    CHECK(chained.same);
    CHECK(rules_of(chained.findings) == std::vector<std::string>(3, "part-in-series"));
    // A branch in the middle ends the chain: what hangs there is not known.
    Netlist branched = with_chain(sound, "SDA", {"R1", "R2"});
    std::ranges::find(branched.nets, "R1", &Netlist::Net::name)->nodes.push_back({"U1", "7"});
    CHECK(errors_of(compare(design, base_of(design), branched)) ==
          std::vector<std::string>{"drawn-open"});
}

TEST_CASE("an array all of whose pads are in pairs stands in several nets") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = board_netlist(design, "base");
    int pad = 0;
    for (const char* name : {"SDA", "SCL", "CEC"}) {
        const auto net = std::ranges::find(drawn.nets, name, &Netlist::Net::name);
        const Netlist::Node last = net->nodes.back();
        net->nodes.back() = {"RN1", std::to_string(++pad)};
        drawn.nets.push_back(
            {std::string("far ") + name, false, {last, {"RN1", std::to_string(++pad)}}, {}});
    }
    drawn.components.push_back({"RN1", "22R", {}, {}, {}, {}, {}});
    const Comparison comparison = compare(design, base_of(design), drawn);
    CHECK(comparison.same);
    REQUIRE(rules_of(comparison.findings) == std::vector<std::string>{"part-in-series"});
    CHECK(comparison.findings[0].text.find("stands in nets 'CEC', 'SCL', 'SDA'") !=
          std::string::npos);
    // A pad on another net: it may be any chip, which joins nothing that we know of.
    drawn.nets[0].nodes.push_back({"RN1", "7"});
    CHECK_FALSE(compare(design, base_of(design), drawn).same);
}

TEST_CASE("a part of no ohms between two nets joins them") {
    const Design design = example("lid-link/design.yaml");
    const auto with = [&](const std::string& value) {
        Netlist drawn = board_netlist(design, "base");
        drawn.components.push_back({"R1", value, {}, {}, {}, {}, {}});
        std::ranges::find(drawn.nets, "5V", &Netlist::Net::name)->nodes.push_back({"R1", "1"});
        std::ranges::find(drawn.nets, "GND", &Netlist::Net::name)->nodes.push_back({"R1", "2"});
        return errors_of(compare(design, base_of(design), drawn));
    };
    for (const char* value : {"0", "0R", "0R0", "0.0", "0 ohm", "0\u03A9", "0R 1%"}) {
        INFO(value);
        CHECK(with(value) == std::vector<std::string>{"part-joins-nets"});
    }
    for (const char* value : {"", "100n", "10k", "0R5", "1M0", "R", "DNP"}) {
        INFO(value);
        CHECK(with(value).empty());
    }
}

TEST_CASE("a part in series is told and taken as joined; one that is not fitted is an error") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = board_netlist(design, "base");
    for (std::size_t n = 0; n < drawn.nets.size(); ++n) {
        if (drawn.nets[n].name != "SDA") continue;
        Netlist::Net cut{"cut", false, {drawn.nets[n].nodes.back(), {"R1", "2"}}, {}};
        drawn.nets[n].nodes.back() = {"R1", "1"};
        drawn.nets.push_back(cut);
        break;
    }
    drawn.components.push_back({"R1", "22R", {}, {}, {}, {}, {}});
    const Comparison fitted = compare(design, base_of(design), drawn);
    CHECK(fitted.same);
    CHECK(rules_of(fitted.findings) == std::vector<std::string>{"part-in-series"});
    drawn.components.back().fitted = false;
    CHECK(errors_of(compare(design, base_of(design), drawn)) ==
          std::vector<std::string>{"part-unfitted"});
}

namespace {

/// Contact i (from 0) of the 20-way tail of the base board gets the net of contact `to(i)`.
std::vector<std::string> tail_errors(const std::function<std::size_t(std::size_t)>& to) {
    const Design design = example("lid-link/design.yaml");
    std::vector<std::string> labels;
    for (int i = 1; i <= 20; ++i) labels.push_back(std::to_string(i));
    const Netlist drawn = permuted(board_netlist(design, "base"), "J2", labels, to);
    return errors_of(compare(design, base_of(design), drawn));
}

Netlist renamed(Netlist netlist, const std::string& before, const std::string& after) {
    for (auto& part : netlist.components) {
        part.port.clear();
        if (part.reference == before) part.reference = after;
    }
    for (auto& net : netlist.nets) {
        for (auto& node : net.nodes) {
            if (node.reference == before) node.reference = after;
        }
    }
    return netlist;
}

}  // namespace

TEST_CASE("what is told does not hang on the order of the netlist") {
    const Design design = example("mast-camera/design.yaml");
    Netlist drawn = board_netlist(design, "adapter");
    const auto far_net = [&](const std::string& name) {
        return std::ranges::find(drawn.nets, name, &Netlist::Net::name);
    };
    const auto one = far_net("IO0"), other = far_net("IO1");
    REQUIRE(one->nodes.size() == 2);
    std::swap(one->nodes[0], other->nodes[0]);
    const Comparison told = compare(design, base_of(design, "adapter"), drawn);
    for (auto& net : drawn.nets) std::ranges::reverse(net.nodes);
    std::ranges::reverse(drawn.nets);
    const Comparison again = compare(design, base_of(design, "adapter"), drawn);
    REQUIRE(told.findings.size() == 1);
    REQUIRE(again.findings.size() == 1);
    CHECK(told.findings[0].text == again.findings[0].text);
}

TEST_CASE("rows exchanged on a connector of odd count are one cause") {
    const Design design = example("lid-link/design.yaml");
    std::vector<std::string> labels;
    for (int i = 1; i <= 19; ++i) labels.push_back(std::to_string(i));
    const Netlist drawn = permuted(board_netlist(design, "base"), "J1", labels, [](std::size_t i) {
        return i == 18 ? i : i % 2 == 0 ? i + 1 : i - 1;
    });
    CHECK(errors_of(compare(design, base_of(design), drawn)) ==
          std::vector<std::string>{"drawn-rows-exchanged"});
}

TEST_CASE("a board drawn from its other side is told as two mirrored connectors") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = board_netlist(design, "base");
    for (const auto& [reference, count] : {std::pair("J1", 19), std::pair("J2", 20)}) {
        std::vector<std::string> labels;
        for (int i = 1; i <= count; ++i) labels.push_back(std::to_string(i));
        const std::size_t last = labels.size() - 1;
        drawn = permuted(std::move(drawn), reference, labels,
                         [last](std::size_t i) { return last - i; });
    }
    CHECK(errors_of(compare(design, base_of(design), drawn)) ==
          std::vector<std::string>(2, "drawn-mirrored"));
}

// The list of the base board: 2, 3 are D2+, D2- and 5, 6 are D1+, D1-.
TEST_CASE("slips of pairs, rows and places are told by their names") {
    using Rules = std::vector<std::string>;
    CHECK(tail_errors([](std::size_t i) {
              return i == 1 ? 2 : i == 2 ? 1 : i;
          }) == Rules{"drawn-pair-swapped"});
    CHECK(tail_errors([](std::size_t i) {
              return i == 1 || i == 2 ? i + 3 : i == 4 || i == 5 ? i - 3 : i;
          }) == Rules{"drawn-pairs-exchanged"});
    CHECK(tail_errors([](std::size_t i) { return i < 10 ? 2 * i : 2 * (i - 10) + 1; }) ==
          Rules{"drawn-rows-numbered"});
    CHECK(tail_errors([](std::size_t i) { return (i + 1) % 20; }) == Rules{"drawn-shifted"});
    CHECK(tail_errors([](std::size_t i) { return (i + 19) % 20; }) == Rules{"drawn-shifted"});
}

TEST_CASE("a port is matched by footprint or best fit, and that is said") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = renamed(board_netlist(design, "base"), "J2", "X9");
    Comparison comparison = compare(design, base_of(design), drawn);
    CHECK(comparison.same);
    CHECK(rules_of(comparison.findings) == std::vector<std::string>{"part-matched"});
    CHECK(comparison.ports[1].by == "footprint");
    for (auto& part : drawn.components) part.footprint.clear();
    comparison = compare(design, base_of(design), drawn);
    CHECK(comparison.same);
    CHECK(comparison.ports[1].reference == "X9");
    CHECK(comparison.ports[1].by == "best fit");
}

TEST_CASE("two parts that fit equally well are refused by name; no part at all is an error") {
    const Design design = example("lid-link/design.yaml");
    Netlist drawn = renamed(board_netlist(design, "base"), "J2", "X9");
    for (auto& part : drawn.components) part.footprint.clear();
    for (auto& net : drawn.nets) {
        Nodes twins;
        for (const auto& node : net.nodes) {
            if (node.reference == "X9") twins.push_back({"X8", node.pad});
        }
        net.nodes.insert(net.nodes.end(), twins.begin(), twins.end());
    }
    CHECK(complaint([&] {
              compare(design, base_of(design), drawn);
          }).find("tail could be X8 or X9, which fit equally well") != std::string::npos);
    for (auto& net : drawn.nets) {
        std::erase_if(net.nodes, [](const auto& node) { return node.reference != "J1"; });
    }
    CHECK(errors_of(compare(design, base_of(design), drawn)) ==
          std::vector<std::string>{"part-missing"});
}
