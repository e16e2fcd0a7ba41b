#include "order/question.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "breakout/usual_pads.hpp"
#include "check/occupant.hpp"
#include "check/ribbon_order.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

int micrometres(Millimetres length) { return static_cast<int>(std::lround(length.value() * 1000)); }

/// Places of a port's contacts across its board in micrometres, the middle at nothing, contact 1
/// the least.
std::vector<int> pad_row(const Design& design, const Port& port) {
    const UsualPads usual = usual_pads(design, port);
    std::vector<int> row;
    for (const PadCell& cell : usual.cells) {
        row.push_back(cell.column * micrometres(Millimetres(usual.pitch_mm)));
    }
    if (row.empty()) return row;
    const auto [least, most] = std::ranges::minmax(row);
    const int middle = (least + most) / 2;
    for (int& place : row) place -= middle;
    return row;
}

class QuestionReader {
public:
    QuestionReader(const Design& design, const Wiring& wiring, std::size_t ribbon,
                   const std::set<PortRef>& undecided)
        : design_(design),
          wiring_(wiring),
          ribbon_(ribbon),
          cut_(design.ribbons[ribbon]),
          undecided_(undecided) {}

    OrderQuestion read() {
        OrderProblem& problem = question_.problem;
        problem.conductors = cut_.conductors;
        problem.pitch_um = micrometres(design_.ribbon_types.at(cut_.type).pitch);
        problem.shift = rows();
        row_ = occupants(design_, wiring_, ribbon_);
        for (const Occupant& occupant : row_) lay(occupant);
        fill_withstands();
        set_pads();
        set_wishes();
        check_split();
        return std::move(question_);
    }

private:
    int rows() const {
        const RibbonEnds& ends = wiring_.ends_of(ribbon_);
        if (!ends.b) return 1;
        const Port& port = design_.port(design_.seats[*ends.b].port);
        return port.ribbon ? design_.receptacle_types.at(port.ribbon->receptacle).rows : 1;
    }

    /// What makes two conductors copies of one item.
    std::string key_of(const Occupant& occupant) const {
        using Kind = Occupant::Kind;
        if (occupant.kind == Kind::ground) return "ground";
        if (occupant.kind == Kind::open) return "open";
        const std::string carry = occupant.wire ? std::to_string(occupant.wire->carry) : "net";
        if (occupant.kind == Kind::supply) return "supply " + carry + " " + occupant.name;
        if (occupant.kind == Kind::pair_half && occupant.pair) {
            return fmt::format("pair {} {}", carry, *occupant.pair);
        }
        return fmt::format("single {} {} {}", carry, occupant.name, occupant.conductor.number());
    }

    void lay(const Occupant& occupant) {
        std::vector<OrderItem>& items = question_.problem.items;
        std::string key = key_of(occupant);
        const bool is_half = key.starts_with("pair");
        auto known = items_.find(key);
        if (known != items_.end() && is_half) {
            OrderItem& pair = items[known->second];
            if (!pair.names[1].empty()) {  // a third half: the same signal twice
                key += " " + std::to_string(occupant.conductor.number());
                known = items_.end();
            } else {
                pair.names[1] = occupant.name;
                question_.as_drawn.push_back({known->second, 1});
                return;
            }
        }
        if (known != items_.end()) {
            ++items[known->second].copies;
            question_.as_drawn.push_back({known->second, 0});
            return;
        }
        items_.emplace(key, items.size());
        items.push_back(item_of(occupant));
        question_.as_drawn.push_back({items.size() - 1, 0});
    }

    /// Strengths rank what disturbs and what is disturbed: a fast pair most, a busy single, a slow
    /// pair, any other single, a supply (common practice).
    OrderItem item_of(const Occupant& occupant) const {
        OrderItem item;
        item.names[0] = occupant.name;
        switch (occupant.kind) {
            case Occupant::Kind::open:
                item.kind = OrderItem::Kind::open;
                item.names[0] = "open";
                break;
            case Occupant::Kind::ground:
                item.kind = OrderItem::Kind::ground;
                item.names[0] = "GND";
                break;
            case Occupant::Kind::supply:
                item.kind = OrderItem::Kind::supply;
                item.strength = 1;
                break;
            case Occupant::Kind::pair_half:
                item.kind = OrderItem::Kind::pair;
                item.fast = occupant.fast;
                item.strength = occupant.fast ? 4 : 2;
                item.sensitivity = occupant.fast ? 3 : 2;
                break;
            case Occupant::Kind::single:
                item.strength = occupant.clock ? 3 : 1;
                item.sensitivity = 1;
                break;
        }
        return item;
    }

    /// Who stands which supply, as the check of a displaced ribbon sees it.
    void fill_withstands() {
        std::vector<OrderItem>& items = question_.problem.items;
        // A half whose other half is not in this ribbon is a single conductor.
        for (OrderItem& item : items) {
            if (item.kind == OrderItem::Kind::pair && item.names[1].empty()) {
                item.kind = OrderItem::Kind::single;
                item.fast = false;
            }
        }
        const std::vector<std::size_t> supplies = supplies_of(question_.problem);
        for (std::size_t s = 0; s < supplies.size(); ++s) {
            const Occupant& supply = first_of(supplies[s]);
            for (std::size_t i = 0; i < items.size(); ++i) {
                if (i == supplies[s]) continue;
                std::vector<Occupant> pair_of_places{supply, first_of(i)};
                pair_of_places[0].conductor = ConductorNumber(1);
                pair_of_places[1].conductor = ConductorNumber(2);
                const auto met = harmful_encounters(design_, pair_of_places, 1);
                if (met.empty()) items[i].withstands |= 1U << s;
            }
        }
    }

    const Occupant& first_of(std::size_t item) const {
        for (std::size_t c = 0; c < question_.as_drawn.size(); ++c) {
            if (question_.as_drawn[c].item == item) return row_[c];
        }
        return row_.front();
    }

    void set_pads() {
        for (const End end : {End::a, End::b}) {
            const std::size_t board = end == End::a ? 0 : 1;
            const std::map<std::uint32_t, PadPlaces> places = places_at(end);
            for (std::size_t c = 0; c < row_.size(); ++c) {
                OrderItem& item = question_.problem.items[question_.as_drawn[c].item];
                const bool has_pads =
                    item.kind != OrderItem::Kind::ground && item.kind != OrderItem::Kind::open;
                const auto found = places.find(row_[c].piece);
                if (!has_pads || found == places.end()) continue;
                item.pads[board][static_cast<std::size_t>(question_.as_drawn[c].half)] =
                    found->second;
            }
        }
    }

    /// Where the connectors of the board at one end have each piece of the wiring.
    std::map<std::uint32_t, PadPlaces> places_at(End end) const {
        const RibbonEnds& ends = wiring_.ends_of(ribbon_);
        const auto& seat = end == End::a ? ends.a : ends.b;
        std::map<std::uint32_t, PadPlaces> places;
        if (!seat) return places;
        const PortRef mouth = design_.seats[*seat].port;
        const Board& board = design_.boards[mouth.board];
        if (board.is_device) return places;
        const auto& seating = wiring_.seating_of(ribbon_);
        const bool turned = end == End::b && seating && seating->order == Order::mirrored;
        std::vector<std::pair<int, std::uint32_t>> all;
        int begin = 0;
        constexpr int gap = 2000;  // between two connectors beside each other; invented
        for (std::size_t p = 0; p < board.ports.size(); ++p) {
            if (p == mouth.port || undecided_.contains({mouth.board, p})) continue;
            std::vector<int> row = pad_row(design_, board.ports[p]);
            if (row.empty()) continue;
            if (runs_back(board.ports[mouth.port], board.ports[p])) {
                for (int& place : row) place = -place;
            }
            const auto [least, most] = std::ranges::minmax(row);
            for (std::size_t i = 0; i < row.size(); ++i) {
                const Point point = wiring_.point_of(ContactRef{{mouth.board, p}, i});
                all.emplace_back(begin + row[i] - least, wiring_.piece_of(point));
            }
            begin += most - least + gap;
        }
        const int middle = (begin - gap) / 2;
        for (const auto& [place, piece] : all) {
            places[piece].push_back(turned ? middle - place : place - middle);
        }
        for (auto& [piece, found] : places) {
            std::ranges::sort(found);
            found.erase(std::unique(found.begin(), found.end()), found.end());
        }
        return places;
    }

    /// Two ribbon receptacles on opposite edges of a board run against each other when both have
    /// contact 1 on the same hand.
    static bool runs_back(const Port& mouth, const Port& other) {
        return other.ribbon && mouth.ribbon &&
               mouth.ribbon->mouth.first == other.ribbon->mouth.first;
    }

    void set_wishes() {
        Findings findings;
        for (const auto& [conductor, written] : cut_.wishes.fixed) {
            if (const auto laid = find_item(written, findings)) {
                question_.problem.fixed.push_back({conductor.number() - 1, laid->item, laid->half});
            }
        }
        std::vector<Aim> ranking;
        for (const Written& written : cut_.wishes.aims) {
            const auto aim =
                std::ranges::find(all_aims, written.text, [](Aim any) { return name_of(any); });
            if (aim == all_aims.end()) {
                std::vector<std::string> known;
                for (const Aim any : all_aims) known.emplace_back(name_of(any));
                complain(findings, "order-aim",
                         fmt::format("no aim '{}'{}; they are: guards, hazards, noise, "
                                     "crossings, mismatch, returns",
                                     written.text, did_you_mean(written.text, known)),
                         written.at);
            } else if (std::ranges::find(ranking, *aim) == ranking.end()) {
                ranking.push_back(*aim);
            }
        }
        for (const Aim aim : all_aims) {
            if (std::ranges::find(ranking, aim) == ranking.end()) ranking.push_back(aim);
        }
        question_.problem.ranking = ranking;
        if (!findings.empty()) throw InputError(std::move(findings));
    }

    std::optional<Laid> find_item(const Written& written, Findings& findings) const {
        const std::string plain = plain_name(written.text);
        std::vector<std::string> known;
        for (std::size_t i = 0; i < question_.problem.items.size(); ++i) {
            const OrderItem& item = question_.problem.items[i];
            for (int half = 0; half < item.width(); ++half) {
                const std::string& name = item.names[static_cast<std::size_t>(half)];
                if (plain_name(name) == plain) return Laid{i, half};
                known.push_back(name);
            }
        }
        complain(findings, "signal-unknown",
                 fmt::format("{} carries no '{}'{}", cut_.name, written.text,
                             did_you_mean(written.text, known)),
                 written.at);
        return std::nullopt;
    }

    void check_split() {
        OrderProblem free = question_.problem;
        free.fixed.clear();
        question_.split = !keeps_the_rules(free, question_.as_drawn);
    }

    const Design& design_;
    const Wiring& wiring_;
    std::size_t ribbon_;
    const Ribbon& cut_;
    const std::set<PortRef>& undecided_;
    std::vector<Occupant> row_;
    std::map<std::string, std::size_t> items_;
    OrderQuestion question_;
};

}  // namespace

OrderQuestion order_question(const Design& design, const Wiring& wiring, std::size_t ribbon,
                             const std::set<PortRef>& undecided) {
    return QuestionReader(design, wiring, ribbon, undecided).read();
}

}  // namespace pinfold
