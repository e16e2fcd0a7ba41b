#include "breakout/escape.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <random>

namespace pinfold {
namespace {

/// Two rows a side where chance wills it, few nets, some with several pads.
PadRows small_rows(unsigned seed) {
    std::mt19937 random(seed);
    const std::size_t nets = 2 + random() % 3;
    PadRows rows;
    for (PadRow& side : rows.sides) {
        std::vector<std::size_t> pads;
        for (std::size_t net = 1; net <= nets; ++net) pads.push_back(net);
        if (random() % 2 == 0) pads.push_back(1);
        if (random() % 3 == 0) pads.push_back(2);
        if (random() % 2 == 0) pads.push_back(0);  // ground
        std::ranges::shuffle(pads, random);
        const double pitches[] = {0.5, 1.0, 1.27, 2.54};
        side.pitch_mm = pitches[random() % 4];
        const std::size_t depth = &side == &rows.sides[0] ? 1 + random() % 2 : 2;
        const double hole = random() % 2 == 0 ? 0.4 * side.pitch_mm : 0.0;
        const double offset = random() % 2 == 0 ? side.pitch_mm / 2 : 0.0;
        for (std::size_t p = 0; p < pads.size(); ++p) {
            RowPad pad;
            pad.row = static_cast<int>(p % depth);
            pad.along_mm = static_cast<double>(p / depth) * side.pitch_mm + pad.row * offset;
            pad.behind_mm = pad.row * std::max(side.pitch_mm, 2.54);
            pad.width_mm = 0.6 * side.pitch_mm;
            pad.length_mm = 1.2;
            pad.hole_mm = hole;
            pad.net = pads[p];
            pad.ground = pads[p] == 0;
            side.pads.push_back(pad);
        }
    }
    rows.rules = usual_rules(std::min(rows.sides[0].pitch_mm, rows.sides[1].pitch_mm));
    return rows;
}

/// Every choice of exits, every tree of every net, looked at one by one.
class AllChoices {
public:
    explicit AllChoices(const PadRows& rows) : rows_(rows) {
        std::map<std::size_t, std::array<std::vector<std::size_t>, 2>> nets;
        for (const std::size_t side : {0, 1}) {
            exits_[side].resize(rows.sides[side].pads.size());
            for (std::size_t p = 0; p < rows.sides[side].pads.size(); ++p) {
                const RowPad& pad = rows.sides[side].pads[p];
                if (!pad.ground) nets[*pad.net][side].push_back(p);
            }
        }
        for (const auto& [net, pads] : nets) {
            if (pads[0].empty() || pads[1].empty()) continue;
            nets_.push_back(pads);
            for (const std::size_t side : {0, 1}) {
                for (const std::size_t pad : pads[side]) open_.emplace_back(side, pad);
            }
        }
    }

    /// The least of crossings, and of ways under with those.
    std::pair<int, int> least() {
        choose(0);
        return best_;
    }

private:
    using Edge = std::pair<std::size_t, std::size_t>;  // near pad, far pad
    using Edges = std::vector<Edge>;

    Mouthing mouth(std::size_t side, std::size_t pad) const {
        return mouthing_of(rows_.sides[side], pad, *exits_[side][pad]);
    }

    void choose(std::size_t n) {
        if (n == open_.size()) {
            if (is_possible()) lay(0, {});
            return;
        }
        const auto [side, pad] = open_[n];
        for (const Exit exit : exits_of(rows_.sides[side], pad, rows_.rules)) {
            exits_[side][pad] = exit;
            choose(n + 1);
        }
        exits_[side][pad].reset();
    }

    /// Loops behind a row do not cross, and no gap holds more than it can.
    bool is_possible() const {
        for (const std::size_t side : {0, 1}) {
            const PadRow& row = rows_.sides[side];
            std::map<double, std::pair<int, int>> gaps;  // on top, beneath
            for (std::size_t p = 0; p < row.pads.size(); ++p) {
                if (!exits_[side][p]) continue;
                const Exit exit = *exits_[side][p];
                if (leads_to_gap(exit)) {
                    auto& [top, under] = gaps[mouth(side, p).along_mm];
                    ++(goes_under(exit) ? under : top);
                }
                for (std::size_t q = 0; q < row.pads.size(); ++q) {
                    if (exit == Exit::round_right && exits_[side][q] == Exit::round_left &&
                        row.pads[p].along_mm < row.pads[q].along_mm) {
                        return false;
                    }
                }
            }
            for (const auto& [gap, held] : gaps) {
                const int most = held.first > 0 ? gap_capacity(row, rows_.rules)
                                                : under_capacity(row, rows_.rules);
                if (held.first + held.second > most) return false;
            }
        }
        return true;
    }

    static bool is_tree(const Edges& edges, std::size_t pads) {
        if (edges.size() + 1 != pads) return false;
        std::map<std::pair<int, std::size_t>, int> part;
        int parts = 0;
        for (const auto& [near, far] : edges) {
            for (const auto& end : {std::pair(0, near), std::pair(1, far)}) {
                if (part.emplace(end, parts).second) ++parts;
            }
            const int from = part[{1, far}], to = part[{0, near}];
            if (from == to) return false;
            for (auto& [end, number] : part) number = number == from ? to : number;
        }
        return part.size() == pads;
    }

    void lay(std::size_t net, const std::vector<Edges>& laid) {
        if (net == nets_.size()) {
            keep(laid);
            return;
        }
        Edges all;
        for (const std::size_t near : nets_[net][0]) {
            for (const std::size_t far : nets_[net][1]) all.emplace_back(near, far);
        }
        for (unsigned set = 1; set < 1U << all.size(); ++set) {
            Edges edges;
            for (std::size_t e = 0; e < all.size(); ++e) {
                if ((set >> e & 1U) != 0) edges.push_back(all[e]);
            }
            if (!is_tree(edges, nets_[net][0].size() + nets_[net][1].size())) continue;
            std::vector<Edges> more = laid;
            more.push_back(edges);
            lay(net + 1, more);
        }
    }

    void keep(const std::vector<Edges>& laid) {
        int crossings = 0, unders = 0;
        for (std::size_t a = 0; a < laid.size(); ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                for (const Edge& one : laid[a]) {
                    for (const Edge& other : laid[b]) {
                        const bool left = mouth(0, one.first) < mouth(0, other.first);
                        const bool stays = mouth(1, one.second) < mouth(1, other.second);
                        crossings += left != stays ? 1 : 0;
                    }
                }
            }
        }
        for (const auto& [side, pad] : open_) unders += goes_under(*exits_[side][pad]) ? 1 : 0;
        best_ = std::min(best_, {crossings, unders});
    }

    const PadRows& rows_;
    std::vector<std::array<std::vector<std::size_t>, 2>> nets_;
    std::vector<std::pair<std::size_t, std::size_t>> open_;  // side, pad
    std::array<std::vector<std::optional<Exit>>, 2> exits_;
    std::pair<int, int> best_{1'000'000, 0};
};

}  // namespace

// Expected: every choice tried.
TEST_CASE("no exits and trees cross less than those that are found", "[breakout]") {
    int with_unders = 0;
    for (unsigned seed = 0; seed < 800; ++seed) {
        const PadRows rows = small_rows(seed);
        CAPTURE(seed);
        const Escape escape = fewest_crossings(rows);
        CHECK(std::pair(escape.crossings, escape.unders) == AllChoices(rows).least());
        CHECK(escape.proved());
        with_unders += escape.unders > 0 ? 1 : 0;
    }
    CHECK(with_unders > 5);
}

}  // namespace pinfold
