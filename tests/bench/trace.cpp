// How fast designs are traced, checked and read: contacts per second and growth.
//
//     trace                        times every assembly from 10^3 to 10^6 contacts
//     trace --edges FILE CONTACTS  writes one assembly as a graph, and times its tracing
#include <fmt/format.h>
#include <fmt/os.h>

#include <algorithm>
#include <cstdio>

#include "assembly.hpp"
#include "check/check.hpp"
#include "timing.hpp"

namespace pinfold::bench {
namespace {

std::size_t runs_for(std::size_t contacts) { return contacts < 300'000 ? 7 : 5; }

std::size_t good_passes(const Wiring& wiring) {
    return static_cast<std::size_t>(std::ranges::count(wiring.passes(), State::good, &Pass::state));
}

/// The promises of a generated design are kept or not as its kind says, or the generator is wrong.
void require_arrivals(const Design& design, bool is_whole) {
    const Wiring wiring = trace(design);
    const bool all_arrive = good_passes(wiring) == wiring.passes().size();
    if (!wiring.passes().empty() && all_arrive == is_whole) return;
    fmt::print(stderr, "trace: the generated design is not wired as it should be\n");
    std::exit(1);
}

/// One kind of assembly, how many contacts a unit of it has, and whether all its signals arrive.
struct Kind {
    const char* name;
    Design (*make)(std::size_t units, Library& library);
    std::size_t contacts_per_unit;
    bool is_whole = true;
};
constexpr Kind kinds[] = {{"links apart", links_apart, 116},
                          {"links on one board, one ground", links_on_one_board, 116},
                          {"links in a row", links_in_a_row, 40},
                          {"links apart, a pair swapped in each", links_with_faults, 116, false}};
constexpr std::size_t sizes[] = {1'000, 10'000, 100'000, 1'000'000};

Design assembly(const Kind& kind, std::size_t contacts, Library& library) {
    return kind.make(std::max<std::size_t>(1, contacts / kind.contacts_per_unit), library);
}

/// What one size took, to tell the growth to the next: 1 is linear.
struct Row {
    double contacts = 0.0;
    double trace_seconds = 0.0;
    double check_seconds = 0.0;
};

void time_kind(const Kind& kind, Library& library) {
    fmt::print("\n{}\n{:>10} {:>12} {:>14} {:>8} {:>12} {:>14} {:>8}\n", kind.name, "contacts",
               "trace [s]", "contacts/s", "growth", "check [s]", "contacts/s", "growth");
    Row before;
    for (const std::size_t size : sizes) {
        const Design design = assembly(kind, size, library);
        require_arrivals(design, kind.is_whole);
        const std::size_t contacts = contacts_of(design);
        const std::size_t runs = runs_for(contacts);
        const Row row{static_cast<double>(contacts), fastest(runs, [&] { trace(design); }),
                      fastest(runs, [&] { check_design(design); })};
        fmt::print("{:>10} {:>12.6f} {:>14.0f} {:>8} {:>12.6f} {:>14.0f} {:>8}\n", contacts,
                   row.trace_seconds, row.contacts / row.trace_seconds,
                   growth(row.contacts, row.trace_seconds, before.contacts, before.trace_seconds),
                   row.check_seconds, row.contacts / row.check_seconds,
                   growth(row.contacts, row.check_seconds, before.contacts, before.check_seconds));
        std::fflush(stdout);
        before = row;
    }
}

/// The most links that a file may hold: files are bounded in bytes and in values.
std::size_t most_links(Library& library) {
    const double bytes_per_link = static_cast<double>(design_text(1000, false).size()) / 1000.0;
    auto links =
        static_cast<std::size_t>(static_cast<double>(largest_input_bytes) / bytes_per_link);
    for (;; links -= links / 20) {
        try {
            read_design(design_source(links, false), {}, library);
            return links;
        } catch (const InputError&) {  // too large still
        }
    }
}

/// Reading, up to the largest file that is read at all.
void time_reading(Library& library) {
    fmt::print("\nreading a design file\n{:>10} {:>10} {:>12} {:>14} {:>8}\n", "contacts", "bytes",
               "read [s]", "contacts/s", "growth");
    const std::size_t most = most_links(library);
    double contacts_before = 0.0;
    double seconds_before = 0.0;
    for (const std::size_t links : {most / 1000, most / 100, most / 10, most}) {
        const auto source = design_source(links, false);
        const auto contacts = static_cast<double>(contacts_of(read_design(source, {}, library)));
        const double seconds =
            fastest(links < most ? 5 : 2, [&] { read_design(source, {}, library); });
        fmt::print("{:>10.0f} {:>10} {:>12.6f} {:>14.0f} {:>8}\n", contacts, source->text.size(),
                   seconds, contacts / seconds,
                   growth(contacts, seconds, contacts_before, seconds_before));
        contacts_before = contacts;
        seconds_before = seconds;
    }
}

/// The graph as text: `points N`, one `edge A B` per link, one `promise A B` per promised signal;
/// on stdout how long we take, and the answers for the other program to agree with.
void write_edges(const char* file, std::size_t contacts, Library& library) {
    const Design design = assembly(kinds[0], contacts, library);
    const Wiring wiring = trace(design);
    auto out = fmt::output_file(file);
    out.print("points {}\n", wiring.points());
    for (const Link& link : wiring.links()) out.print("edge {} {}\n", link.one, link.other);
    for (const Pass& pass : wiring.passes()) {
        out.print("promise {} {}\n", wiring.point_of(pass.from), wiring.point_of(pass.to));
    }
    const double seconds = fastest(runs_for(contacts), [&] { trace(design); });
    fmt::print("contacts {} pieces {} arrived {} seconds {:.6f}\n", contacts_of(design),
               wiring.pieces(), good_passes(wiring), seconds);
}

}  // namespace
}  // namespace pinfold::bench

int main(int argc, char** argv) {
    using namespace pinfold;
    const std::vector<std::string> words(argv + 1, argv + argc);
    Library library({std::filesystem::path(PINFOLD_ROOT) / "pinmaps"});
    if (words.size() == 3 && words[0] == "--edges") {
        bench::write_edges(words[1].c_str(), std::stoul(words[2]), library);
    } else if (words.empty()) {
        for (const bench::Kind& kind : bench::kinds) bench::time_kind(kind, library);
        bench::time_reading(library);
    } else {
        fmt::print(stderr, "usage: trace [--edges FILE CONTACTS]\n");
        return 2;
    }
    return 0;
}
