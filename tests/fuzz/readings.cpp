// Fuzz target: any bytes as meter readings of the example link give a diagnosis or an InputError.
// Built by -DPINFOLD_FUZZ=ON with clang; good seeds are sheets of `pinfold probe --format csv`.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "design/read.hpp"
#include "document/diagnosis_text.hpp"
#include "exchange/diagnosis_json.hpp"
#include "exchange/read_readings.hpp"

namespace {

/// The example link: two boards, a ribbon, two devices to unplug.
const pinfold::Design& example() {
    static pinfold::Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    static const pinfold::Design design = pinfold::read_design(
        std::filesystem::path(PINFOLD_ROOT) / "examples/lid-link/design.yaml", library);
    return design;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static const Wiring wiring = trace(example());
    if (size > 4096) return 0;  // what many rows cost is measured elsewhere
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    try {
        const MeterReadings readings = read_readings(source, example(), wiring);
        const Diagnosis diagnosis = diagnose(example(), wiring, readings);
        if (to_text(diagnosis).empty() || diagnosis_json(diagnosis).empty()) std::abort();
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
