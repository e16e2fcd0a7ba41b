// Generated assemblies for the benchmarks: many lid links apart, on one board, or in a row.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include "design/read.hpp"

namespace pinfold::bench {

/// The contacts of all ports; the ends of ribbons are not counted.
inline std::size_t contacts_of(const Design& design) {
    std::size_t count = 0;
    for (const Board& board : design.boards) {
        for (const Port& port : board.ports) count += port.contacts.size();
    }
    return count;
}

/// Links side by side as a user writes them: device, adapter, 20-way ribbon, adapter, device, with
/// a relay between two ribbons in the last link if there is to be one.
inline std::string design_text(std::size_t links, bool relay) {
    constexpr auto forth =
        "GND, D2+, D2-, GND, D1+, D1-, GND, SDA, SCL, 5V, HPD, UTIL, CEC, GND, "
        "D0+, D0-, GND, CK+, CK-, GND";
    constexpr auto back =
        "GND, CK-, CK+, GND, D0-, D0+, GND, CEC, UTIL, HPD, 5V, SCL, SDA, GND, "
        "D1-, D1+, GND, D2-, D2+, GND";
    constexpr auto tail =
        "{{receptacle: ffc-0.50-bottom, positions: 20, first-contact: left, "
        "wired: [{}]}}";
    constexpr auto lengths =
        "{D2+: 14.2 mm, D2-: 14.2 mm, D1+: 12.6 mm, D1-: 12.6 mm, D0+: 13.1 mm, D0-: 13.1 mm, "
        "CK+: 14.8 mm, CK-: 14.8 mm}";
    const std::string out = fmt::format(tail, forth);
    const std::string in = fmt::format(tail, back);
    std::string devices, boards, ribbons, joins, carries;
    for (std::size_t i = 0; i < links; ++i) {
        devices += fmt::format(
            "  logger{0}: {{ports: {{video: hdmi-a receptacle}}}}\n"
            "  screen{0}: {{ports: {{video: hdmi-a receptacle}}}}\n",
            i);
        boards += fmt::format(
            "  base{0}: {{ports: {{plug: hdmi-a plug, tail: {1}}}, lengths: {3}}}\n"
            "  lid{0}: {{ports: {{tail: {2}, plug: hdmi-a plug}}, lengths: {3}}}\n",
            i, out, in, lengths);
        ribbons += fmt::format(
            "  strap{}: {{type: ffc-0.50, conductors: 20, length: 120 mm, "
            "copper: same-side, lay: [straight], faces: {{a: up, b: up}}}}\n",
            i);
        joins += fmt::format(
            "- logger{0}.video + base{0}.plug\n- base{0}.tail + strap{0}.a\n"
            "- strap{0}.b + lid{0}.tail\n- lid{0}.plug + screen{0}.video\n",
            i);
        carries += fmt::format(
            "- {{interface: hdmi, from: logger{0}.video, to: screen{0}.video, "
            "rate: 1.485 Gbit/s}}\n",
            i);
    }
    if (relay) boards += fmt::format("  relay: {{ports: {{in: {}, out: {}}}}}\n", in, out);
    return fmt::format(
        "pinfold: 1\ntitle: Generated\ndevices:\n{}boards:\n{}ribbons:\n{}"
        "joins:\n{}carry:\n{}",
        devices, boards, ribbons, joins, carries);
}

inline std::shared_ptr<const Source> design_source(std::size_t links, bool relay) {
    return std::make_shared<const Source>(Source{"generated", design_text(links, relay)});
}

/// Puts numbered copies of the parts of one sample design together.
class Assembly {
public:
    enum Part : std::size_t { logger, screen, base, lid, relay };  ///< as design_text orders them

    explicit Assembly(Library& library)
        : sample_(read_design(design_source(1, true), {}, library)), design_(sample_) {
        design_.boards.clear();
        design_.ribbons.clear();
        design_.joins.clear();
        design_.seats.clear();
        design_.carries.clear();
    }

    const Board& sample(Part part) const { return sample_.boards[part]; }

    std::size_t add(Part part, std::size_t number) {
        design_.boards.push_back(sample_.boards[part]);
        design_.boards.back().name += std::to_string(number);
        return design_.boards.size() - 1;
    }
    std::size_t add(Board board) {
        design_.boards.push_back(std::move(board));
        return design_.boards.size() - 1;
    }
    void join(PortRef a, PortRef b) { design_.joins.push_back({a, b, false, mark()}); }
    void strap(PortRef a, PortRef b) {
        const std::size_t number = design_.ribbons.size();
        design_.ribbons.push_back(sample_.ribbons.front());
        design_.ribbons.back().name += std::to_string(number);
        design_.seats.push_back({a, number, End::a, {}, mark()});
        design_.seats.push_back({b, number, End::b, {}, mark()});
    }
    void promise(PortRef from, PortRef to) {
        Carry carry = sample_.carries.front();
        carry.name += std::to_string(design_.carries.size());
        carry.from = from;
        carry.to = to;
        design_.carries.push_back(std::move(carry));
    }
    Design take() { return std::move(design_); }

private:
    const Mark& mark() const { return sample_.joins.front().at; }

    Design sample_;
    Design design_;
};

/// So many links that have nothing to do with each other.
inline Design links_apart(std::size_t links, Library& library) {
    Assembly made(library);
    for (std::size_t i = 0; i < links; ++i) {
        made.add(Assembly::logger, i);
        made.add(Assembly::screen, i);
    }
    for (std::size_t i = 0; i < links; ++i) {
        const PortRef logger{2 * i, 0}, screen{2 * i + 1, 0};
        const std::size_t base = made.add(Assembly::base, i);
        const std::size_t lid = made.add(Assembly::lid, i);
        made.join(logger, {base, 0});
        made.strap({base, 1}, {lid, 0});
        made.join({lid, 1}, screen);
        made.promise(logger, screen);
    }
    return made.take();
}

/// The same with the halves of one pair exchanged on every lid adapter.
inline Design links_with_faults(std::size_t links, Library& library) {
    Design design = links_apart(links, library);
    for (Board& board : design.boards) {
        if (!board.name.starts_with("lid")) continue;
        std::vector<PortContact>& tail = board.ports.front().contacts;
        std::swap(tail[17].net, tail[18].net);
        std::swap(tail[17].name, tail[18].name);
    }
    return design;
}

/// Adds the ports and nets of one board to another; their grounds become one.
inline void absorb(Board& big, const Board& other, std::size_t number) {
    std::vector<std::size_t> place;
    for (const Net& net : other.nets) {
        const auto ground = std::ranges::find(big.nets, true, &Net::ground);
        const bool known = net.ground && ground != big.nets.end();
        place.push_back(
            static_cast<std::size_t>((known ? ground : big.nets.end()) - big.nets.begin()));
        if (!known) big.nets.push_back(net);
    }
    for (Port port : other.ports) {
        port.name += std::to_string(number);
        for (PortContact& contact : port.contacts) {
            if (contact.net) contact.net = place[*contact.net];
        }
        big.ports.push_back(std::move(port));
    }
}

/// The same links, but their base adapters are one board with one ground.
inline Design links_on_one_board(std::size_t links, Library& library) {
    Assembly made(library);
    Board big;
    big.name = "big";
    for (std::size_t i = 0; i < links; ++i) {
        made.add(Assembly::logger, i);
        made.add(Assembly::screen, i);
        absorb(big, made.sample(Assembly::base), i);
    }
    const std::size_t base = made.add(std::move(big));
    for (std::size_t i = 0; i < links; ++i) {
        const PortRef logger{2 * i, 0}, screen{2 * i + 1, 0};
        const std::size_t lid = made.add(Assembly::lid, i);
        made.join(logger, {base, 2 * i});
        made.strap({base, 2 * i + 1}, {lid, 0});
        made.join({lid, 1}, screen);
        made.promise(logger, screen);
    }
    return made.take();
}

/// One link through so many relays, ribbon after ribbon. Nobody would build it; it has the longest
/// ways and the deepest network.
inline Design links_in_a_row(std::size_t relays, Library& library) {
    Assembly made(library);
    const PortRef logger{made.add(Assembly::logger, 0), 0};
    const PortRef screen{made.add(Assembly::screen, 0), 0};
    const std::size_t base = made.add(Assembly::base, 0);
    const std::size_t lid = made.add(Assembly::lid, 0);
    made.join(logger, {base, 0});
    PortRef end{base, 1};
    for (std::size_t i = 0; i < relays; ++i) {
        const std::size_t relay = made.add(Assembly::relay, i);
        made.strap(end, {relay, 0});
        end = {relay, 1};
    }
    made.strap(end, {lid, 0});
    made.join({lid, 1}, screen);
    made.promise(logger, screen);
    return made.take();
}

}  // namespace pinfold::bench
