#include "physics/network.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>

#include "physics/numbers.hpp"

namespace pinfold {
namespace {

NetworkSolution solved(const Network& network) {
    return std::get<NetworkSolution>(solve_network(network));
}

/// Resistance seen between node 0 and another: the voltage that 1 A drawn in there raises.
double seen_at(std::size_t node, std::size_t nodes, const std::vector<Resistor>& resistors) {
    return solved({nodes, resistors, {{node, 1.0_A}, {0, Amperes(-1.0)}}, {}, {}})
        .voltages[node]
        .value();
}

using Matrix = std::vector<std::vector<double>>;

/// Gaussian elimination with row exchange, on a dense matrix: the second, independent method.
std::vector<double> eliminate(Matrix a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < n; ++i) {
            if (std::abs(a[i][k]) > std::abs(a[best][k])) best = i;
        }
        std::swap(a[k], a[best]);
        std::swap(b[k], b[best]);
        for (std::size_t i = k + 1; i < n; ++i) {
            const double factor = a[i][k] / a[k][k];
            for (std::size_t j = k; j < n; ++j) a[i][j] -= factor * a[k][j];
            b[i] -= factor * b[k];
        }
    }
    std::vector<double> x(n);
    for (std::size_t i = n; i-- > 0;) {
        double rest = b[i];
        for (std::size_t j = i + 1; j < n; ++j) rest -= a[i][j] * x[j];
        x[i] = rest / a[i][i];
    }
    return x;
}

struct Net {
    std::size_t nodes;
    std::vector<Resistor> resistors;
    std::vector<Injection> injections;
};

/// A tree over all nodes, so that it hangs together, and as many further resistors.
Net random_net(Numbers& numbers) {
    Net net{2 + numbers.below(30), {}, {}};
    const auto ohms = [&] { return Ohms(std::pow(10.0, 4.0 * numbers.next() - 3.0)); };
    for (std::size_t i = 1; i < net.nodes; ++i) {
        net.resistors.push_back({numbers.below(i), i, ohms()});
    }
    for (std::size_t i = 0; i < net.nodes; ++i) {
        const std::size_t one = numbers.below(net.nodes);
        const std::size_t other = numbers.below(net.nodes);
        if (one != other) net.resistors.push_back({one, other, ohms()});
        net.injections.push_back({one, Amperes(2.0 * numbers.next() - 1.0)});
    }
    return net;
}

std::vector<double> by_elimination(const Net& net) {
    Matrix conductances(net.nodes, std::vector<double>(net.nodes, 0.0));
    std::vector<double> drawn(net.nodes, 0.0);
    for (const Resistor& resistor : net.resistors) {
        const double siemens = 1.0 / resistor.resistance.value();
        conductances[resistor.one][resistor.one] += siemens;
        conductances[resistor.other][resistor.other] += siemens;
        conductances[resistor.one][resistor.other] -= siemens;
        conductances[resistor.other][resistor.one] -= siemens;
    }
    for (const Injection& injection : net.injections) {
        drawn[injection.node] += injection.current.value();
    }
    conductances[0].assign(net.nodes, 0.0);  // node 0 is held
    conductances[0][0] = 1.0;
    drawn[0] = 0.0;
    return eliminate(conductances, drawn);
}

}  // namespace

// Closed forms: R1 + R2; R1 R2 / (R1 + R2).
TEST_CASE("resistors in series add, in parallel their conductances do") {
    CHECK(seen_at(2, 3, {{0, 1, 3.0_ohm}, {1, 2, 4.5_ohm}}) == Approx(7.5));
    CHECK(seen_at(1, 2, {{0, 1, 3.0_ohm}, {1, 0, 6.0_ohm}}) == Approx(2.0));
    CHECK(seen_at(1, 2, {{0, 1, 1.0_ohm}, {0, 1, 1.0_ohm}, {0, 1, 1.0_ohm}}) == Approx(1.0 / 3));
}

// Wheatstone bridge, nodes: 0 and 3 the battery's, 1 and 2 the galvanometer's. Closed form for the
// unbalanced one: the delta 0-1-2 turned into a star.
TEST_CASE("a balanced bridge carries nothing across, an unbalanced one what star and delta give") {
    const std::vector<Resistor> balanced{
        {0, 1, 1.0_ohm}, {0, 2, 2.0_ohm}, {1, 3, 3.0_ohm}, {2, 3, 6.0_ohm}, {1, 2, 5.0_ohm}};
    const NetworkSolution even = solved({4, balanced, {{3, 1.0_A}, {0, Amperes(-1.0)}}, {}, {}});
    CHECK(even.currents[4].value() == Approx(0.0).margin(1e-12));
    CHECK(even.voltages[3].value() == Approx(4.0 * 8.0 / 12.0));

    const std::vector<Resistor> uneven{
        {0, 1, 1.0_ohm}, {0, 2, 2.0_ohm}, {1, 3, 3.0_ohm}, {2, 3, 4.0_ohm}, {1, 2, 5.0_ohm}};
    // Delta 0-1-2 to star: 1*2/8 at 0, 1*5/8 at 1, 2*5/8 at 2.
    const double at_1 = 1.0 * 5.0 / 8.0 + 3.0;
    const double at_2 = 2.0 * 5.0 / 8.0 + 4.0;
    CHECK(seen_at(3, 4, uneven) == Approx(0.25 + at_1 * at_2 / (at_1 + at_2)));
}

// A ladder of n equal cells, series then shunt: F(2n+1) / F(2n) ohms with Fibonacci numbers.
TEST_CASE("a ladder of equal resistors has the resistance of Fibonacci numbers") {
    std::vector<double> fibonacci{0.0, 1.0};
    while (fibonacci.size() < 60) fibonacci.push_back(fibonacci.back() + *(fibonacci.end() - 2));
    for (std::size_t cells = 1; cells <= 25; ++cells) {
        CAPTURE(cells);
        std::vector<Resistor> ladder;  // node 1 is the far end of the last cell's shunt
        for (std::size_t i = 1; i <= cells; ++i) {
            ladder.push_back({i, 0, 1.0_ohm});
            ladder.push_back({i, i + 1, 1.0_ohm});
        }
        CHECK(seen_at(cells + 1, cells + 2, ladder) ==
              Approx(fibonacci[2 * cells + 1] / fibonacci[2 * cells]).epsilon(1e-12));
    }
}

// A cube of 12 equal resistors: 5/6 ohm between opposite corners (textbook symmetry argument).
TEST_CASE("a cube of equal resistors has five sixths of one between opposite corners") {
    std::vector<Resistor> cube;
    for (std::size_t corner = 0; corner < 8; ++corner) {
        for (const std::size_t bit : {1u, 2u, 4u}) {
            if ((corner & bit) == 0) cube.push_back({corner, corner | bit, 1.0_ohm});
        }
    }
    CHECK(seen_at(7, 8, cube) == Approx(5.0 / 6.0));
}

TEST_CASE("two hundred random networks come out as by dense elimination") {
    Numbers numbers(20260711);
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        const Net net = random_net(numbers);
        const NetworkSolution ours = solved({net.nodes, net.resistors, net.injections, {}, {}});
        const std::vector<double> theirs = by_elimination(net);
        for (std::size_t n = 0; n < net.nodes; ++n) {
            CHECK(ours.voltages[n].value() == Approx(theirs[n]).epsilon(1e-7).margin(1e-7));
        }
        for (std::size_t r = 0; r < net.resistors.size(); ++r) {
            const Resistor& resistor = net.resistors[r];
            CHECK(ours.currents[r].value() ==
                  Approx((theirs[resistor.one] - theirs[resistor.other]) /
                         resistor.resistance.value())
                      .epsilon(1e-6)
                      .margin(1e-6));
        }
    }
}

// Kirchhoff's current law.
TEST_CASE("what is drawn at the nodes flows in at node 0") {
    Numbers numbers(7);
    for (int i = 0; i < 20; ++i) {
        const Net net = random_net(numbers);
        const NetworkSolution solution = solved({net.nodes, net.resistors, net.injections, {}, {}});
        double drawn = 0.0;
        for (const Injection& injection : net.injections) {
            if (injection.node != 0) drawn += injection.current.value();
        }
        double into_0 = 0.0;
        for (std::size_t r = 0; r < net.resistors.size(); ++r) {
            const double current = solution.currents[r].value();
            if (net.resistors[r].other == 0) into_0 += current;
            if (net.resistors[r].one == 0) into_0 -= current;
        }
        CHECK(into_0 == Approx(drawn).epsilon(1e-9).margin(1e-9));
    }
}

TEST_CASE("a network of one node or no current is at rest") {
    CHECK(solved({1, {}, {{0, 3.0_A}}, {}, {}}).voltages == std::vector<Volts>{0.0_V});
    CHECK(solved({2, {{0, 1, 1.0_ohm}}, {}, {}, {}}).voltages[1].value() == Approx(0.0));
}

}  // namespace pinfold
