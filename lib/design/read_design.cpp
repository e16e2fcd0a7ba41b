#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <unordered_map>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "design/copper.hpp"
#include "design/promise.hpp"
#include "design/read.hpp"
#include "design/words.hpp"
#include "pinmap/gauge.hpp"

namespace pinfold {
namespace {

Board read_copper_board(const Yaml& yaml, std::string name, bool is_file, ReaderDesk& desk) {
    Board board;
    board.name = std::move(name);
    board.at = yaml.at;
    Fields fields(yaml, desk.findings);
    if (is_file) fields.version("pinfold-board");
    board.title = fields.text_or("title", {});
    const bool separate = *fields.word_or<bool>(
        "ground", {{"one", false}, {"separate", true}}, false);
    board.permittivity = fields.plain_number("permittivity").value_or(board.permittivity);
    fields.require("ports");
    std::vector<WrittenPort> written;
    for (const Yaml::Entry& entry : fields.map("ports")) {
        written.push_back(read_port(entry, false, desk));
        board.ports.push_back(written.back().port);
    }
    std::vector<WrittenLength> lengths;
    for (const Yaml::Entry& entry : fields.map("lengths")) {
        const std::string text = text_of(entry.value, "a length", desk.findings);
        const Reading reading = parse_quantity(text, dimension_of<Millimetres>());
        if (reading.value) {
            lengths.push_back({entry.key, Millimetres(*reading.value), entry.at});
        } else {
            complain(desk.findings, "yaml-unit",
                     fmt::format("the length of '{}' {}", entry.key, reading.complaint),
                     entry.value.at);
        }
    }
    fields.done();
    lay_copper(board, written, lengths, separate, desk);
    return board;
}

/// Reads one design file from top to bottom.
class DesignReader {
public:
    DesignReader(std::filesystem::path folder, Library& library)
        : folder_(std::move(folder)), library_(library), desk_{design_, library_, findings_} {}

    Design read(const std::shared_ptr<const Source>& source) {
        design_.file = source->name;
        const Yaml yaml = parse_yaml(source);
        Fields fields(yaml, findings_);
        fields.version("pinfold");
        design_.title = fields.text("title");
        for (const Yaml::Entry& entry : fields.map("devices")) read_device(entry);
        for (const Yaml::Entry& entry : fields.map("boards")) read_board_entry(entry);
        for (const Yaml::Entry& entry : fields.map("ribbons")) read_ribbon(entry);
        index_names();
        for (const Yaml& item : fields.list("joins")) read_join(item);
        for (const Yaml::Entry& entry : fields.map("leads")) read_lead(entry);
        for (const Yaml& item : fields.list("carry")) read_carry(item);
        for (const Yaml& item : fields.list("accept")) read_acceptance(item);
        fields.done();
        if (!findings_.empty()) throw InputError(std::move(findings_));
        read_kin();
        design_.remarks = library_.hidden();
        return std::move(design_);
    }

private:
    /// The other connectors of the interfaces in use: a board may be wired in their order.
    void read_kin() {
        for (const auto& [id, interface] : design_.interfaces) {
            for (const std::string& kin : interface.connectors) {
                design_.connectors.try_emplace(kin, library_.connector(kin, Mark{}));
            }
        }
    }

    /// Boards, devices, ribbons and leads share one set of names.
    void claim(const std::string& name, const Mark& at) {
        require_plain_name(name, at, findings_);
        const auto [twin, is_new] = names_.try_emplace(name, at);
        if (is_new) return;
        complain(findings_, "name-twice", fmt::format("'{}' is named twice in this design", name),
                 at, {{twin->second, "first here"}});
    }

    void read_device(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        Board device;
        device.name = entry.key;
        device.is_device = true;
        device.at = entry.at;
        Fields fields(entry.value, findings_);
        device.title = fields.text_or("title", {});
        fields.require("ports");
        for (const Yaml::Entry& port : fields.map("ports")) {
            device.ports.push_back(read_port(port, true, desk_).port);
        }
        fields.done();
        design_.boards.push_back(std::move(device));
    }

    void read_board_entry(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        if (entry.value.kind == Yaml::Kind::map) {
            design_.boards.push_back(read_copper_board(entry.value, entry.key, false, desk_));
            return;
        }
        const std::string text =
            text_of(entry.value, "a board file's name, or a map of the board", findings_);
        if (text.empty()) return;
        try {
            read_board(board_source(text, entry.value.at), entry.key, design_, library_);
        } catch (const InputError& error) {
            take(findings_, error);
        }
    }

    std::shared_ptr<const Source> board_source(const std::string& text, const Mark& at) const {
        const std::filesystem::path path = (folder_ / text).lexically_normal();
        std::error_code trouble;
        if (!std::filesystem::exists(path, trouble)) {
            throw InputError({{Severity::error, "file-missing",
                               fmt::format("there is no board file '{}'", path.string()), at}});
        }
        if (!std::filesystem::is_regular_file(path, trouble)) {
            throw InputError({{Severity::error, "file-unreadable",
                               fmt::format("'{}' is not a file", path.string()), at}});
        }
        return read_source(path);
    }

    void read_ribbon(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        Ribbon ribbon;
        ribbon.name = entry.key;
        ribbon.at = entry.at;
        Fields fields(entry.value, findings_);
        ribbon.type = fields.text("type");
        ribbon.conductors = fields.whole("conductors", 1);
        ribbon.length = fields.quantity<Millimetres>("length").value_or(Millimetres{});
        ribbon.thickness = fields.maybe<Millimetres>("thickness");
        const RibbonType* type = use_ribbon_type(ribbon, fields);
        if (type && type->kind == RibbonKind::round) {
            ribbon.turned_socket = fields.word<bool>("sockets", socket_words()).value_or(false);
        } else {
            ribbon.copper =
                fields.word<Copper>("copper", copper_words()).value_or(Copper::same_side);
            read_lay(fields, ribbon);
        }
        fields.done();
        design_.ribbons.push_back(std::move(ribbon));
    }

    const RibbonType* use_ribbon_type(const Ribbon& ribbon, Fields& fields) {
        if (ribbon.type.empty()) return nullptr;
        try {
            const RibbonType& type = library_.ribbon(ribbon.type, fields.at("type"));
            if (!type.conductors.holds(ribbon.conductors)) {
                complain(findings_, "conductors-made",
                         fmt::format("{} is made with {} to {} conductors, not {}", type.id,
                                     type.conductors.least, type.conductors.most,
                                     ribbon.conductors),
                         fields.at("conductors"));
            }
            return &design_.ribbon_types.try_emplace(type.id, type).first->second;
        } catch (const InputError& error) {
            take(findings_, error);
            return nullptr;
        }
    }

    void read_lay(Fields& fields, Ribbon& ribbon) {
        const bool has_lay = fields.has("lay");
        Lay lay;
        for (const Yaml& item : fields.list("lay")) {
            const std::string text = text_of(item, "a step of the lay", findings_);
            const auto word = std::ranges::find(turn_words(), text, &std::pair<std::string, Turn>::first);
            if (word != turn_words().end()) {
                lay.turns.push_back(word->second);
                continue;
            }
            std::vector<std::string> known;
            for (const auto& [name, turn] : turn_words()) known.push_back(name);
            complain(findings_, "yaml-word",
                     fmt::format("a step of the lay is one of: {}; not '{}'{}",
                                 fmt::join(known, ", "), text, did_you_mean(text, known)),
                     item.at);
        }
        if (const Yaml* faces = fields.any("faces")) {
            Fields both(*faces, findings_);
            lay.face_a = *both.word_or<Facing>("a", level_words(), Facing::up);
            lay.face_b = *both.word_or<Facing>("b", facing_words(), Facing::up);
            both.done();
            if (!has_lay) {
                complain(findings_, "lay-missing",
                         "'faces' says how the boards lie; say in 'lay' how the ribbon runs, such "
                         "as [straight]",
                         faces->at);
            }
        }
        if (!has_lay) return;
        if (!can_lie(lay)) {
            complain(findings_, "lay-on-edge",
                     fmt::format("a ribbon with this lay arrives on edge at a board that faces {}; "
                                 "change the lay or 'faces'",
                                 name_of(lay.face_b)),
                     fields.at(fields.has("faces") ? "faces" : "lay"));
            return;
        }
        ribbon.lay = std::move(lay);
    }

    struct Side {
        std::optional<PortRef> port;
        std::optional<std::pair<std::size_t, End>> ribbon;
    };

    std::vector<std::string> known_names(bool ribbons) const {
        std::vector<std::string> known;
        for (const Board& board : design_.boards) known.push_back(board.name);
        for (const Ribbon& ribbon : design_.ribbons) {
            if (ribbons) known.push_back(ribbon.name);
        }
        return known;
    }

    /// Where boards, ports (as `board.port`) and ribbons are found by name.
    void index_names() {
        for (std::size_t b = 0; b < design_.boards.size(); ++b) {
            const Board& board = design_.boards[b];
            if (!board_places_.try_emplace(board.name, b).second) continue;
            for (std::size_t p = 0; p < board.ports.size(); ++p) {
                port_places_.try_emplace(name_of(design_, PortRef{b, p}), PortRef{b, p});
            }
        }
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) {
            ribbon_places_.try_emplace(design_.ribbons[r].name, r);
        }
    }

    /// `board.port`; complains and gives nothing if there is no such port.
    std::optional<PortRef> find_port(const std::string& text, const Mark& at, bool ribbons) {
        if (text.empty()) return std::nullopt;  // the field has been complained of
        const auto port = port_places_.find(text);
        if (port != port_places_.end()) return port->second;
        const std::size_t dot = text.find('.');
        const std::string board_name = text.substr(0, dot);
        const auto board = board_places_.find(board_name);
        if (board == board_places_.end()) {
            const auto known = known_names(ribbons);
            complain(findings_, "name-unknown",
                     fmt::format("nothing is named '{}' here{}", board_name,
                                 did_you_mean(board_name, known)),
                     at);
            return std::nullopt;
        }
        const std::string port_name =
            dot == std::string::npos ? std::string{} : text.substr(dot + 1);
        std::vector<std::string> known;
        for (const Port& any : design_.boards[board->second].ports) known.push_back(any.name);
        complain(findings_, "port-unknown",
                 fmt::format("{} has no port '{}'{}; its ports: {}", board_name, port_name,
                             did_you_mean(port_name, known), fmt::join(known, ", ")),
                 at);
        return std::nullopt;
    }

    std::optional<Side> find_side(const std::string& text, const Mark& at) {
        const std::size_t dot = text.find('.');
        const std::string name = text.substr(0, dot);
        const auto ribbon = ribbon_places_.find(name);
        if (ribbon == ribbon_places_.end()) {
            const auto port = find_port(text, at, true);
            return port ? std::optional(Side{port, {}}) : std::nullopt;
        }
        const std::string end = dot == std::string::npos ? std::string{} : text.substr(dot + 1);
        if (end != "a" && end != "b") {
            complain(findings_, "ribbon-end",
                     fmt::format("a ribbon has the ends {}.a and {}.b, not '{}'", name, name,
                                 text),
                     at);
            return std::nullopt;
        }
        return Side{{}, std::pair{ribbon->second, end == "a" ? End::a : End::b}};
    }

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
        complain(findings_, "join-shape",
                 fmt::format("a join has two sides, such as 'base.tail + strap.a'; {}",
                             parts.size() == 2 ? std::string("a side of this one is empty")
                                               : fmt::format("this one has {}", parts.size())),
                 at);
        return std::nullopt;
    }

    void read_join(const Yaml& yaml) {
        if (yaml.kind != Yaml::Kind::map) {
            const std::string text =
                text_of(yaml, "a join such as 'base.tail + strap.a'", findings_);
            if (!text.empty()) join(text, {}, false, yaml.at);
            return;
        }
        Fields fields(yaml, findings_);
        const std::string text = fields.text("join");
        const Mark at = fields.at("join");
        std::optional<ContactSide> touches;
        if (fields.has("touches")) touches = fields.word<ContactSide>("touches", row_words());
        const bool flipped = *fields.word_or<bool>(
            "attitude", {{"upright", false}, {"flipped", true}}, false);
        fields.done();
        if (!text.empty()) join(text, touches, flipped, at);
    }

    void join(const std::string& text, std::optional<ContactSide> touches, bool flipped,
              const Mark& at) {
        const auto sides = halves(text, at);
        if (!sides) return;
        const auto one = find_side(sides->first, at);
        const auto other = find_side(sides->second, at);
        if (!one || !other) return;
        if (sides->first == sides->second) {
            complain(findings_, "join-itself",
                     fmt::format("{} cannot be joined to itself", sides->first), at);
            return;
        }
        const bool once_one = join_once(sides->first, at);
        const bool once_other = join_once(sides->second, at);
        if (!once_one || !once_other) return;
        if (one->ribbon && other->ribbon) {
            complain(findings_, "join-ribbons",
                     "two ribbon ends cannot be joined; put a board between them", at);
        } else if (one->ribbon || other->ribbon) {
            const Side& ribbon = one->ribbon ? *one : *other;
            const Side& port = one->ribbon ? *other : *one;
            if (flipped) refuse_attitude(name_of(design_, *port.port), at);
            seat(*port.port, *ribbon.ribbon, touches, at);
        } else {
            if (touches) refuse_touches(name_of(design_, *one->port), at);
            plug(*one->port, *other->port, flipped, at);
        }
    }

    void refuse_touches(const std::string& port, const Mark& at) {
        complain(findings_, "join-touches",
                 fmt::format("'touches' is for a ribbon in a receptacle with contacts on both "
                             "sides; {} is not one",
                             port),
                 at);
    }

    void refuse_attitude(const std::string& port, const Mark& at) {
        complain(findings_, "join-attitude", fmt::format("{} goes in one way only", port), at);
    }

    bool join_once(const std::string& side, const Mark& at) {
        const auto [twin, is_new] = joined_.try_emplace(side, at);
        if (!is_new) {
            complain(findings_, "join-twice", fmt::format("{} is joined twice", side), at,
                     {{twin->second, "first here"}});
        }
        return is_new;
    }

    void seat(PortRef port, std::pair<std::size_t, End> end, std::optional<ContactSide> touches,
              const Mark& at) {
        const Ribbon& ribbon = design_.ribbons[end.first];
        const Port& there = design_.port(port);
        const int contacts = static_cast<int>(there.contacts.size());
        if (there.ribbon && ribbon.conductors > contacts) {
            complain(findings_, "ribbon-too-wide",
                     fmt::format("{} has {} conductors, but {} has {} contacts", ribbon.name,
                                 ribbon.conductors, name_of(design_, port), contacts),
                     at);
            return;
        }
        if (touches && (!there.ribbon || there.ribbon->mouth.side != ContactSide::both)) {
            refuse_touches(name_of(design_, port), at);
            return;
        }
        design_.seats.push_back({port, end.first, end.second, touches, at});
    }

    void plug(PortRef a, PortRef b, bool flipped, const Mark& at) {
        const Port& port = design_.port(a);
        const bool can_flip = !port.connector.empty() &&
                              design_.connectors.at(port.connector).flippable;
        if (flipped && !can_flip) {
            refuse_attitude(name_of(design_, a), at);
            return;
        }
        design_.joins.push_back({a, b, flipped, at});
    }

    /// `board.port.contact`, the contact by label or signal.
    std::optional<ContactRef> find_contact_ref(const std::string& text, const Mark& at) {
        if (text.empty()) return std::nullopt;  // the field has been complained of
        const std::size_t first = text.find('.');
        const std::size_t second =
            first == std::string::npos ? first : text.find('.', first + 1);
        if (second == std::string::npos) {
            complain(findings_, "contact-unknown",
                     fmt::format("a contact is written board.port.contact, not '{}'", text), at);
            return std::nullopt;
        }
        const auto port = find_port(text.substr(0, second), at, false);
        if (!port) return std::nullopt;
        const Port& there = design_.port(*port);
        const std::string name = text.substr(second + 1);
        if (const auto contact = find_contact(there, design_.interface_of(there), name)) {
            return ContactRef{*port, *contact};
        }
        std::vector<std::string> known;
        for (const PortContact& any : there.contacts) {
            known.push_back(any.label);
            known.push_back(any.name);
        }
        complain(findings_, "contact-unknown",
                 fmt::format("{} has no contact or signal '{}'{}", name_of(design_, *port), name,
                             did_you_mean(name, known)),
                 at);
        return std::nullopt;
    }

    void read_lead(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        Fields fields(entry.value, findings_);
        Lead lead;
        lead.name = entry.key;
        lead.at = entry.at;
        const auto from = find_contact_ref(fields.text("from"), fields.at("from"));
        const auto to = find_contact_ref(fields.text("to"), fields.at("to"));
        lead.gauge = fields.text("gauge");
        const auto section = read_gauge(lead.gauge);
        if (!section && !lead.gauge.empty()) {
            complain(findings_, "yaml-unit",
                     fmt::format("'gauge' must be a wire gauge such as 'AWG 24' or '0.25 mm2', "
                                 "not '{}'",
                                 lead.gauge),
                     fields.at("gauge"));
        }
        lead.colour = fields.text_or("colour", {});
        const auto length = fields.quantity<Millimetres>("length");
        fields.done();
        if (from && to && *from == *to) {
            complain(findings_, "join-itself",
                     fmt::format("{} cannot be joined to itself", name_of(design_, *from)),
                     entry.at);
            return;
        }
        if (!from || !to || !section || !length) return;
        lead.from = *from;
        lead.to = *to;
        lead.section = *section;
        lead.length = *length;
        design_.leads.push_back(std::move(lead));
    }

    void read_carry(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Carry carry;
        carry.at = yaml.at;
        carry.interface = fields.text_or("interface", {});
        carry.supply = fields.text_or("supply", {});
        const auto from = find_port(fields.text("from"), fields.at("from"), false);
        const auto to = find_port(fields.text("to"), fields.at("to"), false);
        carry.rate = fields.maybe<GigabitsPerSecond>("rate");
        carry.current = fields.maybe<Amperes>("current");
        carry.voltage = fields.maybe<Volts>("voltage");
        carry.least = fields.maybe<Volts>("least");
        carry.left_out = fields.texts("leave-out");
        const Mark what = fields.at(carry.interface.empty() ? "supply" : "interface");
        const Mark without = fields.at("leave-out");
        fields.done();
        if (carry.interface.empty() == carry.supply.empty()) {
            complain(findings_, "carry-what",
                     "a promise carries either an 'interface' or a 'supply'", yaml.at);
            return;
        }
        if (!from || !to) return;
        carry.from = *from;
        carry.to = *to;
        carry.name = fmt::format("{} {} to {}",
                                 carry.interface.empty() ? carry.supply : carry.interface,
                                 name_of(design_, *from), name_of(design_, *to));
        if (*from == *to) {
            complain(findings_, "carry-itself",
                     fmt::format("a promise runs between two ports, not from {} to itself",
                                 name_of(design_, *from)),
                     yaml.at);
            return;
        }
        if (carry.supply.empty() ? can_speak(carry, what) : can_feed(carry, what)) {
            require_left_out(carry, without);
            design_.carries.push_back(std::move(carry));
        }
    }

    /// Both ports must have a pair or, lacking pairs, a signal of the interface.
    bool can_speak(const Carry& carry, const Mark& at) {
        try {
            const Interface& interface = library_.interface(carry.interface, at);
            design_.interfaces.try_emplace(interface.id, interface);
        } catch (const InputError& error) {
            take(findings_, error);
            return false;
        }
        const Interface& interface = design_.interfaces.at(carry.interface);
        return speaks(carry.from, interface, at) && speaks(carry.to, interface, at);
    }

    bool speaks(PortRef ref, const Interface& interface, const Mark& at) {
        const Port& port = design_.port(ref);
        const Interface* here = design_.interface_of(port);
        const bool any = here && std::ranges::any_of(port.contacts, [&](const PortContact& c) {
            if (!c.signal) return false;
            if (here->id == interface.id) return true;
            const Signal& signal = here->signals[*c.signal];
            const auto twin = interface.find(signal.name);
            return twin && signal.role == Role::pair_half &&
                   interface.signals[*twin].role == Role::pair_half;
        });
        if (any) return true;
        complain(findings_, "carry-port",
                 fmt::format("{} has no signal of {}{}", name_of(design_, ref), interface.id,
                             here ? fmt::format("; it speaks {}", here->id) : std::string{}),
                 at, {{port.at, "the port is here"}});
        return false;
    }

    bool can_feed(const Carry& carry, const Mark& at) {
        bool both = true;
        for (const PortRef ref : {carry.from, carry.to}) {
            const Port& port = design_.port(ref);
            const Interface* here = design_.interface_of(port);
            const auto signal = here ? here->find(carry.supply) : std::nullopt;
            const bool has = signal && here->signals[*signal].role == Role::supply &&
                             std::ranges::any_of(port.contacts, [&](const PortContact& c) {
                                 return c.signal == signal;
                             });
            if (has) continue;
            both = false;
            complain(findings_, "carry-port",
                     fmt::format("{} has no supply '{}'", name_of(design_, ref), carry.supply), at,
                     {{port.at, "the port is here"}});
        }
        return both;
    }

    void require_left_out(const Carry& carry, const Mark& at) {
        const Interface* near = design_.interface_of(design_.port(carry.from));
        for (const std::string& name : carry.left_out) {
            if (!near || near->find(name)) continue;
            std::vector<std::string> known;
            for (const Signal& signal : near->signals) known.push_back(signal.name);
            complain(findings_, "signal-unknown",
                     fmt::format("interface {} has no signal '{}'{}", near->id, name,
                                 did_you_mean(name, known)),
                     at);
        }
    }

    void read_acceptance(const Yaml& yaml) {
        Fields fields(yaml, findings_);
        Acceptance acceptance;
        acceptance.at = yaml.at;
        acceptance.rule = fields.text("rule");
        acceptance.where = fields.text_or("where", {});
        acceptance.why = fields.text("why");
        fields.done();
        design_.acceptances.push_back(std::move(acceptance));
    }

    std::filesystem::path folder_;
    Library& library_;
    Design design_;
    Findings findings_;
    ReaderDesk desk_;
    std::map<std::string, Mark> names_;
    std::map<std::string, Mark> joined_;
    std::unordered_map<std::string, std::size_t> board_places_;
    std::unordered_map<std::string, PortRef> port_places_;
    std::unordered_map<std::string, std::size_t> ribbon_places_;
};

}  // namespace

void read_board(std::shared_ptr<const Source> source, std::string name, Design& design,
                Library& library) {
    const Yaml yaml = parse_yaml(std::move(source));
    Findings findings;
    ReaderDesk desk{design, library, findings};
    Board board = read_copper_board(yaml, std::move(name), true, desk);
    if (!findings.empty()) throw InputError(std::move(findings));
    design.boards.push_back(std::move(board));
}

Design read_design(std::shared_ptr<const Source> source, const std::filesystem::path& folder,
                   Library& library) {
    return DesignReader(folder, library).read(source);
}

Design read_design(const std::filesystem::path& file, Library& library) {
    return read_design(read_source(file), file.parent_path(), library);
}

}  // namespace pinfold
