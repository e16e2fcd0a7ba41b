#include "document/power_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/shown.hpp"
#include "document/columns.hpp"

namespace pinfold {
namespace {

template <class Q>
std::string in(const std::optional<Q>& value, const char* unit) {
    return value ? fmt::format("{:.3f} {}", value->value(), unit) : "-";
}

std::string feeds_text(const Design& design, const Power& power) {
    if (power.feeds.feeds.empty()) return "no promised supply could be solved\n";
    Rows rows{{"supply", "given", "arrives", "needed", "current", "lost out", "ground shift"}};
    for (const Feed& feed : power.feeds.feeds) {
        const std::string name =
            fmt::format("{} of '{}'", feed.supply, design.carries[feed.carry].name);
        if (!feed.settles) {
            rows.push_back({name, in(feed.given, "V"), "cannot settle"});
            continue;
        }
        rows.push_back({name, in(feed.given, "V"), in(feed.arriving, "V"), in(feed.least, "V"),
                        fmt::format("{:.3f} A", feed.current.value()),
                        fmt::format("{:.0f} mV", 1000.0 * feed.drop_out.value()),
                        fmt::format("{:.0f} mV", 1000.0 * feed.drop_back.value())});
    }
    return in_columns(rows) +
           in_lines("The ground shift is taken from the margin of every single-ended signal.");
}

std::string splits_text(const Design& design, const Power& power) {
    if (power.splits.empty()) return {};
    Rows rows{{"supply", "conductors", "contacts", "leads", "traces"}};
    const auto millivolts = [](Volts volts) {
        return fmt::format("{:.0f} mV", 1e3 * volts.value());
    };
    for (std::size_t i = 0; i < power.splits.size(); ++i) {
        const Feed& feed = power.feeds.feeds[i];
        const DropSplit& split = power.splits[i];
        if (!feed.settles) continue;
        rows.push_back({fmt::format("{} of '{}'", feed.supply, design.carries[feed.carry].name),
                        millivolts(split.conductors), millivolts(split.contacts),
                        millivolts(split.leads), millivolts(split.traces)});
    }
    return "\nWhere it is lost, out and back together:\n" + in_columns(rows);
}

std::string opened_text(const Design& design, const Wiring& wiring, const Power& power) {
    const OpenContacts& opened = power.opened;
    std::string text;
    if (opened.untried > 0) {
        text += fmt::format("\n{} contacts were not opened one by one, they are too many\n",
                            opened.untried);
    }
    if (opened.lowest.empty()) return text;
    const auto name = [&](std::size_t link) {
        return wiring.name_of(wiring.links()[link].one, design);
    };
    Rows rows{{"supply", "open", "arrives", "lost out", "ground shift"}};
    for (const LowestOpen& lowest : opened.lowest) {
        const Feed& then = lowest.then;
        rows.push_back({fmt::format("{} of '{}'", then.supply, design.carries[then.carry].name),
                        name(lowest.open), then.settles ? in(then.arriving, "V") : "cannot settle",
                        fmt::format("{:.0f} mV", 1000.0 * then.drop_out.value()),
                        fmt::format("{:.0f} mV", 1000.0 * then.drop_back.value())});
    }
    text += "\nWith that one contact open that costs each supply the most:\n" + in_columns(rows);
    for (const HardestOpen& hardest : opened.hardest) {
        text += fmt::format("with {} open {} carries {:.3f} A of {:.2f} A\n", name(hardest.open),
                            name(hardest.load.link), std::abs(hardest.load.current.value()),
                            hardest.limit.derated.value());
    }
    return text;
}

std::string other_end(const Design& design, const Wiring& wiring, const Link& link) {
    return link.kind == LinkKind::lead ? design.leads[link.place].name
                                       : far_end_of(design, wiring, link);
}

std::string rise_text(const LoadedLink& loaded) {
    if (loaded.trace_rise) return fmt::format("{:.1f} K", loaded.trace_rise->rise.value());
    if (!loaded.rise) return "-";
    return loaded.rise->settles ? fmt::format("{:.1f} K", loaded.rise->rise.value()) : "no end";
}

std::string links_text(const Design& design, const Wiring& wiring, const Power& power) {
    if (power.links.empty()) return {};
    Rows rows{{"from", "to", "current", "rating", "as loaded", "heat", "rise"}};
    for (const LoadedLink& loaded : power.links) {
        const Link& link = wiring.links()[loaded.load.link];
        rows.push_back({wiring.name_of(link.one, design), other_end(design, wiring, link),
                        fmt::format("{:.3f} A", std::abs(loaded.load.current.value())),
                        loaded.limit ? fmt::format("{:.2f} A", loaded.limit->rating.value()) : "-",
                        loaded.limit ? fmt::format("{:.2f} A", loaded.limit->derated.value()) : "-",
                        fmt::format("{:.1f} mW", 1000.0 * loaded.load.heat().value()),
                        rise_text(loaded)});
    }
    return "\nContacts, conductors, leads and traces that carry 10 mA or more:\n" +
           in_columns(rows) +
           fmt::format("Together they give off {:.0f} mW as heat.\n", 1000.0 * power.heat.value());
}

void add_case(const Budget& budget, const BudgetCase& at, Rows& rows) {
    const std::string when = fmt::format("{}, {}", name_of(at.level), name_of(at.end));
    if (!at.settles) {
        rows.push_back({when, "cannot settle"});
        return;
    }
    for (std::size_t i = 0; i < at.batteries.size(); ++i) {
        const BatteryState& state = at.batteries[i];
        rows.push_back(
            {when, budget.batteries[i].name, "",
             fmt::format("{:.3f} V  {:.3f} A", state.terminals.value(), state.current.value())});
    }
    for (std::size_t i = 0; i < at.stages.size(); ++i) {
        const StageState& state = at.stages[i];
        rows.push_back(
            {when, budget.stages[i].name,
             fmt::format("{:.3f} V  {:.3f} A", state.input.value(), state.input_current.value()),
             fmt::format("{:.3f} V  {:.3f} A", budget.stages[i].output.value(),
                         state.output_current.value())});
    }
    for (std::size_t i = 0; i < at.loads.size(); ++i) {
        const LoadState& state = at.loads[i];
        rows.push_back(
            {when, budget.loads[i].name,
             fmt::format("{:.3f} V  {:.3f} A", state.voltage.value(), state.current.value())});
    }
}

std::string budget_text(const Design& design, const Power& power) {
    if (design.budget.is_empty()) return {};
    Rows rows{{"loads, battery", "part", "takes", "gives"}};
    for (const BudgetCase& at : power.budget.cases) add_case(design.budget, at, rows);
    std::string text = "\nBudget:\n" + in_columns(rows);
    for (const Runtime& runtime : power.budget.runtimes) {
        text += fmt::format("{} lasts {:.2f} h with all loads {}\n",
                            design.budget.batteries[runtime.battery].name, runtime.time.value(),
                            name_of(runtime.level));
    }
    return text;
}

}  // namespace

std::string power_text(const Design& design, const Wiring& wiring, const Power& power) {
    std::string text;
    for (const Finding& finding : power.findings) text += to_text(finding);
    if (!text.empty()) text += '\n';
    text += feeds_text(design, power) + splits_text(design, power) +
            links_text(design, wiring, power) + opened_text(design, wiring, power) +
            budget_text(design, power) + "\n";
    for (const std::string& caution : power_cautions(design)) text += in_lines("! " + caution);
    return shown_page(text);
}

}  // namespace pinfold
