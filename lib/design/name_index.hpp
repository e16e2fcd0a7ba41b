// The names of a design: finding boards, ports, ribbon ends and contacts by what the user wrote.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "design/read_port.hpp"

namespace pinfold {

/// Finds what a text names among the boards and ribbons read so far; complains with the nearest
/// name and gives nothing if there is none.
class NameIndex {
public:
    explicit NameIndex(ReaderDesk& desk);

    /// One side of a join: a port, or a ribbon's end.
    struct Side {
        std::optional<PortRef> port;
        std::optional<std::pair<std::size_t, End>> ribbon;
    };
    /// What else might have been meant by a name nobody has.
    enum class Among { boards, ribbons_too };

    /// `board.port`
    std::optional<PortRef> find_port(const std::string& text, const Mark& at, Among among) const;
    /// `board.port` or `ribbon.a`
    std::optional<Side> find_side(const std::string& text, const Mark& at) const;
    /// `board.port.contact`, the contact by label or signal
    std::optional<ContactRef> find_contact_ref(const std::string& text, const Mark& at) const;

private:
    std::vector<std::string> known_names(Among among) const;

    ReaderDesk& desk_;
    std::unordered_map<std::string, std::size_t> board_places_;
    std::unordered_map<std::string, PortRef> port_places_;
    std::unordered_map<std::string, std::size_t> ribbon_places_;
};

}  // namespace pinfold
