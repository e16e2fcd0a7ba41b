#include <catch2/catch.hpp>

#include <map>
#include <random>

#include "design/told.hpp"

// A second method for tracing: the generator of a random design also writes down, as pairs of
// names, what it has joined; a naive union of sets of strings says what hangs together.
namespace pinfold {
namespace {

class Sets {
public:
    const std::string& root(const std::string& name) {
        const auto parent = parent_.try_emplace(name, name).first;
        return parent->second == name ? parent->first : root(parent->second);
    }
    void join(const std::string& one, const std::string& other) {
        const std::string from = root(one);
        parent_[from] = root(other);
    }
    bool joined(const std::string& one, const std::string& other) {
        return root(one) == root(other);
    }

private:
    std::map<std::string, std::string> parent_;
};

/// Writes one design as text and its joins as sets, side by side.
class Generator {
public:
    explicit Generator(unsigned seed) : chance_(seed) {}

    std::string text;
    Sets sets;

    void run() {
        text = "pinfold: 1\ntitle: generated\ndevices:\n";
        for (int d = 0; d < 3; ++d) {
            text += fmt::format(
                "  d{}: {{ports: {{u: usb2-a receptacle, "
                "x: {{pads: [A, B, GND, open, 5V]}}}}}}\n",
                d);
        }
        text += "boards:\n";
        for (int b = 0; b < 3; ++b) board(b);
        text += "ribbons:\n";
        ribbons();
        text += "joins:\n" + joins_;
        for (int b = 0; b < 3; ++b) {
            text += fmt::format("- b{}.plug + d{}.u\n", b, b);
            for (int k = 1; k <= 4; ++k) {
                sets.join(fmt::format("b{}.plug.{}", b, k), fmt::format("d{}.u.{}", b, k));
            }
        }
        text += "leads:\n";
        for (int i = 0; i < 4; ++i) lead(i);
    }

private:
    int below(int count) { return static_cast<int>(chance_() % static_cast<unsigned>(count)); }

    struct Tail {
        std::string name;
        std::string side;  ///< top, bottom or vertical
        bool left = true;
        int positions = 6;
    };

    void board(int b) {
        const std::string board = fmt::format("b{}", b);
        // The plug is wired by its table: Standard-A is VBUS, D-, D+, GND.
        const char* const table[] = {"VBUS", "D-", "D+", "ground"};
        for (int k = 0; k < 4; ++k) {
            sets.join(fmt::format("{}.plug.{}", board, k + 1), board + ":" + table[k]);
        }
        text += "  " + board + ":\n    ports:\n      plug: usb2-a plug\n";
        for (int t = 0; t < 2; ++t) {
            const char* const sides[] = {"top", "bottom", "vertical"};
            tails_.push_back(
                {fmt::format("{}.t{}", board, t), sides[below(3)], below(2) == 0, 4 + below(4)});
            const Tail& tail = tails_.back();
            text += fmt::format(
                "      t{}: {{receptacle: ffc-0.50-{}, positions: {}, "
                "first-contact: {}, wired: [",
                t, tail.side, tail.positions, tail.left ? "left" : "right");
            for (int k = 1; k <= tail.positions; ++k) {
                text += (k > 1 ? ", " : "") + entry(board, fmt::format("{}.{}", tail.name, k));
            }
            text += "]}\n";
        }
        // Every name of the board's own stands on these pads too, so that none stands alone.
        text += "      own: {pads: [n0, n_1, \"N 2\", open, N0, n1, n_2]}\n";
        for (int k = 0; k < 3; ++k) {
            sets.join(fmt::format("{}.own.{}", board, k + 1), fmt::format("{}:own{}", board, k));
            sets.join(fmt::format("{}.own.{}", board, k + 5), fmt::format("{}:own{}", board, k));
        }
    }

    /// One entry of a list, in one of its spellings, and what it joins the contact to.
    std::string entry(const std::string& board, const std::string& contact) {
        const auto is = [&](const std::string& net, const char* spelling) {
            sets.join(contact, board + ":" + net);
            return std::string(spelling);
        };
        switch (below(14)) {
            case 0: return is("VBUS", "VBUS");
            case 1: return is("VBUS", "+5V");
            case 2: return is("D-", "D\xE2\x88\x92");
            case 3: return is("D+", "USB_D_P");
            case 4: return is("ground", "GND");
            case 5: return is("ground", "vss");
            case 6: return is("own0", "N0");
            case 7: return is("own1", "n1");
            case 8: return is("own2", "n2");
            case 9: return is("D-", "plug.2");
            case 10: return is("D+", "plug.D+");
            case 11: {
                const int k = 1 + below(4);
                sets.join(contact, fmt::format("{}.t0.{}", board, k));
                return fmt::format("t0.{}", k);
            }
            case 12: {
                sets.join(contact, fmt::format("{}.own.4", board));
                return "own.4";
            }
            default: return "open";
        }
    }

    void ribbons() {
        for (int r = 0; r < 3; ++r) {
            const Tail& a = tails_[static_cast<std::size_t>(r * 2)];
            const Tail& b = tails_[static_cast<std::size_t>((r * 2 + 3) % 6)];
            const int conductors = 4 + below(std::min(a.positions, b.positions) - 3);
            const bool same = below(2) == 0;
            const int lay = below(4);
            const char* const lays[] = {"", ", lay: [straight]", ", lay: [fold-left]",
                                        ", lay: [straight], faces: {a: up, b: down}"};
            text += fmt::format(
                "  r{}: {{type: ffc-0.50, conductors: {}, length: 50 mm, copper: {}{}}}\n", r,
                conductors, same ? "same-side" : "opposite-side", lays[lay]);
            joins_ += fmt::format("- {} + r{}.a\n- r{}.b + {}\n", a.name, r, r, b.name);
            for (int k = 1; k <= conductors; ++k)
                ribbon(a, b, fmt::format("r{}", r), conductors, k, same, lay);
        }
    }

    /// By the two rules as tables: equal hands and same-side copper mirror the row; a flat ribbon
    /// between boards that both face up wants same-side copper for equal contact sides, and each
    /// fold or board turned over wants the other.
    void ribbon(const Tail& a, const Tail& b, const std::string& name, int conductors, int k,
                bool same, int lay) {
        const bool a_is_top = a.side == "top";
        const bool b_is_top = b.side == "top";
        const bool equal_hands = (a.left == b.left) == (a_is_top == b_is_top);
        const bool mirrored = equal_hands == same;
        const bool wants_same = (a_is_top == b_is_top) == (lay == 1);
        const std::string at_a = fmt::format("{}.a.{}", name, k);
        const std::string at_b = fmt::format("{}.b.{}", name, k);
        sets.join(at_a, at_b);
        sets.join(at_a, fmt::format("{}.{}", a.name, k));
        if (lay != 0 && wants_same != same) return;  // the copper faces away at end b
        sets.join(at_b, fmt::format("{}.{}", b.name, mirrored ? conductors + 1 - k : k));
    }

    void lead(int i) {
        const std::string from = fmt::format("d{}.x.{}", below(3), 1 + below(5));
        const std::string to = fmt::format("b{}.own.{}", below(3), 1 + below(7));
        text +=
            fmt::format("  w{}: {{from: {}, to: {}, gauge: AWG 28, length: 5 cm}}\n", i, from, to);
        sets.join(from, to);
    }

    std::mt19937 chance_;  // the same numbers on every machine: fixed by the standard
    std::vector<Tail> tails_;
    std::string joins_;
};

}  // namespace

TEST_CASE("generated designs hang together as their generator joined them") {
    Library library = shipped_library();
    std::size_t joined = 0;
    for (unsigned seed = 0; seed < 300; ++seed) {
        Generator made(seed);
        made.run();
        const Design design = read_design(text_source(made.text), {}, library);
        const Wiring wiring = trace(design);
        std::vector<Point> points;
        std::vector<std::string> names;
        for (Point point = 0; point < wiring.points(); ++point) {
            if (wiring.name_of(point, design).empty()) continue;
            points.push_back(point);
            names.push_back(wiring.name_of(point, design));
        }
        // The same partition of the points by both methods, compared by each point's first
        // companion.
        std::map<std::uint32_t, std::size_t> first_of_piece;
        std::map<std::string, std::size_t> first_of_set;
        bool alike = true;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const std::size_t by_piece =
                first_of_piece.try_emplace(wiring.piece_of(points[i]), i).first->second;
            const std::size_t by_set =
                first_of_set.try_emplace(made.sets.root(names[i]), i).first->second;
            if (by_piece != by_set) {
                alike = false;
                UNSCOPED_INFO(names[i] << " hangs with " << names[by_piece] << ", not with "
                                       << names[by_set]);
                break;
            }
            if (by_piece != i) ++joined;
        }
        if (!alike) UNSCOPED_INFO(made.text);
        CAPTURE(seed);
        REQUIRE(alike);
    }
    CHECK(joined > 10'000);
}

}  // namespace pinfold
