#include "design/budget_origins.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

class OriginResolver {
public:
    OriginResolver(Budget& budget, ReaderDesk& desk) : budget_(budget), desk_(desk) {
        for (std::size_t i = 0; i < budget.batteries.size(); ++i) {
            givers_[budget.batteries[i].name] = {PowerOrigin::Kind::battery, i, {}};
        }
        for (std::size_t i = 0; i < budget.stages.size(); ++i) {
            givers_[budget.stages[i].name] = {PowerOrigin::Kind::stage, i, {}};
        }
        for (std::size_t c = 0; c < desk.design.carries.size(); ++c) {
            const Carry& carry = desk.design.carries[c];
            if (!carry.supply.empty()) promises_[carry.to].push_back(c);
        }
    }

    bool resolve(const WrittenOrigins& written) {
        for (std::size_t i = 0; i < budget_.stages.size(); ++i) {
            Stage& stage = budget_.stages[i];
            resolve(stage.name, written.of_stages[i], stage.from);
        }
        for (std::size_t i = 0; i < budget_.loads.size(); ++i) {
            BudgetLoad& load = budget_.loads[i];
            resolve(load.name, written.of_loads[i], load.from);
        }
        if (is_sound_) put_in_order();
        return is_sound_;
    }

private:
    void fault(const char* rule, std::string text, const Mark& at, std::vector<Note> notes = {}) {
        is_sound_ = false;
        complain(desk_.findings, rule, std::move(text), at, std::move(notes));
    }

    void resolve(const std::string& name, const WrittenOrigin& written, PowerOrigin& origin) {
        const auto giver = givers_.find(written.from);
        if (giver == givers_.end()) {
            refuse(written);
            return;
        }
        origin = giver->second;
        if (!written.port) return;
        origin.carry = promise_to(*written.port, written);
        if (origin.carry) require_one_home(name, written, *origin.carry);
    }

    void refuse(const WrittenOrigin& written) {
        const bool is_load = std::ranges::find(budget_.loads, written.from, &BudgetLoad::name) !=
                             budget_.loads.end();
        std::vector<std::string> known;
        for (const auto& [name, giver] : givers_) known.push_back(name);
        fault("budget-from",
              is_load ? fmt::format("'{}' is a load and gives no power", written.from)
                      : fmt::format("this budget has no battery or stage '{}'{}", written.from,
                                    did_you_mean(written.from, known)),
              written.from_at);
    }

    /// The promise of a supply that arrives at a port; the one of the supply named, if any is.
    std::optional<std::size_t> promise_to(PortRef port, const WrittenOrigin& written) {
        const Interface* here = desk_.design.interface_of(desk_.design.port(port));
        std::vector<std::size_t> fit;
        for (const std::size_t c : promises_[port]) {
            const std::string& supply = desk_.design.carries[c].supply;
            const bool is_named = here && here->find(written.supply) == here->find(supply);
            if (written.supply.empty() || is_named) fit.push_back(c);
        }
        if (fit.size() == 1) return fit.front();
        const std::string name = name_of(desk_.design, port);
        const std::string what =
            written.supply.empty() ? "a supply" : fmt::format("'{}'", written.supply);
        fault("budget-at",
              fit.empty()
                  ? fmt::format("no promise brings {} to {}; make one in 'carry'", what, name)
                  : fmt::format("{} promises bring {} to {}; say which in 'supply', or promise it "
                                "once",
                                fit.size(), what, name),
              written.carry_at);
        return std::nullopt;
    }

    /// One fact stands in one place: load and voltage of a promise that the budget speaks of are
    /// the budget's, and one battery or stage gives a port its supply.
    void require_one_home(const std::string& name, const WrittenOrigin& written, std::size_t c) {
        const Carry& carry = desk_.design.carries[c];
        const char* const twice = carry.current   ? "current"
                                  : carry.power   ? "power"
                                  : carry.voltage ? "voltage"
                                                  : nullptr;
        if (twice) {
            fault("budget-twice",
                  fmt::format("'{}' takes its power over the promise '{}', which states a '{}' of "
                              "its own; leave that to the budget",
                              name, carry.name, twice),
                  written.carry_at, {{carry.at, "the promise is here"}});
        }
        const auto [first, is_new] =
            given_.try_emplace(std::tuple{carry.from, carry.supply}, written.from);
        if (is_new || first->second == written.from) return;
        fault("budget-giver",
              fmt::format("{} of {} is given by '{}' already, not by '{}'", carry.supply,
                          name_of(desk_.design, carry.from), first->second, written.from),
              written.from_at);
    }

    /// Each stage after the one it takes its power from; complains of those in a ring.
    void put_in_order() {
        const std::size_t count = budget_.stages.size();
        std::vector<std::vector<std::size_t>> fed(count);
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < count; ++i) {
            const PowerOrigin& from = budget_.stages[i].from;
            if (from.kind == PowerOrigin::Kind::stage) {
                fed[from.place].push_back(i);
            } else {
                order.push_back(i);
            }
        }
        for (std::size_t i = 0; i < order.size(); ++i) {
            order.insert(order.end(), fed[order[i]].begin(), fed[order[i]].end());
        }
        if (order.size() == count) {
            reorder(order);
        } else {
            refuse_ring(order);
        }
    }

    void refuse_ring(const std::vector<std::size_t>& order) {
        std::vector<bool> reached(budget_.stages.size(), false);
        for (const std::size_t i : order) reached[i] = true;
        const auto ring =
            static_cast<std::size_t>(std::ranges::find(reached, false) - reached.begin());
        fault("budget-ring",
              fmt::format("no battery stands behind '{}': its stages take their power from each "
                          "other",
                          budget_.stages[ring].name),
              budget_.stages[ring].at);
    }

    void reorder(const std::vector<std::size_t>& order) {
        std::vector<Stage> sorted;
        std::vector<std::size_t> place(order.size());
        for (const std::size_t i : order) {
            place[i] = sorted.size();
            sorted.push_back(std::move(budget_.stages[i]));
        }
        const auto renumber = [&](PowerOrigin& from) {
            if (from.kind == PowerOrigin::Kind::stage) from.place = place[from.place];
        };
        for (Stage& stage : sorted) renumber(stage.from);
        for (BudgetLoad& load : budget_.loads) renumber(load.from);
        budget_.stages = std::move(sorted);
    }

    Budget& budget_;
    ReaderDesk& desk_;
    bool is_sound_ = true;
    std::map<std::string, PowerOrigin> givers_;
    std::map<PortRef, std::vector<std::size_t>> promises_;  ///< of supplies, by far port
    std::map<std::tuple<PortRef, std::string>, std::string> given_;
};

}  // namespace

bool resolve_origins(Budget& budget, const WrittenOrigins& written, ReaderDesk& desk) {
    return OriginResolver(budget, desk).resolve(written);
}

}  // namespace pinfold
