// Why an input is refused: families of names, for what is wrong and what would be right stand in
// the message itself.
#include <algorithm>
#include <array>

#include "check/rules.hpp"

namespace pinfold {
namespace {

constexpr std::string_view file_words = "the file forms that README.md tells";

constexpr Rule refusal(std::string_view name, std::string_view summary, std::string_view why,
                       std::string_view source = file_words) {
    return {name, Severity::error, summary, why, source};
}

constexpr std::array refusals{
    refusal("yaml-", "a file is not the YAML that is read here",
            "Fields twice, unknown fields and odd quotes lose contacts without a word."),
    refusal("file-", "a file is missing, unreadable, too large or of another version",
            "Nothing of it was used."),
    refusal("faults-more", "a file has more faults than are told at a time",
            "Mend the first ones and run again; later ones often follow from them."),
    refusal("text-", "a text holds a control character or is not UTF-8",
            "Terminals obey control characters, and other programs cut the text there."),
    refusal("name-", "a name is unknown or given twice", "What it means would be a guess."),
    refusal("new-", "a new board cannot be made of these file_words", "Nothing was written."),
    refusal("option-word", "an option has a word that it does not know", "Nothing was done."),
    refusal("output-", "the result cannot be written where it is wanted",
            "Files are written whole or not at all; what was there is still there."),
    refusal("rule-unknown", "no rule has this name", "Acceptances of it would accept nothing."),
    refusal("point-unknown", "no contact has this name", "The reading would be of another point."),
    refusal("pinmap-", "a pin map cannot be found", "Without it no contact has a signal."),
    refusal("pinmaps-", "a folder of pin maps cannot be found", "Its pin maps would be missed."),
    refusal("board-", "the design has no such board, or it is a device nobody makes",
            "Only boards that are made have copper to tell of."),
    refusal("port-", "a port is unknown or not of the kind that is wanted here",
            "A port takes a connector, a receptacle for a ribbon, or pads."),
    refusal("contact-", "a contact is unknown, given twice or out of place",
            "One contact off is a short on the bench."),
    refusal("signal-", "a signal is unknown, ambiguous or given twice",
            "A guess would wire one signal in place of another."),
    refusal("supply-", "a supply is given twice or is none", "Nobody could say what feeds it."),
    refusal("pair-", "the halves or the shield of a pair do not go together",
            "Half a pair carries nothing."),
    refusal("interface-", "an interface contradicts itself", "It would promise two things."),
    refusal("limit-order", "the least is more than the most", "No value can keep such a limit."),
    refusal("limit-eye", "an eye is wanted without saying what is sent",
            "It is judged in volts of the least swing."),
    refusal("meter-", "what a meter should show of a device cannot be so",
            "A wrong window would call a good device bad."),
    refusal("device-unknown", "no device has this name", "Nobody knows what was plugged in."),
    refusal("breakout-", "a breakout cannot be drawn of these rows",
            "Its tracks would stand for no board."),
    refusal("permittivity-twice", "a board has a permittivity and a stack-up",
            "Delays follow from one of them alone."),
    refusal("shield-size", "a shield is of a size none has", "Its field would have no meaning."),
    refusal("stack-up-", "traces are described without their layers",
            "Their impedance follows from both."),
    refusal("trace-", "traces are described as none can be made",
            "Their field would have no meaning."),
    refusal("positions-made", "a receptacle is not made with so many positions",
            "The part cannot be bought."),
    refusal("conductors-made", "a ribbon is not made with so many conductors",
            "The ribbon cannot be bought."),
    refusal("copper-like", "boards that are wired like each other go round in a ring",
            "No contact would get a net."),
    refusal("join-", "two things cannot be joined so", "What is joined to what must be plain."),
    refusal("lay-", "the course of a ribbon is missing or cannot be",
            "Whether its copper touches follows from it."),
    refusal("ribbon-", "a ribbon is too long, has too many conductors or no such end",
            "It would not go into its receptacle."),
    refusal("carry-", "a promise cannot be read as one", "A promise of nothing proves nothing."),
    refusal("budget-", "a budget contradicts itself", "Its numbers could not be added up."),
    refusal("order-", "an order cannot be asked for so", "The search would have no question."),
    refusal("section-", "a cross-section cannot be", "Its field would have no meaning."),
    refusal("touchstone-", "a Touchstone file cannot hold this", "It would be read wrongly."),
    refusal("reference-", "a reference is given twice or starts with #",
            "Netlists know parts by their references alone."),
    refusal("shell-name", "a shield pad has the name of a contact, or none",
            "Both would be one pad of the footprint."),
    refusal("netlist-", "a netlist or test file cannot be read as one",
            "A pad lost on the way would be told as a fault of the board, or not at all."),
    refusal("test-columns", "a name or place does not fit the columns of a test file",
            "Cut off, it would name another pad.", "IPC-D-356A, by an application note"),
    refusal("csv-", "a CSV file is not of the usual form", "Cells would move to other columns.",
            "RFC 4180"),
    refusal("pin-list-", "a pin list cannot be read as two columns of contacts",
            "A row that is read wrongly is a wire in the wrong place."),
    refusal("reading-", "a reading cannot be read", "A wrong reading names a wrong cause."),
    refusal("readings-", "readings are none or too many", "They explain nothing, or all."),
    refusal("adopt-", "a netlist cannot be adopted with these file_words",
            "What a part is decides what its pads mean."),
};

}  // namespace

std::span<const Rule> all_refusals() { return refusals; }

const Rule* find_refusal(std::string_view name) {
    const auto found = std::ranges::find_if(refusals, [&](const Rule& family) {
        return family.name == name || (family.name.back() == '-' && name.starts_with(family.name));
    });
    return found == refusals.end() ? nullptr : &*found;
}

}  // namespace pinfold
