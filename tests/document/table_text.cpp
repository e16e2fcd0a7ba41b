#include "document/table_text.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "document/four_ways.hpp"
#include "document/table_sheet.hpp"
#include "document/text_width.hpp"

using namespace pinfold;

namespace {

WiringTable lid_link() {
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    return wiring_table(design, trace(design));
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

bool has_line(const std::string& text, const std::string& wanted) {
    const std::vector<std::string> lines = lines_of(text);
    return std::find(lines.begin(), lines.end(), wanted) != lines.end();
}

}  // namespace

TEST_CASE("the text table has a row and a box for each conductor") {
    const std::string text = to_text(lid_link());
    CHECK(has_line(text, "  No.  Signal  Mark          From (end a)  To (end b)   Done"));
    CHECK(has_line(text, "    2  D2+     D2 +          base.tail.2   lid.tail.19  [ ]"));
    CHECK(has_line(text, "   10  5V      SUPPLY        base.tail.10  lid.tail.11  [ ]"));
    CHECK(has_line(text, "  Length      80 mm; a listed stock length"));
}

TEST_CASE("the text table keeps within a hundred columns and leaves no blanks at line ends") {
    for (const std::string& line : lines_of(to_text(lid_link()))) {
        CAPTURE(line);
        CHECK(display_width(line) <= 100);
        CHECK_FALSE(line.ends_with(' '));
    }
}

TEST_CASE("the loud line stands before anything else") {
    WiringTable table = lid_link();
    table.warnings = {"DO NOT BUILD: 1 of 2 promised signals does not arrive; run pinfold check"};
    CHECK(lines_of(to_text(table)).at(3) == "!! " + table.warnings[0]);
    CHECK(lines_of(to_markdown(table)).at(4) == "> **" + table.warnings[0] + "**");
}

// CommonMark 0.30, section 2.4: a backslash before ASCII punctuation makes it plain.
TEST_CASE("no character of a name means anything to Markdown") {
    CHECK(markdown_text("a|b*c_d`e<f>[g]&amp;~h$\\") ==
          "a\\|b\\*c\\_d\\`e\\<f\\>\\[g\\]\\&amp;\\~h\\$\\\\");
    CHECK(markdown_text("+5V") == "\\+5V");
    CHECK(markdown_text("-") == "\\-");
    CHECK(markdown_text("# head") == "\\# head");
    CHECK(markdown_text("1. item") == "1\\. item");
    CHECK(markdown_text("D2+ 1.5") == "D2+ 1.5");
    CHECK(markdown_text("") == "");
}

TEST_CASE("a Markdown row has as many cells as its head whatever the names hold") {
    WiringTable table = lid_link();
    table.ribbons[0].rows[0].signal = "A|B\\|C";
    const std::string text = to_markdown(table);
    CHECK(has_line(text, "| 1 | A\\|B\\\\\\|C | guard D2 | base.tail.1 | lid.tail.20 | \\[ \\] |"));
    CHECK(has_line(text, "| --- | --- | --- | --- | --- | --- |"));
}

TEST_CASE("every record of the sheet has the fields of its head") {
    const Rows rows = to_sheet(lid_link());
    for (const auto& row : rows) CHECK(row.size() == rows[0].size());
    const std::vector<std::string> second{
        "conductor",   "strap", "2", "D2+", "D2 +", "", "base.tail.2",
        "lid.tail.19", "",      "",  "",    "",     ""};
    CHECK(std::find(rows.begin(), rows.end(), second) != rows.end());
}
