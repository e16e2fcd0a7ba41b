#include "check/single_faults.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "design/promise.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_told = 6;  ///< contacts named in one sentence about a short

class Faults {
public:
    Faults(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {
        for (const Pass& pass : wiring.passes()) {
            if (pass.state != State::good) left_[key_of(pass)] = &pass;
        }
    }

    std::vector<SingleFault> find() {
        tell_dead_links();
        tell_exchanged_lanes();
        tell_swapped_pairs();
        tell_exchanged_singles();
        tell_shorts();
        while (!left_.empty()) tell_alone(*left_.begin()->second);
        return std::move(faults_);
    }

private:
    static PassKey key_of(const Pass& pass) { return {pass.carry, pass.from}; }

    const Interface& near_of(const Pass& pass) const {
        return *design_.interface_of(design_.port(pass.from.port));
    }
    const Signal& signal_of(const Pass& pass) const {
        return near_of(pass).signals[pass.signal];
    }

    /// `D2+ of logger.video.1`
    std::string told(const Pass& pass) const {
        return fmt::format("{} of {}", signal_of(pass).name, name_of(design_, pass.from));
    }
    std::string told(const ContactRef& contact) const {
        const std::string& signal = design_.contact(contact).name;
        return fmt::format("{} ({})", name_of(design_, contact),
                           signal.empty() ? "open" : signal);
    }

    /// The contacts of boards we make that a pass goes through; a ribbon's receptacle rather than
    /// the plug beside it.
    std::vector<ContactRef> board_contacts(const Pass& pass) const {
        std::map<std::size_t, ContactRef> by_board;
        std::vector<std::size_t> order;
        for (const Point point : pass.hops) {
            const auto contact = wiring_.contact_at(point);
            if (!contact || design_.boards[contact->port.board].is_device) continue;
            const auto [found, is_new] = by_board.try_emplace(contact->port.board, *contact);
            if (is_new) order.push_back(contact->port.board);
            if (design_.port(contact->port).ribbon) found->second = *contact;
        }
        std::vector<ContactRef> contacts;
        for (const std::size_t board : order) contacts.push_back(by_board.at(board));
        return contacts;
    }

    SingleFault& add(Severity severity, const char* rule, std::string text,
                     const std::vector<const Pass*>& passes) {
        SingleFault fault;
        const Pass& first = *passes.front();
        const std::vector<ContactRef> boards = board_contacts(first);
        const Mark at =
            boards.empty() ? design_.carries[first.carry].at : design_.contact(boards.front()).at;
        fault.finding = {severity, rule, std::move(text), at, {}, {}, {}};
        for (std::size_t i = 1; i < boards.size(); ++i) {
            fault.finding.notes.push_back(
                {design_.contact(boards[i]).at,
                 fmt::format("it goes on here, on {}", name_of(design_, boards[i]))});
        }
        fault.finding.places.push_back(design_.carries[first.carry].name);
        for (const Pass* pass : passes) {
            fault.finding.places.push_back(signal_of(*pass).name);
            fault.finding.places.push_back(name_of(design_, pass->from));
            fault.passes.push_back(key_of(*pass));
            left_.erase(key_of(*pass));
        }
        faults_.push_back(std::move(fault));
        return faults_.back();
    }

    /// A promise of which nothing arrives is one fault.
    void tell_dead_links() {
        std::map<std::size_t, std::vector<const Pass*>> open;
        std::map<std::size_t, std::size_t> promised;
        for (const Pass& pass : wiring_.passes()) {
            ++promised[pass.carry];
            if (pass.state == State::open) open[pass.carry].push_back(&pass);
        }
        for (const auto& [carry, passes] : open) {
            if (passes.size() < promised[carry] || passes.size() < 2) continue;
            const Point last = passes.front()->hops.back();
            add(Severity::error, "link-open",
                fmt::format("nothing of '{}' arrives: its {} signals end at {}",
                            design_.carries[carry].name, passes.size(),
                            place_without_contact(wiring_.name_of(last, design_))),
                passes);
        }
    }

    static std::string place_without_contact(const std::string& name) {
        return name.substr(0, name.rfind('.'));
    }

    /// The pair a failing half arrives at, if it arrives at the like half of another one.
    std::optional<std::size_t> pair_reached(const Pass& pass) const {
        if (pass.role != Role::pair_half || pass.state != State::wrong || !pass.reached) {
            return std::nullopt;
        }
        const Interface* far = design_.interface_of(design_.port(pass.to.port));
        const Signal* met = design_.signal_of(*pass.reached);
        const Signal* wanted = design_.signal_of(pass.to);
        if (!met || met->role != Role::pair_half || !wanted) return std::nullopt;
        const bool met_plus = far->signals[far->pairs[*met->pair].plus].name == met->name;
        const bool wanted_plus = far->signals[far->pairs[*wanted->pair].plus].name == wanted->name;
        return met_plus == wanted_plus ? met->pair : std::nullopt;
    }

    std::size_t pair_wanted(const Pass& pass) const { return *design_.signal_of(pass.to)->pair; }

    void tell_exchanged_lanes() {
        std::map<std::pair<std::size_t, std::size_t>, std::vector<const Pass*>> by_pair;
        std::map<std::pair<std::size_t, std::size_t>, std::size_t> goes_to;
        for (const auto& [key, pass] : left_) {
            const auto reached = pair_reached(*pass);
            if (!reached) continue;
            by_pair[{pass->carry, pair_wanted(*pass)}].push_back(pass);
            goes_to[{pass->carry, pair_wanted(*pass)}] = *reached;
        }
        for (const auto& [place, other] : goes_to) {
            const std::pair back{place.first, other};
            const auto twin = goes_to.find(back);
            if (twin == goes_to.end() || twin->second != place.second || other <= place.second) {
                continue;
            }
            const std::vector<const Pass*>& one = by_pair[place];
            const std::vector<const Pass*>& two = by_pair[back];
            if (one.size() == 2 && two.size() == 2) tell_lanes(one, two);
        }
    }

    void tell_lanes(const std::vector<const Pass*>& one, const std::vector<const Pass*>& two) {
        const auto pair_name = [&](const Pass& pass) {
            return near_of(pass).pairs[*signal_of(pass).pair].name;
        };
        std::vector<const Pass*> all = one;
        all.insert(all.end(), two.begin(), two.end());
        const std::string first = pair_name(*one.front());
        const std::string second = pair_name(*two.front());
        const std::vector<std::pair<const Pass*, const Pass*>> crossings = crossed(one, two);
        SingleFault& fault = add(
            Severity::error, "lanes-exchanged",
            fmt::format("pairs {} and {} are exchanged: each arrives where the other should",
                        first, second),
            all);
        fault.finding.places.push_back(first);
        fault.finding.places.push_back(second);
        add_exchanges(fault, fmt::format("pairs {} and {}", first, second), crossings);
    }

    /// Each pass with the one whose place it takes.
    static std::vector<std::pair<const Pass*, const Pass*>> crossed(
        const std::vector<const Pass*>& one, const std::vector<const Pass*>& two) {
        std::vector<std::pair<const Pass*, const Pass*>> crossings;
        for (const Pass* pass : one) {
            for (const Pass* other : two) {
                if (pass->reached == other->to) crossings.emplace_back(pass, other);
            }
        }
        return crossings;
    }

    void tell_swapped_pairs() {
        std::vector<const Pass*> swapped;
        for (const auto& [key, pass] : left_) {
            if (pass->state == State::swapped) swapped.push_back(pass);
        }
        for (const Pass* pass : swapped) {
            if (!left_.contains(key_of(*pass))) continue;
            const auto twin = std::ranges::find_if(swapped, [&](const Pass* other) {
                return other != pass && other->carry == pass->carry &&
                       signal_of(*other).pair == signal_of(*pass).pair;
            });
            if (twin == swapped.end()) continue;
            const std::string pair = near_of(*pass).pairs[*signal_of(*pass).pair].name;
            SingleFault& fault =
                add(Severity::error, "pair-swapped",
                    fmt::format("the halves of pair {} are exchanged: {} arrives at {}", pair,
                                told(*pass), told(*pass->reached)),
                    {pass, *twin});
            fault.finding.places.push_back(pair);
            add_exchanges(fault, fmt::format("the halves of {}", pair), {{pass, *twin}});
        }
    }

    /// Two single signals, each on the other's contact.
    void tell_exchanged_singles() {
        std::vector<std::pair<const Pass*, const Pass*>> found;
        for (const auto& [key, pass] : left_) {
            if (pass->state != State::wrong) continue;
            for (const auto& [other_key, other] : left_) {
                const bool exchanged = key < other_key && other->state == State::wrong &&
                                       pass->reached == other->to && other->reached == pass->to;
                if (exchanged) found.emplace_back(pass, other);
            }
        }
        for (const auto& [pass, other] : found) {
            const std::string names =
                fmt::format("{} and {}", signal_of(*pass).name, signal_of(*other).name);
            SingleFault& fault = add(
                Severity::error, "signal-wrong",
                fmt::format("{} are exchanged: each arrives on the other's contact", names),
                {pass, other});
            add_exchanges(fault, names, {{pass, other}});
        }
    }

    /// Exchanging two contacts' copper on one board is a repair to try on every board on the way.
    void add_exchanges(SingleFault& fault, const std::string& what,
                       const std::vector<std::pair<const Pass*, const Pass*>>& crossings) const {
        if (crossings.empty()) return;
        for (const ContactRef& here : board_contacts(*crossings.front().first)) {
            std::vector<std::size_t> order;
            const std::size_t contacts = design_.port(here.port).contacts.size();
            for (std::size_t i = 0; i < contacts; ++i) order.push_back(i);
            for (const auto& [one, other] : crossings) {
                const auto place = contact_on(*one, here.port);
                const auto twin = contact_on(*other, here.port);
                if (place && twin) std::swap(order[*place], order[*twin]);
            }
            const PortRef at = here.port;
            fault.repairs.push_back(
                {fmt::format("exchange {} in the list of {}", what, name_of(design_, at)),
                 [at, order](Design& copy) {
                     rewire(copy.boards[at.board].ports[at.port], order);
                 }});
        }
    }

    std::optional<std::size_t> contact_on(const Pass& pass, PortRef port) const {
        for (const Point point : pass.hops) {
            const auto contact = wiring_.contact_at(point);
            if (contact && contact->port == port) return contact->contact;
        }
        return std::nullopt;
    }

    /// All that one short joins is one fault.
    void tell_shorts() {
        std::map<std::uint32_t, std::vector<const Pass*>> by_piece;
        for (const auto& [key, pass] : left_) {
            if (pass->state != State::shorted) continue;
            by_piece[wiring_.piece_of(wiring_.point_of(pass->from))].push_back(pass);
        }
        for (const auto& [piece, passes] : by_piece) {
            std::vector<std::string> joined;
            for (const ContactRef& contact : wiring_.device_contacts(piece)) {
                if (joined.size() == most_told) break;
                if (told_already(piece, contact)) continue;
                joined.push_back(told(contact));
            }
            const bool more = wiring_.device_contacts(piece).size() > most_told;
            add(Severity::error, "signal-shorted",
                fmt::format("joined, though they are different signals: {}{}",
                            fmt::join(joined, ", "), more ? " and more" : ""),
                passes);
        }
    }

    /// Of several contacts of one port with one signal, the first is enough.
    bool told_already(std::uint32_t piece, const ContactRef& contact) const {
        for (const ContactRef& other : wiring_.device_contacts(piece)) {
            if (other == contact) return false;
            if (other.port == contact.port &&
                design_.contact(other).name == design_.contact(contact).name) {
                return true;
            }
        }
        return false;
    }

    void tell_alone(const Pass& pass) {
        const Signal& signal = signal_of(pass);
        if (pass.state != State::open) {
            add(Severity::error, "signal-wrong",
                fmt::format("{} arrives at {} instead of {}", told(pass), told(*pass.reached),
                            told(pass.to)),
                {&pass});
            return;
        }
        const std::string ends = wiring_.name_of(pass.hops.back(), design_);
        const std::string text = fmt::format("{} does not arrive at {}: its way ends at {}",
                                             told(pass), name_of(design_, pass.to), ends);
        if (signal.optional) {
            add(Severity::note, "optional-open", text, {&pass});
        } else if (is_ground(pass.role)) {
            add(Severity::error, "ground-open", text, {&pass});
        } else {
            add(Severity::error, "signal-open", text, {&pass});
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    std::map<PassKey, const Pass*> left_;
    std::vector<SingleFault> faults_;
};

}  // namespace

std::vector<SingleFault> single_faults(const Design& design, const Wiring& wiring) {
    return Faults(design, wiring).find();
}

}  // namespace pinfold
