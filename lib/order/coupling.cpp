#include "order/coupling.hpp"

namespace pinfold {

Coupling coupling_by_distance() {
    return {{{{1000, 0, 0}, {250, 62, 0}, {111, 28, 0}}}, "by distance and guards"};
}

}  // namespace pinfold
