// Reading small designs in tests, and telling their wiring in words.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "design/read.hpp"
#include "design/wiring.hpp"
#include "support.hpp"

namespace pinfold {

/// A design from text; board files are those of the first example.
inline Design design_of(const std::string& text) {
    Library library = shipped_library();
    return read_design(text_source(text), repository() / "examples/lid-link", library);
}

/// Every pass as `D2+ logger.video.1 good screen.video.1`, the last name where it arrives.
inline std::vector<std::string> passes_of(const Design& design) {
    const Wiring wiring = trace(design);
    std::vector<std::string> told;
    for (const Pass& pass : wiring.passes()) {
        const Signal* signal = design.signal_of(pass.from);
        told.push_back(fmt::format("{} {} {} {}", signal ? signal->name : "?",
                                   name_of(design, pass.from), name_of(pass.state),
                                   pass.reached ? name_of(design, *pass.reached) : "nowhere"));
    }
    return told;
}

/// The names of the points on the way of one pass.
inline std::vector<std::string> hops_of(const Design& design, std::size_t pass) {
    const Wiring wiring = trace(design);
    std::vector<std::string> names;
    for (const Point point : wiring.passes().at(pass).hops) {
        names.push_back(wiring.name_of(point, design));
    }
    return names;
}

/// The net of every contact of a board, port by port: `plug.1 D2+`, `tail.3 -`.
inline std::vector<std::string> nets_of(const Board& board) {
    std::vector<std::string> told;
    for (const Port& port : board.ports) {
        for (const PortContact& contact : port.contacts) {
            told.push_back(fmt::format("{}.{} {}", port.name, contact.label,
                                       contact.net ? board.nets[*contact.net].name : "-"));
        }
    }
    return told;
}

}  // namespace pinfold
