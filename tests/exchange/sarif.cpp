#include "exchange/sarif.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "check/rules.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

nlohmann::ordered_json run_of(const Findings& findings) {
    const auto log = nlohmann::ordered_json::parse(sarif_of(findings));
    CHECK(log["version"] == "2.1.0");
    REQUIRE(log["runs"].size() == 1);
    return log["runs"][0];
}

Mark mark_in(const std::string& file, int line, int column) {
    return {std::make_shared<const Source>(Source{file, "x"}), line, column};
}

}  // namespace

// OASIS SARIF 2.1.0: 3.27 result, 3.28 location, 3.29 physicalLocation, 3.30 region.
TEST_CASE("a finding is a SARIF result with its place, its rule and its notes") {
    Finding finding{Severity::warning, "order-mirrored", "strap is mirrored",
                    mark_in("examples/lid link/a#b.yaml", 12, 7)};
    finding.notes = {{mark_in("base.yaml", 3, 1), "the other end"}, {{}, "no place"}};
    finding.places = {"strap"};
    finding.repairs = {"copper: opposite-side"};
    const auto run = run_of({finding});
    CHECK(run["columnKind"] == "unicodeCodePoints");
    REQUIRE(run["results"].size() == 1);
    auto result = run["results"][0];
    const auto index = result["ruleIndex"].get<std::size_t>();
    CHECK(run["tool"]["driver"]["rules"][index]["id"] == "order-mirrored");
    result.erase("ruleIndex");
    CHECK(result.dump(1) == R"({
 "ruleId": "order-mirrored",
 "level": "warning",
 "message": {
  "text": "strap is mirrored"
 },
 "locations": [
  {
   "physicalLocation": {
    "artifactLocation": {
     "uri": "examples/lid%20link/a%23b.yaml",
     "uriBaseId": "%SRCROOT%"
    },
    "region": {
     "startLine": 12,
     "startColumn": 7
    }
   }
  }
 ],
 "relatedLocations": [
  {
   "id": 1,
   "physicalLocation": {
    "artifactLocation": {
     "uri": "base.yaml",
     "uriBaseId": "%SRCROOT%"
    },
    "region": {
     "startLine": 3,
     "startColumn": 1
    }
   },
   "message": {
    "text": "the other end"
   }
  },
  {
   "id": 2,
   "message": {
    "text": "no place"
   }
  }
 ],
 "properties": {
  "places": [
   "strap"
  ],
  "repairs": [
   "copper: opposite-side"
  ]
 }
})");
}

TEST_CASE("a log without findings still has its run and all rules") {
    const auto run = run_of({});
    CHECK(run["results"].is_array());
    CHECK(run["results"].empty());
    CHECK(run["tool"]["driver"]["name"] == "pinfold");
    REQUIRE(run["tool"]["driver"]["rules"].size() == all_rules().size());
    const auto& first = run["tool"]["driver"]["rules"][0];
    CHECK(first["id"] == std::string(all_rules()[0].name));
    CHECK(first["defaultConfiguration"]["level"] == std::string(name_of(all_rules()[0].severity)));
    CHECK_FALSE(first["shortDescription"]["text"].get<std::string>().empty());
}

TEST_CASE("a fault of an input file brings its own rule, once") {
    const Finding fault{Severity::error, "yaml-unit", "not a length", mark_in("x.yaml", 2, 8)};
    const auto run = run_of({fault, fault});
    CHECK(run["tool"]["driver"]["rules"].size() == all_rules().size() + 1);
    CHECK(run["results"][0]["ruleIndex"] == all_rules().size());
    CHECK(run["results"][1]["ruleIndex"] == all_rules().size());
}

TEST_CASE("a finding without a place has no locations") {
    const auto run = run_of({{Severity::error, "file-unreadable", "cannot read 'x'", {}}});
    CHECK(run["results"][0]["locations"].empty());
}

// 3.11.5: a literal brace is doubled. 3.11.6: brackets and backslashes of a link text are escaped.
TEST_CASE("a message holds no placeholder and no link by accident") {
    CHECK(sarif_message("say {connector: x}") == "say {{connector: x}}");
    CHECK(sarif_message("D[0] is open") == "D[0] is open");
    CHECK(sarif_message("[here](javascript:x)") == "\\[here\\](javascript:x)");
    CHECK(sarif_message("a\\[0](1)") == "a\\\\\\[0\\](1)");
}

// RFC 3986, sections 2.1 and 2.3; RFC 8089 for file URIs.
TEST_CASE("a file's name becomes a URI reference") {
    CHECK(sarif_uri("examples/a-b_c.d~e.yaml") == "examples/a-b_c.d~e.yaml");
    CHECK(sarif_uri("c:x%y.yaml") == "c%3Ax%25y.yaml");
    CHECK(sarif_uri("\xC3\xA9.yaml") == "%C3%A9.yaml");
    CHECK(sarif_uri("/tmp/a b") == "file:///tmp/a%20b");
}

// 3.4.4: an absolute URI has no base.
TEST_CASE("an absolute path needs no base") {
    const auto run = run_of({{Severity::error, "x", "y", mark_in("/tmp/x.yaml", 1, 1)}});
    CHECK(run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"].dump() ==
          R"({"uri":"file:///tmp/x.yaml"})");
}

TEST_CASE("bytes that are not UTF-8 do not stop a SARIF log") {
    const auto run = run_of({{Severity::error, "x", "bad \xff byte", {}}});
    CHECK(run["results"][0]["message"]["text"] == "bad \xEF\xBF\xBD byte");
}
