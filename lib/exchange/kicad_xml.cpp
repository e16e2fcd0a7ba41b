#include "exchange/kicad_xml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <pugixml.hpp>

#include "exchange/kicad_tree.hpp"
#include "exchange/netlist_grower.hpp"

namespace pinfold {
namespace {

struct StringWriter : pugi::xml_writer {
    std::string text;
    void write(const void* data, std::size_t size) override {
        text.append(static_cast<const char*>(data), size);
    }
};

/// Safe in text and in quoted attributes; white space other than blanks survives every reader.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
            case '&': out += "&amp;"; break;
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '"': out += "&quot;"; break;
            case '\t': out += "&#9;"; break;
            case '\n': out += "&#10;"; break;
            case '\r': out += "&#13;"; break;
            default: out += c;
        }
    }
    return out;
}

void write_branch(const Branch& branch, pugi::xml_node parent) {
    pugi::xml_node node = parent.append_child(branch.word.c_str());
    for (const Branch& child : branch.branches) {
        if (is_attribute(branch.word, child.word)) {
            node.append_attribute(child.word.c_str()) = escaped(child.text.value_or("")).c_str();
        } else {
            write_branch(child, node);
        }
    }
    if (branch.text && !branch.text->empty()) {
        node.append_child(pugi::node_pcdata).set_value(escaped(*branch.text).c_str());
    }
}

/// Hands a parsed document on, without recursion.
class XmlReader {
public:
    explicit XmlReader(const std::shared_ptr<const Source>& source)
        : body_(body_of(*source)), grower_(source) {}

    Netlist read() {
        constexpr unsigned flags = pugi::parse_default | pugi::parse_declaration |
                                   pugi::parse_ws_pcdata_single | pugi::parse_fragment;
        const pugi::xml_parse_result result =
            document_.load_buffer(body_.data(), body_.size(), flags, pugi::encoding_utf8);
        if (!result) {
            fail(fmt::format("this is no XML: {}", plain(result.description())),
                 static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0)));
        }
        read_tree(only_root());
        return grower_.take();
    }

private:
    [[noreturn]] void fail(std::string text, std::size_t at) {
        throw InputError({{Severity::error, "netlist-syntax", std::move(text), grower_.mark(at)}});
    }

    /// The parser's words in our manner: lower case at the start, no full stop.
    static std::string plain(std::string text) {
        if (!text.empty() && text.front() >= 'A' && text.front() <= 'Z') {
            text.front() = static_cast<char>(text.front() - 'A' + 'a');
        }
        return text;
    }

    std::size_t offset_of(pugi::xml_node node) const {
        return static_cast<std::size_t>(std::max<std::ptrdiff_t>(node.offset_debug(), 0));
    }

    pugi::xml_node only_root() {
        pugi::xml_node root;
        for (const pugi::xml_node node : document_.children()) {
            if (node.type() == pugi::node_declaration) {
                require_utf8(node);
            } else if (node.type() == pugi::node_element && !root) {
                root = node;
            } else {
                fail("a netlist in XML is one 'export' element; nothing may stand beside it",
                     offset_of(node));
            }
        }
        if (!root) fail("there is no 'export' element in this file", 0);
        return root;
    }

    void require_utf8(pugi::xml_node declaration) {
        std::string encoding = declaration.attribute("encoding").as_string("utf-8");
        std::ranges::transform(encoding, encoding.begin(), [](char c) {
            return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        });
        if (encoding == "utf-8" || encoding == "us-ascii") return;
        fail(fmt::format("the encoding is '{}'; save the file as UTF-8", encoding.substr(0, 40)),
             offset_of(declaration));
    }

    void open(pugi::xml_node element) {
        const std::size_t at = offset_of(element);
        grower_.open(at);
        grower_.put_word(element.name());
        for (const pugi::xml_attribute attribute : element.attributes()) {
            grower_.open(at);
            grower_.put_word(attribute.name());
            put(attribute.value(), at);
            grower_.close();
        }
    }

    void put(std::string_view text, std::size_t at) {
        grower_.require_sound(text, at);
        grower_.put_text(text, at);
    }

    void read_tree(pugi::xml_node root) {
        open(root);
        std::vector<pugi::xml_node> next{root.first_child()};  // of each open element
        while (!next.empty()) {
            const pugi::xml_node node = next.back();
            if (!node) {
                grower_.close();
                next.pop_back();
                continue;
            }
            next.back() = node.next_sibling();
            if (node.type() == pugi::node_element) {
                open(node);
                next.push_back(node.first_child());
            } else if (node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata) {
                put(node.value(), offset_of(node));
            }
        }
    }

    const std::string_view body_;
    pugi::xml_document document_;
    NetlistGrower grower_;
};

}  // namespace

std::string kicad_xml(const Netlist& netlist) {
    pugi::xml_document document;
    pugi::xml_node declaration = document.append_child(pugi::node_declaration);
    declaration.append_attribute("version") = "1.0";
    declaration.append_attribute("encoding") = "utf-8";
    write_branch(kicad_tree(netlist), document);
    StringWriter writer;
    document.save(writer, "  ", pugi::format_indent | pugi::format_no_escapes, pugi::encoding_utf8);
    return std::move(writer.text);
}

Netlist read_kicad_xml(const std::shared_ptr<const Source>& source) {
    require_plain_text(source);
    return XmlReader(source).read();
}

}  // namespace pinfold
