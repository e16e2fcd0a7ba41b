#include "design/read_stack_up.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

double er_of(Fields& fields, Findings& findings) {
    constexpr double most = 100.0;
    fields.require("er");
    const double er = fields.plain_number("er").value_or(1.0);
    if (er >= 1.0 && er <= most) return er;
    complain(findings, "trace-size", fmt::format("'er' must be from 1 to {:g}, not {:g}", most, er),
             fields.at("er"));
    return 1.0;
}

double loss_of(Fields& fields, Findings& findings) {
    const double loss = fields.plain_number("loss").value_or(0.0);
    if (loss < 1.0) return loss;
    complain(findings, "trace-size",
             fmt::format("'loss' is a loss tangent, such as 0.02, not {:g}", loss),
             fields.at("loss"));
    return 0.0;
}

std::optional<SolderMask> read_mask(Fields& stack, Findings& findings) {
    const Yaml* yaml = stack.any("mask");
    if (!yaml) return std::nullopt;
    Fields fields(*yaml, findings);
    SolderMask mask;
    mask.thickness = size_of(fields, "thickness", findings);
    mask.er = er_of(fields, findings);
    mask.loss = loss_of(fields, findings);
    fields.done();
    return mask;
}

PairTrace read_pair_trace(const Yaml& yaml, const std::optional<StackUp>& stack_up,
                          Findings& findings) {
    Fields fields(yaml, findings);
    PairTrace trace;
    trace.at = yaml.at;
    trace.width = size_of(fields, "width", findings);
    trace.gap = size_of(fields, "gap", findings);
    if (fields.has("ground-gap")) trace.ground_gap = size_of(fields, "ground-gap", findings);
    fields.done();
    if (stack_up && !stack_up->plane && !trace.ground_gap) {
        complain(findings, "trace-ground",
                 "on a board without a plane a pair needs ground beside it; give 'ground-gap'",
                 yaml.at, {{stack_up->at, "the stack-up says that there is no plane"}});
    }
    return trace;
}

/// The name that the interface of a net has for the pair it is half of; empty if it is none.
const Pair* pair_of(const Design& design, const Net& net) {
    if (!net.signal) return nullptr;
    const Interface& interface = design.interfaces.at(net.interface);
    const Signal& signal = interface.signals[*net.signal];
    if (signal.role != Role::pair_half) return nullptr;
    const Pair& pair = interface.pairs[*signal.pair];
    return pair.kind == PairKind::slow ? nullptr : &pair;
}

}  // namespace

Millimetres size_of(Fields& fields, const std::string& key, Findings& findings) {
    constexpr Millimetres least(0.001), most(20.0);
    const Millimetres size = fields.quantity<Millimetres>(key).value_or(least);
    if (size >= least && size <= most) return size;
    complain(findings, "trace-size",
             fmt::format("'{}' must be from {:g} mm to {:g} mm, not {:g} mm", key, least.value(),
                         most.value(), size.value()),
             fields.at(key));
    return least;
}

std::optional<StackUp> read_stack_up(Fields& board, Findings& findings) {
    const Yaml* yaml = board.any("stack-up");
    if (!yaml) return std::nullopt;
    Fields fields(*yaml, findings);
    StackUp stack;
    stack.at = yaml->at;
    stack.copper = size_of(fields, "copper", findings);
    stack.dielectric = size_of(fields, "dielectric", findings);
    stack.er = er_of(fields, findings);
    stack.loss = loss_of(fields, findings);
    stack.plane = *fields.word_or<bool>("plane", {{"yes", true}, {"no", false}}, true);
    stack.mask = read_mask(fields, findings);
    fields.done();
    if (board.has("permittivity")) {
        complain(findings, "permittivity-twice",
                 "the delay of traces follows from 'stack-up'; leave 'permittivity' out",
                 board.at("permittivity"), {{yaml->at, "the stack-up is here"}});
    }
    return stack;
}

WrittenPairTraces read_pair_traces(Fields& board, const std::optional<StackUp>& stack_up,
                                   Findings& findings) {
    WrittenPairTraces written;
    if (const Yaml* any = board.any("pair-trace")) {
        written.any = read_pair_trace(*any, stack_up, findings);
    }
    for (const Yaml::Entry& entry : board.map("pair-traces")) {
        written.own.push_back(
            {{entry.key, entry.at}, read_pair_trace(entry.value, stack_up, findings)});
    }
    for (const char* key : {"pair-trace", "pair-traces"}) {
        if (stack_up || !board.has(key)) continue;
        complain(
            findings, "stack-up-missing",
            fmt::format("'{}' says nothing without the layers around it; give 'stack-up'", key),
            board.at(key));
    }
    return written;
}

void lay_pair_traces(Board& board, const WrittenPairTraces& written, ReaderDesk& desk) {
    std::map<std::string, std::pair<std::string, std::vector<Net*>>> pairs;  // by plain name
    for (Net& net : board.nets) {
        const Pair* pair = pair_of(desk.design, net);
        if (!pair) continue;
        net.pair_trace = written.any;
        auto& [name, halves] = pairs[plain_name(pair->name)];
        name = pair->name;
        halves.push_back(&net);
    }
    for (const auto& [name, trace] : written.own) {
        const auto pair = pairs.find(plain_name(name.text));
        if (pair != pairs.end()) {
            for (Net* net : pair->second.second) net->pair_trace = trace;
            continue;
        }
        std::vector<std::string> known;
        for (const auto& [plain, any] : pairs) known.push_back(any.first);
        complain(desk.findings, "pair-unknown",
                 fmt::format("no fast pair '{}' on this board{}", name.text,
                             did_you_mean(name.text, known)),
                 name.at);
    }
}

}  // namespace pinfold
