#include "exchange/branch.hpp"

#include <fmt/format.h>

#include "exchange/netlist_grower.hpp"

namespace pinfold {

Branch leaf(std::string word, std::string text, const Mark& at) {
    const std::string fault = text_fault(text);
    if (!fault.empty()) {
        throw InputError({{Severity::error, "netlist-text",
                           fmt::format("the text of '{}' {}", word, fault), at}});
    }
    return {std::move(word), std::move(text), {}, at};
}

}  // namespace pinfold
