// Measures the search for the best order, and prints each problem with its answer in one line of
// JSON for order_solvers.py: bench_order [SECONDS] (the most to spend on one problem, 30 unless
// given)
#include <fmt/format.h>

#include <cstdlib>
#include <ctime>

#include "exchange/order_json.hpp"
#include "order/new_design.hpp"

namespace pinfold {
namespace {

/// Seconds of processor time.
double now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

OrderProblem problem_in(const std::string& text, Library& library) {
    const auto source = std::make_shared<const Source>(Source{"bench.yaml", text});
    // The problem alone is wanted: no time is given to solve it.
    Ordering ordering = order_design(source, {}, library, {[] { return 1.0; }, 0.0});
    return std::move(ordering.ribbons.front().problem);
}

/// Two devices whose connectors take the ribbon itself.
std::string straight(const std::string& connector, const std::string& interface,
                     const std::string& ribbon, int conductors) {
    return fmt::format(
        "pinfold: 1\ntitle: t\ndevices:\n"
        "  one: {{ports: {{port: {{connector: {0} receptacle, receptacle: {2}-bottom, "
        "first-contact: left}}}}}}\n"
        "  other: {{ports: {{port: {{connector: {0} receptacle, receptacle: {2}-bottom, "
        "first-contact: left}}}}}}\n"
        "ribbons:\n  strap: {{type: {2}, conductors: {3}, length: 100 mm, "
        "copper: opposite-side, lay: [straight], faces: {{a: up, b: down}}}}\n"
        "joins: [one.port + strap.a, strap.b + other.port]\n"
        "carry: [{{interface: {1}, from: one.port, to: other.port}}]\n",
        connector, interface, ribbon, conductors);
}

std::string two_links_on_40() {
    std::string text = "pinfold: 1\ntitle: t\ndevices:\n";
    for (const char* name : {"one", "two", "three", "four"}) {
        text += fmt::format("  {}: {{ports: {{port: hdmi-a receptacle}}}}\n", name);
    }
    text += "boards:\n";
    for (const char* name : {"near", "far"}) {
        text += fmt::format(
            "  {}:\n    ports:\n      left: hdmi-a plug\n      right: hdmi-a plug\n"
            "      tail: {{receptacle: ffc-0.50-bottom, positions: 40, first-contact: left, "
            "wired: best}}\n",
            name);
    }
    return text +
           "ribbons:\n  strap: {type: ffc-0.50, conductors: 40, length: 100 mm, "
           "copper: opposite-side, lay: [straight], faces: {a: up, b: down}}\n"
           "joins: [one.port + near.left, two.port + near.right, near.tail + strap.a, "
           "strap.b + far.tail, far.left + three.port, far.right + four.port]\n"
           "carry:\n- {interface: hdmi, from: one.port, to: three.port}\n"
           "- {interface: hdmi, from: two.port, to: four.port}\n";
}

/// Pairs, singles, two supplies of three conductors each, and grounds on what is left; the pads of
/// the far board in another turn than those of the near one.
OrderProblem synthetic(int conductors, int pairs, int singles) {
    OrderProblem problem;
    problem.conductors = conductors;
    const auto add = [&](OrderItem::Kind kind, const std::string& name, int copies, int strength,
                         int sensitivity) -> OrderItem& {
        OrderItem item;
        item.kind = kind;
        item.names[0] = name;
        item.copies = copies;
        item.strength = strength;
        item.sensitivity = sensitivity;
        problem.items.push_back(item);
        return problem.items.back();
    };
    const auto place = [](int number, int turn) {
        return PadPlaces{500 * ((number * turn) % 67) - 16000};
    };
    for (int p = 0; p < pairs; ++p) {
        OrderItem& pair = add(OrderItem::Kind::pair, fmt::format("P{}+", p), 1, 4, 3);
        pair.names[1] = fmt::format("P{}-", p);
        pair.fast = true;
        for (const int half : {0, 1}) {
            pair.pads[0][static_cast<std::size_t>(half)] = place(2 * p + half, 1);
            pair.pads[1][static_cast<std::size_t>(half)] =
                place(2 * p + (p % 3 == 0 ? 1 - half : half), 1);
        }
    }
    for (int s = 0; s < singles; ++s) {
        OrderItem& single =
            add(OrderItem::Kind::single, fmt::format("S{}", s), 1, s % 4 == 0 ? 3 : 1, 1);
        single.withstands = s % 2 == 0 ? 3 : 0;
        single.pads[0][0] = place(2 * pairs + s, 1);
        single.pads[1][0] = place(2 * pairs + s, 1);
    }
    for (const int v : {0, 1}) {
        OrderItem& supply = add(OrderItem::Kind::supply, fmt::format("V{}", v), 3, 1, 0);
        supply.pads[0][0] = supply.pads[1][0] = {15000 + 500 * v};
    }
    add(OrderItem::Kind::ground, "GND", conductors - 2 * pairs - singles - 6, 0, 0);
    return problem;
}

void measure(const std::string& name, const OrderProblem& problem, double limit) {
    double least = 1e9;
    BestOrder best;
    for (double spent = 0.0; spent < 0.3;) {
        const double began = now();
        const auto answer = best_order(problem, [&] { return now() - began > limit; });
        const double took = now() - began;
        least = std::min(least, took);
        spent += std::max(took, 1e-3);
        best = std::get<BestOrder>(answer);
    }
    fmt::print("{{\"name\": \"{}\", \"seconds\": {:.6f}, \"states\": {}, \"answer\": {}}}\n", name,
               least, best.states, order_problem_json(problem, best));
    std::fflush(stdout);
}

int run(double limit) {
    Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    const auto link = [&](const char* interface, const char* a, const char* b, int conductors,
                          std::optional<double> current = {}) {
        return problem_in(
            new_design_text({interface, a, b, "ffc-0.50", conductors, current}, library), library);
    };
    const auto panel = [&](const char* connector, const char* interface, const char* ribbon,
                           int conductors) {
        return problem_in(straight(connector, interface, ribbon, conductors), library);
    };
    for (const int conductors : {19, 20, 24, 30}) {
        measure(fmt::format("HDMI on {}", conductors), link("hdmi", "hdmi-a", "hdmi-a", conductors),
                limit);
    }
    measure("DisplayPort on 20", link("displayport", "displayport-source", "displayport-sink", 20),
            limit);
    measure("USB-C on 24", link("usb-c", "usb-c", "usb-c", 24, 0.9), limit);
    measure("LVDS panel on 30", panel("lvds-30", "lvds-panel", "ffc-0.50", 30), limit);
    measure("eDP panel on 30", panel("edp-30", "edp", "ffc-0.50", 30), limit);
    measure("eDP panel on 40", panel("edp-40", "edp", "ffc-0.50", 40), limit);
    measure("camera on 15", panel("csi-15", "csi", "ffc-1.00", 15), limit);
    measure("camera on 22", panel("csi-22", "csi", "ffc-0.50", 22), limit);
    measure("two HDMI on 40", problem_in(two_links_on_40(), library), limit);
    measure("synthetic, 16 pairs on 60", synthetic(60, 16, 8), limit);
    measure("synthetic, 16 pairs on 80", synthetic(80, 16, 16), limit);
    return 0;
}

}  // namespace
}  // namespace pinfold

int main(int argc, char** argv) { return pinfold::run(argc > 1 ? std::atof(argv[1]) : 30.0); }
