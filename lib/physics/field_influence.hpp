// The influence of charges: what a unit on each point of a mesh does at the others.
#pragma once

#include <Eigen/Dense>
#include <cstdint>
#include <vector>

#include "physics/field_mirror.hpp"
#include "physics/field_panel.hpp"
#include "physics/field_table.hpp"

namespace pinfold::field {

/// The potential at points of metal and the field along the normal at points of faces, for a charge
/// of 2 pi eps0 per length on each point.
///
/// Two panels that stand to each other as two others did, or as those seen in an upright mirror,
/// are not computed again: equal conductors at equal pitch cost little more than one.
class Influence {
public:
    Influence(const Outline& outline, const Mesh& mesh);

    /// Adds to `matrix`, at the places of a part, what a charge on each set's chosen point, and on
    /// its images with their signs, does at the chosen points. `shift` places after those of metal
    /// are left free.
    void add_to(Eigen::Ref<Eigen::MatrixXd> matrix, const Mirrors& mirrors, const Part& part,
                Eigen::Index shift);

private:
    /// Panels that are one another shifted along x are of one kind.
    struct Shift {
        std::uint64_t kind = 0;
        std::uint64_t mirrored = 0;  ///< the kind of what is seen of it; 0: not looked for
        std::int64_t x = 0;          ///< of the middle, in steps far finer than any panel
    };

    void find_shifts();
    const double* block_of(std::size_t target, std::size_t source);
    std::uint32_t place_of(std::size_t target, std::size_t source);
    void fill(std::size_t target, std::size_t source, double* values);
    void fill_mirrored(std::size_t target, std::size_t source, const double* seen, double* values);
    bool in_line(const Panel& source, const Panel& target) const;

    const Outline& outline_;
    const Mesh& mesh_;
    Quadrature quadrature_;
    std::vector<Shift> shifts_;
    std::vector<double> blocks_;
    KeyTable firsts_;                    ///< of blocks, by what two panels they are of
    std::vector<std::uint32_t> places_;  ///< the same by the two panels, target by target
    std::vector<double> row_;
};

}  // namespace pinfold::field
