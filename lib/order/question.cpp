#include "order/question.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "check/occupant.hpp"
#include "check/ribbon_order.hpp"
#include "order/board_places.hpp"

namespace pinfold {
namespace {

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
        problem.pitch_um =
            static_cast<int>(std::lround(design_.ribbon_types.at(cut_.type).pitch.value() * 1000));
        problem.shift = rows();
        row_ = occupants(design_, wiring_, ribbon_);
        for (const Occupant& occupant : row_) lay(occupant);
        fill_withstands();
        tell_links_apart();
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

    /// Items of one name that several promises brought take the port that theirs starts from.
    void tell_links_apart() {
        std::vector<OrderItem>& items = question_.problem.items;
        std::map<std::string, std::set<std::size_t>> carries;
        for (const Occupant& any : row_) {
            if (any.wire) carries[any.name].insert(any.wire->carry);
        }
        for (std::size_t c = 0; c < row_.size(); ++c) {
            const bool is_named = row_[c].wire && row_[c].kind != Occupant::Kind::ground;
            if (!is_named || carries[row_[c].name].size() < 2) continue;
            const Laid laid = question_.as_drawn[c];
            items[laid.item].names[static_cast<std::size_t>(laid.half)] =
                name_of(design_, design_.carries[row_[c].wire->carry].from) + "." + row_[c].name;
        }
    }

    void set_pads() {
        for (const End end : {End::a, End::b}) {
            const std::size_t board = end == End::a ? 0 : 1;
            const std::map<std::uint32_t, PadPlaces> places =
                board_places(design_, wiring_, {ribbon_, end}, undecided_);
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
        const std::string text =
            plain == plain_name("open")
                ? fmt::format("no conductor of {} stays open in the order that is given", cut_.name)
                : fmt::format("{} carries no '{}'{}", cut_.name, written.text,
                              nearest_names(written.text, known));
        complain(findings, "signal-unknown", text, written.at);
        return std::nullopt;
    }

    /// Names to write instead: of one that several links have, each link's.
    static std::string nearest_names(const std::string& text,
                                     const std::vector<std::string>& known) {
        std::vector<std::string> ends_so;
        for (const std::string& name : known) {
            const std::size_t dot = name.rfind('.');
            if (dot != std::string::npos && plain_name(name.substr(dot + 1)) == plain_name(text)) {
                ends_so.push_back(name);
            }
        }
        if (ends_so.empty()) return did_you_mean(text, known);
        return fmt::format(" of one link alone; say which: {}", fmt::join(ends_so, ", "));
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
