// The next reading with a device plugged in, once the bare assembly has nothing more to tell.
#pragma once

#include "bringup/next_reading.hpp"

namespace pinfold {

/// Up to three readings with a device plugged in that part the first suspects, one for each of
/// `names`; nothing if none does. Some reading taken must have had a device plugged in.
std::vector<NextReading> device_readings_to_part(const Inquiry& inquiry,
                                                 const std::vector<Suspect>& suspects,
                                                 const std::vector<std::string>& names);

/// The first three readings with a device plugged in that nobody has taken.
std::vector<NextReading> device_readings_left(const Inquiry& inquiry);

}  // namespace pinfold
