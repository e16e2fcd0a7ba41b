// Arrivals: where each promised signal arrives, and what that makes of it.
#pragma once

#include <array>
#include <vector>

#include "design/promise.hpp"
#include "design/wiring.hpp"

namespace pinfold {

/// Judges promises one by one, over a wiring whose pieces and device contacts are known.
class Arrivals {
public:
    Arrivals(const Design& design, const Wiring& wiring, std::uint32_t pieces);

    /// Sets where a promised signal arrives, and its state.
    void arrive(const Promise& promise, Pass& pass) const;

private:
    std::vector<ContactRef> contacts_at_its_ports(const Promise& promise,
                                                  std::uint32_t piece) const;
    bool meets_stranger(const Promise& promise, std::uint32_t piece,
                        const std::vector<ContactRef>& own) const;
    bool are_grounds(const std::vector<ContactRef>& contacts) const;
    bool are_alike(const ContactRef& one, const ContactRef& other) const;
    void arrive_at_ground(Point from, Pass& pass) const;
    bool other_half_comes_here(const Promise& promise) const;

    const Design& design_;
    const Wiring& wiring_;
    /// By piece and standing: how many contacts of devices are on it.
    std::vector<std::array<std::size_t, 4>> standings_;
};

}  // namespace pinfold
