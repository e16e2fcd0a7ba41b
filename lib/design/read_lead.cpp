#include <fmt/format.h>

#include "design/read_promises.hpp"
#include "pinmap/gauge.hpp"

namespace pinfold {

void read_lead(const Yaml::Entry& entry, const NameIndex& names, ReaderDesk& desk) {
    Fields fields(entry.value, desk.findings);
    Lead lead;
    lead.name = entry.key;
    lead.at = entry.at;
    const auto from = names.find_contact_ref(fields.text("from"), fields.at("from"));
    const auto to = names.find_contact_ref(fields.text("to"), fields.at("to"));
    lead.gauge = fields.text("gauge");
    const auto section = read_gauge(lead.gauge);
    if (!section && !lead.gauge.empty()) {
        complain(desk.findings, "yaml-unit",
                 fmt::format("'gauge' must be a wire gauge such as 'AWG 24' or '0.25 mm2', "
                             "not '{}'",
                             lead.gauge),
                 fields.at("gauge"));
    }
    lead.colour = fields.text_or("colour", {});
    const auto length = fields.quantity<Millimetres>("length");
    lead.rating = fields.maybe<Amperes>("rating");
    fields.done();
    if (from && to && *from == *to) {
        complain(desk.findings, "join-itself",
                 fmt::format("{} cannot be joined to itself", name_of(desk.design, *from)),
                 entry.at);
        return;
    }
    if (!from || !to || !section || !length) return;
    lead.from = *from;
    lead.to = *to;
    lead.section = *section;
    lead.length = *length;
    desk.design.leads.push_back(std::move(lead));
}

void read_acceptance(const Yaml& yaml, ReaderDesk& desk) {
    Fields fields(yaml, desk.findings);
    Acceptance acceptance;
    acceptance.at = yaml.at;
    acceptance.rule = fields.text("rule");
    acceptance.where = fields.text_or("where", {});
    acceptance.why = fields.text("why");
    fields.done();
    desk.design.acceptances.push_back(std::move(acceptance));
}

}  // namespace pinfold
