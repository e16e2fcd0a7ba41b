#include "check/mate.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "check/edits.hpp"
#include "check/mate_map.hpp"
#include "check/seats.hpp"
#include "design/wiring.hpp"

namespace pinfold {
namespace {

/// Tells the causes of what differs.
class MateFindings {
public:
    MateFindings(const Design& design, const Mating& mating)
        : design_(design), mating_(mating), ports_(mated_ports(design)) {}

    /// The order first; what is wrong besides is told as if the order were right.
    Findings find() {
        const std::size_t wrong = differing(mating_.contacts);
        if (wrong == 0) return {};
        if (!explain(in_other_order(), wrong, &MateFindings::add_order)) {
            const std::size_t last = design_.port(ports_.second).contacts.size() - 1;
            for (const int shift : {1, -1}) {
                if (!explain(moved(shift), wrong, &MateFindings::add_shift)) continue;
                vacated_ = shift > 0 ? 0 : last;
                break;
            }
        }
        add_each();
        return std::move(findings_);
    }

private:
    using Tell = void (MateFindings::*)(std::size_t);

    /// Tells what a change would undo if it leaves at most a third of what is wrong.
    bool explain(Design undone, std::size_t wrong, Tell tell) {
        Mating after = mating_of(undone);
        const std::size_t left = differing(after.contacts);
        if (left * 3 > wrong) return false;
        (this->*tell)(left);
        design_ = std::move(undone);
        mating_ = std::move(after);
        return true;
    }

    Design in_other_order() const {
        Design copy = design_;
        Ribbon& ribbon = copy.ribbons.front();
        ribbon.lay.reset();
        ribbon.turned_socket = !ribbon.turned_socket;
        ribbon.copper =
            ribbon.copper == Copper::same_side ? Copper::opposite_side : Copper::same_side;
        return copy;
    }

    Design moved(int shift) const {
        Design copy = design_;
        Port& port = copy.boards[ports_.second.board].ports[ports_.second.port];
        rewire(port, shifted_order(port.contacts.size(), shift));
        return copy;
    }

    std::string name_a() const { return name_of(design_, ports_.first); }
    std::string name_b() const { return name_of(design_, ports_.second); }

    void add(const char* rule, std::string text, const Mark& at, std::vector<Note> notes,
             std::vector<std::string> repairs) {
        findings_.push_back({Severity::error,
                             rule,
                             std::move(text),
                             at,
                             std::move(notes),
                             {name_a(), name_b()},
                             std::move(repairs)});
    }

    std::vector<Note> second_port(const char* text) const {
        return {{design_.port(ports_.second).at, text}};
    }

    /// Single changes after which both ends touch and no more than `left` contacts differ.
    std::vector<std::string> repairs(std::size_t left) const {
        std::vector<std::string> good;
        for (const Edit& edit : ribbon_edits(design_, 0, ribbon_ends(design_).front())) {
            const Mating after = mating_of(edited(design_, edit));
            const bool sure = after.touch_a && after.touch_b && after.order != Order::either;
            if (sure && differing(after.contacts) <= left) good.push_back(edit.text);
        }
        return good;
    }

    void add_order(std::size_t left) {
        add("order-mirrored",
            fmt::format("with this ribbon the contacts of {} and {} meet in {} order, but their "
                        "lists agree in the other one",
                        name_a(), name_b(), pinfold::name_of(mating_.order)),
            design_.port(ports_.first).at, second_port("the other list is here"), repairs(left));
    }

    void add_shift(std::size_t left) {
        add("order-shifted",
            fmt::format("the lists of {} and {} are one contact apart", name_a(), name_b()),
            design_.port(ports_.first).at, second_port("the other list is here"), repairs(left));
    }

    void add_each() {
        for (std::size_t i = 0; i < mating_.contacts.size(); ++i) {
            const MateContact& contact = mating_.contacts[i];
            if (contact.same || told_as_pair(i)) continue;
            if (contact.b && contact.b->contact == vacated_) continue;
            if (const auto twin = exchanged_with(i)) {
                add_swapped(contact, mating_.contacts[*twin]);
            } else {
                add_wrong(contact);
            }
        }
    }

    /// The contact whose signals are this one's the other way round.
    std::optional<std::size_t> exchanged_with(std::size_t i) const {
        const MateContact& contact = mating_.contacts[i];
        for (std::size_t k = 0; k < mating_.contacts.size(); ++k) {
            const MateContact& other = mating_.contacts[k];
            if (k == i || other.same || !contact.a || !contact.b || !other.a || !other.b) continue;
            const bool open = contact.signal_a.empty() || contact.signal_b.empty() ||
                              other.signal_a.empty() || other.signal_b.empty();
            if (open) continue;
            if (means_same(design_, *contact.a, *other.b) &&
                means_same(design_, *other.a, *contact.b)) {
                return k;
            }
        }
        return std::nullopt;
    }

    bool told_as_pair(std::size_t i) const {
        const auto twin = exchanged_with(i);
        return twin && *twin < i;
    }

    bool is_one_pair(const ContactRef& one, const ContactRef& other) const {
        const Net* first = net_at(design_, one);
        const Net* second = net_at(design_, other);
        if (!first || !second || !first->signal || !second->signal ||
            first->interface != second->interface) {
            return false;
        }
        const Interface& interface = design_.interfaces.at(first->interface);
        const Signal& half = interface.signals[*first->signal];
        return half.role == Role::pair_half && half.pair == interface.signals[*second->signal].pair;
    }

    void add_swapped(const MateContact& one, const MateContact& other) {
        const bool halves = is_one_pair(*one.a, *other.a);
        add(halves ? "pair-swapped" : "signal-wrong",
            fmt::format("{} and {} are exchanged between contacts {} and {} of {} and contacts "
                        "{} and {} of {}",
                        one.signal_a, other.signal_a, one.a->contact + 1, other.a->contact + 1,
                        name_a(), one.b->contact + 1, other.b->contact + 1, name_b()),
            design_.contact(*one.a).at, {{design_.contact(*one.b).at, "the other board's list"}},
            exchange_repairs(one, other));
    }

    std::vector<std::string> exchange_repairs(const MateContact& one,
                                              const MateContact& other) const {
        std::vector<std::string> good;
        for (const bool first : {true, false}) {
            const PortRef at = first ? ports_.first : ports_.second;
            const std::size_t place = (first ? one.a : one.b)->contact;
            const std::size_t twin = (first ? other.a : other.b)->contact;
            Design copy = design_;
            Port& port = copy.boards[at.board].ports[at.port];
            std::swap(port.contacts[place].net, port.contacts[twin].net);
            const std::size_t left = differing(mating_of(copy).contacts);
            if (left + 2 == differing(mating_.contacts)) {
                good.push_back(fmt::format("exchange {} and {} in the list of {}", one.signal_a,
                                           other.signal_a, name_of(design_, at)));
            }
        }
        return good;
    }

    void add_wrong(const MateContact& contact) {
        const auto told = [&](const std::optional<ContactRef>& place, const std::string& signal) {
            return place ? fmt::format("{} ({})", name_of(design_, *place),
                                       signal.empty() ? "open" : signal)
                         : std::string("no contact");
        };
        const ContactRef& mark = contact.a ? *contact.a : *contact.b;
        std::vector<Note> notes;
        if (contact.a && contact.b) {
            notes.push_back({design_.contact(*contact.b).at, "the other board's list"});
        }
        const bool open = contact.signal_a.empty() || contact.signal_b.empty();
        add(open ? "signal-open" : "signal-wrong",
            fmt::format("{} meets {}", told(contact.a, contact.signal_a),
                        told(contact.b, contact.signal_b)),
            design_.contact(mark).at, std::move(notes), {});
    }

    Design design_;  ///< with what has been told already undone
    Mating mating_;
    std::pair<PortRef, PortRef> ports_;
    std::optional<std::size_t> vacated_;  ///< contact of B whose entry fell off a list moved by one
    Findings findings_;
};

/// Boards that agree on nothing but open contacts and grounds mate no more than two blank ones.
std::optional<Finding> carries_nothing(const Design& design, const Mating& mating) {
    const bool any = std::ranges::any_of(mating.contacts, [&](const MateContact& contact) {
        if (!contact.same || !contact.a) return false;
        const Net* net = net_at(design, *contact.a);
        return net && !net->ground;
    });
    if (any || mating.contacts.empty() || differing(mating.contacts) > 0) return std::nullopt;
    return Finding{Severity::error,
                   "promise-empty",
                   "no signal runs from one board to the other: all contacts are open or ground",
                   design.ribbons.front().at,
                   {},
                   {design.ribbons.front().name},
                   {}};
}

/// A supply that both ends give must not be joined, however well the lists agree.
std::optional<Finding> joins_supplies(const Design& design, const Mating& mating) {
    for (const MateContact& contact : mating.contacts) {
        const Net* net = contact.a && contact.b ? net_at(design, *contact.a) : nullptr;
        if (!net || !net->signal || !net_at(design, *contact.b)) continue;
        const Signal& signal = design.interfaces.at(net->interface).signals[*net->signal];
        if (signal.direction != Direction::outward) continue;
        return Finding{Severity::error,
                       "supplies-joined",
                       fmt::format("{} is given by both ends and must not be carried", signal.name),
                       design.contact(*contact.a).at,
                       {{design.contact(*contact.b).at, "the other board's list"}},
                       {name_of(design, *contact.a)},
                       {}};
    }
    return std::nullopt;
}

}  // namespace

Mating mate(const Design& design) {
    const Wiring wiring = trace(design);
    Mating mating = mating_of(design);
    mating.findings = check_fits(design, wiring);
    Findings touch = check_touch(design, wiring);
    std::ranges::move(touch, std::back_inserter(mating.findings));
    // In a receptacle that is too wide nobody knows which contact a conductor meets.
    const bool settled = std::ranges::find(mating.findings, "positions-misfit", &Finding::rule) ==
                         mating.findings.end();
    if (settled && !mating.contacts.empty()) {
        Findings wrong = MateFindings(design, mating).find();
        std::ranges::move(wrong, std::back_inserter(mating.findings));
    }
    if (const auto nothing = carries_nothing(design, mating)) mating.findings.push_back(*nothing);
    if (const auto fed = joins_supplies(design, mating)) mating.findings.push_back(*fed);
    mating.mates = mating.mates && !has_errors(mating.findings);
    sort_by_severity(mating.findings);
    return mating;
}

}  // namespace pinfold
