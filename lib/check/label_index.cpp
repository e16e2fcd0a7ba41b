#include "check/label_index.hpp"

#include "base/label_hash.hpp"

namespace pinfold {
LabelIndex::LabelIndex(std::size_t expected) {
    std::size_t slots = 16;
    while (slots < 2 * expected) slots *= 2;
    entries_.reserve(expected);
    spread(slots);
}

std::size_t LabelIndex::put(std::size_t port, std::string_view label) {
    const Entry wanted{label_hash(port, label), port, label};
    std::uint32_t& slot = slots_[slot_of(wanted)];
    if (slot != free) return slot;
    slot = static_cast<std::uint32_t>(entries_.size());
    entries_.push_back(wanted);
    if (2 * entries_.size() > slots_.size()) spread(2 * slots_.size());
    return entries_.size() - 1;
}

std::size_t LabelIndex::find(std::size_t port, std::string_view label) const {
    const std::uint32_t slot = slots_[slot_of({label_hash(port, label), port, label})];
    return slot == free ? none : slot;
}

/// Where a pad stands, or the free slot where it would.
std::size_t LabelIndex::slot_of(const Entry& wanted) const {
    const std::size_t mask = slots_.size() - 1;
    for (std::size_t at = wanted.hash & mask;; at = (at + 1) & mask) {
        if (slots_[at] == free) return at;
        const Entry& entry = entries_[slots_[at]];
        const bool same = entry.hash == wanted.hash && entry.port == wanted.port;
        if (same && entry.label == wanted.label) return at;
    }
}

void LabelIndex::spread(std::size_t slots) {
    slots_.assign(slots, free);
    for (std::size_t e = 0; e < entries_.size(); ++e) {
        slots_[slot_of(entries_[e])] = static_cast<std::uint32_t>(e);
    }
}

}  // namespace pinfold
