#include "breakout/breakout.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "design/wiring.hpp"

namespace pinfold {
namespace {

/// The pair a net is half of.
struct HalfOf {
    std::string pair;
    std::size_t half = 0;  ///< 0 plus, 1 minus
    bool fast = false;
};

std::optional<HalfOf> half_of(const Interface& interface, std::size_t number) {
    const Signal& signal = interface.signals[number];
    if (signal.role != Role::pair_half || !signal.pair) return std::nullopt;
    const Pair& pair = interface.pairs[*signal.pair];
    return HalfOf{pair.name, pair.minus == number ? 1U : 0U, pair.kind != PairKind::slow};
}

/// The pairs of a board's nets: as its own connectors have them, else, on a board that leads one
/// ribbon on to another, as the design's promises do.
class NetHalves {
public:
    NetHalves(const Design& design, std::size_t board)
        : design_(design), number_(board), board_(design.boards[board]) {}

    std::optional<HalfOf> operator()(std::size_t net_number) {
        const Net& net = board_.nets[net_number];
        const auto interface = design_.interfaces.find(net.interface);
        if (interface != design_.interfaces.end() && net.signal) {
            return half_of(interface->second, *net.signal);
        }
        if (net.ground || design_.carries.empty()) return std::nullopt;
        return carried(net_number);
    }

private:
    std::optional<HalfOf> carried(std::size_t net) {
        const auto contact = contact_on(net);
        if (!contact) return std::nullopt;
        if (!wiring_) wiring_ = trace(design_);
        const auto wire = wiring_->wire_in(wiring_->piece_of(wiring_->point_of(*contact)));
        if (!wire) return std::nullopt;
        const Interface* near =
            design_.interface_of(design_.port(design_.carries[wire->carry].from));
        return near ? half_of(*near, wire->signal) : std::nullopt;
    }

    std::optional<ContactRef> contact_on(std::size_t net) const {
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            const std::vector<PortContact>& contacts = board_.ports[p].contacts;
            for (std::size_t c = 0; c < contacts.size(); ++c) {
                if (contacts[c].net == net) return ContactRef{{number_, p}, c};
            }
        }
        return std::nullopt;
    }

    const Design& design_;
    std::size_t number_;
    const Board& board_;
    std::optional<Wiring> wiring_;  ///< once it is asked for
};

class BreakoutMaker {
public:
    BreakoutMaker(const Design& design, std::size_t board, const BreakoutWish& wish)
        : board_(design.boards[board]), half_of_(design, board) {
        made_.board = board_.name;
        made_.rows = pad_rows(design, board, wish);
    }

    Breakout make() {
        made_.escape = fewest_crossings(made_.rows);
        made_.reversed = pairs_of_nets() - made_.escape.crossings;
        choose_layers();
        made_.tracks = draw_tracks(made_.rows, made_.escape, made_.dives);
        measure_wires();
        measure_pairs();
        draw_meanders();
        find_not_drawn();
        return std::move(made_);
    }

private:
    const std::vector<Route>& wires() const { return made_.escape.wires; }

    /// Pairs of wires of different nets: those that do not cross do so once one row is turned.
    int pairs_of_nets() const {
        int count = 0;
        for (std::size_t one = 0; one < wires().size(); ++one) {
            for (std::size_t other = 0; other < one; ++other) {
                count += wires()[one].net != wires()[other].net ? 1 : 0;
            }
        }
        return count;
    }

    void choose_layers() {
        std::vector<bool> fast;
        std::vector<std::size_t> far_place;
        for (const Route& wire : wires()) {
            const auto half = half_of_(wire.net);
            fast.push_back(half && half->fast);
            far_place.push_back(wire.far_place);
        }
        made_.layers = keep_on_top(far_place, layer_weights(wires(), fast));
        made_.dives = dives_of(far_place, made_.layers.stays);
        for (std::size_t w = 0; w < wires().size(); ++w) {
            made_.wires.push_back({board_.nets[wires()[w].net].name, 0.0, 0.0, false, fast[w], 0});
            for (std::size_t other = 0; other < wires().size(); ++other) {
                made_.wires[w].crossings += crosses(wires(), w, other) ? 1 : 0;
            }
            if (fast[w] && made_.layers.stays[w]) made_.slits += made_.wires[w].crossings;
        }
    }

    void measure_wires() {
        const std::vector<double> lengths = wire_lengths(made_.tracks, wires().size());
        for (std::size_t w = 0; w < lengths.size(); ++w) made_.wires[w].length_mm = lengths[w];
        for (const Track& track : made_.tracks.tracks) {
            if (!track.wire) continue;
            made_.wires[*track.wire].layers.push_back(track.layer);
            if (track.layer == CopperLayer::top) continue;
            made_.wires[*track.wire].dives = true;
            made_.slit_mm += length_of(track);
        }
    }

    /// Two links on one board are told apart by their far ports.
    void measure_pairs() {
        std::map<std::pair<std::size_t, std::string>, std::array<std::optional<std::size_t>, 2>>
            halves;
        for (std::size_t w = 0; w < wires().size(); ++w) {
            const auto half = half_of_(wires()[w].net);
            if (!half) continue;
            const RowPad& far = made_.rows.side(Side::far).pads[wires()[w].pads[1]];
            auto& slot = halves[{far.contact.port.port, half->pair}][half->half];
            if (!slot) slot = w;
        }
        std::map<std::string, int> links;
        for (const auto& known : halves) ++links[known.first.second];
        for (const auto& [link, both] : halves) {
            if (!both[0] || !both[1]) continue;
            const auto& [port, pair] = link;
            const std::string name = links[pair] == 1 ? pair : board_.ports[port].name + "." + pair;
            made_.pairs.push_back({name, {*both[0], *both[1]}, made_.wires[*both[0]].fast, {}, {}});
        }
    }

    double longer_half(const PairFigures& pair) const {
        return std::max(made_.wires[pair.wires[0]].length_mm, made_.wires[pair.wires[1]].length_mm);
    }

    /// First the halves of each fast pair are made alike, then the pairs.
    void draw_meanders() {
        double longest = 0.0;
        for (const PairFigures& pair : made_.pairs) {
            if (pair.fast) longest = std::max(longest, longer_half(pair));
        }
        for (PairFigures& pair : made_.pairs) {
            const auto [plus, minus] = pair.wires;
            const bool plus_short = made_.wires[plus].length_mm < made_.wires[minus].length_mm;
            const std::size_t shorter = plus_short ? plus : minus;
            if (pair.fast) pair.in_pair = lengthen({shorter}, made_.mismatch_in_pair(pair));
        }
        for (PairFigures& pair : made_.pairs) {
            const std::vector<std::size_t> both(pair.wires.begin(), pair.wires.end());
            if (pair.fast) pair.to_longest = lengthen(both, longest - longer_half(pair));
        }
    }

    Meander lengthen(const std::vector<std::size_t>& wires, double extra) {
        const Meander meander = draw_meander(made_.tracks, wires, extra, made_.rows.rules);
        if (meander.bumps == 0 || !meander.fits) return meander;
        for (const std::size_t w : wires) {
            made_.wires[w].meander_mm += extra;
            made_.wires[w].length_mm += extra;
        }
        return meander;
    }

    void find_not_drawn() {
        std::set<std::size_t> drawn;
        std::map<std::size_t, int> pads;
        for (const Route& wire : wires()) drawn.insert(wire.net);
        for (const PadRow& side : made_.rows.sides) {
            for (const RowPad& pad : side.pads) {
                if (pad.net && !pad.ground) ++pads[*pad.net];
            }
        }
        for (const auto& [net, count] : pads) {
            if (count > 1 && !drawn.contains(net)) {
                made_.not_drawn.push_back(board_.nets[net].name);
            }
        }
    }

    const Board& board_;
    NetHalves half_of_;
    Breakout made_;
};

double apart(double one, double other) { return std::abs(one - other); }

/// The spread of all pairs by a length of each wire.
template <class Length>
Mismatch mismatch_by(const Breakout& made, const Length& length) {
    Mismatch mismatch;
    std::vector<double> longer;
    for (const PairFigures& pair : made.pairs) {
        const double plus = length(made.wires[pair.wires[0]]);
        const double minus = length(made.wires[pair.wires[1]]);
        mismatch.in_pair = std::max(mismatch.in_pair, apart(plus, minus));
        if (pair.fast) longer.push_back(std::max(plus, minus));
    }
    if (longer.size() < 2) return mismatch;
    const auto [least, most] = std::ranges::minmax(longer);
    mismatch.between_pairs = most - least;
    return mismatch;
}

}  // namespace

std::size_t Breakout::signal_vias() const {
    return static_cast<std::size_t>(
        std::ranges::count_if(tracks.vias, [](const Via& via) { return via.wire.has_value(); }));
}

double Breakout::mismatch_in_pair(const PairFigures& pair) const {
    return apart(wires[pair.wires[0]].length_mm, wires[pair.wires[1]].length_mm);
}

double Breakout::bare_mismatch_in_pair(const PairFigures& pair) const {
    return apart(wires[pair.wires[0]].bare_mm(), wires[pair.wires[1]].bare_mm());
}

Mismatch Breakout::mismatch() const {
    return mismatch_by(*this, [](const WireFigures& wire) { return wire.length_mm; });
}

Mismatch Breakout::bare_mismatch() const {
    return mismatch_by(*this, [](const WireFigures& wire) { return wire.bare_mm(); });
}

bool Breakout::has_meanders() const {
    return std::ranges::any_of(wires, [](const WireFigures& wire) { return wire.meander_mm > 0; });
}

Breakout breakout_of(const Design& design, std::size_t board, const BreakoutWish& wish) {
    return BreakoutMaker(design, board, wish).make();
}

}  // namespace pinfold
