// Reading quantities as people write them: a number, a blank, a unit.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/units.hpp"

namespace pinfold {

/// One way to write a unit, and what it is worth in the unit of the type.
struct UnitName {
    std::string_view symbol;
    double factor;
};

/// How a quantity is spoken of and written. `foreign` units are recognised only to tell the user
/// what the value would be in ours.
struct Dimension {
    std::string_view wanted;  ///< "a length such as '0.5 mm'"
    std::string_view unit;    ///< the unit of the type: "mm"
    std::span<const UnitName> units;
    std::span<const UnitName> foreign = {};
};

/// Specialised for every quantity that can be read from a file.
template <class Q>
const Dimension& dimension_of();

template <>
const Dimension& dimension_of<Millimetres>();
template <>
const Dimension& dimension_of<SquareMillimetres>();
template <>
const Dimension& dimension_of<Ohms>();
template <>
const Dimension& dimension_of<Volts>();
template <>
const Dimension& dimension_of<Amperes>();
template <>
const Dimension& dimension_of<Watts>();
template <>
const Dimension& dimension_of<WattHours>();
template <>
const Dimension& dimension_of<Picoseconds>();
template <>
const Dimension& dimension_of<GigabitsPerSecond>();
template <>
const Dimension& dimension_of<Hertz>();
template <>
const Dimension& dimension_of<Henries>();
template <>
const Dimension& dimension_of<Farads>();
template <>
const Dimension& dimension_of<Percent>();
template <>
const Dimension& dimension_of<UnitIntervals>();
template <>
const Dimension& dimension_of<Decibels>();

/// A finite decimal number, wholly used up; independent of the locale.
std::optional<double> parse_number(std::string_view text);

/// A whole decimal number, wholly used up: `010` is ten, `0x1F` is none.
std::optional<int> parse_whole(std::string_view text);

/// What a text such as "0.5 mm" is worth, or the sentence that says why it is worth nothing.
struct Reading {
    std::optional<double> value;
    std::string complaint;  ///< goes on after the field's name: "must be a length such as ..."
};
Reading parse_quantity(std::string_view text, const Dimension& dimension);

template <class Q>
std::optional<Q> read_quantity(std::string_view text) {
    const Reading reading = parse_quantity(text, dimension_of<Q>());
    return reading.value ? std::optional(Q(*reading.value)) : std::nullopt;
}

}  // namespace pinfold
