// Adopting the netlist of every board of the examples gives a board that joins the same pads,
// compares `same` and mates like the one the netlist was made of. Hostile names: words we chose.
#include "exchange/board_yaml.hpp"

#include <catch2/catch.hpp>

#include "base/yaml.hpp"
#include "check/compare.hpp"
#include "check/mate.hpp"
#include "design/pairing.hpp"
#include "design/read.hpp"
#include "exchange/kicad_text.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

/// What the user would say of each port of a board.
std::vector<PartWords> words_of(const Board& board, const Netlist& netlist) {
    std::vector<PartWords> parts;
    for (const Netlist::Component& part : netlist.components) {
        const Port& port = board.ports[*board.find_port(part.port)];
        std::string words = port.connector;
        if (!words.empty()) words += " " + std::string(name_of(port.gender));
        if (port.ribbon && !words.empty()) words += " in ";
        if (port.ribbon) words += port.ribbon->receptacle;
        parts.push_back({part.reference, words.empty() ? "pads" : words});
    }
    return parts;
}

Design read_back(const std::string& text, Library& library) {
    Design design;
    read_board(text_source(text), "adopted", design, library);
    return design;
}

std::vector<std::filesystem::path> example_designs() {
    std::vector<std::filesystem::path> files;
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(repository() / "examples")) {
        if (entry.path().extension() != ".yaml") continue;
        const auto source = read_source(entry.path());
        if (source->text.find("pinfold: 1") != std::string::npos) files.push_back(entry.path());
    }
    std::ranges::sort(files);
    return files;
}

/// Two ribbon tails joined straight, names of nets as given.
Netlist strap(const std::vector<std::string>& names) {
    Netlist netlist;
    for (const char* reference : {"J1", "J2"}) {
        netlist.components.push_back({reference, "", "", "", "", {}, {}});
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string pad = std::to_string(i + 1);
        netlist.nets.push_back({names[i], false, {{"J1", pad}, {"J2", pad}}, {}});
    }
    return netlist;
}

const std::vector<PartWords> two_tails{{"J1", "ffc-0.50-bottom"}, {"J2", "ffc-0.50-bottom"}};

std::vector<std::string> doubts_of(const Netlist& netlist, const std::vector<PartWords>& parts) {
    Library library = shipped_library();
    return rules_of(adopted_board(netlist, parts, "a test", library).doubts);
}

}  // namespace

TEST_CASE("every example board is adopted from its netlist and compares same") {
    std::size_t boards = 0;
    for (const auto& file : example_designs()) {
        Library library = shipped_library();
        const Design design = read_design(file, library);
        for (std::size_t b = 0; b < design.boards.size(); ++b) {
            if (design.boards[b].is_device) continue;
            INFO(file.string() << " " << design.boards[b].name);
            const Netlist drawn = read_kicad_text(text_source(kicad_text(netlist_of(design, b))));
            const auto parts = words_of(design.boards[b], netlist_of(design, b));
            const Design back =
                read_back(adopted_board(drawn, parts, "a test", library).text, library);
            CHECK(same_partition(netlist_of(back, 0), drawn));
            CHECK(compare(back, 0, drawn).same);
            ++boards;
        }
    }
    CHECK(boards >= 20);
}

TEST_CASE("an adopted board mates like the one it was adopted from") {
    Library library = shipped_library();
    const auto folder = repository() / "examples/lid-link";
    const Design design = read_design(folder / "design.yaml", library);
    for (const char* copper : {"same-side", "opposite-side"}) {
        const PairingWords words{"ffc-0.50", "20", copper, {}, {}, {}, {}, {}, {}, {}, {}};
        const auto base = read_source(folder / "base.yaml");
        const std::size_t lid = 3;
        REQUIRE(design.boards[lid].name == "lid");
        const Netlist drawn = netlist_of(design, lid);
        const std::string text =
            adopted_board(drawn, words_of(design.boards[lid], drawn), "a test", library).text;
        const Mating meant =
            mate(pair_boards(base, read_source(folder / "lid.yaml"), words, library));
        const Mating adopted = mate(pair_boards(
            base, std::make_shared<const Source>(Source{"lid.yaml", text}), words, library));
        CHECK(adopted.mates == meant.mates);
        REQUIRE(adopted.contacts.size() == meant.contacts.size());
        for (std::size_t i = 0; i < meant.contacts.size(); ++i) {
            CHECK(adopted.contacts[i].signal_b == meant.contacts[i].signal_b);
            CHECK(adopted.contacts[i].same == meant.contacts[i].same);
        }
    }
}

TEST_CASE("hostile names come out of an adopted board harmless") {
    const std::vector<std::string> hostile{"\"",         "a: b",      "# no comment",
                                           "- item",     "{x: y}",    "[1, 2]",
                                           "a\nb: c",    "*alias",    "&anchor",
                                           "!tag",       "%YAML 1.1", "null",
                                           "~",          "'",         "\\",
                                           "J1.7",       "J2.1",      "open",
                                           "GND",        "gnd",       "\u2028ports:",
                                           "\u202Elaiv", "\uFEFF",    "\u0085x",
                                           "\x1b[31m",   "net-1",     "net-2",
                                           "D2+",        "d2+",       "",
                                           "---",        "...",       "? key",
                                           "| block",    "> fold",    "@at",
                                           "a\tb",       "\u00a0",    std::string(500, 'x')};
    Library library = shipped_library();
    Netlist netlist = strap(hostile);
    netlist.title = "\"a: b\\ # \n- c\u2029\u0085";
    netlist.components[0].footprint = "lib:\"x\"\n- y: \u202E #z";
    netlist.components[0].port = "not: plain\n";
    netlist.components[1].value = "\\\"\n---\n...";
    netlist.components.push_back({"R1\n  evil: yes", "", "", "", "", {}, {}});
    const std::string from = "a\nports: {evil: hdmi-a plug}\n\u2028.net";
    const AdoptedBoard board = adopted_board(netlist, two_tails, from, library);
    const Design back = read_back(board.text, library);
    CHECK(same_partition(netlist_of(back, 0), netlist));
    CHECK(back.boards[0].ports.size() == 2);
    CHECK(parse_yaml(text_source(board.text)).entries.size() == 3);  // pinfold-board, title, ports
    for (const char* unseen : {"\u2028", "\u2029", "\u202E", "\uFEFF", "\u0085", "\x1b"}) {
        CHECK(board.text.find(unseen) == std::string::npos);
    }
}

TEST_CASE("a reference with hostile signs is kept letter for letter") {
    Library library = shipped_library();
    const std::string reference = "J: \"#1\", \\ \u202E-";
    Netlist netlist = strap({"A", "B", "C", "D"});
    netlist.components[0].reference = reference;
    for (Netlist::Net& net : netlist.nets) net.nodes[0].reference = reference;
    const AdoptedBoard board =
        adopted_board(netlist, {{reference, "pads"}, {"J2", "ffc-0.50-bottom"}}, "a", library);
    CHECK(read_back(board.text, library).boards[0].ports[0].reference == reference);
}

TEST_CASE("a part in series is taken for copper and listed as a doubt") {
    Netlist netlist = strap({"A", "B", "C", "D"});
    netlist.nets[1].nodes = {{"J1", "2"}, {"R1", "1"}};
    netlist.nets.push_back({"B2", false, {{"R1", "2"}, {"J2", "2"}}, {}});
    netlist.components.push_back({"R1", "", "", "", "", {}, {}});
    Library library = shipped_library();
    const AdoptedBoard board = adopted_board(netlist, two_tails, "a test", library);
    CHECK(same_partition(
        netlist_of(read_back(board.text, library), 0),
        netlist_of(
            read_back(adopted_board(strap({"A", "B", "C", "D"}), two_tails, "a test", library).text,
                      library),
            0)));
    CHECK(std::ranges::count(rules_of(board.doubts), "adopt-series") == 1);
    netlist.components.back().fitted = false;
    CHECK(std::ranges::count(doubts_of(netlist, two_tails), "adopt-series") == 0);
}

TEST_CASE("a net called by another signal than its contact bears is a doubt") {
    Netlist netlist = strap({"A"});
    // HDMI Type A: contact 1 is D2+, contact 3 D2- (tests/published/hdmi.cpp names the table).
    netlist.nets = {{"/HDMI_D2_P", false, {{"J1", "1"}, {"J2", "3"}}, {}},
                    {"D2-", false, {{"J1", "2"}, {"J2", "1"}}, {}}};
    const std::vector<PartWords> parts{{"J1", "ffc-0.50-bottom"}, {"J2", "hdmi-a plug"}};
    CHECK(std::ranges::count(doubts_of(netlist, parts), "adopt-name") == 2);
    std::swap(netlist.nets[0].nodes[1].pad, netlist.nets[1].nodes[1].pad);
    CHECK(std::ranges::count(doubts_of(netlist, parts), "adopt-name") == 0);
}

TEST_CASE("unknown references and pin maps are refused with the nearest") {
    Library library = shipped_library();
    const auto told = [&](const std::vector<PartWords>& parts) {
        return complaint([&] { adopted_board(strap({"A", "B"}), parts, "a test", library); });
    };
    CHECK(told({{"J3", "hdmi-a"}}).find("did you mean 'J1'?") != std::string::npos);
    CHECK(told({{"J1", "hdmi-q"}}).find("did you mean 'hdmi-a'?") != std::string::npos);
    CHECK(told({{"J1", "csi-15"}}).find("csi-15 in ffc-1.00-bottom") != std::string::npos);
    CHECK(told({{"J1", "pads"}, {"J1", "pads"}}).find("named twice") != std::string::npos);
    CHECK(told({}).find("name the connectors") != std::string::npos);
    CHECK(complaint([] { part_words("J1"); }).find("such as J1=hdmi-a") != std::string::npos);
}
