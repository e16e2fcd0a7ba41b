// One fault planted at a time in each clean example: none may pass as clean.
#include <catch2/catch.hpp>
#include <functional>
#include <iostream>
#include <map>
#include <set>

#include "check/bench.hpp"
#include "check/line_memory.hpp"
#include "design/read.hpp"

namespace pinfold {
namespace {

Design example(const std::string& folder) {
    Library library = shipped_library();
    return read_design(repository() / "examples" / folder / "design.yaml", library);
}

/// A fault, and why it need not be an error; empty if it must be one.
struct Planted {
    std::string what;
    Design design;
    std::string excuse;
};

struct Told {
    std::map<std::size_t, int> by_errors;
    int excused = 0;
};

const Net* net_at(const Design& design, PortRef port, std::size_t contact) {
    const auto net = design.port(port).contacts[contact].net;
    return net ? &design.boards[port.board].nets[*net] : nullptr;
}

/// What a net is to a link that loses it: nothing more than a guard, or a signal it can spare.
bool can_be_spared(const Design& design, const Net* net) {
    if (!net || net->ground) return true;
    const auto interface = design.interfaces.find(net->interface);
    return net->signal && interface != design.interfaces.end() &&
           interface->second.signals[*net->signal].optional;
}

void swap_copper(Port& port, std::size_t one, std::size_t other) {
    std::swap(port.contacts[one].net, port.contacts[other].net);
    std::swap(port.contacts[one].name, port.contacts[other].name);
}

class Planter {
public:
    explicit Planter(std::string folder) : folder_(std::move(folder)), good_(example(folder_)) {}

    std::vector<Planted> all() {
        for (std::size_t b = 0; b < good_.boards.size(); ++b) {
            if (good_.boards[b].is_device) continue;
            for (std::size_t p = 0; p < good_.boards[b].ports.size(); ++p) spoil_list({b, p});
        }
        for (std::size_t r = 0; r < good_.ribbons.size(); ++r) spoil_ribbon(r);
        return std::move(planted_);
    }

private:
    void add(const std::string& what, const std::function<void(Design&)>& spoil,
             std::string excuse = {}) {
        Design copy = good_;
        spoil(copy);
        planted_.push_back({folder_ + ": " + what, std::move(copy), std::move(excuse)});
    }

    void spoil_list(PortRef at) {
        const std::string name = name_of(good_, at);
        const std::size_t count = good_.port(at).contacts.size();
        const auto port = [at](Design& copy) -> Port& {
            Port& spoilt = copy.boards[at.board].ports[at.port];
            spoilt.by_table = false;  // a list that was written out, with a slip in it
            return spoilt;
        };
        for (std::size_t i = 0; i < count; ++i) {
            open_contact(at, i, name, port);
            // Every two contacts of the first example's first board, neighbours elsewhere.
            const bool all = folder_ == "lid-link" && at.board == first_board();
            for (std::size_t k = i + 1; k < (all ? count : std::min(i + 2, count)); ++k) {
                swap_contacts(at, i, k, name, port);
            }
        }
        add("reverse " + name, [&](Design& copy) {
            for (std::size_t i = 0; i < count / 2; ++i) swap_copper(port(copy), i, count - 1 - i);
        });
        add("shift " + name + " up", [&](Design& copy) {
            for (std::size_t i = count - 1; i > 0; --i) swap_copper(port(copy), i, i - 1);
            port(copy).contacts[0].net.reset();
        });
        add("shift " + name + " down", [&](Design& copy) {
            for (std::size_t i = 0; i + 1 < count; ++i) swap_copper(port(copy), i, i + 1);
            port(copy).contacts[count - 1].net.reset();
        });
        exchange_pairs(at, name, port);
    }

    /// Whether a contact's net joins it to nothing, such as a supply that is never carried.
    bool is_alone(PortRef at, std::size_t contact) const {
        int same = 0;
        for (const Port& port : good_.boards[at.board].ports) {
            for (const PortContact& other : port.contacts) {
                same += other.net == good_.port(at).contacts[contact].net ? 1 : 0;
            }
        }
        return same == 1;
    }

    template <class PortIn>
    void open_contact(PortRef at, std::size_t i, const std::string& name, const PortIn& port) {
        const Net* net = net_at(good_, at, i);
        if (!net || is_alone(at, i)) return;
        add(
            fmt::format("open {}.{} ({})", name, good_.port(at).contacts[i].label, net->name),
            [&](Design& copy) {
                port(copy).contacts[i].net.reset();
                port(copy).contacts[i].name.clear();
            },
            can_be_spared(good_, net) ? "a guard or a signal the link can do without" : "");
    }

    template <class PortIn>
    void swap_contacts(PortRef at, std::size_t i, std::size_t k, const std::string& name,
                       const PortIn& port) {
        const Net* one = net_at(good_, at, i);
        const Net* other = net_at(good_, at, k);
        if (one == other) return;  // the same copper: nothing has changed
        const bool open = !one || !other || is_alone(at, i) || is_alone(at, k);
        const bool spare = open && can_be_spared(good_, one) && can_be_spared(good_, other);
        add(
            fmt::format("swap {}.{} and {}", name, i + 1, k + 1),
            [&](Design& copy) { swap_copper(port(copy), i, k); },
            spare ? "a guard or a signal the link can do without has gone to an open contact" : "");
    }

    template <class PortIn>
    void exchange_pairs(PortRef at, const std::string& name, const PortIn& port) {
        std::map<std::size_t, std::vector<std::size_t>> pairs;
        for (std::size_t i = 0; i < good_.port(at).contacts.size(); ++i) {
            const Net* net = net_at(good_, at, i);
            if (!net || !net->signal) continue;
            const auto& signal = good_.interfaces.at(net->interface).signals[*net->signal];
            if (signal.role == Role::pair_half) pairs[*signal.pair].push_back(i);
        }
        for (auto one = pairs.begin(); one != pairs.end(); ++one) {
            for (auto other = std::next(one); other != pairs.end(); ++other) {
                if (one->second.size() != 2 || other->second.size() != 2) continue;
                add(fmt::format("exchange pairs on {}", name), [&](Design& copy) {
                    swap_copper(port(copy), one->second[0], other->second[0]);
                    swap_copper(port(copy), one->second[1], other->second[1]);
                });
            }
        }
    }

    void spoil_ribbon(std::size_t r) {
        add("flip copper", [r](Design& copy) {
            Copper& copper = copy.ribbons[r].copper;
            copper = copper == Copper::same_side ? Copper::opposite_side : Copper::same_side;
        });
        if (good_.ribbons[r].lay) {
            add("twist",
                [r](Design& copy) { copy.ribbons[r].lay->turns.push_back(Turn::half_twist); });
        }
        add("narrow", [r](Design& copy) { --copy.ribbons[r].conductors; });
        add("another pitch", [r](Design& copy) {
            copy.ribbon_types.at(copy.ribbons[r].type).pitch = Millimetres(0.8);
        });
        for (const std::size_t seat : {0u, 1u}) {
            add("unjoin", [r, seat](Design& copy) {
                const RibbonEnds ends = ribbon_ends(copy)[r];
                copy.seats.erase(copy.seats.begin() +
                                 static_cast<std::ptrdiff_t>(seat == 0 ? *ends.a : *ends.b));
            });
        }
    }

    std::size_t first_board() const {
        std::size_t b = 0;
        while (good_.boards[b].is_device) ++b;
        return b;
    }

    std::string folder_;
    Design good_;
    std::vector<Planted> planted_;
};

Told sweep(const std::string& folder) {
    Told told;
    LineMemory memory;
    for (const Planted& planted : Planter(folder).all()) {
        INFO(planted.what);
        const Verdict verdict = check_design(planted.design, memory);
        // One rule at both ends of a ribbon is one thing told.
        const Texts rules = errors_of(verdict);
        const std::size_t errors = std::set<std::string>(rules.begin(), rules.end()).size();
        ++told.by_errors[errors];
        if (errors > 0) continue;
        ++told.excused;
        CHECK(planted.excuse != "");
        CHECK_FALSE(verdict.findings.empty());  // it is told all the same, as a warning or a note
    }
    return told;
}

}  // namespace

// What must be found follows from what was planted; that lost guards and spare signals are no
// errors: common practice.
TEST_CASE("no fault planted in a clean example passes as clean") {
    const std::string folder = GENERATE("lid-link", "kiln-display", "mast-camera", "lid-supply");
    CAPTURE(folder);
    const Told told = sweep(folder);
    int all = 0;
    std::string counts;
    for (const auto& [errors, times] : told.by_errors) {
        all += times;
        counts += fmt::format("{} told as {} errors, ", times, errors);
    }
    std::cout << folder << ": " << all << " faults planted, " << counts << told.excused
              << " of them harmless\n";
    CHECK(all >= 90);
    CHECK(told.by_errors.contains(1));
    CHECK(told.by_errors.at(1) * 20 >= 19 * (all - told.excused));
}

}  // namespace pinfold
