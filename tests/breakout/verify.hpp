// A check of breakout drawings that knows nothing of how they are made: copper and distances only.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "breakout/tracks.hpp"

namespace pinfold {

/// A convex piece of copper: a stretch of track, a via or a pad, on one layer or both.
struct Piece {
    std::size_t net = 0;
    bool top = true, bottom = false;
    std::vector<Spot> outline;  ///< one point, two, or the four corners of a pad
    double round = 0.0;         ///< how far copper reaches beyond the outline
    std::optional<std::size_t> wire = {};
};

inline double distance(const Spot& p, const Spot& a, const Spot& b) {
    const double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm;
    const double square = dx * dx + dy * dy;
    double share = square > 0 ? ((p.x_mm - a.x_mm) * dx + (p.y_mm - a.y_mm) * dy) / square : 0.0;
    share = std::clamp(share, 0.0, 1.0);
    return std::hypot(p.x_mm - a.x_mm - share * dx, p.y_mm - a.y_mm - share * dy);
}

inline double turn(const Spot& a, const Spot& b, const Spot& c) {
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

inline bool meet(const Spot& a, const Spot& b, const Spot& c, const Spot& d) {
    return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

inline double distance(const Spot& a, const Spot& b, const Spot& c, const Spot& d) {
    if (meet(a, b, c, d)) return 0.0;
    return std::min({distance(a, c, d), distance(b, c, d), distance(c, a, b), distance(d, a, b)});
}

/// Copper to copper. A piece inside another is taken to lie on its edge, which is near enough.
inline double distance(const Piece& one, const Piece& other) {
    double least = 1e9;
    const std::size_t n = one.outline.size(), m = other.outline.size();
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < m; ++j) {
            least = std::min(least, distance(one.outline[i], one.outline[(i + 1) % n],
                                             other.outline[j], other.outline[(j + 1) % m]));
        }
    }
    return least - one.round - other.round;
}

/// Pads that stand for nothing (left open) get nets of their own, above `nets`.
inline std::vector<Piece> pieces_of(const PadRows& rows, const Tracks& tracks) {
    std::vector<Piece> pieces;
    std::size_t lone = 1'000'000;
    for (const DrawnPad& pad : tracks.pads) {
        const double w = pad.width_mm / 2, h = pad.height_mm / 2;
        const Spot& m = pad.middle;
        const RowPad& row_pad = rows.side(pad.side).pads[pad.pad];
        pieces.push_back({row_pad.net.value_or(lone++),
                          true,
                          row_pad.hole_mm > 0,
                          {{m.x_mm - w, m.y_mm - h},
                           {m.x_mm + w, m.y_mm - h},
                           {m.x_mm + w, m.y_mm + h},
                           {m.x_mm - w, m.y_mm + h}},
                          0.0});
    }
    for (const Via& via : tracks.vias) {
        pieces.push_back({via.net, true, true, {via.at}, rows.rules.via_mm / 2});
    }
    for (const Track& track : tracks.tracks) {
        const bool top = track.layer == CopperLayer::top;
        for (std::size_t p = 1; p < track.points.size(); ++p) {
            pieces.push_back({track.net,
                              top,
                              !top,
                              {track.points[p - 1], track.points[p]},
                              rows.rules.track_mm / 2,
                              track.wire});
        }
    }
    return pieces;
}

/// Everything that is wrong with a drawing.
inline std::vector<std::string> faults_of(const PadRows& rows, const Escape& escape,
                                          const Tracks& tracks) {
    constexpr double slack = 1e-6;
    std::vector<std::string> faults;
    for (const Track& track : tracks.tracks) {
        for (std::size_t p = 1; p < track.points.size(); ++p) {
            const double dx = std::abs(track.points[p].x_mm - track.points[p - 1].x_mm);
            const double dy = std::abs(track.points[p].y_mm - track.points[p - 1].y_mm);
            if (dx > slack && dy > slack && std::abs(dx - dy) > slack) {
                faults.push_back(fmt::format("net {} runs at an odd angle", track.net));
            }
        }
    }
    const std::vector<Piece> pieces = pieces_of(rows, tracks);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const Piece& one = pieces[i];
            const Piece& other = pieces[j];
            const bool one_layer = (one.top && other.top) || (one.bottom && other.bottom);
            const bool both_pads = one.outline.size() == 4 && other.outline.size() == 4;
            if (one.net == other.net || !one_layer || both_pads) continue;
            const double gap = distance(one, other);
            if (gap >= rows.rules.gap_mm - slack) continue;
            faults.push_back(fmt::format("nets {} and {} come within {:.4f} mm near {:.2f}, {:.2f}",
                                         one.net, other.net, gap, one.outline[0].x_mm,
                                         one.outline[0].y_mm));
        }
    }
    // Each wire is one line from pad to pad that changes layer at vias of its own alone.
    const auto pad_at = [&](Side side, std::size_t pad) {
        return *std::ranges::find_if(tracks.pads, [&](const DrawnPad& drawn) {
            return drawn.side == side && drawn.pad == pad;
        });
    };
    const auto same = [&](const Spot& a, const Spot& b) {
        return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) < slack;
    };
    for (std::size_t w = 0; w < escape.wires.size(); ++w) {
        const Route& wire = escape.wires[w];
        Spot at = pad_at(Side::near, wire.pads[0]).middle;
        const auto has_hole = [&](std::size_t side) {
            return rows.sides[side].pads[wire.pads[side]].hole_mm > 0;
        };
        std::optional<CopperLayer> layer;  // both in a plated hole
        if (!has_hole(0)) layer = CopperLayer::top;
        for (const Track& track : tracks.tracks) {
            if (track.wire != w) continue;
            if (!same(track.points.front(), at)) faults.push_back(fmt::format("wire {} is cut", w));
            const bool via = std::ranges::any_of(tracks.vias, [&](const Via& any) {
                return any.net == wire.net && same(any.at, track.points.front());
            });
            if (layer && track.layer != *layer && !via)
                faults.push_back(fmt::format("wire {}: no via", w));
            at = track.points.back();
            layer = track.layer;
        }
        const bool lands = has_hole(1) || layer == CopperLayer::top;
        if (!lands || !same(at, pad_at(Side::far, wire.pads[1]).middle)) {
            faults.push_back(fmt::format("wire {} does not end at its pad", w));
        }
    }
    // Each ground pad has a via.
    for (const DrawnPad& drawn : tracks.pads) {
        const RowPad& pad = rows.side(drawn.side).pads[drawn.pad];
        if (!pad.ground || pad.hole_mm > 0) continue;
        const bool joined = std::ranges::any_of(tracks.tracks, [&](const Track& track) {
            return !track.wire && same(track.points.front(), drawn.middle) &&
                   std::ranges::any_of(tracks.vias, [&](const Via& via) {
                       return same(via.at, track.points.back());
                   });
        });
        if (!joined) faults.push_back(fmt::format("ground pad {} hangs loose", drawn.pad));
    }
    return faults;
}

/// Times that the top tracks of one wire cross themselves.
inline int own_crossings(const Tracks& tracks, std::size_t wire) {
    int count = 0;
    for (const Track& track : tracks.tracks) {
        if (track.wire != wire) continue;
        for (std::size_t p = 1; p < track.points.size(); ++p) {
            for (std::size_t q = p + 2; q < track.points.size(); ++q) {
                count +=
                    meet(track.points[p - 1], track.points[p], track.points[q - 1], track.points[q])
                        ? 1
                        : 0;
            }
        }
    }
    return count;
}

/// Pads of one net that no copper joins, as many as that: none if every net is whole.
inline int parts_too_many(const PadRows& rows, const Escape& escape) {
    std::map<std::pair<int, std::size_t>, std::pair<int, std::size_t>> up;
    const auto find = [&](std::pair<int, std::size_t> at) {
        while (up.contains(at) && up[at] != at) at = up[at];
        return at;
    };
    for (const Route& wire : escape.wires) {
        const auto near = find({0, wire.pads[0]});
        const auto far = find({1, wire.pads[1]});
        up.insert({near, near});
        up.insert({far, far});
        up[near] = far;
    }
    std::map<std::size_t, std::pair<std::array<int, 2>, std::map<std::pair<int, std::size_t>, int>>>
        nets;
    for (const int side : {0, 1}) {
        const PadRow& row = rows.sides[static_cast<std::size_t>(side)];
        for (std::size_t p = 0; p < row.pads.size(); ++p) {
            if (!row.pads[p].net || row.pads[p].ground) continue;
            auto& net = nets[*row.pads[p].net];
            ++net.first[static_cast<std::size_t>(side)];
            ++net.second[find({side, p})];
        }
    }
    int parts = 0;
    for (const auto& [number, net] : nets) {
        if (net.first[0] > 0 && net.first[1] > 0) parts += static_cast<int>(net.second.size()) - 1;
    }
    return parts;
}

/// Times that tracks of different nets cross as seen from above.
inline int crossings_drawn(const Tracks& tracks) {
    int count = 0;
    for (const Track& one : tracks.tracks) {
        for (const Track& other : tracks.tracks) {
            if (one.layer != CopperLayer::bottom || other.layer != CopperLayer::top) continue;
            if (one.net == other.net || !other.wire) continue;
            for (std::size_t p = 1; p < one.points.size(); ++p) {
                for (std::size_t q = 1; q < other.points.size(); ++q) {
                    count +=
                        meet(one.points[p - 1], one.points[p], other.points[q - 1], other.points[q])
                            ? 1
                            : 0;
                }
            }
        }
    }
    return count;
}

}  // namespace pinfold
