#include "physics/supernodes.hpp"

#include <algorithm>
#include <numeric>

#include "base/groups.hpp"

namespace pinfold {
namespace {

/// The sources at each node.
std::vector<std::vector<std::size_t>> sources_at(const Network& network,
                                                 const std::vector<bool>& left_out) {
    std::vector<std::vector<std::size_t>> at(network.nodes);
    for (std::size_t s = 0; s < network.sources.size(); ++s) {
        if (left_out[s]) continue;
        at[network.sources[s].plus].push_back(s);
        at[network.sources[s].minus].push_back(s);
    }
    return at;
}

}  // namespace

Supernodes::Supernodes(const Network& network)
    : top_(network.nodes), rise_(network.nodes, 0.0), unknown_(network.nodes, -1) {
    std::iota(top_.begin(), top_.end(), std::size_t{0});
    for (const VoltageSource& source : network.sources) join(source);
    for (std::size_t node = 0; node < network.nodes; ++node) climb(node);
    number(network);
}

/// The top of a node; what stands between them is made one step.
std::size_t Supernodes::climb(std::size_t node) {
    std::size_t top = node;
    double rise = 0.0;
    while (top_[top] != top) {
        rise += rise_[top];
        top = top_[top];
    }
    while (node != top) {
        const std::size_t next = top_[node];
        const double here = rise_[node];
        top_[node] = top;
        rise_[node] = rise;
        rise -= here;
        node = next;
    }
    return top;
}

void Supernodes::join(const VoltageSource& source) {
    const std::size_t plus = climb(source.plus);
    const std::size_t minus = climb(source.minus);
    closes_loop_.push_back(plus == minus);
    if (plus == minus) return;
    top_[plus] = minus;
    rise_[plus] = rise_[source.minus] + source.voltage.value() - rise_[source.plus];
}

/// Holds the supernode of the first node of each piece, numbers the others.
void Supernodes::number(const Network& network) {
    Groups pieces(network.nodes);  // without regard to voltage
    for (std::size_t node = 0; node < network.nodes; ++node) pieces.join(node, top_[node]);
    for (const Resistor& resistor : network.resistors) pieces.join(resistor.one, resistor.other);
    for (std::size_t node = 0; node < network.nodes; ++node) {
        const bool is_held = top_[pieces.first_of(node)] == node;
        if (top_[node] == node && !is_held) unknown_[node] = static_cast<int>(unknowns_++);
    }
}

/// Sources form trees: each leaf's current is known, then the tree's next leaf.
std::vector<Amperes> Supernodes::given(const Network& network, std::vector<double> leaving) const {
    std::vector<Amperes> given(network.sources.size());
    const auto at = sources_at(network, closes_loop_);
    std::vector<std::size_t> left(network.nodes);
    std::vector<std::size_t> leaves;
    std::vector<bool> known = closes_loop_;
    for (std::size_t node = 0; node < network.nodes; ++node) {
        left[node] = at[node].size();
        if (left[node] == 1) leaves.push_back(node);
    }
    while (!leaves.empty()) {
        const std::size_t leaf = leaves.back();
        leaves.pop_back();
        for (const std::size_t s : at[leaf]) {
            if (known[s]) continue;
            known[s] = true;
            const VoltageSource& source = network.sources[s];
            const bool at_plus = source.plus == leaf;
            const std::size_t other = at_plus ? source.minus : source.plus;
            given[s] = Amperes(at_plus ? leaving[leaf] : -leaving[leaf]);
            leaving[other] += leaving[leaf];
            if (--left[other] == 1) leaves.push_back(other);
        }
        left[leaf] = 0;
    }
    return given;
}

}  // namespace pinfold
