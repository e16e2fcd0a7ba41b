// Fuzz target: any bytes as a design whose order is left open, and its best order within little
// work. A good seed is examples/open-order/design.yaml.
#include <cstdint>
#include <cstdlib>
#include <filesystem>

#include "empty_folder.hpp"
#include "exchange/order_json.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace pinfold;
    static Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    static const std::filesystem::path folder = empty_folder();
    const auto source = std::make_shared<const Source>(
        Source{"fuzz", std::string(reinterpret_cast<const char*>(data), size)});
    // Looks at the clock stand for work: the same bytes always get the same answer.
    double looks = 0.0;
    const TimeLimit limit{[&looks] { return looks += 1.0; }, 20.0};
    try {
        const Ordering ordering = order_design(source, folder, library, limit);
        for (const RibbonOrder& order : ordering.ribbons) {
            if (!order.rules.empty()) continue;
            if (!keeps_the_rules(order.problem, order.best.order)) std::abort();
        }
        if (order_json(ordering).empty()) std::abort();
    } catch (const InputError& error) {
        if (error.findings().empty()) std::abort();
        for (const Finding& finding : error.findings()) to_text(finding);
    }
    return 0;
}
