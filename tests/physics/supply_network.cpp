// Sources and converters in a network: closed forms, and the laws that hold for any network.
#include <catch2/catch.hpp>
#include <cmath>

#include "physics/network.hpp"
#include "physics/numbers.hpp"

namespace pinfold {
namespace {

NetworkSolution solved(const Network& network) {
    return std::get<NetworkSolution>(solve_network(network));
}

/// A source of 5 V at node 1 above node 0, a converter at the far end of a resistor.
Network converter(double ohms, double watts) {
    return {3, {{1, 2, Ohms(ohms)}}, {}, {{1, 0, 5.0_V}}, {{2, 0, Watts(watts)}}};
}

/// A supply tree and a ground tree of as many nodes, some of them meshed, with sources and loads
/// between them: the node n of the ground has the number count + n.
Network random_feed(Numbers& numbers) {
    const std::size_t count = 3 + numbers.below(12);
    Network feed{2 * count, {}, {}, {}, {}};
    const auto ohms = [&] { return Ohms(0.01 + 0.2 * numbers.next()); };
    for (std::size_t i = 1; i < count; ++i) {
        feed.resistors.push_back({numbers.below(i), i, ohms()});
        feed.resistors.push_back({count + numbers.below(i), count + i, ohms()});
        const std::size_t other = numbers.below(count);
        if (other != i) feed.resistors.push_back({other, i, ohms()});
    }
    feed.sources.push_back({0, count, 5.0_V});
    if (numbers.next() < 0.5) feed.sources.push_back({1, count, Volts(5.1)});
    for (std::size_t i = 2; i < count; ++i) {
        if (numbers.next() < 0.5) {
            feed.loads.push_back({i, count + i, Watts(2.0 * numbers.next())});
        } else {
            const double amperes = numbers.next();
            feed.injections.push_back({i, Amperes(-amperes)});
            feed.injections.push_back({count + i, Amperes(amperes)});
        }
    }
    return feed;
}

double at(const NetworkSolution& solution, std::size_t node) {
    return solution.voltages[node].value();
}

}  // namespace

// V = (E + sqrt(E^2 - 4 P R)) / 2, the larger root of V (E - V) = P R. The numbers: 5 V and 7.5 W
// over 0.3884 ohm, worked outside.
TEST_CASE("a converter settles at the higher of its two voltages") {
    const NetworkSolution solution = solved(converter(0.3884, 7.5));
    CHECK(at(solution, 2) == Approx(4.32675).epsilon(1e-6));
    CHECK(solution.drawn[0].value() == Approx(1.73340).epsilon(3e-6));
    CHECK(at(solution, 2) ==
          Approx((5.0 + std::sqrt(25.0 - 4.0 * 7.5 * 0.3884)) / 2.0).epsilon(1e-12));
    CHECK(solution.given[0].value() == Approx(solution.drawn[0].value()));
}

// The roots meet at P = E^2 / 4R = 16.0917 W.
TEST_CASE("above a quarter of E squared over R no voltage satisfies a converter") {
    CHECK(at(solved(converter(0.3884, 16.09)), 2) ==
          Approx((5.0 + std::sqrt(25.0 - 4.0 * 16.09 * 0.3884)) / 2.0).epsilon(1e-9));
    for (const double watts : {16.1, 20.0, 1000.0}) {
        const auto outcome = solve_network(converter(0.3884, watts));
        REQUIRE(std::holds_alternative<Collapse>(outcome));
        CHECK(watts * std::get<Collapse>(outcome).share == Approx(16.0917).epsilon(1e-4));
    }
}

// Two converters on one line: eliminated by hand to one equation, solved by halving the interval.
TEST_CASE("two converters along one line agree with a solution by bisection") {
    const double r1 = 0.15, r2 = 0.25, p1 = 3.0, p2 = 4.0;
    const Network line{4,
                       {{1, 2, Ohms(r1)}, {2, 3, Ohms(r2)}},
                       {},
                       {{1, 0, 5.0_V}},
                       {{2, 0, Watts(p1)}, {3, 0, Watts(p2)}}};
    // For the voltage v of the nearer one the farther stands at (v + sqrt(v^2 - 4 p2 r2)) / 2.
    const auto too_high = [&](double v) {
        const double far = (v + std::sqrt(v * v - 4.0 * p2 * r2)) / 2.0;
        return (5.0 - v) / r1 < p1 / v + p2 / far;
    };
    double low = 3.0, high = 5.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2.0;
        (too_high(middle) ? high : low) = middle;
    }
    CHECK(at(solved(line), 2) == Approx(low).epsilon(1e-10));
}

// Unequal contacts at both ends of four conductors side by side, 2 A; 1.7241e-8 ohm m, 0.30 x 0.035
// mm: worked outside. Long conductors even the currents out, short ones do not.
TEST_CASE("four conductors share by their contacts, the longer the more evenly") {
    struct Row {
        double millimetres, good, bad;
    };
    const Row row =
        GENERATE(values<Row>({{200.0, 0.540950, 0.377150}, {20.0, 0.603713, 0.188861}}));
    const Ohms strip(1.7241e-8 * row.millimetres / 1000.0 / (0.30e-3 * 0.035e-3));
    Network four{2, {}, {{0, Amperes(-2.0)}, {1, 2.0_A}}, {}, {}};
    for (const double contact : {0.020, 0.020, 0.020, 0.100}) {
        const std::size_t near = four.nodes++;
        const std::size_t far = four.nodes++;
        four.resistors.push_back({1, near, Ohms(contact)});
        four.resistors.push_back({near, far, strip});
        four.resistors.push_back({far, 0, Ohms(contact)});
    }
    const NetworkSolution solution = solved(four);
    CHECK(solution.currents[1].value() == Approx(row.good).epsilon(2e-6));
    CHECK(solution.currents[10].value() == Approx(row.bad).epsilon(3e-6));
}

// Two sources of unequal voltage over unequal resistors to one load: by superposition.
TEST_CASE("two sources share a load as superposition says") {
    const Network two{4,
                      {{1, 3, 0.1_ohm}, {2, 3, 0.3_ohm}},
                      {{3, Amperes(-2.0)}, {0, 2.0_A}},
                      {{1, 0, 5.0_V}, {2, 0, Volts(4.8)}},
                      {}};
    const NetworkSolution solution = solved(two);
    const double far = (5.0 / 0.1 + 4.8 / 0.3 - 2.0) / (1.0 / 0.1 + 1.0 / 0.3);
    CHECK(at(solution, 3) == Approx(far));
    CHECK(solution.given[0].value() == Approx((5.0 - far) / 0.1));
    CHECK(solution.given[1].value() == Approx((4.8 - far) / 0.3));
}

TEST_CASE("sources in a row add, and one that closes a loop gives nothing") {
    const Network row{3, {{2, 0, 4.0_ohm}}, {}, {{2, 1, 3.0_V}, {1, 0, 5.0_V}, {2, 0, 8.0_V}}, {}};
    const NetworkSolution solution = solved(row);
    CHECK(at(solution, 2) == Approx(8.0));
    CHECK(solution.given[0].value() == Approx(2.0));
    CHECK(solution.given[1].value() == Approx(2.0));
    CHECK(solution.given[2].value() == 0.0);
}

TEST_CASE("in two hundred random feeds Kirchhoff holds at every node, and no power is lost") {
    Numbers numbers(20261125);
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        const Network feed = random_feed(numbers);
        const NetworkSolution solution = solved(feed);
        std::vector<double> leaving(feed.nodes, 0.0);
        double given = 0.0, taken = 0.0;
        for (std::size_t k = 0; k < feed.resistors.size(); ++k) {
            const double amperes = solution.currents[k].value();
            leaving[feed.resistors[k].one] += amperes;
            leaving[feed.resistors[k].other] -= amperes;
            taken += amperes * amperes * feed.resistors[k].resistance.value();
        }
        for (std::size_t k = 0; k < feed.sources.size(); ++k) {
            const double amperes = solution.given[k].value();
            leaving[feed.sources[k].plus] -= amperes;
            leaving[feed.sources[k].minus] += amperes;
            given += amperes * feed.sources[k].voltage.value();
        }
        for (std::size_t k = 0; k < feed.loads.size(); ++k) {
            leaving[feed.loads[k].plus] += solution.drawn[k].value();
            leaving[feed.loads[k].minus] -= solution.drawn[k].value();
            taken += feed.loads[k].power.value();
        }
        for (const Injection& injection : feed.injections) {
            leaving[injection.node] -= injection.current.value();
            taken -= injection.current.value() * at(solution, injection.node);
        }
        for (const double amperes : leaving) CHECK(amperes == Approx(0.0).margin(1e-8));
        CHECK(given == Approx(taken).epsilon(1e-9));
    }
}

// Rayleigh's monotonicity law, for one load; of several, one may gain at another's cost.
TEST_CASE("more copper never lowers the voltage at a load") {
    Numbers numbers(11);
    for (int i = 0; i < 100; ++i) {
        CAPTURE(i);
        Network feed = random_feed(numbers);
        feed.sources.resize(1);
        feed.injections.clear();
        feed.loads = {{feed.nodes / 2 - 1, feed.nodes - 1, Watts(3.0)}};
        const NetworkSolution before = solved(feed);
        feed.resistors[numbers.below(feed.resistors.size())].resistance = 0.005_ohm;
        const NetworkSolution after = solved(feed);
        for (const PowerLoad& load : feed.loads) {
            CHECK(at(after, load.plus) - at(after, load.minus) >=
                  at(before, load.plus) - at(before, load.minus) - 1e-9);
        }
    }
}

}  // namespace pinfold
