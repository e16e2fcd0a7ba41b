#include "check/rules.hpp"

#include <algorithm>
#include <array>

namespace pinfold {
namespace {

constexpr std::string_view practice = "common practice";
constexpr std::string_view geometry =
    "geometry: the ribbon's course is a proper rotation, so only the parts and the copper decide";

constexpr std::array rules{
    // How the ribbon and the plugs sit.
    Rule{"gender-misfit", Severity::error, "two parts that are joined cannot go into each other",
         "A plug needs its receptacle, a ribbon needs a receptacle for ribbons.", practice},
    Rule{"body-misfit", Severity::error, "a plug is joined to a receptacle of another body",
         "Connectors of one interface come in several sizes; only one fits.", practice},
    Rule{"pitch-misfit", Severity::error, "the ribbon and the receptacle have different pitches",
         "Conductors land between contacts: opens and shorts all along the row.", practice},
    Rule{"positions-misfit", Severity::error,
         "the ribbon has fewer conductors than the receptacle has contacts",
         "A narrow ribbon can be put in one or more places off, and nothing stops it.", practice},
    Rule{"end-thickness-misfit", Severity::warning,
         "the ribbon's stiffened end is thicker or thinner than the receptacle takes",
         "A thin end makes poor contact, a thick one breaks the actuator.",
         "receptacle catalogues give the range; the shipped values carry their own source"},
    Rule{"ribbon-loose", Severity::warning, "a ribbon end is joined to nothing",
         "A loose end is either forgotten or a short waiting to happen.", practice},
    Rule{"copper-away", Severity::error, "the ribbon's copper faces the plastic, not the contacts",
         "Every conductor is open at that end, though the ribbon is in and latched.", geometry},
    Rule{"lay-unknown", Severity::note,
         "the design does not say how the ribbon runs, so touching is not proved",
         "Order follows from the parts alone, but whether the copper touches depends on how the "
         "boards lie.",
         geometry},
    Rule{"either-way-up", Severity::warning,
         "a receptacle with contacts on both sides leaves the order to whoever inserts the ribbon",
         "Put in the other way up, the ribbon still makes contact, in mirrored order.", geometry},
    Rule{"order-open", Severity::error, "the order of a ribbon is left open",
         "Nothing can be traced until the order is chosen: run pinfold order.", practice},
    // What is promised.
    Rule{"end-misfit", Severity::error,
         "a promise starts or ends at the wrong end of its interface",
         "Two sources joined, or two hosts, never work, and both may feed the same supply.",
         practice},
    Rule{"promise-empty", Severity::error, "a promise promises nothing",
         "A check of no signals is no proof.", practice},
    Rule{"not-promised", Severity::note,
         "signals of the near port are not promised, since the far port lacks them",
         "They were not checked; say so in 'leave-out' if that is meant.", practice},
    // What became of the promises; simple causes first.
    Rule{"order-mirrored", Severity::error,
         "a ribbon brings its signals in the reverse of the order its boards expect",
         "Contact 1 meets the last contact: supplies land on signals and grounds.", geometry},
    Rule{"order-shifted", Severity::error, "a ribbon's signals arrive one place off",
         "Every signal meets its neighbour's contact, a supply may meet a ground.", practice},
    Rule{"connector-order", Severity::error,
         "a connector is wired in the contact order of another connector of its interface",
         "HDMI A, C and D, and the two ends of DisplayPort, number the same signals differently.",
         "HDMI Specification 1.4, Type A, C and D pin assignments; DisplayPort pin assignments"},
    Rule{"rows-exchanged", Severity::error, "the two rows of a connector are exchanged",
         "A header moved to the other side of the board exchanges odd and even contacts.",
         practice},
    Rule{"counterpart-uncrossed", Severity::error,
         "two ends are wired name to name where the interface wants them crossed",
         "Transmit must meet receive; wired to transmit, neither end hears the other.",
         "USB 3.x and USB Type-C cable wiring"},
    Rule{"lanes-exchanged", Severity::error, "two pairs are exchanged",
         "Colours change places or the link does not train.", practice},
    Rule{"pair-swapped", Severity::error, "the halves of a pair are exchanged",
         "Most receivers cannot undo an inverted pair.", practice},
    Rule{"link-open", Severity::error, "nothing of a promise arrives",
         "A join is missing, or an end makes no contact at all.", practice},
    Rule{"signal-open", Severity::error, "a promised signal does not arrive",
         "The far board waits for it.", practice},
    Rule{"ground-open", Severity::error, "a promised ground does not arrive",
         "Each pair's return current needs its shield or ground at both ends.", practice},
    Rule{"optional-open", Severity::note, "a signal the link can do without does not arrive",
         "Fine if it is meant; name it in 'leave-out' to say so.", practice},
    Rule{"signal-wrong", Severity::error, "a promised signal arrives on another signal's contact",
         "Two outputs may drive each other.", practice},
    Rule{"signal-shorted", Severity::error, "two signals are joined",
         "At best neither works; a supply on a signal or on ground can do damage.", practice},
    Rule{"supplies-joined", Severity::error, "two boards feed one supply conductor",
         "They push current into each other; parts run hot or fail.",
         "DisplayPort forbids carrying DP_PWR from box to box, from memory; common practice"},
    Rule{"supply-unpromised", Severity::warning,
         "a port no promise names is joined to a promised supply",
         "It may feed the supply or draw from it; neither was counted.", practice},
    // The order on the ribbon.
    Rule{"pair-split", Severity::error, "the halves of a pair are not neighbours on the ribbon",
         "The pair loses its impedance and couples into whatever lies between and around.",
         practice},
    Rule{"pair-unguarded", Severity::warning, "a fast pair has no ground beside it",
         "Without a guard it couples into its neighbour and has too high an impedance.",
         "flexible circuit practice: pairs always between grounds, G + - G"},
    Rule{"supply-beside-pair", Severity::warning, "a supply lies beside a fast pair",
         "Its noise couples into the pair, and a displaced ribbon feeds the pair.", practice},
    Rule{"clock-beside-pair", Severity::warning, "a clock lies beside a fast pair with no guard",
         "A steady clock couples a steady tone into the pair.", practice},
    Rule{"grounds-few", Severity::warning, "a ribbon has fewer grounds than fast pairs",
         "Return currents share conductors, and the pairs couple through them.", practice},
    Rule{"guard-one-end", Severity::warning, "a ground conductor is joined at one end only",
         "An open guard resonates instead of shielding.", practice},
    Rule{"mirror-hazard", Severity::warning,
         "put in reversed or one place off, a supply would meet what cannot stand it",
         "It happens on the bench; an order that survives it costs nothing.", practice},
    // Times.
    Rule{"skew-in-pair", Severity::error, "the halves of a pair differ too much in length",
         "Skew turns the differential signal into common mode and closes the eye.",
         "the interface's own limit, named in the finding"},
    Rule{"skew-between-pairs", Severity::error, "pairs differ too much in length",
         "The receiver can line up only so much.",
         "the interface's own limit, named in the finding"},
    Rule{"length-missing", Severity::note, "some traces of a pair have a length and some have none",
         "Skew cannot be judged from half the lengths.", practice},
    Rule{"rate-missing", Severity::note, "a promise of fast pairs states no rate",
         "Limits depend on the rate, so none was applied.", practice},
    Rule{"rate-unlisted", Severity::warning,
         "the interface's pin map holds no limits for the stated rate",
         "Nothing was judged against a limit.", practice},
    // Supply.
    Rule{"conductor-current", Severity::error, "a conductor carries more than its rating",
         "It heats its neighbours and the film.", "the ribbon's pin map names the rating's source"},
    Rule{"contact-current", Severity::error, "a contact carries more than its rating",
         "Contacts fail before conductors do.",
         "the receptacle's or connector's pin map names the rating's source"},
    Rule{"supply-low", Severity::error, "too little of a supply reaches the far port",
         "The far board resets, or never starts.",
         "the interface's own window, named in the finding"},
    Rule{"supply-high", Severity::error, "more than the far port stands may reach it",
         "Parts rated for the window fail above it.",
         "the interface's own window, named in the finding"},
    Rule{"return-missing", Severity::error, "a supply has no promised ground to return through",
         "Without a return no current flows, or it flows where nobody planned.", practice},
    Rule{"voltage-missing", Severity::note,
         "nobody says what voltage a supply has, or how much must arrive",
         "The drop was not judged; state 'voltage' and 'least' in the promise.", practice},
    Rule{"current-missing", Severity::note, "nobody says how much current a supply carries",
         "Load and drop were not checked; state 'current' in the promise.", practice},
    // Bookkeeping.
    Rule{"pinmap-own", Severity::note, "a pin map of your own hides a shipped one",
         "It is read instead; make sure that is meant.", practice},
    Rule{"pinmap-doubtful", Severity::note, "a pin map in use is marked 'from memory'",
         "Hold it against the drawing or the standard before you rely on it.", practice},
    Rule{"acceptance-unused", Severity::warning, "an acceptance accepts nothing",
         "The finding is gone or the name is wrong; a stale acceptance hides the next fault.",
         practice},
};

}  // namespace

std::span<const Rule> all_rules() { return rules; }

const Rule* find_rule(std::string_view name) {
    const auto found = std::ranges::find(rules, name, &Rule::name);
    return found == rules.end() ? nullptr : &*found;
}

}  // namespace pinfold
