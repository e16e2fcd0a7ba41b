#include "order/groups.hpp"

#include <map>

namespace pinfold {

void group_classes(const Classes& classes, const std::vector<Aim>& aims, Level& level) {
    level.group_of.clear();
    level.first_class.clear();
    level.count.clear();
    level.stride.clear();
    std::map<std::vector<int>, std::size_t> groups;
    for (std::size_t c = 0; c < classes.all.size(); ++c) {
        const auto [group, is_new] =
            groups.try_emplace(attributes_for(classes, c, aims), level.first_class.size());
        level.group_of.push_back(group->second);
        if (is_new) {
            level.first_class.push_back(c);
            level.count.push_back(0);
        }
        level.count[group->second] += classes.all[c].count;
    }
    std::uint64_t stride = 1;
    for (std::size_t g = 0; g < level.first_class.size(); ++g) {
        const bool pinned = classes.all[level.first_class[g]].pinned;
        level.stride.push_back(pinned ? 0 : stride);
        if (!pinned) stride *= static_cast<std::uint64_t>(level.count[g]) + 1;
    }
}

}  // namespace pinfold
