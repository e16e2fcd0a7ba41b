#include "exchange/mate_json.hpp"

#include <nlohmann/json.hpp>

#include "exchange/finding_json.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

Json number_json(const std::optional<ContactRef>& contact) {
    return contact ? Json(contact->contact + 1) : Json(nullptr);
}

Json contact_json(const MateContact& contact) {
    return {{"a", number_json(contact.a)},
            {"conductor", contact.conductor ? Json(contact.conductor->number()) : Json(nullptr)},
            {"b", number_json(contact.b)},
            {"signal_a", contact.signal_a},
            {"signal_b", contact.signal_b},
            {"same", contact.same}};
}

}  // namespace

std::string mate_json(const Mating& mating) {
    Json json{{"schema", "pinfold-mate/1"},     {"mates", mating.mates},
              {"touch_a", mating.touch_a},      {"touch_b", mating.touch_b},
              {"order", name_of(mating.order)}, {"contacts", Json::array()},
              {"findings", Json::array()}};
    for (const MateContact& contact : mating.contacts) {
        json["contacts"].push_back(contact_json(contact));
    }
    for (const Finding& finding : mating.findings) {
        json["findings"].push_back(finding_json(finding));
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
