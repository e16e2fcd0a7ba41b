// The copper of one board while it is read: which contacts are one piece, and what it answers to.
#pragma once

#include <compare>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// What a name of copper is, those first that call a net before others: the ground, a signal of a
/// port wired by its pin table, a name of the board's own, one that could mean several.
enum class CopperNameKind { ground, table, own, doubt };

struct CopperName {
    CopperNameKind kind = CopperNameKind::ground;
    std::size_t port = 0;  ///< of a table
    std::string text;
    friend auto operator<=>(const CopperName&, const CopperName&) = default;
};

/// A piece of copper with a name: what its net is to be called and which signal it is.
struct NamedCopper {
    std::size_t piece = 0;
    Net net;
};

/// Grows piece by piece, then makes the board's nets. A place is a contact among all of the
/// board's.
class BoardCopper {
public:
    explicit BoardCopper(Board& board);

    std::size_t place(std::size_t port, std::size_t contact) const {
        return first_[port] + contact;
    }
    /// The copper of that name; new copper, to be called `net`, if there is none yet.
    NamedCopper& named(const CopperName& name, const Net& net);
    NamedCopper* find(const CopperName& name);

    void wire(std::size_t place, const NamedCopper& copper);
    void wire(std::size_t place, std::size_t other);

    /// The board's own names that stand on one contact alone.
    std::vector<const NamedCopper*> alone();

    /// Gives the board its nets, in the order of their first contacts, and every wired contact its
    /// net. Two nets of one name are told apart by the port they stand on.
    void make_nets();
    /// The net of some copper, once they are made; none of copper that no contact is wired to.
    std::optional<std::size_t> net_of(const NamedCopper& copper);

private:
    std::size_t root(std::size_t piece);
    void join(std::size_t one, std::size_t other) { parent_[root(other)] = root(one); }
    void name_nets();
    void name_the_rest();

    Board& board_;
    std::vector<std::size_t> first_;   ///< place of each port's first contact
    std::vector<std::size_t> parent_;  ///< places, then names
    std::vector<std::size_t> wired_;
    std::map<CopperName, NamedCopper> names_;
    std::map<std::size_t, std::size_t> net_of_piece_;
};

}  // namespace pinfold
