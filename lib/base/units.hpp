// Quantities with their unit in the type, so that millimetres and ohms cannot be mixed up.
#pragma once

#include <compare>

namespace pinfold {

/// A number whose unit is part of its type.
///
/// Sums and comparisons keep the unit, a ratio of two equal units is a plain number, and
/// everything else has to go through `value()`, where the unit stays readable in the name.
template <class Unit>
class Quantity {
public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double value) : value_(value) {}

    constexpr double value() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) {
        return Quantity(a.value_ + b.value_);
    }
    friend constexpr Quantity operator-(Quantity a, Quantity b) {
        return Quantity(a.value_ - b.value_);
    }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.value_); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }

private:
    double value_ = 0.0;
};

using Millimetres = Quantity<struct MillimetreUnit>;
using SquareMillimetres = Quantity<struct SquareMillimetreUnit>;
using Ohms = Quantity<struct OhmUnit>;
using Volts = Quantity<struct VoltUnit>;
using Amperes = Quantity<struct AmpereUnit>;
using Picoseconds = Quantity<struct PicosecondUnit>;
using Hertz = Quantity<struct HertzUnit>;
using Watts = Quantity<struct WattUnit>;
using WattHours = Quantity<struct WattHourUnit>;
using Hours = Quantity<struct HourUnit>;
using Henries = Quantity<struct HenryUnit>;
using Farads = Quantity<struct FaradUnit>;
using Decibels = Quantity<struct DecibelUnit>;
using GigabitsPerSecond = Quantity<struct GigabitPerSecondUnit>;
using Celsius = Quantity<struct CelsiusUnit>;
using Kelvins = Quantity<struct KelvinUnit>;  ///< a difference of temperatures
using Percent = Quantity<struct PercentUnit>;
using UnitIntervals = Quantity<struct UnitIntervalUnit>;  ///< one is the length of one bit

inline namespace literals {
constexpr Millimetres operator""_mm(long double v) { return Millimetres(static_cast<double>(v)); }
constexpr Ohms operator""_ohm(long double v) { return Ohms(static_cast<double>(v)); }
constexpr Volts operator""_V(long double v) { return Volts(static_cast<double>(v)); }
constexpr Amperes operator""_A(long double v) { return Amperes(static_cast<double>(v)); }
constexpr Picoseconds operator""_ps(long double v) { return Picoseconds(static_cast<double>(v)); }
constexpr Celsius operator""_degC(long double v) { return Celsius(static_cast<double>(v)); }
}  // namespace literals

}  // namespace pinfold
