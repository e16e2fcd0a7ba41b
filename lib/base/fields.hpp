// Fields: reading one YAML map field by field, every fault noted, nothing skipped in silence.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/quantity.hpp"
#include "base/yaml.hpp"

namespace pinfold {

/// The words a field may hold and what each means.
template <class T>
using Words = std::vector<std::pair<std::string, T>>;

/// More faults than this in one file are not worth reading, nor the time to find them.
constexpr std::size_t most_faults = 100;

/// Adds an input fault to `findings`; at `most_faults` of them throws InputError with them all.
void complain(Findings& findings, const char* rule, std::string text, const Mark& at,
              std::vector<Note> notes = {});

/// Adds the faults of another file, like `complain`.
void take(Findings& findings, const InputError& error);

/// Reads the fields of one map, noting every fault in `findings` and going on.
///
/// A missing or misshapen field yields an empty value and a finding, so a reader can be written
/// as a straight list of fields. `done()` reports the keys nobody asked for.
class Fields {
public:
    Fields(const Yaml& map, Findings& findings);

    /// The opening field of every file, such as `pinfold-board: 1`; only version 1 is known.
    void version(const std::string& key);
    bool has(const std::string& key);
    std::string text(const std::string& key);  ///< never empty without a finding
    std::string text_or(const std::string& key, std::string fallback);
    int whole(const std::string& key, int least);
    int whole_or(const std::string& key, int least, int fallback);
    bool flag(const std::string& key);  ///< `yes` or `no`; no if missing

    /// The quantity, or nothing with a finding.
    template <class Q>
    std::optional<Q> quantity(const std::string& key) {
        if (!has(key)) return missing(key), std::nullopt;
        return maybe<Q>(key);
    }
    /// The quantity, or nothing if the field is missing.
    template <class Q>
    std::optional<Q> maybe(const std::string& key) {
        const std::optional<double> value = number(key, dimension_of<Q>());
        return value ? std::optional(Q(*value)) : std::nullopt;
    }
    /// A plain number above nothing, if the field is there.
    std::optional<double> plain_number(const std::string& key);

    template <class T>
    std::optional<T> word(const std::string& key, const Words<T>& words) {
        if (!has(key)) return missing(key), std::nullopt;
        return word_or<T>(key, words, std::nullopt);
    }
    template <class T>
    std::optional<T> word_or(const std::string& key, const Words<T>& words,
                             std::optional<T> fallback) {
        const Yaml* value = take(key, Yaml::Kind::scalar, "a word");
        if (!value) return fallback;
        std::vector<std::string> known;
        for (const auto& [name, meaning] : words) {
            if (name == value->scalar) return meaning;
            known.push_back(name);
        }
        unknown_word(key, *value, known);
        return fallback;
    }

    /// The items of a list; an empty list if the field is missing.
    const std::vector<Yaml>& list(const std::string& key);
    /// The entries of a map of names; empty if the field is missing.
    const std::vector<Yaml::Entry>& map(const std::string& key);
    /// A list of texts.
    std::vector<std::string> texts(const std::string& key);
    /// The value whatever its shape, or nothing.
    const Yaml* any(const std::string& key);

    void require(const std::string& key);  ///< notes the field as missing if it is
    Mark at(const std::string& key) const;
    Mark at() const { return map_.at; }
    void done();

private:
    const Yaml* take(const std::string& key, Yaml::Kind kind, const char* wanted);
    std::optional<double> number(const std::string& key, const Dimension& dimension);
    void ask(const std::string& key);
    void missing(const std::string& key);
    void unknown_word(const std::string& key, const Yaml& value,
                      const std::vector<std::string>& known);

    const Yaml& map_;
    Findings& findings_;
    std::vector<std::string> asked_;  ///< fields that were read
    std::vector<std::string> known_;  ///< fields that were read or looked for, each once
};

/// A scalar that stands alone, as in a list of texts; empty with a finding for anything else.
std::string text_of(const Yaml& yaml, const char* wanted, Findings& findings);

}  // namespace pinfold
