// Drawing of a ribbon: both ends seen from above, with the copper faces and contact 1.
#pragma once

#include <string>
#include <vector>

#include <pugixml.hpp>

namespace pinfold {

/// Where the bared copper of an end is for someone who looks down on the ribbon. `sockets`: a
/// round ribbon, which has crimped sockets instead.
enum class CopperView { towards_you, below, sockets };

/// One end of the drawing. The labels are those of the contacts that conductor 1 and the last
/// conductor meet; empty if they meet none.
struct EndView {
    std::string place;  ///< `base.tail`, or what is the matter with this end
    CopperView copper = CopperView::towards_you;
    std::string at_first;
    std::string at_last;
    bool one_at_first = false;  ///< the receptacle's contact 1 meets conductor 1
    bool one_at_last = false;   ///< it meets the last conductor
};

/// A ribbon laid flat, end a on the left, conductor 1 along the upper edge, which is the marked
/// one. Not to scale.
struct RibbonView {
    std::string name;
    int conductors = 1;
    EndView a, b;
};

/// `copper towards you`, `copper below`, `socket`.
std::string_view in_words(CopperView copper);

/// What the drawing shows, for those who cannot see it.
std::string described(const RibbonView& view);

/// The drawing in plain letters, 76 columns wide: one string a line.
std::vector<std::string> draw_in_text(const RibbonView& view);

/// The drawing as an SVG element in `parent`; `id` must be unique on the page.
///
/// Black and white: bars are copper towards the viewer, dashed outlines copper on the far face.
void draw_in_svg(pugi::xml_node parent, const RibbonView& view, const std::string& id);

}  // namespace pinfold
