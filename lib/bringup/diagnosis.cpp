#include "bringup/diagnosis.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace pinfold {
namespace {

constexpr std::size_t most_causes = 12;

std::string joined(const Bench& bench, const std::vector<std::size_t>& faults,
                   std::string Fault::*part) {
    constexpr std::size_t most_told = 6;
    std::vector<std::string> texts;
    for (const std::size_t fault : faults) {
        const std::string& text = bench.faults[fault].*part;
        if (std::ranges::find(texts, text) == texts.end()) texts.push_back(text);
    }
    const std::size_t more = texts.size() > most_told ? texts.size() - most_told : 0;
    texts.resize(texts.size() - more);
    std::string text = fmt::format("{}", fmt::join(texts, "; or "));
    if (more > 0) text += fmt::format("; or {} more like it", more);
    return text;
}

Cause named(const Bench& bench, const Suspect& suspect) {
    if (suspect.faults.empty()) {
        return {"no-fault",
                "",
                "nothing is wrong so far: every reading is that of a sound assembly",
                "measure what is still blank before power is applied",
                0,
                {},
                {}};
    }
    const Fault& one = bench.faults[suspect.faults.front()];
    Cause cause{one.cause,
                one.place,
                joined(bench, suspect.faults, &Fault::text),
                joined(bench, suspect.faults, &Fault::remedy),
                1,
                {},
                {}};
    if (suspect.second.empty()) return cause;
    const Fault& other = bench.faults[suspect.second.front()];
    cause.faults = 2;
    cause.cause += " + " + other.cause;
    cause.place += " + " + other.place;
    cause.text = fmt::format("two faults. One: {}. Two: {}", cause.text,
                             joined(bench, suspect.second, &Fault::text));
    cause.remedy += ". Then: " + joined(bench, suspect.second, &Fault::remedy);
    return cause;
}

/// What a loose contact leaves: no fault of the copper explains it.
Cause cause_of(const Inquiry& inquiry, const Contradiction& contradiction) {
    return {"readings-contradict",
            inquiry.name(contradiction.from),
            contradiction.text,
            "move the ribbon and the plugs gently while you measure again",
            0,
            {},
            contradiction.rows};
}

Cause cause_of(const Inquiry& inquiry, const Suspect& suspect) {
    Cause cause = named(inquiry.bench, suspect);
    for (std::size_t i = 0; i < inquiry.rows(); ++i) {
        (inquiry.agrees(suspect.partition, i) ? cause.explains : cause.contradicts)
            .push_back(inquiry.readings.rows[i].row);
    }
    return cause;
}

/// `open-joint base.plug.4`.
std::string spoken(const Cause& cause) {
    return cause.place.empty() ? cause.cause : fmt::format("{} {}", cause.cause, cause.place);
}

/// After the faults that come nearest; alone where the assembly is sound but for them.
void tell_contradictions(const Inquiry& inquiry, Diagnosis& diagnosis) {
    const std::vector<Contradiction>& some = diagnosis.contradictions;
    if (some.empty()) return;
    if (diagnosis.causes.front().faults == 0) diagnosis.causes.clear();
    std::vector<NextReading> again;
    for (const Contradiction& contradiction : some) {
        diagnosis.causes.push_back(cause_of(inquiry, contradiction));
        again.emplace_back();
        again.back().from = inquiry.name(contradiction.from);
        again.back().to = inquiry.name(contradiction.to);
        again.back().tells_apart = {spoken(diagnosis.causes.back())};
        for (const std::size_t device : contradiction.with) {
            again.back().with +=
                (again.back().with.empty() ? "" : " + ") + inquiry.bench.design.boards[device].name;
        }
    }
    again.resize(std::min(again.size(), most_next));
    diagnosis.next.insert(diagnosis.next.begin(), again.begin(), again.end());
}

}  // namespace

Diagnosis diagnose(const Design& design, const Wiring& wiring, const MeterReadings& readings) {
    Inquiry inquiry(design, wiring, readings);
    Diagnosis diagnosis;
    diagnosis.measured = readings.rows.size();
    diagnosis.blank = readings.blank;
    for (std::size_t i = 0; i < inquiry.rows(); ++i) {
        const bool expected = inquiry.agrees(inquiry.bench.sound(), i);
        if (!expected) diagnosis.unexpected.push_back(readings.rows[i].row);
    }
    if (diagnosis.measured == 0) {
        diagnosis.next = readings_left(inquiry);
        return diagnosis;
    }
    diagnosis.contradictions = contradictions_in(readings, design, wiring);
    const Suspects suspects = suspects_in(inquiry);
    diagnosis.sound = diagnosis.unexpected.empty();
    diagnosis.explained = suspects.explained;
    const std::size_t told = std::min(suspects.all.size(), most_causes);
    diagnosis.more_causes = suspects.all.size() - told;
    std::vector<std::string> names;
    for (std::size_t i = 0; i < told; ++i) {
        diagnosis.causes.push_back(cause_of(inquiry, suspects.all[i]));
        names.push_back(spoken(diagnosis.causes.back()));
    }
    diagnosis.next =
        diagnosis.sound ? readings_left(inquiry) : readings_to_part(inquiry, suspects.all, names);
    tell_contradictions(inquiry, diagnosis);
    return diagnosis;
}

}  // namespace pinfold
