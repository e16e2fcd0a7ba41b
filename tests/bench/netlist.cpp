// Reads netlists of up to a million nodes in each form: seconds, megabytes and nodes per second.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <memory>

#include "exchange/kicad_text.hpp"
#include "exchange/kicad_xml.hpp"

using namespace pinfold;

namespace {

/// Parts of a hundred pads, each joined to the next part's; laid out as series 9 writes it.
std::string text_of(std::size_t nodes) {
    std::string text = "(export (version \"E\")\n  (components";
    for (std::size_t part = 0; part < nodes / 100; ++part) {
        text += fmt::format("\n    (comp (ref \"J{}\")\n      (value \"100-way\"))", part + 1);
    }
    text += ")\n  (nets";
    for (std::size_t n = 0; n < nodes; ++n) {
        if (n % 2 == 0) {
            text += fmt::format("{}\n    (net (code \"{}\") (name \"Net-(J{}-Pad{})\")",
                                n == 0 ? "" : ")", n / 2 + 1, n / 100 + 1, n % 100 + 1);
        }
        text += fmt::format("\n      (node (ref \"J{}\") (pin \"{}\") (pintype \"passive\"))",
                            n / 100 + 1, n % 100 + 1);
    }
    return text + ")))\n";
}

std::string xml_of(std::size_t nodes) {
    std::string text = "<?xml version=\"1.0\"?>\n<export version=\"E\">\n<components>\n";
    for (std::size_t part = 0; part < nodes / 100; ++part) {
        text += fmt::format("<comp ref=\"J{}\"><value>100-way</value></comp>\n", part + 1);
    }
    text += "</components>\n<nets>\n";
    for (std::size_t n = 0; n < nodes; ++n) {
        if (n % 2 == 0) {
            text += fmt::format("{}<net code=\"{}\" name=\"Net-(J{}-Pad{})\">\n",
                                n == 0 ? "" : "</net>\n", n / 2 + 1, n / 100 + 1, n % 100 + 1);
        }
        text += fmt::format("<node ref=\"J{}\" pin=\"{}\" pintype=\"passive\"/>\n", n / 100 + 1,
                            n % 100 + 1);
    }
    return text + "</net>\n</nets>\n</export>\n";
}

template <class Read>
void measure(const char* form, std::size_t nodes, std::string text, const Read& read) {
    const double megabytes = static_cast<double>(text.size()) / 1e6;
    const auto source = std::make_shared<const Source>(Source{"bench", std::move(text)});
    double best = 1e9;
    for (int run = 0; run < 3; ++run) {
        const auto start = std::chrono::steady_clock::now();
        const Netlist netlist = read(source);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        if (netlist.nets.size() != nodes / 2) std::abort();
        best = std::min(best, took.count());
    }
    fmt::print("{:>8} {:>9} {:>7.1f} {:>9.3f} {:>11.0f}\n", form, nodes, megabytes, best,
               static_cast<double>(nodes) / best);
}

}  // namespace

int main() {
    fmt::print("{:>8} {:>9} {:>7} {:>9} {:>11}\n", "form", "nodes", "MB", "s", "nodes/s");
    for (const std::size_t nodes : {100'000, 300'000, 1'000'000}) {
        measure("text", nodes, text_of(nodes), read_kicad_text);
        measure("xml", nodes, xml_of(nodes), read_kicad_xml);
    }
}
