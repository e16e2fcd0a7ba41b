#include "exchange/diagnosis_json.hpp"

#include <nlohmann/json.hpp>

namespace pinfold {

std::string diagnosis_json(const Diagnosis& diagnosis) {
    using Json = nlohmann::ordered_json;
    Json json{{"schema", "pinfold-diagnose/1"},
              {"explained", diagnosis.explained},
              {"causes", Json::array()},
              {"next", Json::array()},
              {"contradictions", Json::array()},
              {"unexpected", diagnosis.unexpected},
              {"measured", diagnosis.measured},
              {"blank", diagnosis.blank},
              {"more_causes", diagnosis.more_causes}};
    for (const Cause& cause : diagnosis.causes) {
        json["causes"].push_back({{"cause", cause.cause},
                                  {"text", cause.text},
                                  {"faults", cause.faults},
                                  {"explains", cause.explains},
                                  {"contradicts", cause.contradicts},
                                  {"place", cause.place},
                                  {"remedy", cause.remedy}});
    }
    for (const NextReading& next : diagnosis.next) {
        json["next"].push_back({{"from", next.from},
                                {"to", next.to},
                                {"tells_apart", next.tells_apart},
                                {"if_closed", next.if_closed},
                                {"if_open", next.if_open}});
    }
    for (const Contradiction& contradiction : diagnosis.contradictions) {
        json["contradictions"].push_back(
            {{"rows", contradiction.rows}, {"text", contradiction.text}});
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
