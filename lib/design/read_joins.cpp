#include "design/read_joins.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "design/words.hpp"

namespace pinfold {
namespace {

/// Reads the joins of a design one by one; a port or ribbon end is joined once.
class JoinReader {
public:
    JoinReader(const NameIndex& names, ReaderDesk& desk) : names_(names), desk_(desk) {}

    void read(const Yaml& yaml) {
        if (yaml.kind != Yaml::Kind::map) {
            const std::string text =
                text_of(yaml, "a join such as 'base.tail + strap.a'", desk_.findings);
            if (!text.empty()) join(text, {}, yaml.at);
            return;
        }
        Fields fields(yaml, desk_.findings);
        const std::string text = fields.text("join");
        const Mark at = fields.at("join");
        How how;
        if (fields.has("touches")) how.touches = fields.word<ContactSide>("touches", row_words());
        how.flipped =
            *fields.word_or<bool>("attitude", {{"upright", false}, {"flipped", true}}, false);
        how.measured = fields.any("contact-resistance");
        fields.done();
        if (!text.empty()) join(text, how, at);
    }

private:
    /// What the long form of a join says.
    struct How {
        std::optional<ContactSide> touches;
        bool flipped = false;
        const Yaml* measured = nullptr;
    };

    /// The two halves of "base.tail + strap.a".
    std::optional<std::pair<std::string, std::string>> halves(const std::string& text,
                                                              const Mark& at) {
        std::vector<std::string> parts;
        for (std::size_t from = 0; from <= text.size();) {
            const std::size_t plus = std::min(text.find('+', from), text.size());
            std::string part = text.substr(from, plus - from);
            part.erase(0, part.find_first_not_of(' '));
            part.erase(part.find_last_not_of(' ') + 1);
            parts.push_back(std::move(part));
            from = plus + 1;
        }
        if (parts.size() == 2 && !parts[0].empty() && !parts[1].empty()) {
            return std::pair{parts[0], parts[1]};
        }
        complain(desk_.findings, "join-shape",
                 fmt::format("a join has two sides, such as 'base.tail + strap.a'; {}",
                             parts.size() == 2 ? std::string("a side of this one is empty")
                                               : fmt::format("this one has {}", parts.size())),
                 at);
        return std::nullopt;
    }

    void join(const std::string& text, const How& how, const Mark& at) {
        const auto sides = halves(text, at);
        if (!sides) return;
        const auto one = names_.find_side(sides->first, at);
        const auto other = names_.find_side(sides->second, at);
        if (!one || !other) return;
        if (sides->first == sides->second) {
            complain(desk_.findings, "join-itself",
                     fmt::format("{} cannot be joined to itself", sides->first), at);
            return;
        }
        const bool once_one = join_once(sides->first, at);
        const bool once_other = join_once(sides->second, at);
        if (!once_one || !once_other) return;
        if (one->ribbon && other->ribbon) {
            complain(desk_.findings, "join-ribbons",
                     "two ribbon ends cannot be joined; put a board between them", at);
        } else if (one->ribbon || other->ribbon) {
            const NameIndex::Side& ribbon = one->ribbon ? *one : *other;
            const NameIndex::Side& port = one->ribbon ? *other : *one;
            if (how.flipped) refuse_attitude(name_of(desk_.design, *port.port), at);
            seat(*port.port, *ribbon.ribbon, how, at);
        } else {
            if (how.touches) refuse_touches(name_of(desk_.design, *one->port), at);
            plug(*one->port, *other->port, how, at);
        }
    }

    void refuse_touches(const std::string& port, const Mark& at) {
        complain(desk_.findings, "join-touches",
                 fmt::format("'touches' is for a ribbon in a receptacle with contacts on both "
                             "sides; {} is not one",
                             port),
                 at);
    }

    void refuse_attitude(const std::string& port, const Mark& at) {
        complain(desk_.findings, "join-attitude", fmt::format("{} goes in one way only", port), at);
    }

    bool join_once(const std::string& side, const Mark& at) {
        const auto [twin, is_new] = joined_.try_emplace(side, at);
        if (!is_new) {
            complain(desk_.findings, "join-twice", fmt::format("{} is joined twice", side), at,
                     {{twin->second, "first here"}});
        }
        return is_new;
    }

    void seat(PortRef port, std::pair<std::size_t, End> end, const How& how, const Mark& at) {
        const Ribbon& ribbon = desk_.design.ribbons[end.first];
        const Port& there = desk_.design.port(port);
        const int contacts = static_cast<int>(there.contacts.size());
        if (there.ribbon && ribbon.conductors > contacts) {
            complain(desk_.findings, "ribbon-too-wide",
                     fmt::format("{} has {} conductors, but {} has {} contacts", ribbon.name,
                                 ribbon.conductors, name_of(desk_.design, port), contacts),
                     at);
            return;
        }
        if (how.touches && (!there.ribbon || there.ribbon->mouth.side != ContactSide::both)) {
            refuse_touches(name_of(desk_.design, port), at);
            return;
        }
        desk_.design.seats.push_back(
            {port, end.first, end.second, how.touches, at, 0, measured(port, how.measured)});
    }

    void plug(PortRef a, PortRef b, const How& how, const Mark& at) {
        const Port& port = desk_.design.port(a);
        const bool can_flip =
            !port.connector.empty() && desk_.design.connectors.at(port.connector).flippable;
        if (how.flipped && !can_flip) {
            refuse_attitude(name_of(desk_.design, a), at);
            return;
        }
        if (how.flipped) turn_over(port.gender == Gender::receptacle ? a : b);
        desk_.design.joins.push_back({a, b, how.flipped, at, measured(a, how.measured)});
    }

    /// One resistance of every contact, or a map of single ones by label or signal.
    MeasuredContacts measured(PortRef ref, const Yaml* yaml) {
        MeasuredContacts measured;
        if (!yaml) return measured;
        if (yaml->kind != Yaml::Kind::map) {
            measured.all = resistance(*yaml);
            return measured;
        }
        const Port& port = desk_.design.port(ref);
        const Interface* interface = desk_.design.interface_of(port);
        for (const Yaml::Entry& entry : yaml->entries) {
            const auto contact = find_contact(port, interface, entry.key);
            const auto ohms = resistance(entry.value);
            if (contact && ohms) {
                measured.single[*contact] = *ohms;
            } else if (!contact) {
                complain(
                    desk_.findings, "contact-unknown",
                    fmt::format("{} has no contact '{}'", name_of(desk_.design, ref), entry.key),
                    entry.at);
            }
        }
        return measured;
    }

    std::optional<Ohms> resistance(const Yaml& yaml) {
        const std::string text =
            text_of(yaml, "a resistance such as '50 mohm', or a map of contacts", desk_.findings);
        if (text.empty()) return std::nullopt;
        const Reading reading = parse_quantity(text, dimension_of<Ohms>());
        if (reading.value) return Ohms(*reading.value);
        complain(desk_.findings, "yaml-unit",
                 fmt::format("the contact resistance {}", reading.complaint), yaml.at);
        return std::nullopt;
    }

    /// A port whose plug is in flipped takes its row B for row A: it finds the first lane, and the
    /// configuration contact, on the other row.
    void turn_over(PortRef ref) {
        Port& port = desk_.design.boards[ref.board].ports[ref.port];
        const std::vector<PortContact> before = port.contacts;
        for (PortContact& contact : port.contacts) {
            const auto other =
                std::ranges::find(before, flipped_label(contact.label), &PortContact::label);
            if (other == before.end()) continue;
            contact.signal = other->signal;
            contact.name = other->name;
        }
    }

    const NameIndex& names_;
    ReaderDesk& desk_;
    std::map<std::string, Mark> joined_;
};

}  // namespace

void read_joins(const std::vector<Yaml>& items, const NameIndex& names, ReaderDesk& desk) {
    JoinReader reader(names, desk);
    for (const Yaml& item : items) reader.read(item);
}

}  // namespace pinfold
