// Reading YAML into plain values that know their place. The only door to yaml-cpp.
#pragma once

#include <string>
#include <vector>

#include "base/finding.hpp"

namespace pinfold {

/// A YAML document as a plain tree. Every scalar stays the text the user typed: `010`, `no` and
/// `0.50` mean what they say until a reader asks for a number.
struct Yaml {
    enum class Kind { empty, scalar, list, map };
    struct Entry;

    Kind kind = Kind::empty;
    std::string scalar;
    std::vector<Yaml> items;
    std::vector<Entry> entries;
    Mark at;

    /// The value of a key of this map, or nothing.
    const Yaml* find(std::string_view key) const;
};

struct Yaml::Entry {
    std::string key;
    Yaml value;
    Mark at;  ///< of the key: an empty value has no place of its own
};

/// Parses `source`.
///
/// Throws InputError for broken YAML and for all that would lose or change what the user meant:
/// bytes that are not UTF-8, control characters (escaped ones too), tabs that indent, keys that
/// stand twice in one map, anchors, aliases, tags, merge keys, a second document, a quote that
/// never closes, more than 32 levels, more than a million values.
Yaml parse_yaml(std::shared_ptr<const Source> source);

}  // namespace pinfold
