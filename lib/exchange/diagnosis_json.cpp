#include "exchange/diagnosis_json.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

}  // namespace

std::string diagnosis_json(const Diagnosis& diagnosis) {
    Json json{{"schema", "pinfold-diagnose/1"},
              {"explained", diagnosis.explained},
              {"causes", Json::array()},
              {"next", Json::array()}};
    for (const Cause& cause : diagnosis.causes) {
        json["causes"].push_back(
            {{"cause", cause.cause},
             {"text", fmt::format("{}. What to do: {}", cause.text, cause.remedy)},
             {"faults", cause.faults},
             {"explains", cause.explains},
             {"contradicts", cause.contradicts}});
    }
    for (const NextReading& next : diagnosis.next) {
        Json reading{{"from", next.from}, {"to", next.to}, {"tells_apart", next.tells_apart}};
        if (!next.alone.empty()) reading["alone"] = next.alone;
        if (!next.with.empty()) {  // else everything is unplugged
            reading["with"] = next.with;
            reading["shows"] = next.shows;
        }
        json["next"].push_back(std::move(reading));
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
