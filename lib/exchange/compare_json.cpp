#include "exchange/compare_json.hpp"

#include <nlohmann/json.hpp>

#include "exchange/finding_json.hpp"

namespace pinfold {

using Json = nlohmann::ordered_json;

std::string compare_json(const Board& board, const Comparison& comparison,
                         const std::string& form) {
    Json json{{"schema", "pinfold-compare/1"}, {"same", comparison.same}, {"form", form},
              {"pads", comparison.pads},       {"nets", comparison.nets}, {"ports", Json::array()},
              {"findings", Json::array()}};
    for (const PortMatch& match : comparison.ports) {
        json["ports"].push_back(
            {{"port", board.ports[match.port].name},
             {"reference", match.reference.empty() ? Json(nullptr) : Json(match.reference)},
             {"by", match.by}});
    }
    for (const Finding& finding : comparison.findings) {
        json["findings"].push_back(finding_json(finding));
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
