#include "design/budget.hpp"

namespace pinfold {

std::string_view name_of(StageKind kind) {
    switch (kind) {
        case StageKind::boost: return "boost";
        case StageKind::buck: return "buck";
        case StageKind::buck_boost: return "buck-boost";
    }
    return "";
}

std::map<std::size_t, PowerOrigin> Budget::origins() const {
    std::map<std::size_t, PowerOrigin> origins;
    for (const Stage& stage : stages) {
        if (stage.from.carry) origins.emplace(*stage.from.carry, stage.from);
    }
    for (const BudgetLoad& load : loads) {
        if (load.from.carry) origins.emplace(*load.from.carry, load.from);
    }
    return origins;
}

}  // namespace pinfold
