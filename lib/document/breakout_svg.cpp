#include "document/breakout_svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>

#include "base/shown.hpp"
#include "document/breakout_text.hpp"
#include "document/svg.hpp"
#include "document/text_width.hpp"

namespace pinfold {
namespace {

// All measures in millimetres.
constexpr double sheet_margin = 2.0;
constexpr double least_width = 34.0;    ///< so that the legend has room
constexpr double legend_letters = 0.7;  ///< height of the legend's writing
constexpr double letter_width = 0.55;   ///< of its height
constexpr double line_height = 1.1;

/// Colours that people tell apart whatever their eyesight. Source: Okabe and Ito, Color Universal
/// Design (2008), from memory.
constexpr std::array pair_colours{"#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00", "#56B4E9"};
constexpr const char* single_colour = "#222222";
constexpr const char* ground_colour = "#666666";

struct Frame {
    double left = 1e9, right = -1e9, bottom = 1e9, top = -1e9;

    void hold(const Spot& spot, double reach) {
        left = std::min(left, spot.x_mm - reach);
        right = std::max(right, spot.x_mm + reach);
        bottom = std::min(bottom, spot.y_mm - reach);
        top = std::max(top, spot.y_mm + reach);
    }
};

class BreakoutSheet {
public:
    BreakoutSheet(const Design& design, const Breakout& made, double scale)
        : design_(design), made_(made), scale_(scale) {
        const double smallest = std::min(made.rows.sides[0].pitch_mm, made.rows.sides[1].pitch_mm);
        label_ = std::min(0.8 * smallest, 0.9);
        for (const DrawnPad& pad : made.tracks.pads) {
            names_ = std::max(
                names_, label_ * letter_width * static_cast<double>(display_width(label_of(pad))));
        }
        measure();
    }

    std::string draw() {
        pugi::xml_document document;
        const std::string title = fmt::format("Breakout of {}", made_.board);
        svg_ = add_drawing(document, "breakout",
                           fmt::format("0 0 {} {}", svg_number(width_), svg_number(height_)), title,
                           breakout_summary(made_));
        svg_.append_attribute("width") = (svg_number(scale_ * width_) + "mm").c_str();
        svg_.append_attribute("height") = (svg_number(scale_ * height_) + "mm").c_str();
        // A board is too small to be read on a screen at its own scale; on paper it is wanted.
        svg_.append_child("style").text().set(
            "@media screen { svg:root { width: 100%; height: 100vh; } }");
        add_svg(svg_, "rect",
                {{"width", svg_number(width_)}, {"height", svg_number(height_)}, {"fill", "#fff"}});
        write({sheet_margin, sheet_margin + legend_letters}, title, legend_letters, "start", true);
        for (const DrawnPad& pad : made_.tracks.pads) draw_pad(pad);
        for (const CopperLayer layer : {CopperLayer::bottom, CopperLayer::top}) {
            for (const Track& track : made_.tracks.tracks) {
                if (track.layer == layer) draw_track(track);
            }
        }
        for (const Via& via : made_.tracks.vias) draw_via(via);
        for (const DrawnPad& pad : made_.tracks.pads) draw_label(pad);
        draw_legend();
        std::ostringstream text;
        document.save(text, "  ", pugi::format_default, pugi::encoding_utf8);
        return text.str();
    }

private:
    const RowPad& pad_of(const DrawnPad& drawn) const {
        return made_.rows.side(drawn.side).pads[drawn.pad];
    }
    bool turns() const { return made_.rows.course != Course::in_line; }
    bool is_upright(const DrawnPad& drawn) const { return drawn.side == Side::near || !turns(); }

    /// Contact and net: `3 D2+`.
    std::string label_of(const DrawnPad& drawn) const {
        const RowPad& pad = pad_of(drawn);
        const std::string name =
            pad.net ? design_.boards[pad.contact.port.board].nets[*pad.net].name : "open";
        return fmt::format("{} {}", design_.contact(pad.contact).label, name);
    }

    void measure() {
        for (const DrawnPad& pad : made_.tracks.pads) {
            frame_.hold(pad.middle, std::max(pad.width_mm, pad.height_mm) / 2);
        }
        for (const Via& via : made_.tracks.vias) frame_.hold(via.at, made_.rows.rules.via_mm / 2);
        for (const Track& track : made_.tracks.tracks) {
            for (const Spot& spot : track.points) frame_.hold(spot, made_.rows.rules.track_mm / 2);
        }
        copper_ = frame_;
        // Labels stand beyond each row, one rank of them for each of its rows.
        frame_.bottom -= rank(Side::near, 0) + names_;
        const double beyond = rank(Side::far, 0) + names_;
        if (made_.rows.course == Course::to_right) frame_.right += beyond;
        if (made_.rows.course == Course::to_left) frame_.left -= beyond;
        if (!turns()) frame_.top += beyond;
        width_ = std::max(least_width, frame_.right - frame_.left + 2 * sheet_margin);
        legend_ = wrapped(breakout_summary(made_), columns());
        const double lines = 5.5 + static_cast<double>(legend_.size());
        height_ = frame_.top - frame_.bottom + 3 * sheet_margin + line_height * lines;
    }

    /// How far beyond the copper the label of a row's pad begins; the last row's are nearest.
    double rank(Side side, int row) const {
        const std::vector<RowPad>& pads = made_.rows.side(side).pads;
        const int last = std::ranges::max(pads, {}, &RowPad::row).row;
        return 0.4 + (names_ + 0.4) * (last - row);
    }

    Spot on_sheet(const Spot& spot) const {
        const double aside = (width_ - (frame_.right - frame_.left)) / 2;
        return {spot.x_mm - frame_.left + aside,
                frame_.top - spot.y_mm + sheet_margin + 2 * line_height};
    }

    struct Paint {
        const char* colour = single_colour;
        bool pair = false;
    };

    Paint paint_of(const Track& track) const {
        if (!track.wire) return {ground_colour, false};
        for (std::size_t p = 0; p < made_.pairs.size(); ++p) {
            for (const std::size_t wire : made_.pairs[p].wires) {
                const std::size_t net = made_.escape.wires[wire].net;
                if (net == track.net) return {pair_colours[p % pair_colours.size()], true};
            }
        }
        return {};
    }

    void add_path(const std::string& path, const char* colour, double width,
                  const std::string& dashes) {
        add_svg(svg_, "path",
                {{"d", path},
                 {"fill", "none"},
                 {"stroke", colour},
                 {"stroke-width", svg_number(width)},
                 {"stroke-linejoin", "round"},
                 {"stroke-linecap", dashes.empty() ? "round" : "butt"},
                 {"stroke-dasharray", dashes.empty() ? "none" : dashes}});
    }

    void draw_track(const Track& track) {
        std::string path;
        for (const Spot& point : track.points) {
            const Spot spot = on_sheet(point);
            path += fmt::format("{}{} {}", path.empty() ? "M" : "L", svg_number(spot.x_mm),
                                svg_number(spot.y_mm));
        }
        const Paint paint = paint_of(track);
        const double width = made_.rows.rules.track_mm;
        const bool dashed = track.layer == CopperLayer::bottom;
        const std::string dashes =
            dashed ? fmt::format("{} {}", svg_number(2.4 * width), svg_number(1.2 * width)) : "";
        add_path(path, paint.colour, width, dashes);
        if (paint.pair) add_path(path, "#ffffff", 0.36 * width, "");
    }

    void draw_via(const Via& via) {
        const TrackRules& rules = made_.rows.rules;
        const Spot at = on_sheet(via.at);
        add_svg(svg_, "circle",
                {{"cx", svg_number(at.x_mm)},
                 {"cy", svg_number(at.y_mm)},
                 {"r", svg_number((rules.via_mm + rules.hole_mm) / 4)},
                 {"fill", "#fff"},
                 {"stroke", "#000"},
                 {"stroke-width", svg_number((rules.via_mm - rules.hole_mm) / 2)}});
    }

    /// Filled: a signal; an empty frame: ground; a dashed one: left open; a circle: plated hole.
    void draw_pad(const DrawnPad& drawn) {
        const RowPad& pad = pad_of(drawn);
        const Spot at = on_sheet(drawn.middle);
        const bool filled = pad.net && !pad.ground;
        const double line = 0.04;
        add_svg(svg_, "rect",
                {{"x", svg_number(at.x_mm - drawn.width_mm / 2 + line / 2)},
                 {"y", svg_number(at.y_mm - drawn.height_mm / 2 + line / 2)},
                 {"width", svg_number(drawn.width_mm - line)},
                 {"height", svg_number(drawn.height_mm - line)},
                 {"fill", filled ? "#d0d0d0" : "#ffffff"},
                 {"stroke", "#000"},
                 {"stroke-width", svg_number(line)},
                 {"stroke-dasharray", pad.net ? "none" : "0.12 0.08"}});
        if (pad.hole_mm <= 0) return;
        add_svg(svg_, "circle",
                {{"cx", svg_number(at.x_mm)},
                 {"cy", svg_number(at.y_mm)},
                 {"r", svg_number(pad.hole_mm / 2)},
                 {"fill", "#fff"},
                 {"stroke", "#000"},
                 {"stroke-width", svg_number(line)}});
    }

    /// Along the track, beyond the row.
    void draw_label(const DrawnPad& drawn) {
        const double off = rank(drawn.side, pad_of(drawn).row);
        const double sink = 0.35 * label_;  // from the middle of the letters to their foot
        if (is_upright(drawn)) {
            const bool near = drawn.side == Side::near;
            const Spot at =
                on_sheet({drawn.middle.x_mm, near ? copper_.bottom - off : copper_.top + off});
            write_upright({at.x_mm + sink, at.y_mm}, label_of(drawn), near ? "end" : "start");
            return;
        }
        const bool right = made_.rows.course == Course::to_right;
        const Spot at =
            on_sheet({right ? copper_.right + off : copper_.left - off, drawn.middle.y_mm});
        write({at.x_mm, at.y_mm + sink}, label_of(drawn), label_, right ? "start" : "end", false);
    }

    pugi::xml_node write(const Spot& at, const std::string& text, double size, const char* anchor,
                         bool bold) {
        pugi::xml_node node = add_svg(svg_, "text",
                                      {{"x", svg_number(at.x_mm)},
                                       {"y", svg_number(at.y_mm)},
                                       {"font-size", svg_number(size)},
                                       {"text-anchor", anchor},
                                       {"font-weight", bold ? "bold" : "normal"}});
        node.text().set(text.c_str());
        return node;
    }

    void write_upright(const Spot& at, const std::string& text, const char* anchor) {
        write(at, text, label_, anchor, false).append_attribute("transform") =
            fmt::format("rotate(-90 {} {})", svg_number(at.x_mm), svg_number(at.y_mm)).c_str();
    }

    void draw_legend() {
        double y = on_sheet({0.0, frame_.bottom}).y_mm + sheet_margin;
        draw_scale(y);
        y += 1.5 * line_height;
        const auto say = [&](const std::string& text) {
            y += line_height;
            write({sheet_margin, y}, text, legend_letters, "start", false);
        };
        say("solid: top layer; dashed: run in the plane; ring: via; bumps: meander");
        say("light core: half of a pair; empty pad: ground; dashed pad: open; circle: hole");
        for (const std::string& line : legend_) say(line);
    }

    int columns() const {
        return static_cast<int>((width_ - 2 * sheet_margin) / (legend_letters * letter_width));
    }

    void draw_scale(double y) {
        const double length = 5.0;
        add_path(fmt::format("M{0} {1}v0.6M{0} {2}h{3}M{4} {1}v0.6", svg_number(sheet_margin),
                             svg_number(y - 0.3), svg_number(y), svg_number(length),
                             svg_number(sheet_margin + length)),
                 "#000", 0.12, "");
        write({sheet_margin + length + 0.6, y + 0.35 * legend_letters},
              fmt::format("5 mm; printed at {:g} : {:g}", std::max(scale_, 1.0),
                          std::max(1.0 / scale_, 1.0)),
              legend_letters, "start", false);
    }

    const Design& design_;
    const Breakout& made_;
    double scale_;
    double label_ = 0.4;  ///< height of a pad's writing
    double names_ = 0.0;  ///< length of the longest one
    Frame copper_, frame_;
    std::vector<std::string> legend_;
    double width_ = 0.0, height_ = 0.0;
    pugi::xml_node svg_;
};

}  // namespace

std::string breakout_svg(const Design& design, const Breakout& breakout, double scale) {
    return shown_page(BreakoutSheet(design, breakout, scale).draw());
}

}  // namespace pinfold
