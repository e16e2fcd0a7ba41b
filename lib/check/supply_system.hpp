// Supply systems: pieces of the wiring that hang together through the planes of devices.
#pragma once

#include <map>
#include <vector>

#include "design/wiring.hpp"

namespace pinfold {

/// Pieces whose currents depend on each other, and the links within them that have a resistance.
struct SupplySystem {
    std::vector<std::uint32_t> pieces;  ///< in order
    std::vector<std::size_t> links;     ///< in the wiring's links, in order
};

/// The systems that some points belong to.
///
/// A plane joins without resistance: the grounds of a device, or one supply's contacts on one of
/// its ports. So does the copper of a board, but for traces of a known section: those part each
/// port's contacts from the net, one link for all contacts of the port.
class SupplySystems {
public:
    SupplySystems(const Design& design, const Wiring& wiring, const std::vector<Point>& points);

    const std::vector<SupplySystem>& all() const { return all_; }  ///< by their first pieces
    /// The system of one of the points, in `all()`.
    std::size_t system_of(Point point) const { return system_of_piece_[wiring_.piece_of(point)]; }
    /// The point that stands for all that are joined to this one without resistance.
    Point node_of(Point point) const { return node_[point]; }

private:
    void gather(std::uint32_t first);
    void join_plane(const ContactRef& contact);
    void add_piece(std::uint32_t piece);
    void put_in_order();
    void gather_links();
    void gather_copper(std::size_t link, std::map<std::pair<Point, PortRef>, Point>& first);

    const Design& design_;
    const Wiring& wiring_;
    std::vector<SupplySystem> all_;
    std::vector<std::uint32_t> system_of_piece_;
    std::vector<Point> node_;  ///< by point
};

}  // namespace pinfold
