#include "pinmap/connector.hpp"

#include <algorithm>

namespace pinfold {

std::string_view name_of(Gender gender) { return gender == Gender::plug ? "plug" : "receptacle"; }

std::optional<ContactNumber> Connector::find_label(std::string_view label) const {
    const auto found = std::ranges::find(contacts, label, &Contact::label);
    return found == contacts.end() ? std::nullopt : std::optional(found->number);
}

std::string flipped_label(std::string_view label) {
    std::string flipped(label);
    if (flipped.starts_with('A')) {
        flipped[0] = 'B';
    } else if (flipped.starts_with('B')) {
        flipped[0] = 'A';
    }
    return flipped;
}

}  // namespace pinfold
