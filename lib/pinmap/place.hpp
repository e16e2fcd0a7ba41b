// Places: contacts and conductors, both counted from 1 and never to be mixed up.
#pragma once

#include <cassert>
#include <compare>
#include <cstddef>

namespace pinfold {

/// A place in a numbered row, counted from 1 as printed on the part.
///
/// Contacts of a connector and conductors of a ribbon are both counted from 1 and are both wrong
/// when exchanged, so they are different types: a mirrored ribbon cannot be written by accident.
template <class Row>
class Place {
public:
    constexpr explicit Place(int number) : number_(number) { assert(number >= 1); }
    constexpr int number() const { return number_; }
    constexpr std::size_t index() const { return static_cast<std::size_t>(number_ - 1); }
    friend constexpr auto operator<=>(Place, Place) = default;

private:
    int number_;
};

using ContactNumber = Place<struct ConnectorRow>;
using ConductorNumber = Place<struct RibbonRow>;

}  // namespace pinfold
