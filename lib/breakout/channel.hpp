// The channel between two rows: its columns and lines, and how far apart the rows must be.
#pragma once

#include "breakout/below.hpp"
#include "breakout/river.hpp"

namespace pinfold {

/// Distances within a stage of dives, from its beginning, in millimetres.
struct StagePlan {
    double column;  ///< between columns
    double aside;   ///< where those between begin to step aside
    double up;      ///< where the wire that dived comes up
    double height;

    StagePlan(const TrackRules& rules, bool has_vias_abreast);
};

/// Lines across the channel, from where the wires have come to their columns.
struct Lines {
    double rise = 0.0;   ///< vias of those that come up before the dives
    double dives = 0.0;  ///< where these begin
    double sink = 0.0;   ///< vias of those that go down after the dives
    double end = 0.0;
};

/// As far from a plated hole to its dive a wire stays on the bottom layer; invented.
inline constexpr double longest_from_hole_mm = 6.0;

/// Wires go aside from the near row to columns if any of them changes layer, past each other there,
/// and aside to the far row. All places in millimetres, as in `Tracks`.
class WireChannel {
public:
    WireChannel(const PadRows& rows, const Escape& escape, const std::vector<Dive>& dives);

    const ExitWay& way(std::size_t wire, Side side) const;
    double mouth_mm(Side side) const { return mouths_[static_cast<std::size_t>(side)]; }
    const std::vector<Below>& below() const { return below_; }
    const StagePlan& plan() const { return plan_; }
    bool turns() const { return rows_.course != Course::in_line; }

    std::vector<std::size_t> near_order() const;  ///< wires from the left
    std::vector<double> near_places() const;
    std::vector<double> far_places() const;
    bool has_columns() const;
    std::vector<double> columns() const;
    Lines lines() const;
    std::size_t stages() const;
    River river(const std::vector<std::size_t>& order, const std::vector<double>& from,
                const std::vector<double>& to) const;

    double cut_mm() const { return rows_.rules.spacing(); }  ///< the way the corner is cut
    /// How far along its row anything of the far row reaches, a gap to other tracks included.
    double far_reach_mm() const;
    double shift_mm() const { return shift_; }  ///< of the far row along the near one
    double spare_mm() const { return spare_; }  ///< straight run left over
    double needed_mm() const { return needed_; }
    std::optional<double> placed_mm() const { return placed_; }

private:
    std::size_t count() const { return escape_.wires.size(); }
    bool any(bool Below::*what) const;
    std::vector<std::size_t> far_order() const;
    double least_height() const;
    void place_far_row();
    void rise_from_holes();

    const PadRows& rows_;
    const Escape& escape_;
    const std::vector<Dive>& dives_;
    std::vector<Below> below_;
    StagePlan plan_;
    std::array<std::vector<ExitWay>, 2> ways_;
    std::array<double, 2> mouths_{};
    double shift_ = 0.0;
    double spare_ = 0.0;
    double needed_ = 0.0;
    std::optional<double> placed_;
};

}  // namespace pinfold
