// A small HDMI link to break in tests, and what the check says of it.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "check/check.hpp"
#include "check/rules.hpp"
#include "design/told.hpp"

namespace pinfold {

using Row = std::vector<std::string>;

inline std::string listed(const Row& row) { return fmt::format("[{}]", fmt::join(row, ", ")); }

/// A text with one part of it replaced; the part must be there.
inline std::string with(std::string text, const std::string& part, const std::string& instead) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) FAIL("no '" << part << "' in:\n" << text);
    return text.replace(at, part.size(), instead);
}

/// Two adapters that mirror each other, as a straight same-side ribbon between two equal
/// receptacles wants it. Every pair lies between two grounds, 5 V among signals that stand it.
struct HdmiLink {
    Row base{"GND", "D2+",  "D2-", "GND", "D1+", "D1-", "GND", "SDA", "SCL", "5V",
             "HPD", "UTIL", "CEC", "GND", "D0+", "D0-", "GND", "CK+", "CK-", "GND"};
    Row lid{base.rbegin(), base.rend()};
    std::string screen = "hdmi-a receptacle";
    std::string base_plug = "hdmi-a plug";
    std::string lid_plug = "hdmi-a plug";
    std::string base_mouth = "receptacle: ffc-0.50-bottom, first-contact: left";
    std::string lid_mouth = "receptacle: ffc-0.50-bottom, first-contact: left";
    std::string ribbon = "type: ffc-0.50, conductors: 20, length: 120 mm, copper: same-side";
    std::string lay = ", lay: [straight], faces: {a: up, b: up}";
    std::string carry = "rate: 1.485 Gbit/s";
    std::string lengths_of_base, lengths_of_lid;  ///< `lengths: {D2+: 5 mm}`
    std::string more;                             ///< further top-level fields

    std::string yaml() const {
        return "pinfold: 1\ntitle: link\n"
               "devices:\n"
               "  logger: {ports: {video: hdmi-a receptacle}}\n"
               "  screen: {ports: {video: " +
               screen +
               "}}\n"
               "boards:\n" +
               board("base", base_plug, base_mouth, base, lengths_of_base) +
               board("lid", lid_plug, lid_mouth, lid, lengths_of_lid) +
               "ribbons:\n"
               "  strap: {" +
               ribbon + lay +
               "}\n"
               "joins:\n"
               "- logger.video + base.plug\n"
               "- base.tail + strap.a\n"
               "- strap.b + lid.tail\n"
               "- lid.plug + screen.video\n"
               "carry:\n"
               "- {interface: hdmi, from: logger.video, to: screen.video, " +
               carry + "}\n" + more;
    }

private:
    static std::string board(const std::string& name, const std::string& plug,
                             const std::string& mouth, const Row& row, const std::string& lengths) {
        return fmt::format(
            "  {}:\n    ports:\n      plug: {}\n"
            "      tail: {{{}, positions: {},\n        wired: {}}}\n{}",
            name, plug, mouth, row.size(), listed(row),
            lengths.empty() ? "" : "    " + lengths + "\n");
    }
};

/// A row with the contents of two contacts (counted from 1) exchanged.
inline Row exchanged(Row row, std::size_t one, std::size_t other) {
    std::swap(row.at(one - 1), row.at(other - 1));
    return row;
}

/// A row moved by one place; what falls off is lost, the place left is open.
inline Row moved(Row row, int shift) {
    if (shift > 0) {
        row.insert(row.begin(), "open");
        row.pop_back();
    } else {
        row.erase(row.begin());
        row.emplace_back("open");
    }
    return row;
}

inline Row reversed(const Row& row) { return {row.rbegin(), row.rend()}; }

/// A design from text, with the tests' own receptacles at hand.
inline Design bench_design(const std::string& yaml) {
    Library library({repository() / "pinmaps", repository() / "tests/check/shelf"});
    return read_design(text_source(yaml), repository() / "examples/lid-link", library);
}

/// What the check says, but for what the lines do: that is tested in line.cpp and judge_line.cpp,
/// and the bare ribbons of the other tests ring and are off the window of HDMI.
Verdict verdict_of(const std::string& yaml);

inline Findings found(const Findings& findings, const std::string& rule) {
    Findings some;
    std::ranges::copy_if(findings, std::back_inserter(some),
                         [&](const Finding& f) { return f.rule == rule; });
    return some;
}

/// The rules of the findings at error level, in order.
inline std::vector<std::string> errors_of(const Verdict& verdict) {
    std::vector<std::string> rules;
    for (const Finding& finding : verdict.findings) {
        if (finding.severity == Severity::error) rules.push_back(finding.rule);
    }
    return rules;
}

/// What is found in a design, as rules.
inline std::vector<std::string> rules_in(const std::string& yaml) {
    return rules_of(verdict_of(yaml).findings);
}

/// The text of the only finding of a rule.
inline std::string told(const std::string& yaml, const std::string& rule) {
    const Findings some = found(verdict_of(yaml).findings, rule);
    return some.size() == 1 ? some[0].text : fmt::format("{} of {}", some.size(), rule);
}

using Texts = std::vector<std::string>;

}  // namespace pinfold
