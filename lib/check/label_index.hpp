// Label index: numbers the pads of ports by their labels, and finds them again.
#pragma once

#include <cstdint>
#include <limits>
#include <string_view>
#include <vector>

namespace pinfold {

/// Hundreds of thousands of pads are looked up in it, so it is a table of numbers, open addressed.
/// The labels live outside.
class LabelIndex {
public:
    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

    explicit LabelIndex(std::size_t expected);

    /// The number of a pad, counted from 0 in the order they were put in first.
    std::size_t put(std::size_t port, std::string_view label);
    /// `none` for a pad nobody put in.
    std::size_t find(std::size_t port, std::string_view label) const;
    std::size_t size() const { return entries_.size(); }

private:
    struct Entry {
        std::size_t hash = 0, port = 0;
        std::string_view label;
    };
    static constexpr std::uint32_t free = std::numeric_limits<std::uint32_t>::max();
    std::size_t slot_of(const Entry& wanted) const;
    void spread(std::size_t slots);

    std::vector<Entry> entries_;
    std::vector<std::uint32_t> slots_;  ///< in entries_
};

}  // namespace pinfold
