#include "check/pair_way.hpp"

#include <algorithm>
#include <map>

namespace pinfold {
namespace {

/// The first lead between two contacts; further ones lie beside it.
class LeadsBetween {
public:
    explicit LeadsBetween(const std::vector<Lead>& leads) {
        for (std::size_t i = 0; i < leads.size(); ++i) {
            first_.try_emplace(std::minmax(leads[i].from, leads[i].to), i);
        }
    }

    std::optional<std::size_t> find(const ContactRef& one, const ContactRef& other) const {
        const auto lead = first_.find(std::minmax(one, other));
        return lead == first_.end() ? std::nullopt : std::optional(lead->second);
    }

private:
    std::map<std::pair<ContactRef, ContactRef>, std::size_t> first_;
};

class WayFinder {
public:
    WayFinder(const Design& design, const Wiring& wiring)
        : design_(design), wiring_(wiring), leads_(design.leads) {}

    HalfWay way_of(const Pass& pass) const {
        HalfWay way;
        std::optional<ContactRef> before;
        for (std::size_t i = 0; i < pass.hops.size(); ++i) {
            const std::optional<ContactRef> here = wiring_.contact_at(pass.hops[i]);
            if (here && before) add_step(*before, *here, way.landings.back());
            if (!here && !before && i > 0) add_ribbon(pass.hops[i - 1], pass.hops[i], way);
            before = here;
        }
        return way;
    }

private:
    void add_step(const ContactRef& from, const ContactRef& to, Landing& landing) const {
        const std::optional<std::size_t> net = design_.contact(to).net;
        if (net && from.port.board == to.port.board && design_.contact(from).net == net) {
            landing.traces.push_back({from, to, design_.boards[to.port.board].nets[*net].length});
        } else if (const std::optional<std::size_t> lead = leads_.find(from, to)) {
            landing.leads.push_back(*lead);
        }
    }

    /// The conductors of end a are numbered before those of end b.
    void add_ribbon(Point from, Point to, HalfWay& way) const {
        const std::size_t ribbon = wiring_.ribbon_at(from);
        const Point first = wiring_.point_of(ribbon, End::a, ConductorNumber(1));
        const auto count = static_cast<Point>(design_.ribbons[ribbon].conductors);
        const auto place = static_cast<int>((from - first) % count);
        way.ribbons.push_back({ribbon, from < to, ConductorNumber(place + 1)});
        way.landings.emplace_back();
    }

    const Design& design_;
    const Wiring& wiring_;
    LeadsBetween leads_;
};

/// Whether the rate of a promise is that of its single signals.
bool has_fast_singles(const Design& design, const Carry& promise) {
    if (!promise.rate) return false;
    const Interface* interface = design.interface_of(design.port(promise.from));
    return interface && std::ranges::all_of(interface->pairs, [](const Pair& pair) {
               return pair.kind == PairKind::slow;
           });
}

struct HalfPasses {
    const Pass* plus = nullptr;
    const Pass* minus = nullptr;
};

}  // namespace

bool HalfWay::over_leads() const {
    return std::ranges::any_of(landings, [](const Landing& l) { return !l.leads.empty(); });
}

std::vector<PairWay> pair_ways(const Design& design, const Wiring& wiring) {
    std::map<std::pair<std::size_t, std::size_t>, HalfPasses> halves;
    for (const Pass& pass : wiring.passes()) {
        if (pass.role != Role::pair_half || pass.state != State::good) continue;
        const Interface& near = *design.interface_of(design.port(pass.from.port));
        const std::size_t pair = *near.signals[pass.signal].pair;
        if (near.pairs[pair].kind == PairKind::slow) continue;
        HalfPasses& both = halves[{pass.carry, pair}];
        (near.pairs[pair].plus == pass.signal ? both.plus : both.minus) = &pass;
    }
    const WayFinder finder(design, wiring);
    std::vector<PairWay> ways;
    for (const auto& [key, both] : halves) {
        if (!both.plus || !both.minus) continue;
        ways.push_back(
            {key.first, key.second, finder.way_of(*both.plus), finder.way_of(*both.minus)});
    }
    return ways;
}

std::vector<SingleWay> single_ways(const Design& design, const Wiring& wiring) {
    const WayFinder finder(design, wiring);
    std::vector<SingleWay> ways;
    for (const Pass& pass : wiring.passes()) {
        const bool single = pass.role == Role::low_speed || pass.role == Role::presence;
        if (!single || pass.state != State::good) continue;
        ways.push_back({pass.carry, pass.signal, finder.way_of(pass)});
    }
    return ways;
}

std::vector<SingleWay> fast_single_ways(const Design& design, const Wiring& wiring) {
    std::vector<SingleWay> ways = single_ways(design, wiring);
    std::erase_if(ways, [&](const SingleWay& way) {
        const Carry& promise = design.carries[way.carry];
        if (!has_fast_singles(design, promise)) return true;
        const Interface& near = *design.interface_of(design.port(promise.from));
        return near.signals[way.signal].role == Role::presence;
    });
    return ways;
}

}  // namespace pinfold
