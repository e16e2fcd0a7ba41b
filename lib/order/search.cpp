#include "order/search.hpp"

#include <fmt/format.h>

#include <deque>
#include <stdexcept>

#include "order/best_path.hpp"
#include "order/clash.hpp"
#include "order/level_cost.hpp"

namespace pinfold {
namespace {

class OrderSearch {
public:
    OrderSearch(const OrderProblem& problem, const Stop& stop)
        : problem_(problem), stop_(stop), classes_(classes_of(problem)) {}

    /// Nothing if no order keeps the rules.
    std::optional<BestOrder> run() {
        std::size_t proved = 0;
        for (std::size_t k = 0; k < problem_.ranking.size(); ++k) {
            const Aim aim = problem_.ranking[k];
            if (may_join(k) && solve_joined()) {
                proved += 2;
                ++k;
                continue;
            }
            if (beam_ == 0) {
                const Outcome outcome = solve(aim);
                if (outcome == Outcome::impossible) return std::nullopt;
                claim(aim, levels_.back());
                if (outcome == Outcome::done) {
                    ++proved;
                    continue;
                }
                // From here on nothing is proved, but what is found may still be good.
                beam_ = 1000;
                drop_last();
            } else {
                figure(best_.bound, aim) = StepCost(problem_, classes_, aim).base();
            }
            if (solve(aim) != Outcome::done) drop_last();
        }
        return finish(proved);
    }

private:
    /// What a level has proved: no order costs less.
    void claim(Aim aim, const Level& level) {
        figure(best_.bound, aim) = level.best + StepCost(problem_, classes_, aim).base();
    }

    /// Whether the aim at a place of the ranking and the next one are hazards and noise.
    bool may_join(std::size_t k) const {
        const std::vector<Aim>& ranking = problem_.ranking;
        return beam_ == 0 && !items_known_ && !levels_.empty() && k + 1 < ranking.size() &&
               ranking[k] == Aim::hazards && ranking[k + 1] == Aim::noise &&
               !supplies_of(problem_).empty();
    }

    /// Hazards and noise at once, if nothing needs to be harmed in reverse: what is harmed one
    /// place off is then the least harm of all, and the noise, bounded by the same question without
    /// the watch on the mirror places, tells early which of the many harmless orders are of no use.
    bool solve_joined() {
        const std::size_t aims = aims_.size();
        Level beside, bound, both;
        both.has_obligations = both.harmless = true;
        const bool is_found =
            solve_for(Aim::hazards, {problem_, classes_, &levels_.back(), nullptr, stop_},
                      beside) &&
            solve_for(Aim::noise, {problem_, classes_, &beside, nullptr, stop_}, bound) &&
            solve_for(Aim::noise, {problem_, classes_, &beside, &bound, stop_}, both);
        if (!is_found) {
            aims_.resize(aims);
            return false;
        }
        claim(Aim::hazards, beside);
        claim(Aim::noise, both);
        levels_.push_back(std::move(both));
        return true;
    }

    bool solve_for(Aim aim, const Ground& ground, Level& level) {
        level.aim = aim;
        if (aims_.back() != aim) aims_.push_back(aim);
        const Outcome outcome = solve_level(ground, aims_, level);
        best_.states += level.nodes.size();
        return outcome == Outcome::done;
    }

    void drop_last() {
        items_known_ = levels_.back().items_known && !levels_.back().has_items;
        levels_.pop_back();
        aims_.pop_back();
    }

    Outcome solve(Aim aim) {
        aims_.push_back(aim);
        const bool by_name = aim == Aim::crossings || aim == Aim::mismatch;
        Level level;
        level.aim = aim;
        level.has_obligations = aim == Aim::hazards && !supplies_of(problem_).empty();
        level.has_items = by_name && !items_known_;
        items_known_ = items_known_ || by_name;
        level.items_known = items_known_;

        const Level* const before = levels_.empty() ? nullptr : &levels_.back();
        Ground ground{problem_, classes_, before, nullptr, before && !beam_ ? stop_ : Stop{},
                      beam_};
        Level wider, bound;
        bound.aim = aim;
        // What an easier question costs bounds what this one does: the same without the watch on
        // the mirror places. Where items have names already, the two graphs do not run alike.
        const bool watched = level.has_obligations || (before && before->has_obligations);
        if (watched && !items_known_ && beam_ == 0 && (aim == Aim::hazards || aim == Aim::noise)) {
            if (!level.has_obligations) wider = without_obligations(*before);
            const Ground easier{problem_, classes_, level.has_obligations ? before : &wider,
                                nullptr,  stop_,    0};
            if (solve_level(easier, aims_, bound) == Outcome::done) ground.bound = &bound;
            best_.states += bound.nodes.size();
        }
        const Outcome outcome = solve_level(ground, aims_, level);
        best_.states += level.nodes.size();
        levels_.push_back(std::move(level));
        if (levels_.size() > 2) levels_[levels_.size() - 3] = {};  // nothing looks there any more
        return outcome;
    }

    BestOrder finish(std::size_t proved) {
        best_.order = first_best_path(problem_, classes_, levels_.back());
        best_.cost = figures_of(problem_, best_.order);
        for (std::size_t k = 0; k < proved; ++k) {
            const Aim aim = problem_.ranking[k];
            if (figure(best_.cost, aim) == figure(best_.bound, aim)) continue;
            throw std::logic_error(fmt::format("the search and the figures disagree on {}: {}, {}",
                                               name_of(aim), figure(best_.bound, aim),
                                               figure(best_.cost, aim)));
        }
        if (!keeps_the_rules(problem_, best_.order)) {
            throw std::logic_error("the search broke a rule");
        }
        best_.proved = proved == problem_.ranking.size();
        if (best_.proved && items_known_) {
            best_.optima = count_best_orders(problem_, classes_, levels_.back());
        }
        return std::move(best_);
    }

    const OrderProblem& problem_;
    const Stop& stop_;
    Classes classes_;
    std::vector<Aim> aims_;
    std::deque<Level> levels_;
    BestOrder best_;
    bool items_known_ = false;
    std::size_t beam_ = 0;
};

}  // namespace

OrderAnswer best_order(const OrderProblem& problem, const Stop& stop) {
    if (problem.fixed.empty() || keeps_together(problem)) {
        if (auto best = OrderSearch(problem, stop).run()) return std::move(*best);
    }
    return NoOrder{clash_of(problem)};
}

}  // namespace pinfold
