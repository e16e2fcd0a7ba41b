#include "exchange/finding_json.hpp"

#include <nlohmann/json.hpp>

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

void put_place(Json& json, const Mark& at) {
    json["file"] = at.source ? Json(at.source->name) : Json(nullptr);
    json["line"] = at.source ? Json(at.line) : Json(nullptr);
    json["column"] = at.source ? Json(at.column) : Json(nullptr);
}

Json note_json(const Note& note) {
    Json json{{"text", note.text}};
    put_place(json, note.at);
    return json;
}

}  // namespace

nlohmann::ordered_json finding_json(const Finding& finding) {
    Json json{
        {"rule", finding.rule}, {"severity", name_of(finding.severity)}, {"text", finding.text}};
    put_place(json, finding.at);
    json["notes"] = Json::array();
    for (const Note& note : finding.notes) json["notes"].push_back(note_json(note));
    json["repairs"] = finding.repairs;
    json["places"] = finding.places;
    return json;
}

}  // namespace pinfold
