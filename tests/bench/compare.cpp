// How long comparing takes, shape by shape: seconds against nets, and growth.
//
//     compare [MOST [SHAPE]]   up to so many nets (100000), of every shape or of those so called
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <string_view>
#include <vector>

#include "check/compare.hpp"
#include "timing.hpp"

namespace pinfold::bench {
namespace {

/// A design of one board, and what was drawn of it.
struct Sample {
    Design design;
    Netlist drawn;
};

/// Rows of contacts without pin maps, named p1, p2 and so on.
Design board_of(std::size_t ports, std::size_t contacts, bool named) {
    Design design;
    Board board;
    board.name = "board";
    for (std::size_t p = 0; p < ports; ++p) {
        Port port;
        port.name = fmt::format("p{}", p + 1);
        if (named) port.reference = fmt::format("J{}", p + 1);
        for (std::size_t c = 0; c < contacts; ++c) {
            port.contacts.push_back({std::to_string(c + 1), "net", {}, {}, false, {}});
        }
        board.ports.push_back(std::move(port));
    }
    design.boards.push_back(std::move(board));
    return design;
}

void wire(Board& board, std::size_t port, std::size_t contact, std::size_t net) {
    while (board.nets.size() <= net) {
        Net made;
        made.name = fmt::format("n{}", board.nets.size() + 1);
        board.nets.push_back(std::move(made));
    }
    board.ports[port].contacts[contact].net = net;
}

/// So many nets of two pads, from the first ports to the ports across, contact by contact.
Design straight(std::size_t nets, std::size_t ports, bool named = true) {
    const std::size_t half = std::max<std::size_t>(1, ports / 2);
    const std::size_t contacts = (nets + half - 1) / half;
    Design design = board_of(2 * half, contacts, named);
    for (std::size_t n = 0; n < nets; ++n) {
        for (const std::size_t side : {std::size_t{0}, half}) {
            wire(design.boards[0], side + n / contacts, n % contacts, n);
        }
    }
    return design;
}

Sample as_drawn(Design design) {
    Netlist drawn = netlist_of(design, 0);
    return {std::move(design), std::move(drawn)};
}

Sample hundred_ports(std::size_t nets) { return as_drawn(straight(nets, 100)); }
Sample two_long_ports(std::size_t nets) { return as_drawn(straight(nets, 2)); }
Sample ports_of_two(std::size_t nets) { return as_drawn(straight(nets, nets)); }

/// The references of the netlist are not the board file's: port names decide.
Sample ports_of_two_by_name(std::size_t nets) {
    Sample sample = as_drawn(straight(nets, nets, false));
    for (auto& part : sample.drawn.components) part.reference += "A";
    for (auto& net : sample.drawn.nets) {
        for (auto& node : net.nodes) node.reference += "A";
    }
    return sample;
}

Sample one_net(std::size_t nets) {
    Design design = board_of(100, nets / 100, true);
    for (std::size_t n = 0; n < nets; ++n) wire(design.boards[0], n % 100, n / 100, 0);
    return as_drawn(std::move(design));
}

/// Drawn with every net changed by a function that gets the nets and the number of one.
template <class Change>
Sample spoilt(std::size_t nets, std::size_t ports, const Change& change) {
    Sample sample = as_drawn(straight(nets, ports));
    const std::size_t count = sample.drawn.nets.size();
    for (std::size_t n = 0; n < count; ++n) change(sample.drawn.nets, n);
    std::erase_if(sample.drawn.nets, [](const Netlist::Net& net) { return net.nodes.empty(); });
    return sample;
}

using Nets = std::vector<Netlist::Net>;

/// Two neighbours in ten on each other's nets.
Sample many_exchanges(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) {
        if (n % 10 != 0 || n + 1 >= drawn.size()) return;
        std::swap(drawn[n].nodes[0], drawn[n + 1].nodes[0]);
    });
}

Sample many_rings(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) {
        if (n % 5 != 0 || n + 2 >= drawn.size()) return;
        std::swap(drawn[n].nodes[0], drawn[n + 1].nodes[0]);
        std::swap(drawn[n + 1].nodes[0], drawn[n + 2].nodes[0]);
    });
}

/// The pads of the last ports strewn over all nets, the same way every time: a few long rings.
Sample strewn(std::size_t nets) {
    std::size_t seed = 1;
    return spoilt(nets, 2, [&seed](Nets& drawn, std::size_t n) {
        seed = seed * 6364136223846793005U + 1442695040888963407U;
        std::swap(drawn[n].nodes[1], drawn[n + (seed >> 33) % (drawn.size() - n)].nodes[1]);
    });
}

void join(Nets& drawn, std::size_t into, std::size_t net) {
    for (Netlist::Node& node : drawn[net].nodes) drawn[into].nodes.push_back(std::move(node));
    drawn[net].nodes.clear();
}

Sample many_shorts(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) {
        if (n % 2 == 1) join(drawn, n - 1, n);
    });
}

Sample all_in_one(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) {
        if (n > 0) join(drawn, 0, n);
    });
}

void cut(Nets& drawn, std::size_t n) {
    Netlist::Net piece{fmt::format("cut{}", n), false, {drawn[n].nodes.back()}, {}};
    drawn[n].nodes.pop_back();
    drawn.push_back(std::move(piece));
}

Sample all_open(std::size_t nets) { return spoilt(nets, 100, cut); }

/// One net, every pad of it alone.
Sample one_net_in_pieces(std::size_t nets) {
    Sample sample = one_net(nets);
    while (sample.drawn.nets[0].nodes.size() > 1) cut(sample.drawn.nets, 0);
    return sample;
}

Sample all_missing(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) { drawn[n].nodes.pop_back(); });
}

Sample all_extra(std::size_t nets) {
    return spoilt(nets, 100, [](Nets& drawn, std::size_t n) {
        drawn[n].nodes.push_back({drawn[n].nodes[0].reference, fmt::format("x{}", n), {}});
    });
}

/// A two-pad part in every net.
Sample all_in_series(std::size_t nets) {
    Sample sample = spoilt(nets, 100, cut);
    for (std::size_t n = 0; n < nets; ++n) {
        const std::string name = fmt::format("R{}", n);
        sample.drawn.components.push_back({name, "22R", {}, {}, {}, {}, {}});
        sample.drawn.nets[n].nodes.push_back({name, "1", {}});
        sample.drawn.nets[nets + n].nodes.push_back({name, "2", {}});
    }
    return sample;
}

/// The first ports drawn from the other end, each a slip of its own.
Sample many_mirrored(std::size_t nets) {
    Sample sample = as_drawn(straight(nets, 100));
    const std::size_t contacts = sample.design.boards[0].ports[0].contacts.size();
    for (auto& net : sample.drawn.nets) {
        Netlist::Node& node = net.nodes[0];
        node.pad = std::to_string(contacts + 1 - std::stoul(node.pad));
    }
    return sample;
}

struct Shape {
    const char* name;
    Sample (*make)(std::size_t nets);
    bool is_same;
};
constexpr Shape shapes[] = {
    {"hundred ports", hundred_ports, true},
    {"two long ports", two_long_ports, true},
    {"ports of two", ports_of_two, true},
    {"ports of two by name", ports_of_two_by_name, true},
    {"one net", one_net, true},
    {"many exchanges", many_exchanges, false},
    {"many rings", many_rings, false},
    {"strewn", strewn, false},
    {"many mirrored", many_mirrored, false},
    {"many shorts", many_shorts, false},
    {"all in one", all_in_one, false},
    {"all open", all_open, false},
    {"one net in pieces", one_net_in_pieces, false},
    {"all missing", all_missing, false},
    {"all extra", all_extra, false},
    {"all in series", all_in_series, true},
};

void time_shape(const Shape& shape, std::size_t most) {
    double size_before = 0.0, seconds_before = 0.0;
    for (std::size_t nets = 1000; nets <= most; nets *= 10) {
        const Sample sample = shape.make(nets);
        const Comparison comparison = compare(sample.design, 0, sample.drawn);
        if (comparison.same != shape.is_same) {
            fmt::print(stderr, "compare: '{}' is not what it should be\n", shape.name);
            std::exit(1);
        }
        const double seconds =
            fastest(nets > 10'000 ? 1 : 3, [&] { return compare(sample.design, 0, sample.drawn); });
        const auto size = static_cast<double>(nets);
        fmt::print("{:<22} {:>8} {:>9.4f} {:>10.0f} {:>7} {:>9}\n", shape.name, nets, seconds,
                   size / seconds, growth(size, seconds, size_before, seconds_before),
                   comparison.findings.size());
        std::fflush(stdout);
        constexpr double too_long = 2.0;
        if (seconds > too_long) break;
        size_before = size;
        seconds_before = seconds;
    }
}

}  // namespace
}  // namespace pinfold::bench

int main(int argc, char** argv) {
    using namespace pinfold::bench;
    const std::size_t most = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 100'000;
    const std::string_view only = argc > 2 ? argv[2] : "";
    fmt::print("{:<22} {:>8} {:>9} {:>10} {:>7} {:>9}\n", "shape", "nets", "s", "nets/s", "growth",
               "findings");
    for (const Shape& shape : shapes) {
        if (only.empty() || only == shape.name) time_shape(shape, most);
    }
}
