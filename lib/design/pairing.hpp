// Pairing: two boards and a ribbon between them, put together without a design file.
#pragma once

#include <string>

#include "design/design.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// The ribbon between two boards, in the words of the design file; empty where nothing is said.
struct PairingWords {
    std::string ribbon, conductors, copper, sockets;
    std::string port_a, port_b;
    std::string lay;  ///< steps parted by commas
    std::string face_a, face_b, touches_a, touches_b;
};

/// Reads two board files and joins them with a ribbon, end a in board A.
///
/// Throws InputError for unusable files and words, for a port that does not take a ribbon, and for
/// a ribbon with more conductors than a receptacle has contacts.
Design pair_boards(std::shared_ptr<const Source> a, std::shared_ptr<const Source> b,
                   const PairingWords& words, Library& library);

}  // namespace pinfold
