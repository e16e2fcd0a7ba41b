// Reads a design, traces it and checks it, with the installed library and its pin maps.
#include <iostream>
#include <pinfold/check/check.hpp>
#include <pinfold/design/read.hpp>

int main(int, char** argv) {
    try {
        pinfold::Library library({PINMAPS});
        const pinfold::Design design = pinfold::read_design(argv[1], library);
        const pinfold::Wiring wiring = pinfold::trace(design);
        const pinfold::Verdict verdict = pinfold::check_design(design);
        std::cout << design.title << ": " << wiring.passes().size() << " passes, "
                  << (verdict.clean() ? "clean" : "not clean") << "\n";
        return verdict.clean() ? 0 : 1;
    } catch (const pinfold::InputError& error) {
        for (const auto& finding : error.findings()) std::cerr << pinfold::to_text(finding);
        return 2;
    }
}
