#include "document/probe_sheet.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/shown.hpp"
#include "document/contact_place.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

const char* heading_of(ReadingStage stage) {
    switch (stage) {
        case ReadingStage::supply: return "Supplies, before anything";
        case ReadingStage::ribbon: return "How the ribbons lie";
        case ReadingStage::signal: return "Every signal";
        case ReadingStage::neighbour: return "Bridges";
        case ReadingStage::further: return "Next";
    }
    return "";
}

SheetRow row_of(const Bench& bench, const Probe& probe) {
    const auto point = [&](std::size_t site) {
        return one_line(name_of(bench.design, bench.contact(site)));
    };
    const auto full = [&](std::size_t site) {
        const std::string& signal = bench.design.contact(bench.contact(site)).name;
        return signal.empty() ? point(site) : fmt::format("{} {}", point(site), one_line(signal));
    };
    return {std::to_string(probe.number),
            full(probe.from),
            full(probe.to),
            probe.closed ? "closed" : "open",
            one_line(probe.why),
            point(probe.from),
            point(probe.to),
            ""};
}

SheetRow row_of(const Bench& bench, const DeviceProbe& probe) {
    const std::string from = one_line(bench.wiring.name_of(probe.from, bench.design));
    const std::string to = one_line(bench.wiring.name_of(probe.to, bench.design));
    return {std::to_string(probe.number),
            fmt::format("{} {}", from, one_line(probe.from_signal)),
            fmt::format("{} {}", to, one_line(probe.to_signal)),
            in_words(probe.expected),
            one_line(probe.why),
            from,
            to,
            one_line(bench.design.boards[probe.device].name)};
}

/// Devices by name: those with a port that is unplugged, or those with one that stays joined.
std::vector<std::string> devices(const Bench& bench, bool that_stay) {
    std::set<PortRef> staying;
    for (const Site& site : bench.sites.all()) staying.insert(site.contact.port);
    std::vector<std::string> names;
    for (std::size_t b = 0; b < bench.design.boards.size(); ++b) {
        const Board& board = bench.design.boards[b];
        bool is_meant = false;
        for (std::size_t p = 0; p < board.ports.size(); ++p) {
            is_meant = is_meant || staying.contains(PortRef{b, p}) == that_stay;
        }
        if (board.is_device && is_meant) names.push_back(board.name);
    }
    return names;
}

std::string unplugging(const Bench& bench) {
    std::string text = "Switch off every device";
    const std::vector<std::string> unplugged = devices(bench, false);
    const std::vector<std::string> staying = devices(bench, true);
    if (!unplugged.empty()) text += fmt::format(" and unplug {}", fmt::join(unplugged, ", "));
    if (staying.empty()) return text;
    return text +
           fmt::format(
               ". What goes right into {} stays joined, without power; the inside of a device may "
               "join its grounds and blur readings, so take the ribbon out where you doubt",
               fmt::join(staying, ", "));
}

std::vector<std::string> steps_of(const Bench& bench) {
    return {
        one_line(unplugging(bench)),
        "Leave the adapters, ribbons and leads joined as they will be used",
        "Hold the probes together and note what the meter shows: that much is the leads' own. "
        "Closed is at most 10 ohm over it, open at least 1000 ohm",
        "Stop at the first supply that is not open, and find out why",
        "Write closed, open or the ohms beside each row; fill in the CSV of this sheet and give "
        "it to pinfold diagnose"};
}

std::vector<std::string> notes_of(const ProbePlan& plan) {
    std::vector<std::string> notes;
    notes.push_back(fmt::format(
        "{} in all. No set of fewer than {} does it: {} that must beep (a joint shows only in a "
        "reading "
        "at its contact, and a reading has two ends; every promise has one of its own) and {} that "
        "must not (a bridge shows only between the two it joins)",
        counted(plan.readings, "reading"), plan.least.closed + plan.least.open, plan.least.closed,
        plan.least.open));
    notes.push_back(fmt::format(
        "They show each of {} plausible single faults and tell {} outcomes apart, of {} that any "
        "readings could; telling {} apart takes {} yes-or-no readings at the least",
        plan.faults, plan.told_apart, plan.most_told_apart, plan.most_told_apart,
        least_readings_to_tell(plan.most_told_apart)));
    for (const Limitation& limitation : plan.alike) {
        notes.push_back(one_line(fmt::format("Not told apart, in {}, such as: {}. {}",
                                             counted(limitation.places, "place"),
                                             limitation.example, limitation.why)));
    }
    for (const Limitation& limitation : plan.unseen) {
        notes.push_back(one_line(fmt::format("Not seen by a meter, in {}, such as: {}. {}",
                                             counted(limitation.places, "place"),
                                             limitation.example, limitation.why)));
    }
    std::size_t spare = 0;
    for (const Probe& probe : plan.probes) spare += probe.shows == 0 ? 1 : 0;
    if (spare > 0) {
        notes.push_back(
            fmt::format("{} no fault of their own and stay to prove a promised signal",
                        spare == 1 ? "1 reading shows" : fmt::format("{} readings show", spare)));
    }
    return notes;
}

void add_row(ProbeSheet& sheet, const std::string& heading, SheetRow row) {
    if (sheet.sections.empty() || sheet.sections.back().heading != heading) {
        sheet.sections.push_back({heading, {}});
    }
    sheet.sections.back().rows.push_back(std::move(row));
}

/// A section for each device, and who says what it should show.
void add_devices(const Bench& bench, const ProbePlan& plan, ProbeSheet& sheet) {
    for (const DeviceProbe& probe : plan.devices) {
        SheetRow row = row_of(bench, probe);
        const std::string heading = fmt::format(
            "When all of the above is right: {} plugged in alone, no power; red probe at From",
            row.with);
        add_row(sheet, heading, std::move(row));
        const std::string source =
            one_line(fmt::format("{}: {}", in_words(probe.expected), probe.source));
        if (std::ranges::find(sheet.sources, source) == sheet.sources.end()) {
            sheet.sources.push_back(source);
        }
    }
}

/// Every port a probe is put on, then the bare ends of ribbons.
std::vector<std::string> places_of(const Bench& bench, const ProbePlan& plan) {
    std::set<PortRef> ports;
    std::set<std::pair<std::size_t, End>> ends;
    for (const Probe& probe : plan.probes) {
        ports.insert({bench.contact(probe.from).port, bench.contact(probe.to).port});
    }
    for (const DeviceProbe& probe : plan.devices) {
        for (const Point point : {probe.from, probe.to}) {
            if (const auto contact = bench.wiring.contact_at(point)) {
                ports.insert(contact->port);
                continue;
            }
            const std::size_t ribbon = bench.wiring.ribbon_at(point);
            const Point last = bench.wiring.point_of(
                ribbon, End::a, ConductorNumber(bench.design.ribbons[ribbon].conductors));
            ends.insert({ribbon, point <= last ? End::a : End::b});
        }
    }
    std::vector<std::string> places;
    for (const PortRef port : ports) places.push_back(where_of(bench.design, port));
    for (const auto& [ribbon, end] : ends) {
        places.push_back(where_of_end(bench.design, ribbon, end));
    }
    return places;
}

}  // namespace

ProbeSheet probe_sheet(const Bench& bench, const ProbePlan& plan) {
    ProbeSheet sheet;
    const Design& design = bench.design;
    sheet.title = one_line(design.title);
    sheet.file = one_line(std::filesystem::path(design.file).filename().string());
    if (!plan.arrives) {
        sheet.warnings.emplace_back(
            "THE DESIGN ITSELF IS NOT RIGHT: this sheet proves it as it is wired; run pinfold "
            "check");
    }
    sheet.cautions = {
        "No power while you measure. Unplug supplies, take batteries out, let charge drain and "
        "check with the meter that no voltage is left",
        "Continuity or ohms only, and diode mode where a row says so, with the meter's own small "
        "current; never bridge two contacts with a slipping tip",
        "This sheet is for low voltages inside a device. Local electrical codes come before it, "
        "and "
        "work they reserve for licensed people is theirs"};
    sheet.first = steps_of(bench);
    for (const Probe& probe : plan.probes) {
        add_row(sheet, heading_of(probe.stage), row_of(bench, probe));
    }
    add_devices(bench, plan, sheet);
    sheet.where = places_of(bench, plan);
    sheet.notes = notes_of(plan);
    return sheet;
}

Rows to_sheet(const ProbeSheet& sheet) {
    Rows rows{{"no", "from", "to", "expect", "reading", "with"}};
    for (const SheetSection& section : sheet.sections) {
        for (const SheetRow& row : section.rows) {
            rows.push_back({row.number, row.from_point, row.to_point, row.expect, "", row.with});
        }
    }
    return rows;
}

std::string to_text(const ProbeSheet& sheet) {
    std::string text = fmt::format("Meter sheet: {}\n{}\n", sheet.title, sheet.file);
    for (const std::string& warning : sheet.warnings) text += in_lines("!! " + warning);
    const auto list = [&](const char* heading, const std::vector<std::string>& items) {
        text += fmt::format("\n{}\n", heading);
        for (const std::string& item : items) text += in_lines("- " + item + ".");
    };
    list("Cautions", sheet.cautions);
    list("Before you start", sheet.first);
    list("Where the contacts are", sheet.where);
    for (const SheetSection& section : sheet.sections) {
        Rows rows{{"No.", "From", "To", "Expect", "Reading", "Why"}};
        for (const SheetRow& row : section.rows) {
            rows.push_back({fmt::format("{:>3}", row.number), row.from, row.to, row.expect,
                            "[      ]", row.why});
        }
        text += fmt::format("\n{}\n", section.heading) + in_columns(rows, "  ");
    }
    list("What this proves", sheet.notes);
    if (!sheet.sources.empty()) list("Who says what a device shows", sheet.sources);
    return shown_page(text);
}

}  // namespace pinfold
