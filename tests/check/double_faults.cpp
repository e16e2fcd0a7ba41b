// Two faults at a time planted in the netlist of every example board, by sample: none passes as the
// same, and two that touch different nets are told as two causes, named right. The faults are made
// on the nets by hand, independent of the code that finds them.
#include <catch2/catch.hpp>
#include <iostream>
#include <set>

#include "check/drawn_boards.hpp"

using namespace pinfold;

namespace {

/// A mistake, the nets of the good board it touches, and how it may be told.
struct Fault {
    std::string what;
    std::function<void(Netlist&)> plant;
    std::set<std::size_t> nets;
    std::vector<std::string> names;
};

/// Takes a pad off its net; nothing if an earlier fault has taken it.
std::optional<Netlist::Node> pull(Netlist& netlist, const Netlist::Node& pad) {
    const auto place = place_of(netlist, pad.reference, pad.pad);
    if (!place) return std::nullopt;
    Nodes& nodes = netlist.nets[place->net].nodes;
    const Netlist::Node node = nodes[place->node];
    nodes.erase(nodes.begin() + static_cast<std::ptrdiff_t>(place->node));
    return node;
}

void exchange(Netlist& netlist, const Netlist::Node& one, const Netlist::Node& other) {
    const auto here = place_of(netlist, one.reference, one.pad);
    const auto there = place_of(netlist, other.reference, other.pad);
    if (!here || !there) return;
    std::swap(netlist.nets[here->net].nodes[here->node],
              netlist.nets[there->net].nodes[there->node]);
}

void join(Netlist& netlist, const Netlist::Node& one, const Netlist::Node& other) {
    const auto here = place_of(netlist, one.reference, one.pad);
    const auto there = place_of(netlist, other.reference, other.pad);
    if (!here || !there || here->net == there->net) return;
    Nodes& into = netlist.nets[here->net].nodes;
    Nodes& from = netlist.nets[there->net].nodes;
    into.insert(into.end(), from.begin(), from.end());
    from.clear();
}

/// Faults of every kind at the pads of one board, chosen by a generator that always starts alike.
class FaultMaker {
public:
    FaultMaker(const Design& design, std::size_t board)
        : board_(design.boards[board]), good_(netlist_of(design, board)) {
        for (std::size_t n = 0; n < good_.nets.size(); ++n) {
            for (const Netlist::Node& node : good_.nets[n].nodes) pads_.push_back({node, n});
        }
    }

    const Netlist& good() const { return good_; }

    Fault next() {
        switch (draw(6)) {
            case 0: return opened();
            case 1: return lost();
            case 2: return extra();
            case 3: return shorted();
            case 4: return mirrored();
            default: return exchanged();
        }
    }

private:
    struct Pad {
        Netlist::Node node;
        std::size_t net = 0;
    };

    /// A number below `end`; Knuth's MMIX constants, so that every machine draws the same.
    std::size_t draw(std::size_t end) {
        seed_ = seed_ * 6364136223846793005U + 1442695040888963407U;
        return static_cast<std::size_t>(seed_ >> 33) % end;
    }

    /// A pad that is joined to another one.
    const Pad& joined_pad() {
        while (true) {
            const Pad& pad = pads_[draw(pads_.size())];
            if (good_.nets[pad.net].nodes.size() > 1) return pad;
        }
    }

    Fault opened() {
        const Pad& pad = joined_pad();
        return {"open " + pad.node.pad,
                [pad](Netlist& netlist) {
                    const auto node = pull(netlist, pad.node);
                    if (node) netlist.nets.push_back({"cut " + node->pad, false, {*node}, {}});
                },
                {pad.net},
                {"drawn-open"}};
    }

    Fault lost() {
        const Pad& pad = joined_pad();
        return {"lose " + pad.node.pad,
                [pad](Netlist& netlist) { pull(netlist, pad.node); },
                {pad.net},
                {"pad-missing"}};
    }

    Fault extra() {
        while (true) {
            const Pad& pad = joined_pad();
            if (good_.nets[pad.net].name == "GND") continue;  // there it is no error
            const Netlist::Node more{pad.node.reference, pad.node.pad + "x", {}};
            return {"extra " + more.pad,
                    [pad, more](Netlist& netlist) {
                        const auto place = place_of(netlist, pad.node.reference, pad.node.pad);
                        if (place) netlist.nets[place->net].nodes.push_back(more);
                    },
                    {pad.net},
                    {"pad-extra"}};
        }
    }

    Fault shorted() {
        while (true) {
            const Pad &one = joined_pad(), &other = joined_pad();
            if (one.net == other.net) continue;
            return {"short " + one.node.pad + " to " + other.node.pad,
                    [one, other](Netlist& netlist) { join(netlist, one.node, other.node); },
                    {one.net, other.net},
                    {"drawn-short"}};
        }
    }

    Fault exchanged() {
        while (true) {
            const Pad &one = joined_pad(), &other = joined_pad();
            if (one.net == other.net || one.node.reference != other.node.reference) continue;
            return {"exchange " + one.node.pad + " and " + other.node.pad,
                    [one, other](Netlist& netlist) { exchange(netlist, one.node, other.node); },
                    {one.net, other.net},
                    {"drawn-pads-exchanged", "drawn-pair-swapped"}};
        }
    }

    Fault mirrored() {
        while (true) {
            const Netlist::Component& part = good_.components[draw(good_.components.size())];
            const std::vector<std::string> labels = contact_labels(board_, part.port);
            if (labels.size() < 5) continue;
            std::set<std::size_t> nets;
            for (const Pad& pad : pads_) {
                if (pad.node.reference == part.reference) nets.insert(pad.net);
            }
            return {"mirror " + part.reference,
                    [part, labels](Netlist& netlist) {
                        for (std::size_t i = 0; i < labels.size() / 2; ++i) {
                            exchange(netlist, {part.reference, labels[i], {}},
                                     {part.reference, labels[labels.size() - 1 - i], {}});
                        }
                    },
                    std::move(nets),
                    {"drawn-mirrored"}};
        }
    }

    const Board& board_;
    const Netlist good_;
    std::vector<Pad> pads_;
    std::uint64_t seed_ = 1;
};

bool are_apart(const Fault& one, const Fault& other) {
    return std::ranges::none_of(one.nets, [&](std::size_t n) { return other.nets.contains(n); });
}

bool is_named(const std::vector<std::string>& errors, const Fault& one, const Fault& other) {
    const auto is_one_of = [](const std::string& rule, const Fault& fault) {
        return std::ranges::find(fault.names, rule) != fault.names.end();
    };
    if (errors.size() != 2) return false;
    return (is_one_of(errors[0], one) && is_one_of(errors[1], other)) ||
           (is_one_of(errors[0], other) && is_one_of(errors[1], one));
}

/// Two faults of one part that one finding tells together: pads lost, or pads too many.
bool are_one_finding(const Fault& one, const Fault& other) {
    return one.names == other.names && one.names.size() == 1 && one.names[0].starts_with("pad-");
}

struct Count {
    int planted = 0, undone = 0, apart = 0, named_apart = 0, entwined = 0, named_entwined = 0;
};

/// Two faults in one netlist; where they undo each other, nothing is to be told.
void plant_two(const Design& design, std::size_t board, FaultMaker& maker, Count& count) {
    const Fault one = maker.next(), other = maker.next();
    Netlist bad = maker.good();
    one.plant(bad);
    other.plant(bad);
    ++count.planted;
    const Comparison comparison = compare(design, board, bad);
    const std::vector<std::string> errors = errors_of(comparison);
    CAPTURE(design.boards[board].name, one.what, other.what, errors);
    if (same_partition(bad, maker.good())) {
        ++count.undone;
        CHECK(comparison.same);
        return;
    }
    CHECK_FALSE(comparison.same);
    CHECK_FALSE(errors.empty());
    const bool named =
        is_named(errors, one, other) || (are_one_finding(one, other) && errors == one.names);
    if (are_apart(one, other)) {
        ++count.apart;
        count.named_apart += named;
        CHECK(named);
    } else {
        ++count.entwined;
        count.named_entwined += named;
        CHECK(errors.size() <= 6);  // two mistakes are not told as a heap
    }
}

}  // namespace

TEST_CASE("two faults planted together never pass, and are two causes if their nets are apart") {
    constexpr int each = 80;
    Count count;
    for (const char* file : {"lid-link/design.yaml", "kiln-display/design.yaml",
                             "mast-camera/design.yaml", "lid-supply/design.yaml"}) {
        const Design design = example(file);
        for (std::size_t b = 0; b < design.boards.size(); ++b) {
            if (design.boards[b].is_device) continue;
            FaultMaker maker(design, b);
            for (int i = 0; i < each; ++i) plant_two(design, b, maker, count);
        }
    }
    std::cout << "compare, two faults: " << count.planted << " planted, " << count.undone
              << " undo each other; nets apart: " << count.apart << ", two causes named right "
              << count.named_apart << "; nets shared: " << count.entwined
              << ", two causes named right " << count.named_entwined << "\n";
    CHECK(count.planted >= 400);
    CHECK(count.apart >= 200);
}
