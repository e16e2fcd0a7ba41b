#include "pinmap/ribbon_type.hpp"

namespace pinfold {

std::string_view name_of(RibbonKind kind) { return kind == RibbonKind::flat ? "flat" : "round"; }

std::string_view name_of(ContactSide side) {
    switch (side) {
        case ContactSide::top: return "top";
        case ContactSide::bottom: return "bottom";
        case ContactSide::both: return "both";
    }
    return "";
}

std::string_view name_of(Entry entry) {
    return entry == Entry::vertical ? "vertical" : "right-angle";
}

Millimetres RibbonType::overall_width(int count) const {
    const Millimetres edge = margin.value_or(pitch);
    return static_cast<double>(count - 1) * pitch + 2.0 * edge;
}

}  // namespace pinfold
