#include "pinmap/doubt.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

void doubt(std::vector<std::string>& doubts, const std::string& source, std::string part) {
    if (source.find("from memory") != std::string::npos) doubts.push_back(std::move(part));
}

}  // namespace

std::vector<std::string> doubts_of(const Connector& connector) {
    std::vector<std::string> doubts;
    doubt(doubts, connector.source, "the pin table, as its source says");
    if (connector.face) doubt(doubts, connector.face->source, "the mating face");
    return doubts;
}

std::vector<std::string> doubts_of(const Interface& interface) {
    std::vector<std::string> doubts;
    doubt(doubts, interface.source, "the signals, as their source says");
    for (const Limit& limit : interface.limits) {
        doubt(doubts, limit.source,
              fmt::format("the limits up to {:.6g} Gbit/s", limit.up_to.value()));
    }
    for (const Supply& supply : interface.supplies) {
        doubt(doubts, supply.source,
              fmt::format("the window of {}", interface.signals[supply.signal].name));
    }
    for (const MeterWindow& window : interface.meter) {
        doubt(doubts, window.source,
              fmt::format("the {} of {}{}", name_of(window.kind),
                          interface.signals[window.signals.front()].name,
                          window.signals.size() > 1 ? " and others" : ""));
    }
    return doubts;
}

std::vector<std::string> doubts_of(const RibbonType& ribbon) {
    std::vector<std::string> doubts;
    doubt(doubts, ribbon.source, "the sizes and ratings, as their source says");
    if (ribbon.film) doubt(doubts, ribbon.film->source, "the film");
    return doubts;
}

std::vector<std::string> doubts_of(const ReceptacleType& receptacle) {
    std::vector<std::string> doubts;
    doubt(doubts, receptacle.source, "the sizes and ratings, as their source says");
    return doubts;
}

}  // namespace pinfold
