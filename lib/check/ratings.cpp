#include "check/ratings.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "check/budget.hpp"
#include "check/conductor_heat.hpp"
#include "check/feed.hpp"
#include "check/lead_rating.hpp"
#include "check/open_contact.hpp"
#include "check/supply_trace.hpp"

namespace pinfold {
namespace {

/// A rating when some of all places carry current: the whole of it when one does, `all_loaded` of
/// it when all do, in proportion between; common practice.
Amperes rating_when_loaded(Amperes rating, double all_loaded, std::size_t loaded,
                           std::size_t places) {
    if (places < 2 || loaded < 2) return rating;
    const double share = static_cast<double>(loaded - 1) / static_cast<double>(places - 1);
    return (1.0 - (1.0 - all_loaded) * share) * rating;
}

PortRef port_of(const Design& design, const Link& link) {
    return link.kind == LinkKind::seat ? design.seats[link.place].port : design.joins[link.place].a;
}

std::optional<LinkLimit> limited(std::optional<Amperes> rating, double all_loaded,
                                 std::size_t loaded, std::size_t places) {
    if (!rating) return std::nullopt;
    return LinkLimit{*rating, rating_when_loaded(*rating, all_loaded, loaded, places), places};
}

/// The most loaded link of a ribbon, a seat or a join, and how many there carry current.
struct Worst {
    std::optional<std::size_t> link;
    Amperes current;
    std::size_t loaded = 0;
};

class RatingCheck {
public:
    RatingCheck(const Design& design, const Wiring& wiring, const Feeds& feeds)
        : design_(design), wiring_(wiring), feeds_(feeds) {}

    Findings find() {
        check_leads();
        std::array<std::vector<Worst>, 5> worst;  // by kind and place
        for (const LinkLoad& load : feeds_.loads) {
            const Link& link = wiring_.links()[load.link];
            std::vector<Worst>& of_kind = worst[static_cast<std::size_t>(link.kind)];
            if (of_kind.size() <= link.place) of_kind.resize(link.place + 1);
            const double amperes = std::abs(load.current.value());
            Worst& here = of_kind[link.place];
            if (amperes >= 0.01) ++here.loaded;
            if (here.link && amperes <= here.current.value()) continue;
            here.link = load.link;
            here.current = Amperes(amperes);
        }
        for (const std::vector<Worst>& of_kind : worst) {
            for (const Worst& here : of_kind) {
                if (here.link) check(here);
            }
        }
        return std::move(findings_);
    }

private:
    /// Leads that carry current are taken to run in one bundle.
    void check_leads() {
        std::vector<const LinkLoad*> loaded;
        for (const LinkLoad& load : feeds_.loads) {
            const bool is_lead = wiring_.links()[load.link].kind == LinkKind::lead;
            if (is_lead && std::abs(load.current.value()) >= 0.01) loaded.push_back(&load);
        }
        for (const LinkLoad* load : loaded) {
            const Lead& lead = design_.leads[wiring_.links()[load->link].place];
            const double carried = std::abs(load->current.value());
            const Amperes most =
                limit_of(design_, wiring_.links()[load->link], loaded.size())->derated;
            if (carried <= most.value()) continue;
            findings_.push_back(
                {Severity::error,
                 "lead-current",
                 fmt::format(
                     "{} ({}) carries {:.2f} A; {} is {:.2f} A", lead.name, lead.gauge, carried,
                     lead.rating ? std::string("its rating")
                                 : fmt::format("with {} leads loaded its rating", loaded.size()),
                     most.value()),
                 lead.at,
                 {},
                 {lead.name},
                 {}});
        }
    }

    void check(const Worst& worst) {
        const Link& link = wiring_.links()[*worst.link];
        if (link.kind == LinkKind::lead) return;
        const auto limit = limit_of(design_, link, worst.loaded);
        if (!limit || worst.current <= limit->derated) return;
        const bool is_conductor = link.kind == LinkKind::conductor;
        const char* const rule = is_conductor ? "conductor-current" : "contact-current";
        const Mark& at =
            is_conductor ? design_.ribbons[link.place].at : design_.port(port_of(design_, link)).at;
        const std::string name = wiring_.name_of(link.one, design_);
        findings_.push_back(
            {Severity::error,
             rule,
             fmt::format("{} carries {:.2f} A; with {} of {} carrying current its rating is "
                         "{:.2f} A",
                         name, worst.current.value(), worst.loaded, limit->places,
                         limit->derated.value()),
             at,
             {},
             {name.substr(0, name.find('.')), name},
             {}});
    }

    const Design& design_;
    const Wiring& wiring_;
    const Feeds& feeds_;
    Findings findings_;
};

void check_collapse(const Design& design, const Feed& feed, Findings& findings) {
    const Carry& carry = design.carries[feed.carry];
    findings.push_back(
        {Severity::error,
         "supply-collapse",
         fmt::format(
             "{} of '{}' cannot settle: {:.2f} W are asked of it, its way "
             "brings at most {:.2f} W{}",
             feed.supply, carry.name, feed.power->value(), feed.deliverable.value(),
             feed.given ? fmt::format(" from {:.3f} V", feed.given->value()) : std::string{}),
         carry.at,
         {},
         {carry.name, feed.supply},
         {}});
}

void check_voltage(const Design& design, const Feed& feed, Findings& findings) {
    if (feed.given && feed.most && *feed.given > *feed.most) {
        const Carry& high = design.carries[feed.carry];
        findings.push_back(
            {Severity::error,
             "supply-high",
             fmt::format("{} of '{}' is given at {:.3f} V, the far port stands "
                         "{:.3f} V",
                         feed.supply, high.name, feed.given->value(), feed.most->value()),
             high.at,
             {},
             {high.name, feed.supply},
             {}});
    }
    if (!feed.arriving || !feed.least || *feed.arriving >= *feed.least) return;
    const Carry& carry = design.carries[feed.carry];
    findings.push_back(
        {Severity::error,
         "supply-low",
         fmt::format(
             "{} of '{}' arrives at {:.3f} V, {:.3f} V are needed: of {:.3f} V, {:.0f} mV "
             "are lost on the way out and {:.0f} mV on the way back at {:.3f} A{}",
             feed.supply, carry.name, feed.arriving->value(), feed.least->value(),
             feed.given->value(), 1000.0 * feed.drop_out.value(), 1000.0 * feed.drop_back.value(),
             feed.current.value(),
             feed.window_source.empty() ? std::string{} : fmt::format(" ({})", feed.window_source)),
         carry.at,
         {},
         {carry.name, feed.supply},
         {}});
}

}  // namespace

std::optional<LinkLimit> limit_of(const Design& design, const Link& link, std::size_t loaded) {
    constexpr double usual_all_loaded = 0.7;  // of the rating; common practice
    if (link.kind == LinkKind::lead) {
        const Lead& lead = design.leads[link.place];
        const Amperes alone = lead.rating.value_or(lead_rating(lead.section, 1));
        return LinkLimit{alone, lead.rating.value_or(lead_rating(lead.section, loaded)),
                         design.leads.size()};
    }
    if (link.kind == LinkKind::conductor) {
        const Ribbon& ribbon = design.ribbons[link.place];
        return limited(design.ribbon_types.at(ribbon.type).current, usual_all_loaded, loaded,
                       static_cast<std::size_t>(ribbon.conductors));
    }
    if (link.kind == LinkKind::copper) return std::nullopt;
    const Port& port = design.port(port_of(design, link));
    if (link.kind == LinkKind::seat) {
        const ReceptacleType& type = design.receptacle_types.at(port.ribbon->receptacle);
        const double all = type.all_loaded ? type.all_loaded->value() / 100.0 : usual_all_loaded;
        return limited(type.current, all, loaded, port.contacts.size());
    }
    if (port.connector.empty()) return std::nullopt;
    return limited(design.connectors.at(port.connector).current, 1.0, loaded, port.contacts.size());
}

bool carries(const LinkLoad& load) { return std::abs(load.current.value()) >= 0.01; }

LoadedPlaces::LoadedPlaces(const Wiring& wiring, const std::vector<LinkLoad>& loads) {
    for (const LinkLoad& load : loads) {
        if (carries(load)) ++loaded_[place_of(wiring.links()[load.link])];
    }
}

std::pair<LinkKind, std::uint32_t> LoadedPlaces::place_of(const Link& link) {
    return {link.kind, link.kind == LinkKind::lead ? 0 : link.place};
}

std::size_t LoadedPlaces::on(const Link& link) const {
    const auto found = loaded_.find(place_of(link));
    return found == loaded_.end() ? 0 : found->second;
}

Findings check_feeds(const Design& design, const Wiring& wiring) {
    const FeedNetworks networks(design, wiring);
    const FeedCase with = worst_case(design, networks);
    const Feeds feeds = networks.solve(with);
    Findings findings = RatingCheck(design, wiring, feeds).find();
    for (const Feed& feed : feeds.feeds) {
        if (feed.settles) {
            check_voltage(design, feed, findings);
        } else if (feed.power) {
            check_collapse(design, feed, findings);
        }
    }
    Findings of_heat = check_rises(design, wiring, feeds);
    findings.insert(findings.end(), of_heat.begin(), of_heat.end());
    Findings of_traces = check_traces(design, wiring, feeds);
    findings.insert(findings.end(), of_traces.begin(), of_traces.end());
    Findings of_opened =
        check_open_contacts(design, wiring, feeds, open_contacts(design, wiring, networks, with));
    findings.insert(findings.end(), of_opened.begin(), of_opened.end());
    Findings of_budget = check_budget(design, wiring);
    findings.insert(findings.end(), of_budget.begin(), of_budget.end());
    findings.insert(findings.end(), feeds.remarks.begin(), feeds.remarks.end());
    return findings;
}

}  // namespace pinfold
