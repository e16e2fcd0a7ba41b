// Measures how long a ribbon of so many conductors takes over so many frequencies: bench_line [20]
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>

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
    const auto seconds = [](auto from) {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
    };
    auto start = std::chrono::steady_clock::now();
    const PerMetre line = per_metre(solve_field(section), {0});
    fmt::print("field of {} conductors: {:.1f} ms\n", count, 1e3 * seconds(start));
    LineEnd end{std::vector<Ending>(static_cast<std::size_t>(count - 1), Ending::port),
                {Ohms(0.05), Henries(1e-9)},
                true};
    const EndedLine ended{line, Millimetres(120.0), end, end};
    double sum = 0.0;
    start = std::chrono::steady_clock::now();
    for (int k = 1; k <= 1000; ++k) sum += std::abs(scattering(ended, Hertz(k * 6e6))(0, 0));
    fmt::print("1000 frequencies to 6 GHz: {:.0f} ms ({:g})\n", 1e3 * seconds(start), sum);
    start = std::chrono::steady_clock::now();
    for (int k = 1; k <= 1000; ++k) sum += immittance_at(line, Hertz(k * 6e6)).series(0, 0).real();
    fmt::print("of that the loss matrices: {:.0f} ms ({:g})\n", 1e3 * seconds(start), sum);
}
