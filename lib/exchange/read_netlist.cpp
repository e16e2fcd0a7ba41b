#include "exchange/read_netlist.hpp"

#include "exchange/electrical_test.hpp"
#include "exchange/kicad_text.hpp"
#include "exchange/kicad_xml.hpp"
#include "exchange/place_finder.hpp"

namespace pinfold {
namespace {

/// The first character that is no blank and stands in no comment line.
char first_sign(std::string_view text) {
    std::size_t at = text.find_first_not_of(" \t\r\n");
    while (at != std::string_view::npos && text[at] == '#') {
        at = text.find('\n', at);
        if (at != std::string_view::npos) at = text.find_first_not_of(" \t\r\n", at);
    }
    return at == std::string_view::npos ? '\0' : text[at];
}

[[noreturn]] void refuse_form(const std::shared_ptr<const Source>& source, char first) {
    const std::string_view text = source->text;
    std::string why =
        "this is no netlist: a KiCad netlist starts with '(export' or '<', an IPC-D-356 file with "
        "a record such as 'P  JOB' or '317'";
    if (first == '\0') why = "this file is empty";
    if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
        why = "this file is UTF-16; save it as UTF-8";
    }
    throw InputError(
        {{Severity::error, "netlist-form", std::move(why), PlaceFinder(source).at(0)}});
}

}  // namespace

ReadNetlist read_netlist(const std::shared_ptr<const Source>& source) {
    const char first = first_sign(body_of(*source));
    if (first == '(') return {"KiCad netlist", read_kicad_text(source)};
    if (first == '<') return {"KiCad netlist in XML", read_kicad_xml(source)};
    const std::string_view records = "CPcp0123456789";
    if (first != '\0' && records.find(first) != std::string_view::npos) {
        return {"IPC-D-356 test file", read_electrical_test(source)};
    }
    refuse_form(source, first);
}

}  // namespace pinfold
