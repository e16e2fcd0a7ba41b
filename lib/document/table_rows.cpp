#include "document/table_rows.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "design/promise.hpp"
#include "document/table_words.hpp"

namespace pinfold {

/// What a piece of wiring carries, whoever says so: a promise or the boards' own names.
struct RowReader::Load {
    std::string signal = "open";
    const Interface* interface = nullptr;
    std::optional<std::size_t> place;  ///< in `interface`
    bool ground = false;

    const Signal* told() const {
        return interface && place ? &interface->signals[*place] : nullptr;
    }
    const Pair* pair() const {
        const Signal* signal_told = told();
        const bool half = signal_told && signal_told->role == Role::pair_half && signal_told->pair;
        return half ? &interface->pairs[*signal_told->pair] : nullptr;
    }
};

namespace {

/// The pairs that lie beside a conductor, each once.
template <class Loads>
std::string pairs_beside(const Loads& loads, std::size_t at) {
    const Pair* before = at > 0 ? loads[at - 1].pair() : nullptr;
    const Pair* after = at + 1 < loads.size() ? loads[at + 1].pair() : nullptr;
    std::string names = before ? before->name : std::string{};
    if (after && after != before) names += (names.empty() ? "" : ", ") + after->name;
    return names;
}

std::string end_text(const Design& design, const std::optional<ContactRef>& contact, bool joined,
                     bool touches) {
    if (!contact) return joined ? "no contact" : "not joined";
    return one_line(name_of(design, *contact)) + (touches ? "" : " (does not touch)");
}

}  // namespace

RowReader::RowReader(const Design& design, const Wiring& wiring)
    : design_(design),
      wiring_(wiring),
      alone_(std::ranges::count_if(design.carries, [](const Carry& carry) {
                 return !carry.interface.empty();
             }) <= 1) {
    for (const Pass& pass : wiring.passes()) {
        if (pass.state == State::good) continue;
        const std::uint32_t piece = wiring.piece_of(wiring.point_of(pass.from));
        if (piece >= fault_of_piece_.size()) fault_of_piece_.resize(piece + 1);
        fault_of_piece_[piece] = name_of(pass.state);
    }
}

RowReader::Load RowReader::own_load(std::initializer_list<std::optional<ContactRef>> ends) const {
    for (const std::optional<ContactRef>& end : ends) {
        if (!end) continue;
        const PortContact& contact = design_.contact(*end);
        if (contact.name.empty()) continue;
        Load load{contact.name, design_.interface_of(design_.port(end->port)), contact.signal,
                  false};
        if (contact.net) {
            const Net& net = design_.boards[end->port.board].nets[*contact.net];
            const auto found = design_.interfaces.find(net.interface);
            load = {net.name, found == design_.interfaces.end() ? nullptr : &found->second,
                    net.signal, net.ground};
        }
        load.ground = load.ground || (load.told() && is_ground(load.told()->role));
        return load;
    }
    return {};
}

RowReader::Load RowReader::load_of(std::uint32_t piece,
                                   std::initializer_list<std::optional<ContactRef>> ends) const {
    const std::optional<Wire> wire = wiring_.wire_in(piece);
    if (!wire) return own_load(ends);
    const Interface* near = design_.interface_of(design_.port(design_.carries[wire->carry].from));
    const Signal& signal = near->signals[wire->signal];
    const bool ground = is_ground(signal.role);
    const std::string name =
        alone_ ? signal.name
               : fmt::format("{}.{}", name_of(design_, design_.carries[wire->carry].from),
                             signal.name);
    return {ground ? "GND" : name, near, wire->signal, ground};
}

TableRow RowReader::row_of(const Load& load, std::uint32_t piece) const {
    TableRow row;
    row.signal = one_line(load.signal);
    if (piece < fault_of_piece_.size()) row.fault = fault_of_piece_[piece];
    if (const Pair* pair = load.pair()) {
        row.mark = one_line(pair->name) + (pair->plus == *load.place ? " +" : " -");
        row.paired = true;
    } else if (load.ground) {
        row.mark = "ground";
    } else if (load.told() && load.told()->role == Role::supply) {
        row.mark = "SUPPLY";
        row.supply = true;
    }
    return row;
}

std::vector<TableRow> RowReader::ribbon_rows(std::size_t ribbon, const RibbonEnds& ends,
                                             const std::optional<Seating>& seating) const {
    const Ribbon& cut = design_.ribbons[ribbon];
    const auto contact = [&](const std::optional<std::size_t>& seat, ConductorNumber conductor) {
        return seat && seating
                   ? contact_under(design_, cut, design_.seats[*seat], conductor, seating)
                   : std::nullopt;
    };
    std::vector<TableRow> rows;
    std::vector<Load> loads;
    for (int n = 1; n <= cut.conductors; ++n) {
        const ConductorNumber conductor(n);
        const auto at_a = contact(ends.a, conductor);
        const auto at_b = contact(ends.b, conductor);
        const auto piece = wiring_.piece_of(wiring_.point_of(ribbon, End::a, conductor));
        loads.push_back(load_of(piece, {at_a, at_b}));
        rows.push_back(row_of(loads.back(), piece));
        rows.back().from =
            end_text(design_, at_a, seating.has_value(), !seating || seating->touch_a);
        rows.back().to = end_text(design_, at_b, seating.has_value(), !seating || seating->touch_b);
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string beside = loads[i].ground ? pairs_beside(loads, i) : std::string{};
        if (!beside.empty()) rows[i].mark = "guard " + one_line(beside);
    }
    return rows;
}

TableLead RowReader::lead(std::size_t place) const {
    const Lead& lead = design_.leads[place];
    const auto piece = wiring_.piece_of(wiring_.point_of(lead.from));
    TableLead told{lead.name, one_line(lead.gauge),
                   lead.colour.empty() ? "any" : one_line(lead.colour), lead.length,
                   row_of(load_of(piece, {lead.from, lead.to}), piece)};
    told.row.from = one_line(name_of(design_, lead.from));
    told.row.to = one_line(name_of(design_, lead.to));
    return told;
}

std::optional<ContactRef> contact_under(const Design& design, const Ribbon& ribbon,
                                        const Seat& seat, ConductorNumber conductor,
                                        const std::optional<Seating>& seating) {
    if (!seating) return std::nullopt;
    const Order order = seating->order == Order::either ? Order::straight : seating->order;
    const ContactNumber contact = seat.end == End::a
                                      ? contact_at_a(conductor)
                                      : contact_at_b(conductor, ribbon.conductors, order);
    if (contact.index() >= design.port(seat.port).contacts.size()) return std::nullopt;
    return ContactRef{seat.port, contact.index()};
}

}  // namespace pinfold
