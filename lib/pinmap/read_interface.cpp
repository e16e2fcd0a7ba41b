#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/fields.hpp"
#include "pinmap/read.hpp"
#include "pinmap/read_meter.hpp"

namespace pinfold {
namespace {

const Words<Role> role_words{{"pair-half", Role::pair_half}, {"pair-shield", Role::pair_shield},
                             {"ground", Role::ground},       {"supply", Role::supply},
                             {"low-speed", Role::low_speed}, {"presence", Role::presence},
                             {"unused", Role::unused}};
const Words<Direction> direction_words{{"forward", Direction::forward},
                                       {"back", Direction::back},
                                       {"both", Direction::both},
                                       {"none", Direction::none},
                                       {"outward", Direction::outward}};
const Words<PairKind> pair_words{
    {"data", PairKind::data}, {"clock", PairKind::clock}, {"slow", PairKind::slow}};

constexpr std::array plus_endings{"+", "P", "POS"};
constexpr std::array minus_endings{"-", "N", "M", "NEG"};

/// One interface while it is read: the result, the faults, and who gave each name first.
class InterfaceReader {
public:
    explicit InterfaceReader(Findings& findings) : findings_(findings) {}

    Interface interface;

    void read(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        fields.version("pinfold-interface");
        interface.name = fields.text("name");
        interface.source = fields.text("source");
        read_ends(fields);
        fields.require("signals");
        for (const Yaml& item : fields.list("signals")) read_signal(item);
        for (const Yaml& item : fields.list("pairs")) read_pair(item);
        read_crosses(fields);
        for (const Yaml& item : fields.list("limits")) read_limit(item);
        for (const Yaml& item : fields.list("supplies")) read_supply(item);
        interface.meter = read_meter(fields.list("meter"), interface, findings_);
        interface.connectors = fields.texts("connectors");
        interface.also_on = fields.texts("also-on");
        fields.done();
        require_whole_pairs();
        require_rising_limits();
    }

private:
    void read_ends(Fields& fields) {
        fields.require("ends");
        const std::vector<std::string> ends = fields.texts("ends");
        if (ends.size() == 2 && ends[0] != ends[1]) {
            interface.first_end = ends[0];
            interface.second_end = ends[1];
        } else if (fields.has("ends")) {
            complain(findings_, "interface-ends",
                     "'ends' must name two ends, such as [source, sink]", fields.at("ends"));
        }
    }

    void read_signal(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Signal signal;
        signal.name = fields.text("signal");
        signal.at = fields.at("signal");
        signal.role = fields.word<Role>("role", role_words).value_or(Role::unused);
        signal.direction =
            fields.word<Direction>("direction", direction_words).value_or(Direction::none);
        signal.clock = fields.flag("clock");
        signal.optional = fields.flag("optional");
        signal.withstands = fields.maybe<Volts>("withstands");
        const std::vector<std::string> aliases = fields.texts("also");
        fields.done();
        if (signal.name.empty()) return;

        const std::size_t index = interface.signals.size();
        const Mark at = signal.at;
        give_name(signal.name, index, at);
        interface.counterpart.push_back(index);
        interface.signals.push_back(std::move(signal));
        for (const std::string& alias : aliases) give_name(alias, index, at);
    }

    void give_name(const std::string& name, std::size_t signal, const Mark& at) {
        const std::string plain = plain_name(name);
        if (plain.empty()) {
            complain(findings_, "signal-name", fmt::format("'{}' is no name for a signal", name),
                     at);
            return;
        }
        const auto [held, is_new] = interface.names.try_emplace(plain, signal);
        if (is_new || held->second == signal) return;
        complain(findings_, "signal-name-twice",
                 fmt::format("'{}' already means {}", name, name_at(held->second)), at,
                 {{at_of(held->second), "that signal is here"}});
    }

    /// The signal may still be waiting to be stored when its name clashes.
    std::string name_at(std::size_t signal) const {
        return signal < interface.signals.size() ? interface.signals[signal].name : "this signal";
    }
    Mark at_of(std::size_t signal) const {
        return signal < interface.signals.size() ? interface.signals[signal].at : Mark{};
    }

    std::optional<std::size_t> signal_named(const std::string& name, const Mark& at) {
        return signal_written(interface, name, at, findings_);
    }

    void read_pair(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Pair pair;
        pair.name = fields.text("pair");
        pair.at = fields.at("pair");
        const auto plus = signal_named(fields.text("plus"), fields.at("plus"));
        const auto minus = signal_named(fields.text("minus"), fields.at("minus"));
        if (fields.has("shield")) {
            pair.shield = signal_named(fields.text("shield"), fields.at("shield"));
        }
        pair.kind = *fields.word_or<PairKind>("kind", pair_words, PairKind::data);
        pair.lane = fields.text_or("lane", {});
        std::vector<std::string> stems = fields.texts("also");
        fields.done();
        if (!plus || !minus) return;
        if (*plus == *minus) {
            complain(findings_, "pair-half",
                     fmt::format("pair {} has {} as both of its halves", pair.name,
                                 interface.signals[*plus].name),
                     pair.at);
            return;
        }
        pair.plus = *plus;
        pair.minus = *minus;
        stems.push_back(pair.name);
        for (const std::string& stem : stems) give_stem(stem, pair);
        join_pair(std::move(pair));
    }

    void give_stem(const std::string& stem, const Pair& pair) {
        for (const char* ending : plus_endings) give_name(stem + ending, pair.plus, pair.at);
        for (const char* ending : minus_endings) give_name(stem + ending, pair.minus, pair.at);
    }

    void join_pair(Pair pair) {
        const std::size_t index = interface.pairs.size();
        for (const std::size_t half : {pair.plus, pair.minus}) {
            Signal& signal = interface.signals[half];
            if (signal.role != Role::pair_half) {
                complain(findings_, "pair-half",
                         fmt::format("{} is a half of pair {} but its role is '{}'", signal.name,
                                     pair.name, name_of(signal.role)),
                         signal.at, {{pair.at, "the pair is here"}});
            } else if (signal.pair) {
                complain(findings_, "pair-half",
                         fmt::format("{} is a half of two pairs", signal.name), pair.at,
                         {{interface.pairs[*signal.pair].at, "the first is here"}});
            }
            signal.pair = index;
        }
        if (pair.shield) shield_pair(pair, interface.signals[*pair.shield], index);
        interface.pairs.push_back(std::move(pair));
    }

    /// A shield that serves several pairs belongs to the first.
    void shield_pair(const Pair& pair, Signal& shield, std::size_t index) {
        if (shield.role != Role::pair_shield) {
            complain(findings_, "pair-shield",
                     fmt::format("{} is the shield of pair {} but its role is '{}'", shield.name,
                                 pair.name, name_of(shield.role)),
                     shield.at, {{pair.at, "the pair is here"}});
        }
        if (!shield.pair) shield.pair = index;
    }

    void read_crosses(Fields& fields) {
        for (const Yaml& item : fields.list("crosses")) {
            if (item.kind != Yaml::Kind::list || item.items.size() != 2) {
                complain(findings_, "interface-crosses",
                         "a crossing names two signals, such as [TX1+, RX1+]", item.at);
                continue;
            }
            const auto one =
                signal_named(text_of(item.items[0], "a signal", findings_), item.items[0].at);
            const auto other =
                signal_named(text_of(item.items[1], "a signal", findings_), item.items[1].at);
            if (!one || !other) continue;
            if (interface.counterpart[*one] != *one || interface.counterpart[*other] != *other) {
                complain(findings_, "interface-crosses", "a signal crosses with one other only",
                         item.at);
                continue;
            }
            interface.counterpart[*one] = *other;
            interface.counterpart[*other] = *one;
        }
    }

    void read_limit(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Limit limit;
        limit.at = fields.at();
        limit.up_to = fields.quantity<GigabitsPerSecond>("up-to").value_or(GigabitsPerSecond{});
        limit.impedance = fields.maybe<Ohms>("impedance");
        limit.tolerance = fields.maybe<Percent>("tolerance");
        read_time(fields, "skew-in-pair", limit.skew_in_pair, limit.skew_in_pair_bits);
        read_time(fields, "skew-between-pairs", limit.skew_between_pairs,
                  limit.skew_between_pairs_bits);
        limit.loss = fields.maybe<Decibels>("loss");
        limit.crosstalk_below = fields.maybe<Decibels>("crosstalk-below");
        limit.least_swing = fields.maybe<Volts>("least-swing");
        limit.least_eye = fields.maybe<Volts>("least-eye");
        limit.least_eye_width = fields.maybe<UnitIntervals>("least-eye-width");
        require_swing(limit);
        limit.source = fields.text("source");
        fields.done();
        interface.limits.push_back(std::move(limit));
    }

    void require_swing(const Limit& limit) {
        if (!limit.least_eye || (limit.least_swing && *limit.least_eye < *limit.least_swing))
            return;
        complain(findings_, "limit-eye",
                 "'least-eye' needs a larger 'least-swing', the voltage that is sent", limit.at);
    }

    /// A time, or a share of a bit.
    static void read_time(Fields& fields, const std::string& key, std::optional<Picoseconds>& time,
                          std::optional<UnitIntervals>& bits) {
        const Yaml* value = fields.any(key);
        if (value && value->kind == Yaml::Kind::scalar && value->scalar.ends_with("UI")) {
            bits = fields.maybe<UnitIntervals>(key);
        } else {
            time = fields.maybe<Picoseconds>(key);
        }
    }

    void read_supply(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Supply supply;
        supply.at = fields.at();
        const auto signal = signal_named(fields.text("signal"), fields.at("signal"));
        supply.least_at_source = fields.maybe<Volts>("least-at-source");
        supply.most_at_source = fields.maybe<Volts>("most-at-source");
        supply.least_at_sink = fields.maybe<Volts>("least-at-sink");
        supply.most_at_sink = fields.maybe<Volts>("most-at-sink");
        supply.current = fields.maybe<Amperes>("current");
        supply.source = fields.text("source");
        fields.done();
        if (!signal) return;
        supply.signal = *signal;
        require_window(supply, supply.least_at_source, supply.most_at_source);
        require_window(supply, supply.least_at_sink, supply.most_at_sink);
        if (interface.supply_of(*signal) != nullptr) {
            complain(findings_, "supply-twice",
                     fmt::format("the supply {} stands twice", interface.signals[*signal].name),
                     supply.at, {{interface.supply_of(*signal)->at, "first here"}});
        }
        if (interface.signals[*signal].role != Role::supply) {
            complain(
                findings_, "supply-role",
                fmt::format("{} is no supply: its role is '{}'", interface.signals[*signal].name,
                            name_of(interface.signals[*signal].role)),
                supply.at);
        }
        interface.supplies.push_back(std::move(supply));
    }

    void require_window(const Supply& supply, std::optional<Volts> least,
                        std::optional<Volts> most) {
        if (!least || !most || *least <= *most) return;
        complain(findings_, "yaml-number", "the least voltage is above the most", supply.at);
    }

    void require_whole_pairs() {
        for (const Signal& signal : interface.signals) {
            if (signal.role == Role::pair_half && !signal.pair) {
                complain(findings_, "pair-half",
                         fmt::format("{} is a pair half, but no pair names it", signal.name),
                         signal.at);
            }
        }
    }

    void require_rising_limits() {
        for (std::size_t i = 1; i < interface.limits.size(); ++i) {
            if (interface.limits[i].up_to > interface.limits[i - 1].up_to) continue;
            complain(findings_, "limit-order", "limits must stand in rising order of 'up-to'",
                     interface.limits[i].at);
        }
    }

    Findings& findings_;
};

}  // namespace

Interface read_interface(std::string id, std::shared_ptr<const Source> source) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    InterfaceReader reader(findings);
    reader.interface.id = std::move(id);
    reader.read(yaml);
    if (!findings.empty()) throw InputError(std::move(findings));
    return std::move(reader.interface);
}

}  // namespace pinfold
