// Connectors: the contacts of one connector in order, and which signal each bears.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"
#include "pinmap/place.hpp"

namespace pinfold {

enum class Gender { plug, receptacle };

std::string_view name_of(Gender gender);

/// One contact. Its label is what the part or the standard prints: `19`, `A6`, `S1`.
struct Contact {
    ContactNumber number;
    std::string label;
    std::optional<std::size_t> signal;  ///< in the interface's signals; none if left open
    bool absent = false;                ///< the part has no metal here
    Mark at;
};

/// The mating face of the receptacle, looking into it: labels, rows from top to bottom.
struct Face {
    std::string source;
    std::vector<std::vector<std::string>> rows;
};

/// A pin map: what is on each contact, and who says so.
///
/// Plug and receptacle of one `body` go into each other, label to label; `flippable` bodies also
/// with rows A and B exchanged.
struct Connector {
    std::string id;  ///< the file's name: `hdmi-a`
    std::string name;
    std::string source;
    std::string interface;  ///< an interface's id
    std::string end;        ///< the end of the interface this map is for; empty if either
    std::string body;
    bool takes_ribbon = false;
    Millimetres pitch;
    std::optional<Amperes> current;  ///< per contact
    std::optional<Ohms> contact_resistance;
    std::vector<Contact> contacts;       ///< of the receptacle, in order, none left out
    std::vector<Contact> plug_contacts;  ///< of the plug; the same places
    bool flippable = false;
    std::vector<std::string> shell;  ///< names of the shield and mounting pads
    std::optional<Face> face;

    const std::vector<Contact>& contacts_of(Gender gender) const {
        return gender == Gender::plug ? plug_contacts : contacts;
    }
    std::optional<ContactNumber> find_label(std::string_view label) const;
};

/// The label of the receptacle's contact that a flipped plug's contact meets: `A4` meets `B4`.
std::string flipped_label(std::string_view label);

}  // namespace pinfold
