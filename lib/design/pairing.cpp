#include "design/pairing.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "design/read.hpp"
#include "design/words.hpp"

namespace pinfold {
namespace {

class Pairing {
public:
    Pairing(const PairingWords& words, Library& library) : words_(words), library_(library) {}

    Design pair(const std::shared_ptr<const Source>& a, const std::shared_ptr<const Source>& b) {
        const std::string name_a = name_from(*a, "a");
        std::string name_b = name_from(*b, "b");
        if (name_b == name_a) name_b += "-b";
        read(a, name_a);
        read(b, name_b);
        stop_on_faults();
        cut_ribbon();
        seat(0, End::a, words_.port_a, words_.touches_a, "--port-a", "--touches-a");
        seat(1, End::b, words_.port_b, words_.touches_b, "--port-b", "--touches-b");
        stop_on_faults();
        return std::move(design_);
    }

private:
    /// A board is called after its file.
    static std::string name_from(const Source& source, const char* fallback) {
        std::string stem = std::filesystem::path(source.name).stem().string();
        std::ranges::replace(stem, '.', '-');
        return stem.empty() ? fallback : stem;
    }

    void read(const std::shared_ptr<const Source>& source, const std::string& name) {
        try {
            read_board(source, name, design_, library_);
        } catch (const InputError& error) {
            findings_.insert(findings_.end(), error.findings().begin(), error.findings().end());
        }
    }

    void stop_on_faults() {
        if (!findings_.empty()) throw InputError(std::move(findings_));
    }

    void refuse(const char* rule, std::string text) {
        complain(findings_, rule, std::move(text), Mark{});
    }

    /// The meaning of one word of an option; the fallback if nothing is said.
    template <class T>
    T meaning(const char* option, const std::string& word, const Words<T>& words, T fallback) {
        if (word.empty()) return fallback;
        std::vector<std::string> known;
        for (const auto& [name, value] : words) {
            if (name == word) return value;
            known.push_back(name);
        }
        refuse("option-word", fmt::format("{} takes one of: {}; not '{}'{}", option,
                                          fmt::join(known, ", "), word, did_you_mean(word, known)));
        return fallback;
    }

    void cut_ribbon() {
        Ribbon ribbon;
        ribbon.name = "ribbon";
        ribbon.type = words_.ribbon;
        const RibbonType& type = library_.ribbon(words_.ribbon, Mark{});
        design_.ribbon_types.insert_or_assign(type.id, type);
        const std::optional<int> count = parse_whole(words_.conductors);
        if (!count || !type.conductors.holds(*count)) {
            refuse("conductors-made",
                   fmt::format("{} is made with {} to {} conductors, not '{}'", type.id,
                               type.conductors.least, type.conductors.most, words_.conductors));
        } else {
            ribbon.conductors = *count;
        }
        choose_ends(type, ribbon);
        if (!words_.lay.empty() || !words_.face_a.empty() || !words_.face_b.empty()) {
            ribbon.lay = lay();
        }
        design_.ribbons.push_back(std::move(ribbon));
    }

    void choose_ends(const RibbonType& type, Ribbon& ribbon) {
        const bool round = type.kind == RibbonKind::round;
        const std::string& said = round ? words_.sockets : words_.copper;
        if (said.empty()) {
            refuse("option-word", round ? "say --sockets same-edge or opposite-edge"
                                        : "say --copper same-side or opposite-side");
        } else if (round) {
            ribbon.turned_socket = meaning("--sockets", said, socket_words(), false);
        } else {
            ribbon.copper = meaning("--copper", said, copper_words(), Copper::same_side);
        }
    }

    Lay lay() {
        Lay lay;
        for (std::size_t from = 0; from < words_.lay.size();) {
            const std::size_t comma = std::min(words_.lay.find(',', from), words_.lay.size());
            lay.turns.push_back(meaning("--lay", words_.lay.substr(from, comma - from),
                                        turn_words(), Turn::straight));
            from = comma + 1;
        }
        lay.face_a = meaning("--face-a", words_.face_a, level_words(), Facing::up);
        lay.face_b = meaning("--face-b", words_.face_b, facing_words(), Facing::up);
        if (!can_lie(lay)) {
            refuse("lay-on-edge",
                   fmt::format("a ribbon with this lay arrives on edge at a board that faces {}",
                               name_of(lay.face_b)));
        }
        return lay;
    }

    void seat(std::size_t board, End end, const std::string& named, const std::string& touches,
              const char* port_option, const char* touches_option) {
        const std::optional<PortRef> port = port_on(board, named, port_option);
        if (!port) return;
        const Port& there = design_.port(*port);
        const int contacts = static_cast<int>(there.contacts.size());
        if (design_.ribbons.front().conductors > contacts) {
            refuse(
                "ribbon-too-wide",
                fmt::format("the ribbon has {} conductors, but {} has {} contacts",
                            design_.ribbons.front().conductors, name_of(design_, *port), contacts));
            return;
        }
        std::optional<ContactSide> row;
        if (!touches.empty()) {
            row = meaning(touches_option, touches, row_words(), ContactSide::bottom);
            if (there.ribbon->mouth.side != ContactSide::both) {
                refuse("join-touches",
                       fmt::format("{} is for a receptacle with contacts on both sides; {} is "
                                   "not one",
                                   touches_option, name_of(design_, *port)));
            }
        }
        design_.seats.push_back({*port, 0, end, row, there.at});
    }

    /// The named port, or the only one that takes a ribbon.
    std::optional<PortRef> port_on(std::size_t board, const std::string& named,
                                   const char* option) {
        const Board& there = design_.boards[board];
        std::vector<std::string> takers;
        for (const Port& port : there.ports) {
            if (port.ribbon) takers.push_back(port.name);
        }
        const std::string wanted = named.empty() && takers.size() == 1 ? takers[0] : named;
        const auto port = there.find_port(wanted);
        if (port && there.ports[*port].ribbon) return PortRef{board, *port};
        if (takers.empty()) {
            refuse("port-unknown", fmt::format("no port of {} takes a ribbon", there.name));
        } else if (named.empty()) {
            refuse("port-unknown", fmt::format("{} takes ribbons in {}; say {}", there.name,
                                               fmt::join(takers, ", "), option));
        } else {
            refuse("port-unknown",
                   fmt::format("{} has no port '{}' that takes a ribbon{}; those that do: {}",
                               there.name, named, did_you_mean(named, takers),
                               fmt::join(takers, ", ")));
        }
        return std::nullopt;
    }

    const PairingWords& words_;
    Library& library_;
    Design design_;
    Findings findings_;
};

}  // namespace

Design pair_boards(std::shared_ptr<const Source> a, std::shared_ptr<const Source> b,
                   const PairingWords& words, Library& library) {
    return Pairing(words, library).pair(a, b);
}

}  // namespace pinfold
