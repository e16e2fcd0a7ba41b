#include "check/open_contact.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace pinfold {
namespace {

/// The first of those that differ by rounding alone is told.
constexpr double equal = 1.0 + 1e-9;

double lost(const Feed& feed) { return (feed.drop_out + feed.drop_back).value(); }

bool is_worse(const Feed& one, const Feed& other) {
    if (one.settles != other.settles) return other.settles;
    return lost(one) > lost(other) * equal;
}

double share(const LinkLoad& load, const LinkLimit& limit) {
    return std::abs(load.current.value()) / limit.derated.value();
}

/// Opens the contacts of one network after another.
class Opening {
public:
    Opening(const Design& design, const Wiring& wiring, const FeedNetworks& networks,
            const FeedCase& with)
        : design_(design), wiring_(wiring), networks_(networks), with_(with) {}

    OpenContacts open_all() {
        std::vector<Feeds> whole;
        std::vector<LinkLoad> all;
        for (std::size_t part = 0; part < networks_.size(); ++part) {
            whole.push_back(networks_.solve(part, with_));
            all.insert(all.end(), whole.back().loads.begin(), whole.back().loads.end());
        }
        const LoadedPlaces loaded(wiring_, all);
        for (std::size_t part = 0; part < whole.size(); ++part) open(part, whole[part], loaded);
        return std::move(result_);
    }

private:
    static constexpr std::size_t most_work = 100'000;

    void open(std::size_t part, const Feeds& whole, const LoadedPlaces& loaded) {
        std::vector<std::size_t> contacts;
        limits_.assign(whole.loads.size(), std::nullopt);
        for (std::size_t i = 0; i < whole.loads.size(); ++i) {
            const LinkLoad& load = whole.loads[i];
            const Link& link = wiring_.links()[load.link];
            const bool is_contact = link.kind == LinkKind::seat || link.kind == LinkKind::join;
            if (is_contact && carries(load)) contacts.push_back(load.link);
            limits_[i] = limit_of(design_, link, loaded.on(link));
            if (limits_[i] && share(load, *limits_[i]) > 1.0) limits_[i].reset();
        }
        work_ += contacts.size() * whole.loads.size();
        if (work_ > most_work) {
            result_.untried += contacts.size();
            return;
        }
        lowest_.assign(whole.feeds.size(), std::nullopt);
        hardest_.reset();
        for (const std::size_t contact : contacts) {
            if (networks_.holds_together(part, contact)) try_open(part, contact);
        }
        for (auto& lowest : lowest_) {
            if (lowest) result_.lowest.push_back(std::move(*lowest));
        }
        if (hardest_) result_.hardest.push_back(*hardest_);
    }

    void try_open(std::size_t part, std::size_t contact) {
        FeedCase with = with_;
        with.open = contact;
        const Feeds then = networks_.solve(part, with);
        for (std::size_t i = 0; i < then.feeds.size(); ++i) {
            if (lowest_[i] && !is_worse(then.feeds[i], lowest_[i]->then)) continue;
            lowest_[i] = LowestOpen{networks_.loads_of(part)[i], contact, then.feeds[i]};
        }
        for (std::size_t i = 0; i < then.loads.size(); ++i) {
            if (!limits_[i]) continue;
            if (hardest_ &&
                share(then.loads[i], *limits_[i]) <= equal * share(hardest_->load, hardest_->limit))
                continue;
            hardest_ = HardestOpen{contact, then.loads[i], *limits_[i]};
        }
    }

    const Design& design_;
    const Wiring& wiring_;
    const FeedNetworks& networks_;
    const FeedCase& with_;
    std::vector<std::optional<LinkLimit>> limits_;  ///< by link of the network
    std::vector<std::optional<LowestOpen>> lowest_;
    std::optional<HardestOpen> hardest_;
    OpenContacts result_;
    std::size_t work_ = 0;
};

/// Tells what one open contact does.
class OpenTelling {
public:
    OpenTelling(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    void tell(const Feed& whole, const LowestOpen& lowest) {
        const Feed& then = lowest.then;
        const auto is_low = [](const Feed& feed) {
            return feed.arriving && feed.least && *feed.arriving < *feed.least;
        };
        if (!whole.settles || is_low(whole) || (then.settles && !is_low(then))) return;
        const Carry& carry = design_.carries[then.carry];
        const std::string name = name_of_open(lowest.open);
        add(carry.at, {carry.name, then.supply, name},
            then.settles
                ? fmt::format("with {} open, {} of '{}' arrives at {:.3f} V, {:.3f} V are needed",
                              name, then.supply, carry.name, then.arriving->value(),
                              then.least->value())
                : fmt::format("with {} open, {} of '{}' cannot settle", name, then.supply,
                              carry.name));
    }

    void tell(const HardestOpen& hardest) {
        if (share(hardest.load, hardest.limit) <= 1.0) return;
        const Link& link = wiring_.links()[hardest.load.link];
        const std::string open = name_of_open(hardest.open);
        const std::string name = wiring_.name_of(link.one, design_);
        add(mark_of(wiring_.links()[hardest.open]), {name.substr(0, name.find('.')), name, open},
            fmt::format("with {} open, {} carries {:.2f} A, its rating as loaded is {:.2f} A", open,
                        name, std::abs(hardest.load.current.value()),
                        hardest.limit.derated.value()));
    }

    void tell_untried(std::size_t contacts) {
        findings_.push_back({Severity::note,
                             "open-untried",
                             fmt::format("{} contacts of supplies were not opened one by one, the "
                                         "design is too large for it",
                                         contacts),
                             design_.carries.front().at,
                             {},
                             {design_.carries.front().name},
                             {}});
    }

    Findings take() { return std::move(findings_); }

private:
    std::string name_of_open(std::size_t link) const {
        return wiring_.name_of(wiring_.links()[link].one, design_);
    }

    const Mark& mark_of(const Link& contact) const {
        const PortRef& port = contact.kind == LinkKind::seat ? design_.seats[contact.place].port
                                                             : design_.joins[contact.place].a;
        return design_.port(port).at;
    }

    void add(const Mark& at, std::vector<std::string> places, std::string text) {
        findings_.push_back({Severity::warning,
                             "one-contact-open",
                             std::move(text),
                             at,
                             {},
                             std::move(places),
                             {}});
    }

    const Design& design_;
    const Wiring& wiring_;
    Findings findings_;
};

}  // namespace

OpenContacts open_contacts(const Design& design, const Wiring& wiring, const FeedNetworks& networks,
                           const FeedCase& with) {
    return Opening(design, wiring, networks, with).open_all();
}

Findings check_open_contacts(const Design& design, const Wiring& wiring, const Feeds& whole,
                             const OpenContacts& opened) {
    OpenTelling telling(design, wiring);
    for (const LowestOpen& lowest : opened.lowest) telling.tell(whole.feeds[lowest.feed], lowest);
    for (const HardestOpen& hardest : opened.hardest) telling.tell(hardest);
    if (opened.untried > 0) telling.tell_untried(opened.untried);
    return telling.take();
}

}  // namespace pinfold
