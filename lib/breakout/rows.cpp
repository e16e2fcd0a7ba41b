#include "breakout/rows.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/spelling.hpp"
#include "breakout/pad_room.hpp"
#include "breakout/placed_rows.hpp"
#include "breakout/usual_pads.hpp"
#include "design/hole_ring.hpp"

namespace pinfold {
namespace {

constexpr double between_ports = 2.0;  ///< mm; invented

RowPad pad_of(const Board& board, const ContactRef& contact) {
    RowPad pad;
    pad.contact = contact;
    pad.net = board.ports[contact.port.port].contacts[contact.contact].net;
    // Grounds that are kept apart have no plane in common: they are wired like the rest.
    const bool one_plane = std::ranges::count_if(board.nets, &Net::ground) == 1;
    pad.ground = one_plane && pad.net && board.nets[*pad.net].ground;
    return pad;
}

class RowsReader {
public:
    RowsReader(const Design& design, std::size_t board, const BreakoutWish& wish)
        : design_(design), number_(board), board_(design.boards[board]), wish_(wish) {}

    PadRows read() {
        choose_ports();
        rows_.course = wish_.course.value_or(Course::in_line);
        if (!lay_as_placed()) lay_as_usual();
        if (wish_.own_order) take_own_order();
        set_rules();
        return std::move(rows_);
    }

private:
    PadRow& row(Side side) { return rows_.sides[static_cast<std::size_t>(side)]; }
    const Port& near_port() const { return board_.ports[rows_.near.port]; }

    void choose_ports() {
        if (board_.is_device) {
            refuse("breakout-rows",
                   fmt::format("{} is a device, not a board of yours", board_.name), board_.at);
        }
        std::optional<std::size_t> near;
        if (!wish_.port.empty()) {
            near = board_.find_port(wish_.port);
            if (!near) refuse_port();
        }
        for (std::size_t p = 0; p < board_.ports.size() && !near; ++p) {
            if (board_.ports[p].ribbon) near = p;
        }
        if (!near) {
            refuse("breakout-rows",
                   fmt::format("board {} has no receptacle for a ribbon", board_.name), board_.at);
        }
        rows_.near = {number_, *near};
        for (std::size_t p = 0; p < board_.ports.size(); ++p) {
            if (p != *near && !board_.ports[p].contacts.empty()) far_.push_back(p);
        }
        if (far_.empty()) {
            refuse("breakout-rows",
                   fmt::format("board {} has nothing opposite {}", board_.name, near_port().name),
                   board_.at);
        }
    }

    [[noreturn]] void refuse_port() const {
        std::vector<std::string> known;
        for (const Port& port : board_.ports) known.push_back(port.name);
        refuse("port-unknown",
               fmt::format("board {} has no port '{}'{}", board_.name, wish_.port,
                           did_you_mean(wish_.port, known)),
               board_.at);
    }

    /// Lays the rows out by the board's file, if that can be drawn.
    bool lay_as_placed() {
        const Port& near = near_port();
        const Port& far = board_.ports[far_.front()];
        if (!near.placing && !far.placing) return false;
        PlacedRows placed;
        if (far_.size() == 1) placed = placed_rows(design_, near, far);
        const char* why = far_.size() > 1  ? "more than two ports"
                          : placed.why_not ? placed.why_not
                          : wish_.course   ? "the course was asked for"
                                           : nullptr;
        if (why) {
            const std::string undrawn = fmt::format("the placing is not drawn: {}", why);
            rows_.remarks.push_back(undrawn);
            if (!wish_.course) warn((near.placing ? near : far).placing->at, undrawn);
            return false;
        }
        rows_.course = placed.course;
        rows_.placed_front_mm = placed.front_mm;
        for (const PlacedContact& pad : placed.near) {
            add_pad(Side::near, rows_.near.port, pad.contact, pad.along_mm, pad.behind_mm,
                    pad.pitch_mm);
        }
        for (const PlacedContact& pad : placed.far) {
            add_pad(Side::far, far_.front(), pad.contact, pad.along_mm, pad.behind_mm,
                    pad.pitch_mm);
        }
        if (!placed.shells.empty()) {
            rows_.remarks.push_back(
                fmt::format("shield pads are not drawn, and traces are not kept off them: {}",
                            fmt::join(placed.shells, ", ")));
        }
        return true;
    }

    void warn(const Mark& at, const std::string& undrawn) {
        rows_.findings.push_back(
            {Severity::warning, "placing-undrawn",
             fmt::format("on {}, {}; the rows are drawn as they usually lie", board_.name, undrawn),
             at});
    }

    void add_pad(Side side, std::size_t port, std::size_t contact, double along, double behind,
                 double pitch) {
        RowPad pad = pad_of(board_, {{number_, port}, contact});
        const Port& part = board_.ports[port];
        pad.along_mm = along;
        pad.behind_mm = std::abs(behind) < 1e-6 ? 0.0 : behind;
        pad.pitch_mm = pitch;
        pad.width_mm = usual_pad_width_mm(pitch);
        pad.length_mm = usual_pad_length_mm(pitch);
        if (part.placing) take_sizes(pad, *part.placing);
        row(side).pads.push_back(pad);
    }

    static void take_sizes(RowPad& pad, const Placing& placing) {
        const auto set = [](double& size, const std::optional<Millimetres>& placed) {
            if (placed) size = placed->value();
        };
        set(pad.width_mm, placing.pad_width);
        set(pad.length_mm, placing.pad_length);
        set(pad.hole_mm, placing.drill);
        if (pad.hole_mm == 0.0) return;
        const Millimetres narrow(std::min(pad.width_mm, pad.length_mm));
        const std::string name =
            fmt::format("a pad of {:g} by {:g} mm", pad.width_mm, pad.length_mm);
        const auto fault = ring_fault(Millimetres(pad.hole_mm), narrow, name);
        if (!fault) return;
        refuse("breakout-rules", *fault + "; give 'pad-width' and 'pad-length'", placing.at);
    }

    void lay_as_usual() {
        const bool left = near_port().ribbon ? near_port().ribbon->mouth.first == Hand::left : true;
        lay_port(Side::near, rows_.near.port, 0.0, !left);
        double begin = 0.0;
        for (const std::size_t p : far_) {
            // Two ribbon receptacles on opposite edges run against each other when both have
            // contact 1 on the same hand.
            const Port& port = board_.ports[p];
            const bool back =
                port.ribbon && near_port().ribbon ? port.ribbon->mouth.first == Hand::left : !left;
            begin = lay_port(Side::far, p, begin, back) + between_ports;
        }
        centre(row(Side::far));
        if (rows_.course == Course::to_left) mirror();
        rows_.remarks.push_back(fmt::format(
            "{}the rows are taken to lie {}, contact 1 on the same side, as far apart as the "
            "traces need",
            rows_.remarks.empty() ? "no placing: " : "",
            rows_.course == Course::in_line ? "opposite and in line" : "at right angles"));
    }

    /// A course to the left is worked out as one to the right in the mirror.
    void mirror() {
        for (PadRow& side : rows_.sides) {
            for (RowPad& pad : side.pads) pad.along_mm = -pad.along_mm;
        }
    }

    /// Lays the pads of a port from `begin` on; the place of the last one.
    double lay_port(Side side, std::size_t p, double begin, bool back) {
        const Port& port = board_.ports[p];
        const UsualPads usual = usual_pads(design_, port);
        int columns = 0;
        for (const PadCell& cell : usual.cells) columns = std::max(columns, cell.column + 1);
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            if (port.contacts[i].absent) continue;
            const PadCell cell = usual.cells[i];
            const int column = back ? columns - 1 - cell.column : cell.column;
            add_pad(side, p, i, begin + column * usual.pitch_mm,
                    cell.row * usual_row_distance_mm(usual.pitch_mm), usual.pitch_mm);
        }
        if (side == Side::near) centre(row(side));
        return begin + (columns - 1) * usual.pitch_mm;
    }

    static void centre(PadRow& row) {
        const auto [least, most] = std::ranges::minmax(row.pads, {}, &RowPad::along_mm);
        const double middle = (least.along_mm + most.along_mm) / 2;
        for (RowPad& pad : row.pads) pad.along_mm -= middle;
    }

    /// The near row takes what the far row has, from left to right.
    void take_own_order() {
        std::vector<RowPad>& near = row(Side::near).pads;
        std::vector<RowPad> far = row(Side::far).pads;
        if (far.size() > near.size()) {
            refuse("breakout-rows",
                   fmt::format("{} has {} contacts, and {} lie opposite: their own order does not "
                               "fit",
                               near_port().name, near.size(), far.size()),
                   board_.at);
        }
        const auto before = [](const RowPad& one, const RowPad& other) {
            return std::pair(one.along_mm, one.row) < std::pair(other.along_mm, other.row);
        };
        std::ranges::stable_sort(near, before);
        std::ranges::stable_sort(far, before);
        for (std::size_t i = 0; i < near.size(); ++i) {
            near[i].net = i < far.size() ? far[i].net : std::nullopt;
            near[i].ground = i < far.size() && far[i].ground;
        }
    }

    void set_rules() {
        double pitch = 1e9;
        for (PadRow& side : rows_.sides) {
            number_rows(side);
            side.pitch_mm = std::ranges::min(side.pads, {}, &RowPad::pitch_mm).pitch_mm;
            pitch = std::min(pitch, side.pitch_mm);
        }
        rows_.rules = rules_for(pitch, board_, wish_.rules);
        require_room(rows_, board_);
        rows_.remarks.push_back(fmt::format(
            "tracks {:.2f} mm, gaps {:.2f} mm, vias {:.2f} mm with {:.2f} mm holes",
            rows_.rules.track_mm, rows_.rules.gap_mm, rows_.rules.via_mm, rows_.rules.hole_mm));
    }

    static void number_rows(PadRow& side) {
        std::vector<double> depths;
        for (const RowPad& pad : side.pads) depths.push_back(pad.behind_mm);
        std::ranges::sort(depths);
        const auto same = [](double one, double other) { return other - one < 0.01; };
        depths.erase(std::unique(depths.begin(), depths.end(), same), depths.end());
        for (RowPad& pad : side.pads) {
            const auto at = std::ranges::upper_bound(depths, pad.behind_mm + 0.005);
            pad.row = static_cast<int>(at - depths.begin()) - 1;
        }
    }

    const Design& design_;
    std::size_t number_;
    const Board& board_;
    const BreakoutWish& wish_;
    std::vector<std::size_t> far_;
    PadRows rows_;
};

}  // namespace

double PadRow::longest_mm() const {
    return std::ranges::max_element(pads, {}, &RowPad::length_mm)->length_mm;
}

double PadRow::depth_mm() const {
    return std::ranges::max_element(pads, {}, &RowPad::behind_mm)->behind_mm;
}

PadRows pad_rows(const Design& design, std::size_t board, const BreakoutWish& wish) {
    return RowsReader(design, board, wish).read();
}

}  // namespace pinfold
