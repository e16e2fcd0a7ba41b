#include <fmt/format.h>

#include <algorithm>

#include "document/drawing.hpp"
#include "document/svg.hpp"

namespace pinfold {
namespace {

// All measures in millimetres of the printed drawing, which is one user unit each.
constexpr double sheet_width = 180.0;
constexpr double left_edge = 26.0;
constexpr double right_edge = sheet_width - left_edge;
constexpr double top = 17.0;
constexpr double bared = 15.0;  ///< length of the bared copper
constexpr double stiff = 24.0;  ///< length of the stiffener
constexpr double sheet_middle = sheet_width / 2;
constexpr double half_gap = 3.0;       ///< of the break in the middle
constexpr double letter_height = 3.3;  ///< height of the writing

struct Bar {
    double x, y, w, h;
};

pugi::xml_node add_box(pugi::xml_node parent, Bar box, std::initializer_list<SvgAttribute> paint) {
    pugi::xml_node node = add_svg(parent, "rect",
                                  {{"x", svg_number(box.x)},
                                   {"y", svg_number(box.y)},
                                   {"width", svg_number(box.w)},
                                   {"height", svg_number(box.h)}});
    for (const SvgAttribute& attribute : paint) {
        node.append_attribute(attribute.name) = attribute.value.c_str();
    }
    return node;
}

/// A path in one stroke, never filled.
void add_stroke(pugi::xml_node parent, const std::string& path, double thickness,
                const std::string& dashes = "none") {
    add_svg(parent, "path",
            {{"d", path},
             {"fill", "none"},
             {"stroke", "#000"},
             {"stroke-width", svg_number(thickness)},
             {"stroke-dasharray", dashes}});
}

struct Writing {
    double x, y;
    const char* anchor = "start";
    bool bold = false;
};

void add_text(pugi::xml_node parent, const Writing& writing, const std::string& text) {
    add_svg(parent, "text",
            {{"x", svg_number(writing.x)},
             {"y", svg_number(writing.y)},
             {"text-anchor", writing.anchor},
             {"font-size", svg_number(letter_height)},
             {"font-weight", writing.bold ? "bold" : "normal"}})
        .text()
        .set(text.c_str());
}

/// Where things stand for a ribbon of so many conductors.
struct Plan {
    int conductors;
    double pitch;

    explicit Plan(int count)
        : conductors(count), pitch(std::clamp(36.0 / (count + 1), 0.62, 3.2)) {}
    double height() const { return pitch * (conductors + 1); }
    double bottom() const { return top + height(); }
    double line_of(int conductor) const { return top + pitch * conductor; }
    double total() const { return bottom() + 14.0; }
};

/// One end in the drawing: where its outer edge is and which way the ribbon runs from there.
struct SheetEdge {
    double edge;
    double inward;  ///< +1 at end a, -1 at end b
    const char* anchor;
    double from(double length) const { return std::min(edge, edge + inward * length); }
};

constexpr SheetEdge side_a{left_edge, 1.0, "start"};
constexpr SheetEdge side_b{right_edge, -1.0, "end"};

void draw_film(pugi::xml_node svg, const Plan& plan) {
    for (const SheetEdge& side : {side_a, side_b}) {
        const double inner = sheet_middle - side.inward * half_gap;
        add_box(svg, {std::min(side.edge, inner), top, std::abs(inner - side.edge), plan.height()},
                {{"fill", "#fff"}});
        for (int n = 1; n <= plan.conductors; ++n) {
            add_stroke(svg,
                       fmt::format("M{} {}H{}", svg_number(side.edge + side.inward * bared),
                                   svg_number(plan.line_of(n)), svg_number(inner)),
                       std::min(0.3, plan.pitch * 0.14));
        }
        const double wave = side.inward * 1.5;
        const double half = plan.height() / 2;
        add_stroke(svg,
                   fmt::format("M{0} {1}q{2} {3} 0 {4}t0 {4}", svg_number(inner), svg_number(top),
                               svg_number(wave), svg_number(half / 2), svg_number(half)),
                   0.4);
        add_stroke(svg,
                   fmt::format("M{} {}H{}V{}H{}", svg_number(inner), svg_number(top),
                               svg_number(side.edge), svg_number(plan.bottom()), svg_number(inner)),
                   0.4);
        add_stroke(svg,
                   fmt::format("M{} {}H{}", svg_number(side.edge), svg_number(top - 0.45),
                               svg_number(inner)),
                   1.3);
    }
}

/// Bars if the copper looks at the viewer, dashed outlines under a hatched stiffener if not.
void draw_bared_end(pugi::xml_node svg, const Plan& plan, const SheetEdge& side, CopperView copper,
                    const std::string& hatch) {
    const bool seen = copper == CopperView::towards_you;
    const double w = plan.pitch * 0.55;
    if (!seen) {
        add_box(svg, {side.from(stiff), top, stiff, plan.height()},
                {{"fill", "url(#" + hatch + ")"}, {"stroke", "#000"}, {"stroke-width", "0.3"}});
    }
    for (int n = 1; n <= plan.conductors; ++n) {
        const Bar bar{side.from(bared), plan.line_of(n) - w / 2, bared, w};
        if (seen) {
            add_box(svg, bar, {{"fill", "#000"}});
        } else if (plan.pitch >= 1.2) {
            add_box(svg, bar,
                    {{"fill", "#fff"},
                     {"stroke", "#000"},
                     {"stroke-width", "0.25"},
                     {"stroke-dasharray", "1 0.7"}});
        } else {
            add_stroke(svg,
                       fmt::format("M{} {}h{}", svg_number(bar.x), svg_number(plan.line_of(n)),
                                   svg_number(bared)),
                       w * 0.6, "1 0.7");
        }
    }
}

void draw_socket(pugi::xml_node svg, const Plan& plan, const SheetEdge& side) {
    add_box(svg, {side.from(9.0), top - 2.0, 9.0, plan.height() + 4.0},
            {{"fill", "#fff"}, {"stroke", "#000"}, {"stroke-width", "0.5"}});
    for (int n = 1; n <= plan.conductors; ++n) {
        const double row = n % 2 == 1 ? 2.6 : 6.0;
        const double w = std::min(1.2, plan.pitch * 0.55);
        add_box(svg, {side.edge + side.inward * row - w / 2, plan.line_of(n) - w / 2, w, w},
                {{"fill", "#000"}});
    }
}

/// Contact numbers beside the first and the last conductor, a solid arrow at contact 1.
void label_contact(pugi::xml_node svg, const SheetEdge& side, double y, const std::string& label,
                   bool is_one) {
    if (label.empty()) return;
    const double out = -side.inward;
    const char* anchor = side.inward > 0 ? "end" : "start";
    add_text(svg, {side.edge + out * 4.6, y + 1.1, anchor, is_one}, "contact " + label);
    if (!is_one) return;
    add_svg(svg, "path",
            {{"d", fmt::format("M{} {}l{} -1.5v3z", svg_number(side.edge + out * 0.6),
                               svg_number(y), svg_number(out * 3.0))},
             {"fill", "#000"}});
}

void draw_end(pugi::xml_node svg, const Plan& plan, const SheetEdge& side, const EndView& end,
              const std::string& hatch) {
    const bool is_a = side.inward > 0;
    const double corner = is_a ? 0.0 : sheet_width;
    add_text(svg, {corner, 4.0, side.anchor, true},
             fmt::format("End {}: {}", is_a ? "a" : "b", end.place));
    std::string words(in_words(end.copper));
    if (end.copper == CopperView::below) words += ", on the far face";
    add_text(svg, {corner, 9.0, side.anchor, false}, words);
    if (end.copper == CopperView::sockets) {
        draw_socket(svg, plan, side);
    } else {
        draw_bared_end(svg, plan, side, end.copper, hatch);
    }
    label_contact(svg, side, plan.line_of(1), end.at_first, end.one_at_first);
    if (plan.conductors == 1) return;
    label_contact(svg, side, plan.line_of(plan.conductors), end.at_last, end.one_at_last);
}

/// The ribbon from its edge: on which face the copper is.
void draw_profile(pugi::xml_node svg, const Plan& plan, const RibbonView& view) {
    const double y = plan.bottom() + 11.0;
    for (const SheetEdge& side : {side_a, side_b}) {
        const CopperView copper = side.inward > 0 ? view.a.copper : view.b.copper;
        const bool up = copper == CopperView::towards_you;
        const double inner = sheet_middle - side.inward * half_gap;
        add_stroke(
            svg, fmt::format("M{} {}H{}", svg_number(side.edge), svg_number(y), svg_number(inner)),
            0.5);
        add_box(svg, {side.from(bared), up ? y - 1.55 : y + 0.25, bared, 1.3}, {{"fill", "#000"}});
        add_box(svg, {side.from(stiff), up ? y + 0.25 : y - 1.55, stiff, 1.3},
                {{"fill", "#fff"}, {"stroke", "#000"}, {"stroke-width", "0.3"}});
    }
    add_text(svg, {0, y + 1.1}, "From the side:");
    add_text(svg, {sheet_width, y + 1.1, "end"}, "black: copper");
}

void add_hatch(pugi::xml_node svg, const std::string& id) {
    const pugi::xml_node pattern = add_svg(svg.append_child("defs"), "pattern",
                                           {{"id", id},
                                            {"width", "2.2"},
                                            {"height", "2.2"},
                                            {"patternUnits", "userSpaceOnUse"},
                                            {"patternTransform", "rotate(45)"}});
    add_box(pattern, {0, 0, 2.2, 2.2}, {{"fill", "#fff"}});
    add_box(pattern, {0, 0, 0.3, 2.2}, {{"fill", "#777"}});
}

}  // namespace

void draw_in_svg(pugi::xml_node parent, const RibbonView& view, const std::string& id) {
    const Plan plan(view.conductors);
    const bool flat = view.a.copper != CopperView::sockets;
    const double height = flat ? plan.total() : plan.bottom() + 8.0;
    const pugi::xml_node svg = add_drawing(
        parent, id, fmt::format("0 0 {} {}", svg_number(sheet_width), svg_number(height)),
        "Ends of " + view.name, described(view));
    add_hatch(svg, id + "-hatch");
    draw_film(svg, plan);
    draw_end(svg, plan, side_a, view.a, id + "-hatch");
    draw_end(svg, plan, side_b, view.b, id + "-hatch");
    add_text(svg, {sheet_middle, top - 2.6, "middle", true}, "marked edge: conductor 1");
    if (view.conductors > 1) {
        add_text(svg, {sheet_middle, plan.bottom() + 4.4, "middle"},
                 fmt::format("conductor {}", view.conductors));
    }
    if (flat) draw_profile(svg, plan, view);
}

}  // namespace pinfold
