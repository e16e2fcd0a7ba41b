// Pad words: how pads, nets and ports of a comparison are named, and findings about them begun.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "check/pad_table.hpp"

namespace pinfold {

/// More pads than these are not read in a sentence.
constexpr std::size_t most_pads_told = 6;

/// What a comparison is told from; all of it outlives the words.
struct Compared {
    const Design& design;
    const Board& board;
    const Netlist& meant;
    const Netlist& drawn;
    const std::vector<PortMatch>& ports;
    const std::vector<ComparedPad>& pads;
};

/// Names things as the netlist calls them, and puts the places of both files to them.
class PadWords {
public:
    using Places = std::vector<std::size_t>;

    explicit PadWords(const Compared& compared);

    const Compared& compared() const { return compared_; }

    std::string name_of(std::size_t pad) const;        ///< `J1.7`
    std::string names_of(const Places& pads) const;    ///< `J1.7, J1.8, 4 more`
    std::string name_of_port(std::size_t port) const;  ///< `J1 (plug)`
    std::string net_of(std::size_t pad) const;         ///< `net 'SDA'` of the board file
    const Net* board_net(std::size_t pad) const;       ///< null for a pad that is to stay open
    bool lies_on_ground(std::size_t pad) const;        ///< by the board file

    /// A finding with a note for where each pad is drawn and where the board file has it.
    Finding about_pads(const char* rule, std::string text, const Places& pads) const;
    /// A finding at the part of the netlist, with a note at the port of the board file.
    Finding about_port(const char* rule, std::string text, std::size_t port) const;
    /// Where the netlist has the part of a port; nowhere if no part was found.
    Mark part_at(std::size_t port) const;
    /// Names a port of the board in a finding, once.
    void add_place(Finding& finding, std::size_t port) const;

private:
    Compared compared_;
    std::unordered_map<std::string_view, const Net*> nets_;  ///< of the board file, by name
    std::unordered_map<std::string_view, const Netlist::Component*> parts_;
};

}  // namespace pinfold
