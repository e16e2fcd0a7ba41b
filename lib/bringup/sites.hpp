// Sites: the contacts that a probe can touch on an assembly whose devices are unplugged.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "design/promise.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// A contact a probe can be put on.
struct Site {
    Point point = 0;
    ContactRef contact;
};

/// The contacts of all boards, and of devices those that a ribbon or a lead goes right into; a
/// device on the other side of a plug is unplugged.
class Sites {
public:
    Sites(const Design& design, const Wiring& wiring);

    const std::vector<Site>& all() const { return sites_; }
    std::vector<Point> points() const;
    /// The site at a point; of an unplugged device's contact, the contact it would meet.
    std::optional<std::size_t> at(Point point) const;

private:
    void add_port(const Design& design, const Wiring& wiring, PortRef port);

    std::vector<Site> sites_;
    std::vector<std::size_t> by_point_;  ///< one more than the site, 0 for none
};

/// Pairs of contacts of one port that lie side by side: in the list, in a row of the mating face,
/// along a row of a two-row header.
std::vector<std::pair<std::size_t, std::size_t>> neighbours_in(const Design& design, PortRef port);

/// What is known of each connected piece.
class Pieces {
public:
    Pieces(const Design& design, const Wiring& wiring);

    Standing standing(std::uint32_t piece) const { return standings_[piece]; }
    /// Whether anything hangs on it: it has copper of a board or a contact a device uses.
    bool is_live(std::uint32_t piece) const { return live_[piece] != 0; }

private:
    void note(std::uint32_t piece, Standing standing);

    std::vector<Standing> standings_;
    std::vector<char> live_;
};

/// `base.plug.4 (D1+)`: a contact, and the signal its board expects there.
std::string spoken(const Design& design, const ContactRef& contact);

}  // namespace pinfold
