#include "exchange/check_json.hpp"

#include <nlohmann/json.hpp>

#include "exchange/finding_json.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json hops_json(const Design& design, const Wiring& wiring, const Pass& pass) {
    Json hops = Json::array();
    for (const Point point : pass.hops) hops.push_back(wiring.name_of(point, design));
    return hops;
}

/// What the near port's interface calls the signal; the contact's own name on a supply's way
/// through a port without one.
std::string signal_name(const Design& design, const Pass& pass) {
    const Interface* interface = design.interface_of(design.port(pass.from.port));
    return interface ? interface->signals[pass.signal].name : design.contact(pass.from).name;
}

Json pass_json(const Design& design, const Wiring& wiring, const Pass& pass) {
    return {{"carry", design.carries[pass.carry].name},
            {"signal", signal_name(design, pass)},
            {"from", name_of(design, pass.from)},
            {"to", name_of(design, pass.to)},
            {"reached", pass.reached ? Json(name_of(design, *pass.reached)) : Json(nullptr)},
            {"state", name_of(pass.state)},
            {"hops", hops_json(design, wiring, pass)}};
}

}  // namespace

std::string check_json(const Design& design, const Verdict& verdict) {
    Json json{{"schema", "pinfold-check/1"},
              {"design", design.file},
              {"clean", verdict.clean()},
              {"findings", Json::array()},
              {"passes", Json::array()}};
    for (const Finding& finding : verdict.findings) {
        json["findings"].push_back(finding_json(finding));
    }
    for (const Pass& pass : verdict.wiring.passes()) {
        json["passes"].push_back(pass_json(design, verdict.wiring, pass));
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
