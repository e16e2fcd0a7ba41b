#include "check/feed_loads.hpp"

#include <fmt/format.h>

#include <map>
#include <set>
#include <tuple>

#include "design/promise.hpp"

namespace pinfold {
namespace {

class LoadGatherer {
public:
    LoadGatherer(const Design& design, const Wiring& wiring)
        : design_(design), wiring_(wiring), origins_(design.budget.origins()) {
        for (const Carry& carry : design.carries) {
            const Interface* near = design.interface_of(design.port(carry.from));
            if (carry.supply.empty() || !near) continue;
            if (const auto supply = near->find(carry.supply)) {
                promised_apart_.insert({carry.from, carry.to, *supply});
            }
        }
    }

    FeedLoads gather() {
        std::vector<const Pass*> grounds(design_.carries.size(), nullptr);
        std::vector<bool> promised(design_.carries.size(), false);
        for (const Pass& pass : wiring_.passes()) {
            if (!is_ground(pass.role)) continue;
            promised[pass.carry] = true;
            const bool arrives = pass.state == State::good;
            if (arrives && !grounds[pass.carry]) grounds[pass.carry] = &pass;
        }
        std::set<std::pair<std::size_t, std::size_t>> done;
        for (const Pass& pass : wiring_.passes()) {
            if (pass.role != Role::supply || pass.state != State::good) continue;
            if (!done.insert({pass.carry, pass.signal}).second) continue;
            if (is_promised_apart(pass)) continue;
            if (!promised[pass.carry]) {
                add_remark(Severity::error, "return-missing", pass,
                           "has no promised ground to return through");
            }
            if (!grounds[pass.carry]) continue;  // that it does not arrive is told already
            add_load(pass, *grounds[pass.carry]);
        }
        return std::move(loads_);
    }

private:
    const Signal& signal_of(const Pass& pass) const {
        return design_.interface_of(design_.port(pass.from.port))->signals[pass.signal];
    }

    void add_remark(Severity severity, const char* rule, const Pass& pass, const char* text) {
        const Carry& carry = design_.carries[pass.carry];
        const std::string& supply = signal_of(pass).name;
        loads_.remarks.push_back({severity,
                                  rule,
                                  fmt::format("{} of '{}' {}", supply, carry.name, text),
                                  carry.at,
                                  {},
                                  {carry.name, supply},
                                  {}});
    }

    /// Whether another promise speaks of this supply alone, with figures of its own.
    bool is_promised_apart(const Pass& pass) const {
        const Carry& carry = design_.carries[pass.carry];
        if (!carry.supply.empty()) return false;
        return promised_apart_.contains({carry.from, carry.to, pass.signal});
    }

    void add_load(const Pass& pass, const Pass& ground) {
        const Carry& carry = design_.carries[pass.carry];
        const Supply* window =
            design_.interface_of(design_.port(carry.from))->supply_of(pass.signal);
        FeedLoad load = between(pass, ground);
        load.in_budget = origins_.contains(pass.carry);
        load.power = carry.power;
        load.current = carry.current;
        if (!load.current && !load.power && window) load.current = window->current;
        set_window(load, carry, window);
        if (!load.in_budget && !is_known(load, pass)) return;
        loads_.loads.push_back(std::move(load));
    }

    /// Tells what is missing; false if the load cannot be solved for it.
    bool is_known(const FeedLoad& load, const Pass& pass) {
        if (!load.current && !load.power) {
            add_remark(Severity::note, "current-missing", pass,
                       "has no stated current, so load and drop were not checked; give 'current'");
            return false;
        }
        if (!load.given && load.power) {
            add_remark(Severity::note, "voltage-missing", pass,
                       "feeds a converter, whose current follows from the voltage, and nobody "
                       "states one; give 'voltage' and 'least'");
            return false;
        }
        if (!load.given || !load.least) {
            add_remark(Severity::note, "voltage-missing", pass,
                       "has no stated window, so its drop was not judged; give 'voltage' and "
                       "'least'");
        }
        return true;
    }

    FeedLoad between(const Pass& pass, const Pass& ground) const {
        const bool forward = !design_.carries[pass.carry].supply.empty() ||
                             signal_of(pass).direction != Direction::back;
        FeedLoad load;
        load.carry = pass.carry;
        load.supply = signal_of(pass).name;
        load.giver = wiring_.point_of(pass.from);
        load.taker = wiring_.point_of(*pass.reached);
        load.giver_ground = wiring_.point_of(ground.from);
        load.taker_ground = wiring_.point_of(*ground.reached);
        if (!forward) {
            std::swap(load.giver, load.taker);
            std::swap(load.giver_ground, load.taker_ground);
        }
        return load;
    }

    static void set_window(FeedLoad& load, const Carry& carry, const Supply* window) {
        load.given =
            carry.voltage ? carry.voltage : (window ? window->least_at_source : std::nullopt);
        load.least = carry.least ? carry.least : (window ? window->least_at_sink : std::nullopt);
        if (window && !carry.least) load.window_source = window->source;
        if (window && (carry.voltage || load.in_budget)) load.most = window->most_at_sink;
    }

    const Design& design_;
    const Wiring& wiring_;
    std::map<std::size_t, PowerOrigin> origins_;
    /// From, to and signal of the promises of a supply alone.
    std::set<std::tuple<PortRef, PortRef, std::size_t>> promised_apart_;
    FeedLoads loads_;
};

}  // namespace

FeedLoads gather_feed_loads(const Design& design, const Wiring& wiring) {
    return LoadGatherer(design, wiring).gather();
}

}  // namespace pinfold
