#include "design/adopt_port.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

/// `hdmi-a plug in ffc-0.50-bottom`, taken apart.
struct Spoken {
    std::string name, gender, receptacle;
};

Spoken spoken(const PartWords& given) {
    Spoken said;
    std::string rest = given.words;
    if (const std::size_t in = rest.find(" in "); in != std::string::npos) {
        said.receptacle = rest.substr(in + 4);
        rest.erase(in);
    }
    const std::size_t blank = rest.find(' ');
    said.name = rest.substr(0, blank);
    if (blank != std::string::npos) said.gender = rest.substr(blank + 1);
    if (!said.gender.empty() && said.gender != "plug" && said.gender != "receptacle") {
        refuse("adopt-words",
               fmt::format("'{}' of {}: after the connector's name stands plug or receptacle, "
                           "such as {}=\"hdmi-a plug\"",
                           given.words, given.reference, given.reference));
    }
    return said;
}

void doubt(Findings& doubts, Severity severity, const char* rule, std::string text,
           const Mark& at) {
    doubts.push_back({severity, rule, std::move(text), at});
}

void number_contacts(AdoptedPort& port, int count) {
    for (int n = 1; n <= count; ++n) {
        AdoptedContact contact;
        contact.label = std::to_string(n);
        port.contacts.push_back(std::move(contact));
    }
}

void take_connector(const Spoken& said, Library& library, AdoptedPort& port, Findings& doubts) {
    const Connector& connector = library.connector(said.name, {});
    port.connector = said.name;
    port.interface = &library.interface(connector.interface, {});
    port.connector_shell = connector.shell;
    if (connector.takes_ribbon && said.receptacle.empty()) {
        refuse("adopt-words",
               fmt::format("a ribbon goes into {}: say which receptacle {} is, such as "
                           "{}=\"{} in ffc-1.00-bottom\"",
                           said.name, port.reference, port.reference, said.name));
    }
    if (!connector.takes_ribbon && !said.receptacle.empty()) {
        refuse("adopt-words", fmt::format("{} takes a plug, not a ribbon", said.name));
    }
    const bool is_receptacle =
        said.gender.empty() ? connector.takes_ribbon : said.gender == "receptacle";
    port.gender = is_receptacle ? Gender::receptacle : Gender::plug;
    if (said.gender.empty() && !connector.takes_ribbon) {
        doubt(doubts, Severity::note, "adopt-gender",
              fmt::format("{} is taken for a plug; if it is not, say {}=\"{} receptacle\"",
                          port.reference, port.reference, said.name),
              port.at);
    }
    for (const Contact& contact : connector.contacts_of(port.gender)) {
        AdoptedContact here;
        here.label = contact.label;
        here.signal = contact.signal;
        here.absent = contact.absent;
        port.contacts.push_back(std::move(here));
    }
}

void take_receptacle(const std::string& id, int highest, Library& library, AdoptedPort& port,
                     Findings& doubts) {
    const ReceptacleType& type = library.receptacle(id, {});
    port.receptacle = id;
    port.gender = Gender::receptacle;
    const bool is_bare = port.connector.empty();
    const int count =
        is_bare ? std::max(highest, type.positions.least) : static_cast<int>(port.contacts.size());
    if (!type.positions.holds(count)) {
        refuse("positions-made",
               fmt::format("{} is made with {} to {} positions, but {} has a pad {}", id,
                           type.positions.least, type.positions.most, port.reference, count));
    }
    if (is_bare) number_contacts(port, count);
    doubt(doubts, Severity::warning, "adopt-first-contact",
          fmt::format("a netlist does not say on which side contact 1 of {} is; taken: left{}",
                      port.reference,
                      is_bare ? fmt::format(", and {} positions from the pads in use", count)
                              : std::string{}),
          port.at);
}

[[noreturn]] void refuse_name(const PartWords& given, const std::string& name, Library& library) {
    std::vector<std::string> known = library.names(PinMapKind::connector);
    const std::vector<std::string> more = library.names(PinMapKind::receptacle);
    known.insert(known.end(), more.begin(), more.end());
    known.push_back("pads");
    refuse("adopt-connector",
           fmt::format("no connector or receptacle is called '{}' (said of {}){}; 'pinfold "
                       "pinmap' lists them",
                       name, given.reference, did_you_mean(name, known)));
}

}  // namespace

AdoptedPort adopt_port(const AdoptedPart& part, const PartWords& words, Library& library,
                       Findings& doubts) {
    constexpr int most_pads = 2000;
    const Spoken said = spoken(words);
    AdoptedPort port;
    port.reference = words.reference;
    if (part.component) {
        port.footprint = part.component->footprint;
        port.part = part.component->value;
        port.at = part.component->at;
    }
    if (library.has(PinMapKind::connector, said.name)) {
        take_connector(said, library, port, doubts);
        if (!said.receptacle.empty()) {
            if (!library.has(PinMapKind::receptacle, said.receptacle)) {
                refuse_name(words, said.receptacle, library);
            }
            take_receptacle(said.receptacle, part.highest, library, port, doubts);
        }
    } else if (library.has(PinMapKind::receptacle, said.name)) {
        take_receptacle(said.name, part.highest, library, port, doubts);
    } else if (said.name == "pads") {
        if (part.highest < 1 || part.highest > most_pads) {
            refuse("contact-count",
                   fmt::format("a port has 1 to {} pads, numbered from 1; {} has other ones",
                               most_pads, words.reference));
        }
        number_contacts(port, part.highest);
    } else {
        refuse_name(words, said.name, library);
    }
    return port;
}

}  // namespace pinfold
