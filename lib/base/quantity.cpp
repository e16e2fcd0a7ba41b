#include "base/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace pinfold {
namespace {

constexpr UnitName length_units[] = {{"mm", 1.0}, {"um", 1e-3}, {"cm", 10.0}, {"m", 1000.0}};
constexpr UnitName foreign_length_units[] = {{"in", 25.4}, {"inch", 25.4},  {"inches", 25.4},
                                             {"\"", 25.4}, {"mil", 0.0254}, {"ft", 304.8}};
constexpr UnitName area_units[] = {{"mm2", 1.0}};
constexpr UnitName resistance_units[] = {{"ohm", 1.0}, {"mohm", 1e-3}, {"kohm", 1e3}};
constexpr UnitName voltage_units[] = {{"V", 1.0}, {"mV", 1e-3}};
constexpr UnitName current_units[] = {{"A", 1.0}, {"mA", 1e-3}};
constexpr UnitName power_units[] = {{"W", 1.0}, {"mW", 1e-3}};
constexpr UnitName energy_units[] = {{"Wh", 1.0}, {"mWh", 1e-3}};
constexpr UnitName time_units[] = {{"ps", 1.0}, {"ns", 1e3}};
constexpr UnitName rate_units[] = {{"Gbit/s", 1.0}, {"Mbit/s", 1e-3}};
constexpr UnitName frequency_units[] = {{"Hz", 1.0}, {"kHz", 1e3}, {"MHz", 1e6}, {"GHz", 1e9}};
constexpr UnitName inductance_units[] = {{"nH", 1e-9}, {"pH", 1e-12}};
constexpr UnitName capacitance_units[] = {{"pF", 1e-12}, {"fF", 1e-15}};
constexpr UnitName share_units[] = {{"%", 1.0}};
constexpr UnitName bit_time_units[] = {{"UI", 1.0}};
constexpr UnitName ratio_units[] = {{"dB", 1.0}};

const UnitName* find_unit(std::span<const UnitName> units, std::string_view symbol) {
    const auto found = std::ranges::find(units, symbol, &UnitName::symbol);
    return found == units.end() ? nullptr : &*found;
}

}  // namespace

template <>
const Dimension& dimension_of<Millimetres>() {
    static constexpr Dimension d{"a length such as '0.5 mm'", "mm", length_units,
                                 foreign_length_units};
    return d;
}
template <>
const Dimension& dimension_of<SquareMillimetres>() {
    static constexpr Dimension d{"an area such as '0.09 mm2'", "mm2", area_units};
    return d;
}
template <>
const Dimension& dimension_of<Ohms>() {
    static constexpr Dimension d{"a resistance such as '50 mohm'", "ohm", resistance_units};
    return d;
}
template <>
const Dimension& dimension_of<Volts>() {
    static constexpr Dimension d{"a voltage such as '4.8 V'", "V", voltage_units};
    return d;
}
template <>
const Dimension& dimension_of<Amperes>() {
    static constexpr Dimension d{"a current such as '55 mA'", "A", current_units};
    return d;
}
template <>
const Dimension& dimension_of<Watts>() {
    static constexpr Dimension d{"a power such as '3.5 W'", "W", power_units};
    return d;
}
template <>
const Dimension& dimension_of<WattHours>() {
    static constexpr Dimension d{"an energy such as '37 Wh'", "Wh", energy_units};
    return d;
}
template <>
const Dimension& dimension_of<Picoseconds>() {
    static constexpr Dimension d{"a time such as '150 ps'", "ps", time_units};
    return d;
}
template <>
const Dimension& dimension_of<GigabitsPerSecond>() {
    static constexpr Dimension d{"a rate such as '1.65 Gbit/s'", "Gbit/s", rate_units};
    return d;
}
template <>
const Dimension& dimension_of<Hertz>() {
    static constexpr Dimension d{"a frequency such as '1 GHz'", "Hz", frequency_units};
    return d;
}
template <>
const Dimension& dimension_of<Henries>() {
    static constexpr Dimension d{"an inductance such as '1 nH'", "H", inductance_units};
    return d;
}
template <>
const Dimension& dimension_of<Farads>() {
    static constexpr Dimension d{"a capacitance such as '0.1 pF'", "F", capacitance_units};
    return d;
}
template <>
const Dimension& dimension_of<Percent>() {
    static constexpr Dimension d{"a share such as '15 %'", "%", share_units};
    return d;
}
template <>
const Dimension& dimension_of<UnitIntervals>() {
    static constexpr Dimension d{"a share of a bit such as '0.15 UI'", "UI", bit_time_units};
    return d;
}
template <>
const Dimension& dimension_of<Decibels>() {
    static constexpr Dimension d{"a ratio such as '12 dB'", "dB", ratio_units};
    return d;
}

std::optional<double> parse_number(std::string_view text) {
    double number = 0.0;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc{} || rest != end || !std::isfinite(number)) return std::nullopt;
    return number;
}

std::optional<int> parse_whole(std::string_view text) {
    int number = 0;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc{} || rest != end) return std::nullopt;
    return number;
}

Reading parse_quantity(std::string_view text, const Dimension& dimension) {
    const std::string refusal = fmt::format("must be {}, not '{}'", dimension.wanted, text);

    const std::size_t cut = text.find_first_not_of("0123456789.+-eE");
    if (cut == std::string_view::npos) {
        return parse_number(text) ? Reading{{}, fmt::format("{}: the unit is missing", refusal)}
                                  : Reading{{}, refusal};
    }
    std::string_view digits = text.substr(0, cut);
    while (digits.ends_with(' ')) digits.remove_suffix(1);
    std::string_view symbol = text.substr(cut);
    while (symbol.starts_with(' ')) symbol.remove_prefix(1);

    const std::optional<double> number = parse_number(digits);
    if (!number) return {{}, refusal};
    const UnitName* foreign = find_unit(dimension.foreign, symbol);
    if (foreign && *number > 0.0 && std::isfinite(*number * foreign->factor)) {
        return {{},
                fmt::format("{}: that is {:.6g} {}", refusal, *number * foreign->factor,
                            dimension.unit)};
    }
    const UnitName* unit = find_unit(dimension.units, symbol);
    if (!unit) return {{}, refusal};
    const double value = *number * unit->factor;
    if (!std::isfinite(value)) return {{}, refusal};
    if (value <= 0.0) return {{}, fmt::format("must be more than nothing, not '{}'", text)};
    return {value, {}};
}

}  // namespace pinfold
