// The bench: an assembly with its devices unplugged, and what every plausible fault would do to it.
#pragma once

#include <vector>

#include "bringup/assembly.hpp"
#include "bringup/fault.hpp"
#include "bringup/sites.hpp"

namespace pinfold {

/// Everything a plan or a diagnosis looks at, worked out once. Partitions are over the watched
/// points: the sites in their order, then the points that were asked for.
struct Bench {
    const Design& design;
    const Wiring& wiring;
    Sites sites;
    Pieces pieces;
    Assembly assembly;
    std::vector<Fault> faults;
    std::vector<Partition> partitions;  ///< by fault

    bool is_joined(const Partition& partition, std::size_t one, std::size_t other) const {
        return partition[one] == partition[other];
    }
    const Partition& sound() const { return assembly.sound(); }
    const ContactRef& contact(std::size_t site) const { return sites.all()[site].contact; }
};

/// `also` are points to watch besides the sites, `parts` so many parts of devices; faults of these
/// are not thought of here. The design and the wiring must outlive the bench.
Bench set_up(const Design& design, const Wiring& wiring, const std::vector<Point>& also = {},
             std::size_t parts = 0);

/// Faults that no reading between watched points can tell from each other, told as one cause.
///
/// Groups of faults, each in the order of the faults, the likeliest kind first. Of `some` faults
/// alone, by their places.
std::vector<std::vector<std::size_t>> alike(const Bench& bench,
                                            const std::vector<std::size_t>& some);

}  // namespace pinfold
