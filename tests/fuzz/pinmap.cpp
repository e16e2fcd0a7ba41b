// Fuzz target: any bytes as a pin map of each kind and as a board give one or an InputError. Built
// by -DPINFOLD_FUZZ=ON with clang; good seeds are pinmaps/*/*.yaml and examples/*/*.yaml.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "design/read.hpp"

namespace {

template <class Read>
void read_or_refuse(const Read& read) {
    try {
        read();
    } catch (const pinfold::InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const pinfold::Finding& finding : error.findings()) to_text(finding);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    const auto find = [](const std::string& id, const Mark& at) -> const Interface& {
        return library.interface(id, at);
    };
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    read_or_refuse([&] { read_interface("fuzz", source); });
    read_or_refuse([&] { read_connector("fuzz", source, find); });
    read_or_refuse([&] { read_ribbon_type("fuzz", source); });
    read_or_refuse([&] { read_receptacle_type("fuzz", source); });
    read_or_refuse([&] {
        Design design;
        read_board(source, "fuzz", design, library);
    });
    return 0;
}
