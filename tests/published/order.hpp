// Reading an order out of a pin map and out of a published table, so that the two can be compared.
#pragma once

#include <string>
#include <vector>

#include "support.hpp"

namespace pinfold {

/// What each contact of a shipped connector bears, in order: a signal's name, `open` or `absent`.
inline std::vector<std::string> shipped_order(const std::string& connector,
                                              Gender gender = Gender::receptacle) {
    Library library = shipped_library();
    const Connector& map = library.connector(connector, {});
    const Interface& interface = library.interface(map.interface, {});
    std::vector<std::string> order;
    for (const Contact& contact : map.contacts_of(gender)) {
        order.push_back(contact.absent   ? "absent"
                        : contact.signal ? interface.signals[*contact.signal].name
                                         : "open");
    }
    return order;
}

/// The labels of a shipped connector's contacts, in order.
inline std::vector<std::string> shipped_labels(const std::string& connector) {
    Library library = shipped_library();
    std::vector<std::string> labels;
    for (const Contact& contact : library.connector(connector, {}).contacts) {
        labels.push_back(contact.label);
    }
    return labels;
}

/// The signals that a published table means by its own words; a word the interface does not know
/// stays as it is, so that it agrees with nothing.
inline std::vector<std::string> meant(const std::string& interface_id,
                                      const std::vector<std::string>& words) {
    Library library = shipped_library();
    const Interface& interface = library.interface(interface_id, {});
    std::vector<std::string> signals;
    for (const std::string& word : words) {
        const auto signal = interface.find(word);
        signals.push_back(signal ? interface.signals[*signal].name : word);
    }
    return signals;
}

}  // namespace pinfold
