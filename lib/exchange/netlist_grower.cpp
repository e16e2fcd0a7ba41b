#include "exchange/netlist_grower.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace pinfold {

std::string text_fault(std::string_view text) {
    if (text.size() > longest_text) {
        return fmt::format("is longer than the {} KiB a netlist can hold", longest_text >> 10);
    }
    return is_plain_text(text) ? std::string{}
                               : "holds a control character or is not UTF-8, which a netlist "
                                 "cannot hold";
}

/// What a word means inside the part that holds it.
NetlistGrower::Kind NetlistGrower::kind_in(Kind parent, std::string_view word) {
    struct Row {
        Kind parent;
        std::string_view word;
        Kind kind;
    };
    static constexpr std::array rows{
        Row{Kind::node, "ref", Kind::node_reference},
        Row{Kind::node, "pin", Kind::node_pad},
        Row{Kind::node, "pinfunction", Kind::node_function},
        Row{Kind::node, "pintype", Kind::node_type},
        Row{Kind::net, "node", Kind::node},
        Row{Kind::net, "code", Kind::code},
        Row{Kind::net, "name", Kind::name},
        Row{Kind::nets, "net", Kind::net},
        Row{Kind::component, "ref", Kind::reference},
        Row{Kind::component, "value", Kind::value},
        Row{Kind::component, "footprint", Kind::footprint},
        Row{Kind::component, "tstamps", Kind::uuid},
        Row{Kind::component, "tstamp", Kind::old_uuid},
        Row{Kind::component, "fields", Kind::fields},
        Row{Kind::component, "property", Kind::property},
        Row{Kind::fields, "field", Kind::field},
        Row{Kind::field, "name", Kind::field_name},
        Row{Kind::property, "name", Kind::property_name},
        Row{Kind::components, "comp", Kind::component},
        Row{Kind::root, "design", Kind::design},
        Row{Kind::root, "components", Kind::components},
        Row{Kind::root, "nets", Kind::nets},
        Row{Kind::design, "source", Kind::source},
    };
    if (parent == Kind::skipped) return parent;
    for (const Row& row : rows) {
        if (row.parent == parent && row.word == word) return row.kind;
    }
    return Kind::skipped;
}

void NetlistGrower::open(std::size_t offset) {
    if (path_.size() >= deepest_part) {
        refuse("netlist-depth",
               fmt::format("more than {} levels, one inside the other", deepest_part),
               mark(offset));
    }
    if (++count_ > most_parts) {
        refuse("netlist-size", fmt::format("more than {} parts in one netlist", most_parts),
               mark(offset));
    }
    if (!path_.empty()) path_.back().has_more = true;
    path_.push_back({offset});
}

void NetlistGrower::put_word(std::string_view word) {
    Part& part = path_.back();
    part.has_word = true;
    if (path_.size() == 1) {
        root_word_ = word.substr(0, 40);
        root_offset_ = part.offset;
        part.kind = word == "export" ? Kind::root : Kind::skipped;
        return;
    }
    part.kind = kind_in(path_[path_.size() - 2].kind, word);
    begin(part);
}

void NetlistGrower::begin(Part& part) {
    switch (part.kind) {
        case Kind::components: has_components_ = true; break;
        case Kind::nets: has_nets_ = true; break;
        case Kind::component:
            components_.emplace_back();
            components_.back().offset = part.offset;
            break;
        case Kind::net: nets_.push_back({{}, {}, nodes_.size(), nodes_.size(), part.offset}); break;
        case Kind::node: nodes_.push_back({{}, {}, {}, part.offset, false}); break;
        case Kind::field:
            field_name_.reset();
            field_text_.reset();
            break;
        default: break;
    }
}

void NetlistGrower::put_atom(std::string_view text, std::size_t offset) {
    const Part& part = path_.back();
    if (part.has_word || part.has_more) return put_text(text, offset);
    put_word(text);
}

void NetlistGrower::put_text(std::string_view text, std::size_t offset) {
    if (text.size() > longest_text) require_sound(text, offset);
    Part& part = path_.back();
    if (part.has_text) return;
    part.has_text = part.has_more = true;
    if (part.kind != Kind::skipped) fill(part.kind, text);
}

void NetlistGrower::require_sound(std::string_view text, std::size_t offset) {
    const std::string fault = text_fault(text);
    if (!fault.empty()) refuse("netlist-text", "this text " + fault, mark(offset));
}

void NetlistGrower::fill(Kind kind, std::string_view text) {
    const auto first = [text](Slot& slot) {
        if (!slot) slot = text;
    };
    const auto first_of_node = [text](std::string_view& place) {
        if (place.empty()) place = text;
    };
    switch (kind) {
        case Kind::source: return first(source_);
        case Kind::reference: return first(components_.back().reference);
        case Kind::value: return first(components_.back().value);
        case Kind::footprint: return first(components_.back().footprint);
        case Kind::uuid: return first(components_.back().uuid);
        case Kind::old_uuid: return first(components_.back().old_uuid);
        case Kind::field: return first(field_text_);
        case Kind::field_name: return first(field_name_);
        case Kind::property_name:
            if (text == "dnp") components_.back().fitted = false;
            return;
        case Kind::code: return first(nets_.back().code);
        case Kind::name: return first(nets_.back().name);
        case Kind::node_reference: return first_of_node(nodes_.back().reference);
        case Kind::node_pad: return first_of_node(nodes_.back().pad);
        case Kind::node_function: return first_of_node(nodes_.back().function);
        case Kind::node_type: nodes_.back().unconnected = text.ends_with("no_connect"); return;
        default: return;
    }
}

void NetlistGrower::close() {
    const Part part = path_.back();
    path_.pop_back();
    if (path_.empty() && !part.has_word) {
        root_word_ = "";
        root_offset_ = part.offset;
    }
    finish(part);
}

void NetlistGrower::finish(const Part& part) {
    if (part.kind == Kind::net) nets_.back().end_node = nodes_.size();
    if (part.kind != Kind::field || field_name_ != "Port" || !field_text_) return;
    if (!components_.back().port) components_.back().port = std::move(field_text_);
}

}  // namespace pinfold
