#include "base/spelling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace pinfold {
namespace {

constexpr std::size_t longest_name = 128;
constexpr std::size_t most_known = 2000;  ///< a hint is not worth more time

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Optimal string alignment distance, case ignored.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before, last(b.size() + 1), now(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        now[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool same = lower(a[i - 1]) == lower(b[j - 1]);
            now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
            const bool exchanged = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
                                   lower(a[i - 2]) == lower(b[j - 1]);
            if (exchanged) now[j] = std::min(now[j], before[j - 2] + 1);
        }
        before = last;
        last = now;
    }
    return last[b.size()];
}

}  // namespace

std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known) {
    if (name.empty() || name.size() > longest_name) return std::nullopt;
    std::size_t best = std::max<std::size_t>(2, name.size() / 3) + 1;
    std::optional<std::string> found;
    const std::span looked_at(known.data(), std::min(known.size(), most_known));
    for (const std::string& candidate : looked_at) {
        if (candidate.size() > longest_name) continue;
        const std::size_t off = distance(name, candidate);
        if (off >= best || off >= std::max(name.size(), candidate.size())) continue;
        best = off;
        found = candidate;
    }
    return found;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& known) {
    const std::optional<std::string> near = nearest(name, known);
    return near ? fmt::format(" (did you mean '{}'?)", *near) : std::string{};
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t\r");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

}  // namespace pinfold
