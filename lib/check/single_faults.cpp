#include "check/single_faults.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "design/promise.hpp"

namespace pinfold {
namespace {

constexpr std::size_t most_contacts_told = 6;  ///< contacts named in one sentence about a short

class Faults {
public:
    Faults(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {
        for (const Pass& pass : wiring.passes()) {
            if (pass.state != State::good) left_[key_of(pass)] = &pass;
        }
    }

    std::vector<SingleFault> find() {
        tell_dead_links();
        tell_uncrossed();
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
    const Signal& signal_of(const Pass& pass) const { return near_of(pass).signals[pass.signal]; }

    /// `D2+ of logger.video.1`
    std::string told(const Pass& pass) const {
        return fmt::format("{} of {}", signal_of(pass).name, name_of(design_, pass.from));
    }
    std::string told(const ContactRef& contact) const {
        const std::string& signal = design_.contact(contact).name;
        return fmt::format("{} ({})", name_of(design_, contact), signal.empty() ? "open" : signal);
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

    /// Transmit at transmit and receive at receive, where the interface wants them crossed.
    void tell_uncrossed() {
        std::map<std::size_t, std::vector<const Pass*>> by_carry;
        for (const auto& [key, pass] : left_) {
            if (is_uncrossed(*pass)) by_carry[pass->carry].push_back(pass);
        }
        for (const auto& [carry, passes] : by_carry) {
            if (passes.size() < 2) continue;
            const Carry& promise = design_.carries[carry];
            SingleFault& fault =
                add(Severity::error, "counterpart-uncrossed",
                    fmt::format("{} and {} are joined name to name, but {} wants transmit to meet "
                                "receive",
                                name_of(design_, promise.from), name_of(design_, promise.to),
                                near_of(*passes.front()).name),
                    passes);
            add_exchanges(fault, "transmit and receive", passes);
        }
    }

    bool is_uncrossed(const Pass& pass) const {
        if (pass.state != State::wrong || !pass.reached) return false;
        const Signal* met = design_.signal_of(*pass.reached);
        return near_of(pass).counterpart[pass.signal] != pass.signal && met &&
               met->name == signal_of(pass).name;
    }

    /// The pair whose halves a failing half arrives at, if it is another than the one it should.
    std::optional<std::size_t> pair_reached(const Pass& pass) const {
        if (pass.role != Role::pair_half || pass.state != State::wrong || !pass.reached) {
            return std::nullopt;
        }
        const Signal* met = design_.signal_of(*pass.reached);
        const Signal* wanted = design_.signal_of(pass.to);
        if (!met || met->role != Role::pair_half || !wanted || met->pair == wanted->pair) {
            return std::nullopt;
        }
        return met->pair;
    }

    std::size_t pair_wanted(const Pass& pass) const { return *design_.signal_of(pass.to)->pair; }

    bool is_plus(const ContactRef& half) const {
        const Interface* interface = design_.interface_of(design_.port(half.port));
        const Signal& signal = *design_.signal_of(half);
        return interface->signals[interface->pairs[*signal.pair].plus].name == signal.name;
    }

    /// Pairs that go round: each arrives whole where the next one should, the last at the first.
    void tell_exchanged_lanes() {
        std::map<std::pair<std::size_t, std::size_t>, std::vector<const Pass*>> by_pair;
        for (const auto& [key, pass] : left_) {
            if (pair_reached(*pass)) by_pair[{pass->carry, pair_wanted(*pass)}].push_back(pass);
        }
        std::erase_if(by_pair, [&](const auto& entry) {
            const std::vector<const Pass*>& halves = entry.second;
            return halves.size() != 2 || pair_reached(*halves[0]) != pair_reached(*halves[1]);
        });
        while (!by_pair.empty()) {
            std::vector<const Pass*> round;
            const auto start = by_pair.begin()->first;
            auto at = by_pair.begin();
            do {
                round.insert(round.end(), at->second.begin(), at->second.end());
                const std::pair next{start.first, *pair_reached(*at->second.front())};
                by_pair.erase(at);
                at = by_pair.find(next);
            } while (at != by_pair.end());
            if (*pair_reached(*round.back()) == start.second && round.size() > 2) tell_lanes(round);
        }
    }

    void tell_lanes(const std::vector<const Pass*>& round) {
        std::vector<std::string> names;
        std::vector<std::string> turned;
        for (std::size_t i = 0; i < round.size(); i += 2) {
            const Pass& half = *round[i];
            names.push_back(near_of(half).pairs[*signal_of(half).pair].name);
            if (is_plus(*half.reached) != is_plus(half.to)) turned.push_back(names.back());
        }
        std::string text =
            names.size() == 2
                ? fmt::format("pairs {} and {} are exchanged: each arrives where the other should",
                              names[0], names[1])
                : fmt::format("pairs {} have changed places: each arrives where the next should",
                              fmt::join(names, ", "));
        if (!turned.empty()) {
            text += fmt::format("; {} with its halves exchanged too", fmt::join(turned, " and "));
        }
        SingleFault& fault = add(Severity::error, "lanes-exchanged", std::move(text), round);
        fault.finding.places.insert(fault.finding.places.end(), names.begin(), names.end());
        add_exchanges(fault, fmt::format("pairs {}", fmt::join(names, " and ")), round);
    }

    void tell_swapped_pairs() {
        std::vector<const Pass*> swapped;
        for (const auto& [key, pass] : left_) {
            if (pass->state == State::swapped) swapped.push_back(pass);
        }
        for (const Pass* pass : swapped) {
            if (!left_.contains(key_of(*pass))) continue;
            const auto last = std::ranges::upper_bound(swapped, pass->carry, {}, &Pass::carry);
            const auto twin = std::find_if(
                std::ranges::lower_bound(swapped, pass->carry, {}, &Pass::carry), last,
                [&](const Pass* other) {
                    return other != pass && signal_of(*other).pair == signal_of(*pass).pair;
                });
            if (twin == last) continue;
            const std::string pair = near_of(*pass).pairs[*signal_of(*pass).pair].name;
            SingleFault& fault =
                add(Severity::error, "pair-swapped",
                    fmt::format("the halves of pair {} are exchanged: {} arrives at {}", pair,
                                told(*pass), told(*pass->reached)),
                    {pass, *twin});
            fault.finding.places.push_back(pair);
            add_exchanges(fault, fmt::format("the halves of {}", pair), {pass, *twin});
        }
    }

    /// Single signals that go round: each on the next one's contact, the last on the first's.
    void tell_exchanged_singles() {
        std::map<ContactRef, const Pass*> by_goal;
        for (const auto& [key, pass] : left_) {
            if (pass->state == State::wrong && pass->reached) by_goal.try_emplace(pass->to, pass);
        }
        while (!by_goal.empty()) {
            std::vector<const Pass*> round;
            auto at = by_goal.begin();
            do {
                round.push_back(at->second);
                by_goal.erase(at);
                at = by_goal.find(*round.back()->reached);
            } while (at != by_goal.end());
            if (*round.back()->reached == round.front()->to) tell_singles(round);
        }
    }

    void tell_singles(const std::vector<const Pass*>& round) {
        std::vector<std::string> names;
        for (const Pass* pass : round) names.push_back(signal_of(*pass).name);
        const std::string text =
            names.size() == 2
                ? fmt::format("{} and {} are exchanged: each arrives on the other's contact",
                              names[0], names[1])
                : fmt::format("{} have changed places: each arrives on the next one's contact",
                              fmt::join(names, ", "));
        SingleFault& fault = add(Severity::error, "signal-wrong", text, round);
        add_exchanges(fault, fmt::format("{}", fmt::join(names, " and ")), round);
    }

    /// Exchanging contacts' copper on one board is a repair to try on every board on the way.
    void add_exchanges(SingleFault& fault, const std::string& what,
                       const std::vector<const Pass*>& passes) const {
        for (const ContactRef& here : board_contacts(*passes.front())) {
            std::vector<Edit> edits = exchange_edits(design_, wiring_, here.port, passes, what);
            std::ranges::move(edits, std::back_inserter(fault.repairs));
        }
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
                if (joined.size() > most_contacts_told) break;
                if (told_already(piece, contact)) continue;
                joined.push_back(told(contact));
            }
            const bool more = joined.size() > most_contacts_told;
            if (more) joined.pop_back();
            SingleFault& fault = add(Severity::error, "signal-shorted",
                                     fmt::format("joined, though they are different signals: {}{}",
                                                 fmt::join(joined, ", "), more ? " and more" : ""),
                                     passes);
            const auto signal = std::ranges::find_if(
                passes, [](const Pass* pass) { return !is_ground(pass->role); });
            if (signal != passes.end()) add_any_exchange(fault, **signal);
        }
    }

    /// Two entries of a list may have changed places; a connector wired by its pin table has none.
    void add_any_exchange(SingleFault& fault, const Pass& pass) const {
        for (const Point point : pass.hops) {
            const auto contact = wiring_.contact_at(point);
            if (!contact || design_.boards[contact->port.board].is_device) continue;
            if (design_.port(contact->port).by_table) continue;
            std::vector<Edit> edits = exchanges_of(design_, *contact);
            std::ranges::move(edits, std::back_inserter(fault.repairs));
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
            SingleFault& fault = add(Severity::error, "signal-wrong",
                                     fmt::format("{} arrives at {} instead of {}", told(pass),
                                                 told(*pass.reached), told(pass.to)),
                                     {&pass});
            add_any_exchange(fault, pass);
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
