#include "physics/field_table.hpp"

#include <bit>

namespace pinfold::field {

KeyTable::KeyTable(std::size_t expected) : slots_(std::bit_ceil(2 * expected + 16)) {}

/// Where a key stands, or would.
std::size_t KeyTable::place_of(std::uint64_t key) const {
    const std::size_t mask = slots_.size() - 1;
    std::size_t at = (key * 0x9E3779B97F4A7C15U) >> 32 & mask;
    while (slots_[at].key != 0 && slots_[at].key != key) at = (at + 1) & mask;
    return at;
}

void KeyTable::grow() {
    std::vector<Slot> old(2 * slots_.size());
    old.swap(slots_);
    for (const Slot& slot : old) {
        if (slot.key != 0) slots_[place_of(slot.key)] = slot;
    }
}

KeyTable::Found KeyTable::find_or_add(std::uint64_t key, std::size_t fresh) {
    Slot& slot = slots_[place_of(key)];
    if (slot.key == key) return {slot.number, false};
    slot = {key, fresh};
    if (2 * ++used_ > slots_.size()) grow();
    return {fresh, true};
}

std::optional<std::size_t> KeyTable::find(std::uint64_t key) const {
    const Slot& slot = slots_[place_of(key)];
    return slot.key == key ? std::optional(slot.number) : std::nullopt;
}

}  // namespace pinfold::field
