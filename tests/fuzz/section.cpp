// Fuzz target: any bytes as a section file give a section or an InputError, and what is read and
// small gives a finite field. A good seed is examples/strap-section/section.yaml.
#include <cstdint>
#include <cstdlib>

#include "base/finding.hpp"
#include "physics/field.hpp"
#include "physics/read_section.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    try {
        const Section section = read_section(std::make_shared<const Source>(
            Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)}));
        if (section.conductors.size() + section.dielectrics.size() > 4) return 0;
        const FieldSolution solution = solve_field(section, 0.5);
        if (!solution.capacitance.allFinite()) std::abort();
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
