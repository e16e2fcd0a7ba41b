#include "check/board_traces.hpp"

#include <algorithm>
#include <cmath>

#include "physics/field.hpp"

namespace pinfold {
namespace {

/// How far layers, and the ground copper beside a pair, go on: so many times the size of what lies
/// between. Twice as far changes impedances by less than a thousandth.
constexpr double far = 8.0;

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
            const Millimetres ground = far * (across + *trace_.ground_gap);
            edge = edge + *trace_.ground_gap;
            add(edge, ground, "ground");
            add(Millimetres{} - edge - ground, ground, "ground");
            section_.ground = {2, 3};
            edge = edge + ground;
        }
        add_layers(edge + far * across);
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

/// One of the two traces where the other carries no current.
PerMetre alone(const PerMetre& pair) {
    const auto first = [](const Eigen::MatrixXd& matrix) {
        return Eigen::MatrixXd(matrix.topLeftCorner(1, 1));
    };
    const auto floating = [](const Eigen::MatrixXd& matrix) {
        return Eigen::MatrixXd::Constant(1, 1, 1.0 / matrix.inverse()(0, 0));
    };
    PerMetre single{
        floating(pair.capacitance), floating(pair.capacitance_vacuum), {}, first(pair.inductance),
        first(pair.recession),      first(pair.resistance_dc)};
    const double share = pair.capacitance_loss(0, 0) / pair.capacitance(0, 0);
    single.capacitance_loss = share * single.capacitance;
    return single;
}

SolvedTraces solved(const Section& section) {
    const FieldSolution field = solve_field(section);
    SolvedTraces traces;
    traces.pair = per_metre(field, section.ground);
    traces.impedance = pair_impedance(traces.pair, 0, 1);
    traces.single = alone(traces.pair);
    traces.single_delay =
        std::sqrt(traces.single.inductance(0, 0) * traces.single.capacitance(0, 0));
    traces.error_estimate = field.error_estimate;
    return traces;
}

Picoseconds along(double seconds_per_metre, Millimetres length) {
    return Picoseconds(1e9 * seconds_per_metre * length.value());
}

}  // namespace

Section trace_section(const StackUp& stack_up, const PairTrace& trace) {
    return TraceSection(stack_up, trace).section();
}

const SolvedTraces* BoardTraces::of(std::size_t board, std::size_t net) {
    const Board& where = design_.boards[board];
    const std::optional<PairTrace>& trace = where.nets[net].pair_trace;
    if (!where.stack_up || !trace) return nullptr;
    const std::array<double, 4> key{static_cast<double>(board), trace->width.value(),
                                    trace->gap.value(),
                                    trace->ground_gap.value_or(Millimetres{}).value()};
    const auto [at, is_new] = solved_.try_emplace(key);
    if (is_new) at->second = solved(trace_section(*where.stack_up, *trace));
    return &at->second;
}

Picoseconds BoardTraces::delay(const SolvedTraces& traces, Millimetres length,
                               std::optional<Millimetres> other) const {
    const Millimetres beside = std::min(length, other.value_or(length));
    return along(traces.impedance.delay, beside) + along(traces.single_delay, length - beside);
}

}  // namespace pinfold
