#include "design/read_ribbon.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/spelling.hpp"
#include "design/words.hpp"

namespace pinfold {
namespace {

const RibbonType* use_ribbon_type(const Ribbon& ribbon, Fields& fields, ReaderDesk& desk) {
    if (ribbon.type.empty()) return nullptr;
    try {
        const RibbonType& type = desk.library.ribbon(ribbon.type, fields.at("type"));
        if (!type.conductors.holds(ribbon.conductors)) {
            complain(desk.findings, "conductors-made",
                     fmt::format("{} is made with {} to {} conductors, not {}", type.id,
                                 type.conductors.least, type.conductors.most, ribbon.conductors),
                     fields.at("conductors"));
        }
        return &desk.design.ribbon_types.try_emplace(type.id, type).first->second;
    } catch (const InputError& error) {
        take(desk.findings, error);
        return nullptr;
    }
}

void read_lay(Fields& fields, Ribbon& ribbon, ReaderDesk& desk) {
    const bool has_lay = fields.has("lay");
    Lay lay;
    for (const Yaml& item : fields.list("lay")) {
        const std::string text = text_of(item, "a step of the lay", desk.findings);
        const auto word =
            std::ranges::find(turn_words(), text, &std::pair<std::string, Turn>::first);
        if (word != turn_words().end()) {
            lay.turns.push_back(word->second);
            continue;
        }
        std::vector<std::string> known;
        for (const auto& [name, turn] : turn_words()) known.push_back(name);
        complain(desk.findings, "yaml-word",
                 fmt::format("a step of the lay is one of: {}; not '{}'{}", fmt::join(known, ", "),
                             text, did_you_mean(text, known)),
                 item.at);
    }
    if (const Yaml* faces = fields.any("faces")) {
        Fields both(*faces, desk.findings);
        lay.face_a = *both.word_or<Facing>("a", level_words(), Facing::up);
        lay.face_b = *both.word_or<Facing>("b", facing_words(), Facing::up);
        both.done();
        if (!has_lay) {
            complain(desk.findings, "lay-missing",
                     "'faces' says how the boards lie; say in 'lay' how the ribbon runs, such "
                     "as [straight]",
                     faces->at);
        }
    }
    if (!has_lay) return;
    if (!can_lie(lay)) {
        complain(desk.findings, "lay-on-edge",
                 fmt::format("a ribbon with this lay arrives on edge at a board that faces {}; "
                             "change the lay or 'faces'",
                             name_of(lay.face_b)),
                 fields.at(fields.has("faces") ? "faces" : "lay"));
        return;
    }
    ribbon.lay = std::move(lay);
}

std::vector<Written> read_written(Fields& fields, const std::string& key, Findings& findings) {
    std::vector<Written> words;
    for (const Yaml& item : fields.list(key)) {
        words.push_back({text_of(item, "a name", findings), item.at});
    }
    return words;
}

/// `order: {fixed: {1: GND}, supplies: {5V: 2}, grounds: 6, may-leave-out: [UTIL], aims: [noise]}`
void read_wishes(Fields& fields, Ribbon& ribbon, Findings& findings) {
    const Yaml* order = fields.any("order");
    if (!order) return;
    Fields wishes(*order, findings);
    ribbon.wishes.at = order->at;
    for (const Yaml::Entry& entry : wishes.map("fixed")) {
        const std::optional<int> number = parse_whole(entry.key);
        const std::string text = text_of(entry.value, "a signal name", findings);
        if (number && *number >= 1 && *number <= ribbon.conductors) {
            ribbon.wishes.fixed.push_back({ConductorNumber(*number), {text, entry.at}});
            continue;
        }
        complain(
            findings, "order-place",
            fmt::format("'fixed' takes conductors 1 to {}, not '{}'", ribbon.conductors, entry.key),
            entry.at);
    }
    for (const Yaml::Entry& entry : wishes.map("supplies")) {
        const std::string text = text_of(entry.value, "a number of conductors", findings);
        const std::optional<int> count = parse_whole(text);
        if (count && *count >= 1 && *count <= ribbon.conductors) {
            ribbon.wishes.supplies.push_back({{entry.key, entry.at}, *count});
            continue;
        }
        complain(findings, "order-place",
                 fmt::format("'{}' takes 1 to {} conductors, not '{}'", entry.key,
                             ribbon.conductors, text),
                 entry.value.at);
    }
    if (wishes.has("grounds")) ribbon.wishes.grounds = wishes.whole("grounds", 0);
    ribbon.wishes.may_leave_out = read_written(wishes, "may-leave-out", findings);
    ribbon.wishes.aims = read_written(wishes, "aims", findings);
    wishes.done();
}

/// `shield: {sides: one, spacer: 0.1 mm, er: 3.0, joined: both-ends}`
void read_shield(Fields& fields, Ribbon& ribbon, Findings& findings) {
    const Yaml* yaml = fields.any("shield");
    if (!yaml) return;
    Fields of_shield(*yaml, findings);
    Shield shield;
    shield.at = yaml->at;
    shield.both_sides =
        of_shield.word<bool>("sides", {{"one", false}, {"both", true}}).value_or(false);
    of_shield.word<bool>("joined", {{"both-ends", true}});  // no other shield is a return
    shield.spacer = of_shield.maybe<Millimetres>("spacer").value_or(Millimetres{});
    if (shield.spacer.value() > 0.0) of_shield.require("er");
    shield.spacer_er = of_shield.plain_number("er").value_or(1.0);
    shield.spacer_loss = of_shield.plain_number("loss").value_or(0.0);
    of_shield.done();
    constexpr Millimetres most(10.0);
    if (shield.spacer > most || shield.spacer_er < 1.0 || shield.spacer_loss >= 1.0) {
        complain(findings, "shield-size",
                 fmt::format("a shield's spacer is at most {:g} mm thick, its 'er' at least 1 and "
                             "its 'loss' below 1",
                             most.value()),
                 yaml->at);
    }
    ribbon.shield = shield;
}

}  // namespace

Ribbon read_ribbon(const Yaml::Entry& entry, ReaderDesk& desk) {
    Ribbon ribbon;
    ribbon.name = entry.key;
    ribbon.at = entry.at;
    Fields fields(entry.value, desk.findings);
    ribbon.type = fields.text("type");
    ribbon.conductors = fields.whole("conductors", 1);
    ribbon.length = fields.quantity<Millimetres>("length").value_or(Millimetres{});
    constexpr Millimetres longest(1e4);  // none is made that long
    if (ribbon.length > longest) {
        complain(desk.findings, "ribbon-length",
                 fmt::format("'length' is at most {:g} mm", longest.value()), fields.at("length"));
        ribbon.length = longest;
    }
    ribbon.thickness = fields.maybe<Millimetres>("thickness");
    const RibbonType* type = use_ribbon_type(ribbon, fields, desk);
    if (type && type->kind == RibbonKind::round) {
        ribbon.turned_socket = fields.word<bool>("sockets", socket_words()).value_or(false);
    } else {
        ribbon.copper = fields.word<Copper>("copper", copper_words()).value_or(Copper::same_side);
        read_lay(fields, ribbon, desk);
        read_shield(fields, ribbon, desk.findings);
    }
    read_wishes(fields, ribbon, desk.findings);
    fields.done();
    return ribbon;
}

}  // namespace pinfold
