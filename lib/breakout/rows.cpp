#include "breakout/rows.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/spelling.hpp"
#include "breakout/pad_room.hpp"
#include "breakout/usual_pads.hpp"

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

    static bool all_placed(const Port& port) {
        return port.placing && std::ranges::all_of(port.contacts, [&](const PortContact& contact) {
                   return !contact.net ||
                          std::ranges::find(port.placing->pads, contact.label, &PlacedPad::label) !=
                              port.placing->pads.end();
               });
    }

    /// Lays the rows out by the board's file, if that can be drawn.
    bool lay_as_placed() {
        const Port& near = near_port();
        const Port& far = board_.ports[far_.front()];
        if (!near.placing && !far.placing) return false;
        const char* why = nullptr;
        const int turn = near.placing && far.placing
                             ? (far.placing->angle - near.placing->angle + 360) % 360
                             : 0;
        if (far_.size() > 1) {
            why = "more than two ports";
        } else if (!all_placed(near) || !all_placed(far)) {
            why = "not every contact has a place";
        } else if (near.placing->bottom != far.placing->bottom) {
            why = "the ports lie on both sides of the board";
        } else if (turn % 90 != 0) {
            why = "the ports do not stand at right angles";
        } else if (wish_.course) {
            why = "the course was asked for";
        } else if (!lay_placed(near, far, turn)) {
            why = "the rows do not lie one beyond the other";
        }
        if (why) {
            rows_.remarks.push_back(fmt::format("the placing is not drawn: {}", why));
        } else {
            remark_on_shells({&near, &far});
        }
        return why == nullptr;
    }

    /// Pads on the board, turned so that the near mouth looks down the page.
    std::vector<std::pair<std::size_t, Spot>> seen(const Port& port, const Placing& frame) const {
        const double angle = -frame.angle * std::acos(-1.0) / 180.0;
        std::vector<std::pair<std::size_t, Spot>> spots;
        for (const PlacedPad& pad : on_board(*port.placing)) {
            const auto contact = std::ranges::find(port.contacts, pad.label, &PortContact::label);
            if (contact == port.contacts.end()) continue;
            const double x = pad.x.value() - frame.x.value();
            const double y = pad.y.value() - frame.y.value();
            spots.emplace_back(static_cast<std::size_t>(contact - port.contacts.begin()),
                               Spot{x * std::cos(angle) - y * std::sin(angle),
                                    x * std::sin(angle) + y * std::cos(angle)});
        }
        return spots;
    }

    bool lay_placed(const Port& near, const Port& far, int turn) {
        const auto near_spots = seen(near, *near.placing);
        auto far_spots = seen(far, *near.placing);
        rows_.course = turn == 90    ? Course::to_right
                       : turn == 270 ? Course::to_left
                                     : Course::in_line;
        const double mirror = rows_.course == Course::to_left ? -1.0 : 1.0;
        double near_front = -1e9, far_front = 1e9;
        for (auto& [contact, spot] : near_spots) near_front = std::max(near_front, spot.y_mm);
        const double near_pitch = placed_pitch(near, near_spots);
        for (auto& [contact, spot] : near_spots) {
            add_pad(Side::near, rows_.near.port, contact, mirror * spot.x_mm,
                    near_front - spot.y_mm, near_pitch);
        }
        // In the row's own frame: along it, and behind its front line.
        for (auto& [contact, spot] : far_spots) {
            const Spot turned{-(spot.y_mm - near_front), mirror * spot.x_mm};
            spot =
                rows_.course == Course::in_line ? Spot{spot.x_mm, spot.y_mm - near_front} : turned;
            far_front = std::min(far_front, spot.y_mm);
        }
        const double far_pitch = placed_pitch(far, far_spots);
        for (auto& [contact, spot] : far_spots) {
            add_pad(Side::far, far_.front(), contact, spot.x_mm, spot.y_mm - far_front, far_pitch);
        }
        rows_.placed_front_mm = far_front;
        const bool beyond = rows_.course == Course::in_line
                                ? far_front > 0.0
                                : std::ranges::all_of(row(Side::far).pads, [](const RowPad& pad) {
                                      return pad.along_mm < 0.0;
                                  });
        if (beyond) return true;
        rows_.sides = {};
        rows_.placed_front_mm.reset();
        rows_.course = Course::in_line;
        return false;
    }

    using PlacedSpots = std::vector<std::pair<std::size_t, Spot>>;

    /// Shield pads have a place and no part in the wires.
    void remark_on_shells(std::initializer_list<const Port*> ports) {
        std::vector<std::string> pads;
        for (const Port* port : ports) {
            for (const PlacedPad& pad : port->placing->pads) {
                if (std::ranges::find(port->shell, pad.label) == port->shell.end()) continue;
                pads.push_back(fmt::format("{}.{}", port->name, pad.label));
            }
        }
        if (pads.empty()) return;
        rows_.remarks.push_back(
            fmt::format("shield pads are not drawn, and traces are not kept off them: {}",
                        fmt::join(pads, ", ")));
    }

    /// The least distance of two places along one row, x along it; the usual one of a lone pad.
    double placed_pitch(const Port& port, const PlacedSpots& spots) const {
        constexpr double same = 0.05;  // nearer than any two rows
        double least = HUGE_VAL;
        for (const auto& [contact, spot] : spots) {
            for (const auto& [other, place] : spots) {
                const double apart = place.x_mm - spot.x_mm;
                if (contact == other || apart < 0.0 || std::abs(place.y_mm - spot.y_mm) > same)
                    continue;
                least = std::min(least, apart);
            }
        }
        return std::isfinite(least) ? least : usual_pads(design_, port).pitch_mm;
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
        if (pad.hole_mm < std::min(pad.width_mm, pad.length_mm)) return;
        refuse("breakout-rules",
               fmt::format("a hole of {:g} mm leaves nothing of a pad of {:g} by {:g} mm; give "
                           "'pad-width' and 'pad-length'",
                           pad.hole_mm, pad.width_mm, pad.length_mm),
               placing.at);
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
