// The netlist grower: takes the parts of a KiCad netlist, in either form, as they are read.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/netlist.hpp"
#include "exchange/place_finder.hpp"

namespace pinfold {

constexpr std::size_t deepest_part = 64;  ///< the deepest in real files is 8
constexpr std::size_t most_parts = 16'000'000;
constexpr std::size_t longest_text = std::size_t{64} << 10;

/// What is wrong with a text no netlist can hold; empty if nothing is.
std::string text_fault(std::string_view text);

/// Makes a netlist out of `(word "text" parts...)` as it goes by, without recursion and without
/// keeping what it does not know.
///
/// Offsets are bytes into the body of the source; texts must live until `take`. Throws InputError
/// for more than `most_parts`, for one deeper than `deepest_part` and for a text that `text_fault`
/// finds fault with.
class NetlistGrower {
public:
    explicit NetlistGrower(const std::shared_ptr<const Source>& source) : places_(source) {}

    void open(std::size_t offset);
    void put_word(std::string_view word);
    /// The word of a part that has none yet, else its text; later texts are passed over.
    void put_atom(std::string_view text, std::size_t offset);
    /// The text of a part, unless it has one.
    void put_text(std::string_view text, std::size_t offset);
    /// Throws InputError for a text, not copied from the file, that no netlist can hold.
    void require_sound(std::string_view text, std::size_t offset);
    void close();

    std::size_t depth() const { return path_.size(); }
    bool has_root() const { return root_word_.has_value(); }
    Mark opened_at() { return places_.at(path_.back().offset); }
    Mark mark(std::size_t offset) { return places_.at(offset); }

    /// The netlist. Two nets of one name become one, and nodes without their component stay, both
    /// with a remark. Symbols without a part (their reference starts with #) are left out. Throws
    /// InputError, with every fault, for what is no netlist, a reference given twice, and a pad on
    /// two nets.
    Netlist take();

private:
    enum class Kind : unsigned char {
        unknown,
        root,
        design,
        source,
        components,
        component,
        reference,
        value,
        footprint,
        uuid,
        old_uuid,
        fields,
        field,
        field_name,
        property,
        property_name,
        nets,
        net,
        code,
        name,
        node,
        node_reference,
        node_pad,
        node_function,
        node_type,
        skipped
    };
    struct Part {
        std::size_t offset = 0;
        Kind kind = Kind::unknown;
        bool has_word = false;
        bool has_more = false;  ///< a text or a part of its own
        bool has_text = false;
    };
    using Slot = std::optional<std::string_view>;  ///< the first one given counts
    struct WrittenComponent {
        Slot reference, value, footprint, uuid, old_uuid, port;
        bool fitted = true;
        std::size_t offset = 0;
    };
    struct WrittenNode {
        std::string_view reference, pad, function;
        std::size_t offset = 0;
        bool unconnected = false;
    };
    struct WrittenNet {
        Slot name, code;
        std::size_t first_node = 0, end_node = 0;
        std::size_t offset = 0;
    };
    class Maker;

    static Kind kind_in(Kind parent, std::string_view word);
    void begin(Part& part);
    void fill(Kind kind, std::string_view text);
    void finish(const Part& part);

    PlaceFinder places_;
    std::vector<Part> path_;
    std::size_t count_ = 0;
    std::optional<std::string> root_word_;  ///< shortened
    std::size_t root_offset_ = 0;
    bool has_components_ = false, has_nets_ = false;
    Slot source_;
    Slot field_name_, field_text_;
    std::vector<WrittenComponent> components_;
    std::vector<WrittenNet> nets_;
    std::vector<WrittenNode> nodes_;
};

}  // namespace pinfold
