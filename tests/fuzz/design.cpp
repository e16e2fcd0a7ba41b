// Fuzz target: any bytes as a design give a checked design or an InputError. Built by
// -DPINFOLD_FUZZ=ON with clang; good seeds are examples/*/*.yaml.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "check/check.hpp"
#include "check/line_memory.hpp"
#include "design/read.hpp"
#include "empty_folder.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    static const std::filesystem::path folder = empty_folder();
    constexpr double most_work = 3e6;
    static LineMemory memory(most_work);
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    try {
        const Verdict verdict = check_design(read_design(source, folder, library), memory);
        for (const Finding& finding : verdict.findings) to_text(finding);
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
