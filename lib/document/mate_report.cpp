#include "document/mate_report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"

namespace pinfold {
namespace {

std::string number_of(const std::optional<ContactRef>& contact) {
    return contact ? std::to_string(contact->contact + 1) : "-";
}

std::string carried(const std::string& signal) { return signal.empty() ? "open" : signal; }

std::string verdict_line(const Mating& mating) {
    if (mating.mates) return "they mate pin for pin\n";
    const auto wrong = std::ranges::count(mating.contacts, false, &MateContact::same);
    return fmt::format(
        "they do NOT mate: {} of {} contacts differ, touch at a: {}, touch at b: "
        "{}, order: {}\n",
        wrong, mating.contacts.size(), mating.touch_a ? "yes" : "no", mating.touch_b ? "yes" : "no",
        name_of(mating.order));
}

}  // namespace

std::string mate_report(const Design& design, const Mating& mating) {
    std::size_t width = 8;
    for (const MateContact& contact : mating.contacts) {
        width = std::max({width, contact.signal_a.size(), contact.signal_b.size()});
    }
    const Ribbon& ribbon = design.ribbons.front();
    std::string report =
        fmt::format("{} to {} over {} conductors of {}, {} copper: {} order\n\n",
                    design.boards.front().name, design.boards.back().name, ribbon.conductors,
                    ribbon.type, name_of(ribbon.copper), name_of(mating.order));
    report += fmt::format("{:>9}  {:<{}}  {:>9}  {:<{}}  {:>9}\n", "contact a", "signal a", width,
                          "conductor", "signal b", width, "contact b");
    for (const MateContact& contact : mating.contacts) {
        const std::string conductor =
            contact.conductor ? std::to_string(contact.conductor->number()) : "-";
        report +=
            fmt::format("{:>9}  {:<{}}  {:>9}  {:<{}}  {:>9}{}\n", number_of(contact.a),
                        carried(contact.signal_a), width, conductor, carried(contact.signal_b),
                        width, number_of(contact.b), contact.same ? "" : "  <-- differ");
    }
    report += '\n';
    for (const Finding& finding : mating.findings) report += to_text(finding);
    return shown_page(report + verdict_line(mating));
}

}  // namespace pinfold
