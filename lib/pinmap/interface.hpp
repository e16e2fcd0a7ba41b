// Interfaces: what a standard carries (signals, pairs, directions, limits) and what people call it.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

enum class Role { pair_half, pair_shield, ground, supply, low_speed, presence, unused };

/// Which way a signal runs between the two ends of an interface. `outward`: both ends drive it
/// (a supply that each box gives), so it must never be joined.
enum class Direction { forward, back, both, none, outward };

std::string_view name_of(Role role);
std::string_view name_of(Direction direction);

struct Signal {
    std::string name;
    Role role = Role::low_speed;
    Direction direction = Direction::both;
    bool clock = false;               ///< a clock or other busy single
    bool optional = false;            ///< a link works without it
    std::optional<Volts> withstands;  ///< highest voltage it may meet unharmed
    std::optional<std::size_t> pair;  ///< in `Interface::pairs`, for halves and pair shields
    Mark at;
};

enum class PairKind { data, clock, slow };

/// A differential pair. A `slow` pair needs no guard.
struct Pair {
    std::string name;
    std::size_t plus = 0;  ///< in `Interface::signals`
    std::size_t minus = 0;
    std::optional<std::size_t> shield;
    PairKind kind = PairKind::data;
    std::string lane;  ///< empty, or the lane's name
    Mark at;
};

/// What the wires between the two ports may do to the signals, up to a rate per lane.
struct Limit {
    GigabitsPerSecond up_to;
    std::optional<Ohms> impedance;     ///< differential
    std::optional<Percent> tolerance;  ///< of the impedance
    std::optional<Picoseconds> skew_in_pair;
    std::optional<UnitIntervals> skew_in_pair_bits;
    std::optional<Picoseconds> skew_between_pairs;
    std::optional<UnitIntervals> skew_between_pairs_bits;
    std::optional<Decibels> loss;             ///< at half the rate, above nothing
    std::optional<Decibels> crosstalk_below;  ///< all other pairs, powers summed, below the signal
    std::optional<Volts> least_swing;         ///< sent, from peak to peak; of a pair, differential
    std::optional<Volts> least_eye;           ///< at the receiver, from peak to peak, differential
    std::optional<UnitIntervals> least_eye_width;
    std::string source;
    Mark at;
};

/// The window of a supply that the interface carries.
struct Supply {
    std::size_t signal = 0;
    std::optional<Volts> least_at_source, most_at_source, least_at_sink, most_at_sink;
    std::optional<Amperes> current;  ///< what the far end may draw
    std::string source;
    Mark at;
};

enum class MeterKind { resistance, diode };

std::string_view name_of(MeterKind kind);

/// What a device by itself, without power, shows a meter on some of its signals.
///
/// A diode is read so that it conducts: from ground into the signal, or from the signal into a
/// supply; the red probe stands where the current begins.
struct MeterWindow {
    MeterKind kind = MeterKind::resistance;
    std::vector<std::size_t> signals;
    std::optional<std::size_t> against;  ///< another signal; nothing for ground
    std::string end;                     ///< whose device shows it; empty for either
    double least = 0, most = 0;          ///< in ohms, or in volts for a diode
    std::string source;
    Mark at;
};

/// What a standard carries. Built by the reader alone: halves, shields and crossings all point at
/// signals that exist, and no two signals answer to one name.
struct Interface {
    std::string id;  ///< the file's name: `hdmi`
    std::string name;
    std::string source;
    std::string first_end, second_end;
    std::vector<Signal> signals;
    std::vector<Pair> pairs;
    std::vector<std::size_t> counterpart;  ///< per signal: what the other end calls the same wire
    std::vector<Limit> limits;             ///< rising in rate
    std::vector<Supply> supplies;
    std::vector<MeterWindow> meter;
    /// Connectors whose contact orders are mixed up with each other, by id.
    std::vector<std::string> connectors;
    /// Other interfaces whose ports can carry this one, by id: HDMI on a DVI port, USB 2 on USB 3.
    std::vector<std::string> also_on;
    std::unordered_map<std::string, std::size_t> names;  ///< by plain name, aliases included

    /// The signal a text means: its name or an alias, in any usual spelling.
    std::optional<std::size_t> find(std::string_view text) const;
    /// The limit that holds at a rate; none above the last row.
    const Limit* limit_at(GigabitsPerSecond rate) const;
    const Supply* supply_of(std::size_t signal) const;
    bool crosses() const;
};

/// A signal name without what people vary: case, `_`, `.`, blanks and inner `-` are dropped, a
/// leading `+` before a digit too; unicode minus, dashes and full-width signs become ASCII.
///
/// `TMDS_D2_P` and `tmds d2 p` are one name; `D2+` and `D2-` stay two, `+5V` is `5V`, `-5V` is not.
std::string plain_name(std::string_view text);

}  // namespace pinfold
