#include "check/board_traces.hpp"

#include <cmath>

namespace pinfold {
namespace {

/// How far layers, and the ground copper beside a pair, go on: so many times the size of what lies
/// between. Twice as far changes impedances by less than a thousandth.
constexpr double far_enough = 8.0;

class TraceSection {
public:
    TraceSection(const StackUp& stack_up, const PairTrace& trace)
        : stack_up_(stack_up), trace_(trace) {}

    Section section() {
        const Millimetres half_gap = 0.5 * trace_.gap;
        add(Millimetres{} - half_gap - trace_.width, trace_.width, "plus");
        add(half_gap, trace_.width, "minus");
        Millimetres edge = half_gap + trace_.width;
        const Millimetres across = 2.0 * edge + stack_up_.dielectric;
        if (trace_.ground_gap) {
            const Millimetres ground = far_enough * (across + *trace_.ground_gap);
            edge = edge + *trace_.ground_gap;
            add(edge, ground, "ground");
            add(Millimetres{} - edge - ground, ground, "ground");
            section_.ground = {2, 3};
            edge = edge + ground;
        }
        add_layers(edge + far_enough * across);
        section_.at = trace_.at;
        section_.pairs = {{0, 1, trace_.at}};
        return std::move(section_);
    }

private:
    void add(Millimetres left, Millimetres width, const char* name) {
        SectionConductor conductor;
        conductor.name = name;
        conductor.x = left + 0.5 * width;
        conductor.y = stack_up_.dielectric + 0.5 * stack_up_.copper;
        conductor.width = width;
        conductor.thickness = stack_up_.copper;
        conductor.at = trace_.at;
        section_.conductors.push_back(std::move(conductor));
    }

    void add_layer(Millimetres edge, Millimetres low, Millimetres high, double er, double loss) {
        SectionDielectric layer;
        layer.x_min = Millimetres{} - edge;
        layer.x_max = edge;
        layer.y_min = low;
        layer.y_max = high;
        layer.er = er;
        layer.loss = loss;
        layer.at = stack_up_.at;
        section_.dielectrics.push_back(layer);
    }

    void add_layers(Millimetres edge) {
        add_layer(edge, Millimetres{}, stack_up_.dielectric, stack_up_.er, stack_up_.loss);
        if (stack_up_.plane) section_.planes = {{Millimetres{}, stack_up_.at}};
        if (!stack_up_.mask) return;
        const SolderMask& mask = *stack_up_.mask;
        add_layer(edge, stack_up_.dielectric,
                  stack_up_.dielectric + stack_up_.copper + mask.thickness, mask.er, mask.loss);
    }

    const StackUp& stack_up_;
    const PairTrace& trace_;
    Section section_;
};

Picoseconds along(double seconds_per_metre, Millimetres length) {
    return Picoseconds(1e9 * seconds_per_metre * length.value());
}

}  // namespace

Section trace_section(const StackUp& stack_up, const PairTrace& trace) {
    return TraceSection(stack_up, trace).section();
}

std::optional<TraceLine> trace_line(const Design& design, LineMemory& memory, std::size_t board,
                                    std::size_t net) {
    const Board& where = design.boards[board];
    const std::optional<PairTrace>& trace = where.nets[net].pair_trace;
    if (!where.stack_up || !trace) return std::nullopt;
    const Section section = trace_section(*where.stack_up, *trace);
    return TraceLine{&memory.field_of(section), section.ground};
}

PairImpedance impedance_of(LineMemory& memory, const TraceLine& line) {
    return memory.pair_of(*line.field, line.ground, 0, 1).impedance;
}

Picoseconds trace_delay(LineMemory& memory, const TraceLine& line, Millimetres beside,
                        Millimetres more) {
    const PerMetre single = alone(line);
    const double of_single = std::sqrt(single.inductance(0, 0) * single.capacitance(0, 0));
    return along(impedance_of(memory, line).delay, beside) + along(of_single, more);
}

}  // namespace pinfold
