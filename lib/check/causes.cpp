#include "check/causes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "check/hypothesis.hpp"
#include "check/ribbon_order.hpp"
#include "check/single_faults.hpp"
#include "design/promise.hpp"

namespace pinfold {
namespace {

/// With fewer trials than this a design is judged signal by signal.
constexpr std::size_t least_trials = 200;

std::set<PassKey> without(const std::set<PassKey>& all, const std::set<PassKey>& taken) {
    std::set<PassKey> rest;
    std::ranges::set_difference(all, taken, std::inserter(rest, rest.end()));
    return rest;
}

/// Errors in the order of the conductors: a repair that splits a pair is none.
std::ptrdiff_t order_errors(const Design& design, const Wiring& wiring) {
    std::ptrdiff_t count = 0;
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        count += std::ranges::count(check_ribbon_order(design, wiring, r), Severity::error,
                                    &Finding::severity);
    }
    return count;
}

bool touches_everywhere(const Design& design, const Wiring& wiring) {
    for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
        const std::optional<Seating>& seating = wiring.seating_of(r);
        if (seating && !seating->touch_b) return false;
    }
    return true;
}

class CauseFinder {
public:
    CauseFinder(const Design& design, const Wiring& wiring)
        : design_(design),
          wiring_(wiring),
          failing_(failing(wiring)),
          trials_left_(worthwhile_trials(design)) {}

    Findings find() {
        lift_misfits();
        if (trials_left_ >= least_trials) {
            while (!failing_.empty() && explain_by_hypothesis()) {
            }
        }
        explain_singly();
        return std::move(findings_);
    }

private:
    /// A ribbon that does not touch or is too narrow is told elsewhere; what it would do if it did
    /// touch and fit is told here.
    void lift_misfits() {
        const bool away = !touches_everywhere(design_, wiring_);
        bool lifted = away;
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) {
            Ribbon& ribbon = design_.ribbons[r];
            const RibbonEnds& ends = wiring_.ends_of(r);
            if (away) ribbon.lay.reset();
            if (!ends.a || !ends.b) continue;
            const auto room =
                static_cast<int>(std::min(contacts_at(*ends.a), contacts_at(*ends.b)));
            lifted = lifted || room > ribbon.conductors;
            ribbon.conductors = std::max(ribbon.conductors, room);
        }
        if (lifted) retrace();
    }

    std::size_t contacts_at(std::size_t seat) const {
        return design_.port(design_.seats[seat].port).contacts.size();
    }

    void retrace() {
        wiring_ = trace(design_);
        failing_ = failing(wiring_);
    }

    bool may_try() { return trials_left_ > 0 && trials_left_-- > 0; }

    /// What still fails after a change.
    std::set<PassKey> left_by(const Edit& edit) {
        if (!may_try()) return failing_;
        return failing(trace(edited(design_, edit)));
    }

    /// Finds the guess that leaves least failing, tells it, and goes on as if it had been undone.
    ///
    /// A signal that arrives by accident of two faults, such as a half of a swapped pair in a list
    /// one place off, may fail once one of them is undone: it is told with the other one.
    bool explain_by_hypothesis() {
        std::vector<Hypothesis> guesses = hypotheses(design_, wiring_);
        const Hypothesis* best = nullptr;
        std::set<PassKey> left = failing_;
        for (const Hypothesis& guess : guesses) {
            std::set<PassKey> now = left_by(guess.undo);
            if (now.size() >= left.size()) continue;
            best = &guess;
            left = std::move(now);
        }
        const std::size_t enough = std::max<std::size_t>(3, failing_.size() / 2);
        if (!best || failing_.size() - left.size() < enough) return false;

        Finding finding = best->finding;
        finding.repairs = mending(best->repairs, left).repairs;
        findings_.push_back(std::move(finding));
        design_ = edited(design_, best->undo);
        retrace();
        return true;
    }

    struct Mending {
        std::vector<std::string> repairs;
        std::set<PassKey> mended;  ///< by one of them or another
    };

    /// The changes after which nothing fails that is not `left`, and which split no pair.
    Mending mending(const std::vector<Edit>& edits, const std::set<PassKey>& left) {
        Mending good;
        if (edits.empty() || trials_left_ == 0) return good;
        const std::ptrdiff_t errors = order_errors(design_, wiring_);
        for (const Edit& edit : edits) {
            if (!may_try()) break;
            const Design copy = edited(design_, edit);
            const Wiring traced = trace(copy);
            const std::set<PassKey> still = failing(traced);
            if (!std::ranges::includes(left, still)) continue;
            if (!touches_everywhere(copy, traced) || order_errors(copy, traced) > errors) continue;
            good.repairs.push_back(edit.text);
            good.mended.merge(without(failing_, still));
        }
        return good;
    }

    struct Mended {
        SingleFault fault;
        std::set<PassKey> broken, mended;
        bool explains(const Mended& other) const {
            return std::ranges::includes(mended, other.broken);
        }
    };

    void explain_singly() {
        if (failing_.empty()) return;
        std::vector<Mended> faults;
        for (SingleFault& fault : single_faults(design_, wiring_)) {
            Mended& here = faults.emplace_back();
            here.broken = {fault.passes.begin(), fault.passes.end()};
            here.fault = std::move(fault);
            if (here.fault.repairs.empty() || trials_left_ == 0) continue;
            Mending found = mending(here.fault.repairs, without(failing_, here.broken));
            here.fault.finding.repairs = std::move(found.repairs);
            here.mended = std::move(found.mended);
        }
        std::vector<std::size_t> menders;
        for (std::size_t i = 0; i < faults.size(); ++i) {
            if (!faults[i].mended.empty()) menders.push_back(i);
        }
        for (std::size_t i = 0; i < faults.size(); ++i) {
            if (!is_told_by_another(faults, menders, i)) {
                findings_.push_back(std::move(faults[i].fault.finding));
            }
        }
    }

    /// A fault that the repair of another one mends has the same cause and is not told again; of
    /// two that mend each other the first is told.
    static bool is_told_by_another(const std::vector<Mended>& faults,
                                   const std::vector<std::size_t>& menders, std::size_t i) {
        for (const std::size_t k : menders) {
            const bool told = k != i && faults[k].explains(faults[i]);
            if (told && (k < i || !faults[i].explains(faults[k]))) return true;
        }
        return false;
    }

    Design design_;
    Wiring wiring_;
    std::set<PassKey> failing_;
    std::size_t trials_left_;
    Findings findings_;
};

}  // namespace

Findings check_promises(const Design& design, const Wiring& wiring) {
    const bool all_arrive =
        std::ranges::all_of(wiring.passes(), [](const Pass& p) { return p.state == State::good; });
    if (all_arrive && touches_everywhere(design, wiring)) return {};
    return CauseFinder(design, wiring).find();
}

std::vector<std::string> touch_repairs(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends) {
    std::vector<std::string> good;
    Design others = design;  // ribbons that do not touch either have repairs of their own
    for (std::size_t r = 0; r < others.ribbons.size(); ++r) {
        if (r != ribbon) others.ribbons[r].lay.reset();
    }
    std::size_t least = static_cast<std::size_t>(-1);
    for (const Edit& edit : ribbon_edits(design, ribbon, ends)) {
        const Wiring traced = trace(edited(others, edit));
        const std::optional<Seating>& seating = traced.seating_of(ribbon);
        if (!seating || !seating->touch_b) continue;
        const std::size_t left = failing(traced).size();
        if (left < least) good.clear();
        least = std::min(least, left);
        if (left == least) good.push_back(edit.text);
    }
    return good;
}

}  // namespace pinfold
