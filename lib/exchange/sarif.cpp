#include "exchange/sarif.hpp"

#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>

#include "base/ascii.hpp"
#include "check/rules.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* schema_uri =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

Json message(std::string_view text) { return {{"text", sarif_message(text)}}; }

Json descriptor(const Rule& rule) {
    return {{"id", rule.name},
            {"shortDescription", message(rule.summary)},
            {"fullDescription", message(rule.why)},
            {"help", message(fmt::format("{} Source: {}.", rule.why, rule.source))},
            {"defaultConfiguration", {{"level", name_of(rule.severity)}}}};
}

/// The rules in order and where each stands among them.
struct RuleTable {
    Json descriptors = Json::array();
    std::map<std::string, std::size_t, std::less<>> places;

    void add(std::string_view name, Json entry) {
        if (!places.emplace(name, descriptors.size()).second) return;
        descriptors.push_back(std::move(entry));
    }
};

RuleTable rule_table(const Findings& findings) {
    RuleTable table;
    for (const Rule& rule : all_rules()) table.add(rule.name, descriptor(rule));
    for (const Finding& finding : findings) table.add(finding.rule, {{"id", finding.rule}});
    return table;
}

Json location(const Mark& at) {
    const std::string uri = sarif_uri(at.source->name);
    Json file{{"uri", uri}};
    if (!uri.starts_with("file:")) file["uriBaseId"] = "%SRCROOT%";
    Json place{{"artifactLocation", std::move(file)}};
    if (at.line >= 1 && at.column >= 1) {
        place["region"] = {{"startLine", at.line}, {"startColumn", at.column}};
    }
    return {{"physicalLocation", std::move(place)}};
}

/// A related location for each note; one without a place is its message alone.
Json related_locations(const Finding& finding) {
    Json list = Json::array();
    for (const Note& note : finding.notes) {
        Json related{{"id", list.size() + 1}};
        if (note.at.source) related.update(location(note.at));
        related["message"] = message(note.text);
        list.push_back(std::move(related));
    }
    return list;
}

Json result(const Finding& finding, std::size_t rule) {
    Json json{{"ruleId", finding.rule},
              {"ruleIndex", rule},
              {"level", name_of(finding.severity)},
              {"message", message(finding.text)},
              {"locations", Json::array()}};
    if (finding.at.source) json["locations"].push_back(location(finding.at));
    if (!finding.notes.empty()) json["relatedLocations"] = related_locations(finding);
    if (!finding.places.empty()) json["properties"]["places"] = finding.places;
    if (!finding.repairs.empty()) json["properties"]["repairs"] = finding.repairs;
    return json;
}

bool stays_in_uri(char c) {
    return is_letter(c) || is_digit(c) ||
           std::string_view("-._~/").find(c) != std::string_view::npos;
}

}  // namespace

std::string sarif_message(std::string_view text) {
    const bool reads_as_link = text.find("](") != std::string_view::npos;
    std::string escaped;
    for (const char c : text) {
        if (c == '{' || c == '}') escaped += c;
        if (reads_as_link && (c == '[' || c == ']' || c == '\\')) escaped += '\\';
        escaped += c;
    }
    return escaped;
}

std::string sarif_uri(std::string_view file) {
    std::string uri = file.starts_with('/') ? "file://" : "";
    for (const char c : file) {
        if (stays_in_uri(c)) {
            uri += c;
        } else {
            uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
        }
    }
    return uri;
}

std::string sarif_of(const Findings& findings) {
    RuleTable table = rule_table(findings);
    Json results = Json::array();
    for (const Finding& finding : findings) {
        results.push_back(result(finding, table.places.find(finding.rule)->second));
    }
    Json driver{{"name", "pinfold"}, {"rules", std::move(table.descriptors)}};
    Json run{{"tool", {{"driver", std::move(driver)}}},
             {"columnKind", "unicodeCodePoints"},
             {"results", std::move(results)}};
    const Json log{{"$schema", schema_uri}, {"version", "2.1.0"}, {"runs", Json::array({run})}};
    return log.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace pinfold
