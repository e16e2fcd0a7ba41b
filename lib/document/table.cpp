#include "document/table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>

#include "document/table_ribbon.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

struct PlaceTally {
    std::size_t all = 0;
    std::size_t good = 0;
};

PlaceTally tally(const Wiring& wiring, std::optional<std::size_t> carry) {
    PlaceTally count;
    for (const Pass& pass : wiring.passes()) {
        if (carry && pass.carry != *carry) continue;
        ++count.all;
        if (pass.state == State::good) ++count.good;
    }
    return count;
}

std::string promise_line(const Design& design, const Wiring& wiring, std::size_t place) {
    const Carry& carry = design.carries[place];
    std::string what = carry.interface.empty() ? "supply " + carry.supply : carry.interface;
    what += fmt::format(" from {} to {}", name_of(design, carry.from), name_of(design, carry.to));
    if (carry.rate) what += fmt::format(", {:.6g} Gbit/s a lane", carry.rate->value());
    if (carry.voltage) what += fmt::format(", {:.6g} V", carry.voltage->value());
    if (carry.current) what += fmt::format(", {:.6g} A", carry.current->value());
    const PlaceTally count = tally(wiring, place);
    if (count.good == count.all) {
        return one_line(fmt::format("{}: all {} arrive", what, counted(count.all, "signal")));
    }
    return one_line(
        fmt::format("{}: {} of {} arrive", what, count.good, counted(count.all, "signal")));
}

std::vector<std::string> warnings_of(const Design& design, const Wiring& wiring) {
    std::vector<std::string> warnings;
    const PlaceTally count = tally(wiring, {});
    if (count.good < count.all) {
        const std::size_t lost = count.all - count.good;
        warnings.push_back(
            fmt::format("DO NOT BUILD: {} of {} promised signals {} not arrive; "
                        "run pinfold check",
                        lost, count.all, lost == 1 ? "does" : "do"));
    } else if (count.all == 0) {
        warnings.push_back(
            "NOTHING IS PROVED: the design promises no signal; say in 'carry' what must arrive");
    }
    const std::vector<RibbonEnds> ends = ribbon_ends(design);
    for (std::size_t i = 0; i < ends.size(); ++i) {
        const std::vector<std::string> more = seat_warnings(design, i, ends[i]);
        warnings.insert(warnings.end(), more.begin(), more.end());
    }
    return warnings;
}

std::vector<std::string> first_steps(const Design& design) {
    std::vector<std::string> steps;
    if (!design.ribbons.empty()) {
        steps.insert(
            steps.end(),
            {"Mark the edge of conductor 1 on every ribbon with a pen, at both ends. Which edge "
             "that is follows from the drawing: end a on your left, the copper as drawn, "
             "conductor 1 along the upper edge",
             "Look at the bared copper itself. The colour of a stiffener or of an edge stripe does "
             "not tell the type of a ribbon",
             "Hold every receptacle against its data sheet: on which side its contacts are, and "
             "where contact 1 is. Makers number from either side"});
    }
    steps.emplace_back(
        "When it is made, measure every row from end to end with a meter and tick its box: it "
        "must be through, and not joined to the rows beside it");
    return steps;
}

/// `5V on strap conductor 10`, for each supply of the sheet.
std::vector<std::string> supplies_of(const WiringTable& table) {
    std::vector<std::string> places;
    for (const TableRibbon& ribbon : table.ribbons) {
        for (std::size_t i = 0; i < ribbon.rows.size(); ++i) {
            if (!ribbon.rows[i].supply) continue;
            places.push_back(
                fmt::format("{} on {} conductor {}", ribbon.rows[i].signal, ribbon.name, i + 1));
        }
    }
    for (const TableLead& lead : table.leads) {
        if (lead.row.supply)
            places.push_back(fmt::format("{} on lead {}", lead.row.signal, lead.name));
    }
    return places;
}

std::vector<std::string> cautions_of(const WiringTable& table) {
    const std::vector<std::string> supplies = supplies_of(table);
    if (supplies.empty()) return {};
    return {
        fmt::format("This wiring carries a supply: {}", fmt::join(supplies, ", ")),
        "No power while you assemble: unplug every device, remove batteries, let charge drain",
        "Before power is applied, measure with a meter that no supply is joined to ground or to a "
        "signal, then that it arrives where this sheet says",
        "First power through a current limit or a fuse fit for the thinnest conductor; look, smell "
        "and feel for heat before you leave it alone",
        "Never put a ribbon in or pull it out under power: askew or one place off, it can lay the "
        "supply on a signal",
        "This sheet is for low voltages inside a device. Local electrical codes come before it, "
        "and work they reserve for licensed people is theirs"};
}

}  // namespace

std::string mark_and_fault(const TableRow& row) {
    if (row.fault.empty()) return row.mark;
    return row.mark + (row.mark.empty() ? "" : ", ") + "FAULT: " + row.fault;
}

WiringTable wiring_table(const Design& design, const Wiring& wiring) {
    WiringTable table;
    table.title = one_line(design.title);
    table.file = one_line(std::filesystem::path(design.file).filename().string());
    for (std::size_t i = 0; i < design.carries.size(); ++i) {
        table.promises.push_back(promise_line(design, wiring, i));
    }
    table.warnings = warnings_of(design, wiring);
    table.first = first_steps(design);

    const RowReader reader(design, wiring);
    const std::vector<RibbonEnds> ends = ribbon_ends(design);
    for (std::size_t i = 0; i < design.ribbons.size(); ++i) {
        table.ribbons.push_back(table_ribbon(design, reader, i, ends[i]));
    }
    for (std::size_t i = 0; i < design.leads.size(); ++i) table.leads.push_back(reader.lead(i));

    table.cautions = cautions_of(table);
    table.closing =
        "Made from the design as it is written, not from the parts on the bench. Make it anew when "
        "the design changes; pinfold check tells what it judges of this design";
    const PlaceTally count = tally(wiring, {});
    table.arrives = count.good == count.all;
    return table;
}

}  // namespace pinfold
