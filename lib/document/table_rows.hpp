// Rows of the wiring table: what each conductor and each lead carries, and how it is marked.
#pragma once

#include "document/table.hpp"

namespace pinfold {

/// Reads rows off a traced design.
class RowReader {
public:
    RowReader(const Design& design, const Wiring& wiring);

    /// One row for each conductor, from conductor 1 on.
    std::vector<TableRow> ribbon_rows(std::size_t ribbon, const RibbonEnds& ends,
                                      const std::optional<Seating>& seating) const;
    TableLead lead(std::size_t place) const;

private:
    struct Load;
    Load load_of(std::uint32_t piece, std::initializer_list<std::optional<ContactRef>> ends) const;
    Load own_load(std::initializer_list<std::optional<ContactRef>> ends) const;
    TableRow row_of(const Load& load, std::uint32_t piece) const;

    const Design& design_;
    const Wiring& wiring_;
    bool alone_;  ///< one interface is carried, so that its signals need no port before them
    std::vector<std::string> fault_of_piece_;
};

/// The contact a conductor lies on at one end; nothing if the receptacle is too short or absent.
std::optional<ContactRef> contact_under(const Design& design, const Ribbon& ribbon,
                                        const Seat& seat, ConductorNumber conductor,
                                        const std::optional<Seating>& seating);

}  // namespace pinfold
