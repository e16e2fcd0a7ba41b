// Fuzz target: any bytes as a pin list give a board file that reads back, or an InputError. Built
// by -DPINFOLD_FUZZ=ON with clang; good seeds are pin lists in tests/exchange/pin_list.cpp.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "exchange/board_yaml.hpp"
#include "exchange/pin_list.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    static const std::vector<PartWords> parts{{"J1", "ffc-0.50-bottom"}, {"J2", "hdmi-a plug"}};
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    try {
        is_pin_list(*source);
        adopted_board(read_pin_list(source, parts, library), parts, "fuzz", library);
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
