#include "document/html.hpp"

#include <catch2/catch.hpp>

#include "document/four_ways.hpp"
#include "document/html_table.hpp"

using namespace pinfold;

TEST_CASE("text never becomes markup") {
    HtmlPage page("<b>&", "p { margin: 0; }");
    add_element(page.main(), "p", "<script>alert(\"1\")</script> & 'x'").append_attribute("title") =
        "\"><b>";
    const std::string text = page.text();
    CHECK(text.find("<title>&lt;b&gt;&amp;</title>") != std::string::npos);
    CHECK(text.find("&lt;script&gt;alert(\"1\")&lt;/script&gt; &amp; 'x'") != std::string::npos);
    CHECK(text.find("title=\"&quot;>&lt;b>\"") != std::string::npos);
}

// HTML Living Standard, 13.1.2: only void elements go without an end tag.
TEST_CASE("empty elements get an end tag, void ones do not") {
    HtmlPage page("t", "");
    add_element(page.main(), "td");
    add_element(page.main(), "br");
    const std::string text = page.text();
    CHECK(text.find("<!DOCTYPE html>") == 0);
    CHECK(text.find("<td></td>") != std::string::npos);
    CHECK(text.find("<br />") != std::string::npos);
    CHECK(text.find("<meta charset=\"utf-8\" />") != std::string::npos);
}

TEST_CASE("the page of the lid link is one table with heads, rows and boxes, and nothing fetched") {
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    const std::string text = to_html(wiring_table(design, trace(design)));
    CHECK(text.find("<script") == std::string::npos);
    CHECK(text.find("src=") == std::string::npos);
    CHECK(text.find("href=") == std::string::npos);
    CHECK(text.find("url(http") == std::string::npos);

    pugi::xml_document page;
    REQUIRE(page.load_string(text.c_str()));
    CHECK(page.select_nodes("//thead//th[@scope='col']").size() == 6);
    CHECK(page.select_nodes("//tbody/tr/th[@scope='row']").size() == 20);
    CHECK(page.select_nodes("//tbody//input[@type='checkbox'][@aria-label]").size() == 20);
    CHECK(page.select_nodes("//table/caption").size() == 1);
    CHECK(page.select_nodes("//h1").size() == 1);
    CHECK(page.select_nodes("//tr[@class='supply']/td[.='SUPPLY']").size() == 1);
}

TEST_CASE("names that look like markup arrive in the page as they are written") {
    WiringTable table = table_of(four_ways({}, {}, "same-side"));
    table.title = "<img src=x onerror=alert(1)> & co";
    table.ribbons[0].rows[0].signal = "</td><td>";
    pugi::xml_document page;
    REQUIRE(page.load_string(to_html(table).c_str()));
    CHECK(page.select_nodes("//img").empty());
    CHECK(std::string(page.select_node("//tbody/tr[1]/td[1]").node().text().get()) == "</td><td>");
}
