// The next reading: what tells the causes that are left apart, or what is still unproved.
#pragma once

#include <string>
#include <vector>

#include "bringup/suspect.hpp"

namespace pinfold {

constexpr std::size_t most_next = 3;

/// A reading to take, and the causes it would tell apart.
struct NextReading {
    std::string from, to;
    std::vector<std::string> tells_apart;
    std::vector<std::size_t> if_closed;  ///< causes left then, counted from 1
    std::vector<std::size_t> if_open;
    std::string alone;  ///< the ribbon to be taken out and measured alone; usually none
    std::string with;   ///< the device to be plugged in alone; usually none
    std::string shows;  ///< what it should then show, in words; `if_closed` is for this
};

/// Up to three readings that part the first suspects most evenly; `names` has one for each of them.
///
/// Where the assembly itself looks the same under all that are left, a ribbon is measured alone.
std::vector<NextReading> readings_to_part(const Inquiry& inquiry,
                                          const std::vector<Suspect>& suspects,
                                          const std::vector<std::string>& names);

/// The first three readings of the plan that nobody has taken, and what each would show.
std::vector<NextReading> readings_left(const Inquiry& inquiry);

}  // namespace pinfold
