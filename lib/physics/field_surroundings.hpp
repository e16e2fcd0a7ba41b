// The surroundings of a panel: the corners and circles that its charge has to look out for.
#pragma once

#include <vector>

#include "physics/field_mesh.hpp"

namespace pinfold::field {

class Surroundings {
public:
    explicit Surroundings(const Outline& outline);

    /// The sum of the half axes of the least ellipse, with foci at the ends of the panel, in its
    /// own measure, that meets something sharp; what is far counts as being at four lengths, what
    /// stands across from metal as nearer than it is. Below `enough` any may be told.
    double clearance(const Panel& panel, double enough) const;

    /// How much of the digits wanted the charge on a stretch has to be right to; more than all of
    /// them where metal has a thin film on it.
    double share(std::size_t stretch) const { return shares_[stretch]; }

    /// By how much the modes of the charge on a circle fall off, each by exp of it; nothing if it
    /// touches something.
    double decay_of(const Stretch& circle) const;

private:
    struct Corner {
        Point at;
        int conductor = -1;  ///< whose; -1: of a face between dielectrics, or an image
        friend bool operator==(const Corner&, const Corner&) = default;
    };

    void add_circle(const Stretch& circle);
    void add_corner(Point corner, int conductor);
    void find_hugging();
    void add_seen_corners(const Stretch& face, const Stretch& wall);
    double corner_clearance(const Panel& panel, double enough) const;
    double circle_clearance(const Panel& panel, const Stretch& circle) const;

    const Outline& outline_;
    std::vector<Corner> corners_;  ///< from left to right
    std::vector<Stretch> circles_;
    std::vector<double> shares_;  ///< of stretches
};

}  // namespace pinfold::field
