#include "check/power.hpp"

namespace pinfold {

Power power_of(const Design& design, const Wiring& wiring) {
    const FeedNetworks networks(design, wiring);
    Power power;
    const FeedCase with = worst_case(design, networks);
    power.feeds = networks.solve(with);
    power.opened = open_contacts(design, wiring, networks, with);
    power.budget = solve_budget(design, networks);
    power.findings = check_feeds(design, wiring);
    for (std::size_t load = 0; load < power.feeds.feeds.size(); ++load) {
        power.splits.push_back(split_drop(wiring, networks, load, power.feeds));
    }
    const LoadedPlaces loaded(wiring, power.feeds.loads);
    for (const LinkLoad& load : power.feeds.loads) {
        power.heat = power.heat + load.heat();
        if (!carries(load)) continue;
        const Link& link = wiring.links()[load.link];
        power.links.push_back({load, limit_of(design, link, loaded.on(link)),
                               rise_of(design, link, load.current),
                               trace_rise_of(design, wiring, link, load.current)});
    }
    return power;
}

std::vector<std::string> power_cautions(const Design& design) {
    std::vector<std::string> cautions{
        "Rises are estimates: each conductor of a flat ribbon cooled through its own pitch of film "
        "by still air of 30 degC on both faces; folds, bundles, foam and enclosures make it "
        "warmer.",
        "Conductors and leads at 60 degC; copper of boards without resistance, but for "
        "traces whose width and length their board gives. Numbers for "
        "low-voltage links, no approval of a cable, fuse or enclosure: local codes and the data "
        "sheets hold, and what can hurt belongs to licensed practice."};
    if (!design.budget.is_empty()) {
        cautions.emplace_back(
            "Batteries can burn: fuse them at the cells, use the charger and protection made for "
            "their chemistry, keep to the maker's limits of current and temperature.");
        cautions.emplace_back(
            "Runtime: constant efficiencies, cells at the middle of their window, energy as "
            "stated times the usable share; cold, age and high current take from it.");
    }
    return cautions;
}

}  // namespace pinfold
