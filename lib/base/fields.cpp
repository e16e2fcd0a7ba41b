#include "base/fields.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

void stop_at_most(Findings& findings) {
    if (findings.size() < most_faults) return;
    findings.resize(most_faults);
    findings.push_back({Severity::note,
                        "faults-more",
                        fmt::format("reading stops here, after {} faults", most_faults),
                        {}});
    throw InputError(std::move(findings));
}

}  // namespace

void complain(Findings& findings, const char* rule, std::string text, const Mark& at,
              std::vector<Note> notes) {
    findings.push_back({Severity::error, rule, std::move(text), at, std::move(notes)});
    stop_at_most(findings);
}

void take(Findings& findings, const InputError& error) {
    findings.insert(findings.end(), error.findings().begin(), error.findings().end());
    stop_at_most(findings);
}

std::string text_of(const Yaml& yaml, const char* wanted, Findings& findings) {
    if (yaml.kind == Yaml::Kind::scalar) return yaml.scalar;
    complain(findings, "yaml-shape",
             fmt::format("expected {} here; quote a text that starts with a sign such as # & * ! "
                         "[ or {{",
                         wanted),
             yaml.at);
    return {};
}

Fields::Fields(const Yaml& map, Findings& findings) : map_(map), findings_(findings) {
    if (map.kind != Yaml::Kind::map) {
        complain(findings_, "yaml-shape", "expected a map of named fields", map.at);
    }
}

bool Fields::has(const std::string& key) {
    if (std::ranges::find(known_, key) == known_.end()) known_.push_back(key);
    return map_.find(key) != nullptr;
}

void Fields::ask(const std::string& key) {
    asked_.push_back(key);
    if (std::ranges::find(known_, key) == known_.end()) known_.push_back(key);
}

const Yaml* Fields::take(const std::string& key, Yaml::Kind kind, const char* wanted) {
    ask(key);
    const auto entry = std::ranges::find(map_.entries, key, &Yaml::Entry::key);
    if (entry == map_.entries.end()) return nullptr;
    if (entry->value.kind != kind) {
        complain(findings_, "yaml-shape", fmt::format("'{}' must be {}", key, wanted), entry->at);
        return nullptr;
    }
    return &entry->value;
}

void Fields::missing(const std::string& key) {
    ask(key);
    if (map_.kind != Yaml::Kind::map) return;
    complain(findings_, "yaml-field-missing", fmt::format("'{}' is missing", key), map_.at);
}

void Fields::require(const std::string& key) {
    if (!has(key)) missing(key);
}

void Fields::unknown_word(const std::string& key, const Yaml& value,
                          const std::vector<std::string>& known) {
    complain(findings_, "yaml-word",
             fmt::format("'{}' must be one of: {}; not '{}'{}", key, fmt::join(known, ", "),
                         value.scalar, did_you_mean(value.scalar, known)),
             value.at);
}

void Fields::version(const std::string& key) {
    const std::string written = text(key);
    if (written.empty() || written == "1") return;
    complain(findings_, "file-version",
             fmt::format("'{}: {}': this program reads version 1", key, written), at(key));
}

std::string Fields::text(const std::string& key) {
    if (!has(key)) return missing(key), std::string{};
    const Yaml* value = take(key, Yaml::Kind::scalar, "a text");
    if (value && value->scalar.empty()) {
        complain(findings_, "yaml-field-empty", fmt::format("'{}' is empty", key), value->at);
    }
    return value ? value->scalar : std::string{};
}

std::string Fields::text_or(const std::string& key, std::string fallback) {
    const Yaml* value = take(key, Yaml::Kind::scalar, "a text");
    return value ? value->scalar : std::move(fallback);
}

int Fields::whole(const std::string& key, int least) {
    if (!has(key)) return missing(key), least;
    return whole_or(key, least, least);
}

int Fields::whole_or(const std::string& key, int least, int fallback) {
    const Yaml* value = take(key, Yaml::Kind::scalar, "a whole number");
    if (!value) return fallback;
    constexpr int most = 1'000'000;
    const std::optional<int> number = parse_whole(value->scalar);
    if (number && *number >= least && *number <= most) return *number;
    complain(findings_, "yaml-number",
             fmt::format("'{}' must be a whole number from {} to {}, not '{}'", key, least, most,
                         value->scalar),
             value->at);
    return fallback;
}

bool Fields::flag(const std::string& key) {
    return *word_or<bool>(key, {{"yes", true}, {"no", false}}, false);
}

std::optional<double> Fields::plain_number(const std::string& key) {
    const Yaml* value = take(key, Yaml::Kind::scalar, "a number");
    if (!value) return std::nullopt;
    const std::optional<double> number = parse_number(value->scalar);
    if (number && *number > 0.0) return number;
    complain(findings_, "yaml-number",
             fmt::format("'{}' must be a number above nothing, not '{}'", key, value->scalar),
             value->at);
    return std::nullopt;
}

std::optional<double> Fields::number(const std::string& key, const Dimension& dimension) {
    const Yaml* value = take(key, Yaml::Kind::scalar, std::string(dimension.wanted).c_str());
    if (!value) return std::nullopt;
    const Reading reading = parse_quantity(value->scalar, dimension);
    if (reading.value) return reading.value;
    complain(findings_, "yaml-unit", fmt::format("'{}' {}", key, reading.complaint), value->at);
    return std::nullopt;
}

const std::vector<Yaml>& Fields::list(const std::string& key) {
    static const std::vector<Yaml> none;
    const Yaml* value = take(key, Yaml::Kind::list, "a list");
    return value ? value->items : none;
}

const std::vector<Yaml::Entry>& Fields::map(const std::string& key) {
    static const std::vector<Yaml::Entry> none;
    const Yaml* value = take(key, Yaml::Kind::map, "a map of names");
    return value ? value->entries : none;
}

std::vector<std::string> Fields::texts(const std::string& key) {
    std::vector<std::string> all;
    for (const Yaml& item : list(key)) all.push_back(text_of(item, "a text", findings_));
    return all;
}

const Yaml* Fields::any(const std::string& key) {
    ask(key);
    return map_.find(key);
}

Mark Fields::at(const std::string& key) const {
    const Yaml* value = map_.find(key);
    return value ? value->at : map_.at;
}

void Fields::done() {
    for (const Yaml::Entry& entry : map_.entries) {
        if (std::ranges::find(asked_, entry.key) != asked_.end()) continue;
        complain(findings_, "yaml-field-unknown",
                 fmt::format("unknown field '{}'{}; this map takes: {}", entry.key,
                             did_you_mean(entry.key, known_), fmt::join(known_, ", ")),
                 entry.at);
    }
}

}  // namespace pinfold
