// What `pinfold power` tells: every feed, every loaded link against its limit, and the budget.
#pragma once

#include "check/budget.hpp"
#include "check/conductor_heat.hpp"
#include "check/drop_split.hpp"
#include "check/open_contact.hpp"
#include "check/ratings.hpp"
#include "check/supply_trace.hpp"

namespace pinfold {

/// A link that carries 10 mA or more.
struct LoadedLink {
    LinkLoad load;
    std::optional<LinkLimit> limit;
    std::optional<FilmRise> rise;         ///< above the air; of conductors in a film
    std::optional<TraceRise> trace_rise;  ///< above the board; of traces
};

struct Power {
    Feeds feeds;
    std::vector<DropSplit> splits;  ///< by feed
    OpenContacts opened;
    std::vector<LoadedLink> links;
    BudgetResult budget;
    Watts heat;         ///< of all links
    Findings findings;  ///< of supplies and the budget
};

/// Solves everything; loads and voltages of a budget are those at peak, batteries empty.
Power power_of(const Design& design, const Wiring& wiring);

/// What is to be said to whoever builds it, in sentences.
std::vector<std::string> power_cautions(const Design& design);

}  // namespace pinfold
