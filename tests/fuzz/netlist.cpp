// Fuzz target: any bytes as a netlist of any form give a comparison or an InputError. Built by
// -DPINFOLD_FUZZ=ON with clang; good seeds are netlists that `pinfold netlist` writes.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "check/compare.hpp"
#include "design/read.hpp"
#include "exchange/read_netlist.hpp"

namespace {

pinfold::Design example() {
    const std::filesystem::path root = PINFOLD_ROOT;
    pinfold::Library library({root / "pinmaps"});
    return pinfold::read_design(root / "examples/lid-link/design.yaml", library);
}

std::size_t first_own_board(const pinfold::Design& design) {
    std::size_t board = 0;
    while (design.boards[board].is_device) ++board;
    return board;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static const Design design = example();
    static const std::size_t board = first_own_board(design);
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    try {
        const Comparison comparison = compare(design, board, read_netlist(source).netlist);
        for (const Finding& finding : comparison.findings) to_text(finding);
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
