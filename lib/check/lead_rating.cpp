#include "check/lead_rating.hpp"

#include <array>
#include <cmath>

namespace pinfold {
namespace {

struct Row {
    double mm2, amperes;
};

/// Sections by ASTM B258.
constexpr std::array rating_rows{Row{0.05067, 1.3}, Row{0.08057, 1.8}, Row{0.1281, 2.5},
                                 Row{0.2047, 3.3},  Row{0.3255, 4.5},  Row{0.5176, 6.5},
                                 Row{0.8230, 9.2},  Row{1.309, 13.0},  Row{2.081, 19.0},
                                 Row{3.309, 25.0},  Row{5.261, 33.0}};

double single_wire(double mm2) {
    std::size_t i = 1;
    while (i + 1 < rating_rows.size() && mm2 > rating_rows[i].mm2) ++i;
    const Row& low = rating_rows[i - 1];
    const Row& high = rating_rows[i];
    const double slope = std::log(high.amperes / low.amperes) / std::log(high.mm2 / low.mm2);
    return low.amperes * std::pow(mm2 / low.mm2, slope);
}

}  // namespace

Amperes lead_rating(SquareMillimetres section, std::size_t loaded) {
    constexpr double common_insulation = 0.5;
    double bundle = 1.0;
    if (loaded > 1) bundle = loaded > 15 ? 0.5 : (29.0 - static_cast<double>(loaded)) / 28.0;
    return Amperes(common_insulation * bundle * single_wire(section.value()));
}

}  // namespace pinfold
