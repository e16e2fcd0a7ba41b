// Measures how long a ribbon of so many conductors takes over 1000 frequencies, as a channel walks
// it: bench_line [20]. Processor times, the least of some runs.
#include <fmt/format.h>

#include <cstdlib>

#include "bench/timing.hpp"
#include "physics/field.hpp"
#include "physics/line.hpp"

int main(int argc, char** argv) {
    using namespace pinfold;
    const int count = argc > 1 ? std::atoi(argv[1]) : 20;
    if (count < 3 || count > 200) return 2;
    Section section;
    for (int i = 0; i < count; ++i) {
        section.conductors.push_back({fmt::format("{}", i),
                                      Millimetres(0.5 * i),
                                      {},
                                      Millimetres(0.3),
                                      Millimetres(0.035),
                                      {},
                                      {}});
    }
    const PerMetre line = per_metre(solve_field(section), {0});
    LineEnd end{std::vector<Ending>(static_cast<std::size_t>(count - 1), Ending::port),
                {Ohms(0.05), Henries(1e-9)},
                true};
    const EndedLine ended{line, Millimetres(120.0), end, end};
    const MetalLoss metal(line);
    double sum = 0.0;
    const double all = bench::fastest(5, [&] {
        for (int k = 1; k <= 1000; ++k) {
            const Hertz f(k * 6e6);
            sum += std::abs(scattering(immittance_at(line, metal, f), ended, f)(0, 0));
        }
    });
    const double losses = bench::fastest(5, [&] {
        for (int k = 1; k <= 1000; ++k) {
            sum += immittance_at(line, metal, Hertz(k * 6e6)).series(0, 0).real();
        }
    });
    fmt::print(
        "{} conductors, 120 mm, 1000 frequencies to 6 GHz: {:.0f} ms, of that the loss {:.0f} "
        "ms ({:g})\n",
        count, 1e3 * all, 1e3 * losses, sum);
}
