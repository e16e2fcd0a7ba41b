#include "check/pad_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "check/rules.hpp"

namespace pinfold {

PadWords::PadWords(const Compared& compared) : compared_(compared) {
    for (const Net& net : compared.board.nets) nets_.emplace(net.name, &net);
    for (const Netlist::Component& part : compared.drawn.components) {
        parts_.emplace(part.reference, &part);
    }
}

std::string PadWords::name_of(std::size_t pad) const {
    const ComparedPad& at = compared_.pads[pad];
    return fmt::format("{}.{}", compared_.ports[at.port].reference, at.in_board->pad);
}

std::string PadWords::names_of(const Places& pads) const {
    std::vector<std::string> names;
    for (const std::size_t pad : pads) {
        if (names.size() == most_pads_told) {
            names.push_back(fmt::format("{} more", pads.size() - most_pads_told));
            break;
        }
        names.push_back(name_of(pad));
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

std::string PadWords::name_of_port(std::size_t port) const {
    return fmt::format("{} ({})", compared_.ports[port].reference,
                       compared_.board.ports[port].name);
}

std::string PadWords::net_of(std::size_t pad) const {
    const Netlist::Net& net = compared_.meant.nets[compared_.pads[pad].meant];
    if (net.unconnected) return fmt::format("the open contact {}", name_of(pad));
    return fmt::format("net '{}'", net.name);
}

const Net* PadWords::board_net(std::size_t pad) const {
    const auto found = nets_.find(compared_.meant.nets[compared_.pads[pad].meant].name);
    return found == nets_.end() ? nullptr : found->second;
}

bool PadWords::lies_on_ground(std::size_t pad) const {
    const Net* net = board_net(pad);
    return net && net->ground;
}

Finding PadWords::about_pads(const char* rule, std::string text, const Places& pads) const {
    Finding made{find_rule(rule)->severity, rule, std::move(text), {}};
    const std::size_t told = std::min(pads.size(), most_pads_told);
    for (std::size_t i = 0; i < told; ++i) {
        const ComparedPad& pad = compared_.pads[pads[i]];
        if (!pad.in_netlist) continue;
        if (!made.at.source) {
            made.at = pad.in_netlist->at;
        } else if (pad.in_netlist->at.source) {
            made.notes.push_back({pad.in_netlist->at, fmt::format("{} is here", name_of(pads[i]))});
        }
    }
    for (std::size_t i = 0; i < told; ++i) {
        const ComparedPad& pad = compared_.pads[pads[i]];
        made.notes.push_back({pad.in_board->at, fmt::format("the board file puts {} on {}",
                                                            name_of(pads[i]), net_of(pads[i]))});
        add_place(made, pad.port);
    }
    return made;
}

Finding PadWords::about_port(const char* rule, std::string text, std::size_t port) const {
    Finding made{find_rule(rule)->severity, rule, std::move(text), part_at(port)};
    made.notes.push_back({compared_.board.ports[port].at, "the board file's port is here"});
    add_place(made, port);
    return made;
}

Mark PadWords::part_at(std::size_t port) const {
    const auto found = parts_.find(compared_.ports[port].reference);
    return found == parts_.end() ? Mark{} : found->second->at;
}

void PadWords::add_place(Finding& finding, std::size_t port) const {
    std::string place =
        fmt::format("{}.{}", compared_.board.name, compared_.board.ports[port].name);
    if (std::ranges::find(finding.places, place) == finding.places.end()) {
        finding.places.push_back(std::move(place));
    }
}

}  // namespace pinfold
