#include "exchange/place_finder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/utf8.hpp"

namespace pinfold {
namespace {

/// U+FFFE and U+FFFF.
std::optional<std::size_t> first_noncharacter(std::string_view text) {
    const std::size_t found = std::min(text.find("\xEF\xBF\xBE"), text.find("\xEF\xBF\xBF"));
    return found == std::string_view::npos ? std::nullopt : std::optional(found);
}

/// The first control character other than tab and line ends.
std::optional<std::size_t> first_refused_control(std::string_view text) {
    std::size_t from = 0;
    while (const auto found = first_control(text.substr(from))) {
        from += *found;
        if (text[from] != '\t' && text[from] != '\n' && text[from] != '\r') return from;
        ++from;
    }
    return std::nullopt;
}

}  // namespace

std::string_view body_of(const Source& source) {
    std::string_view body = source.text;
    if (body.starts_with(byte_order_mark)) body.remove_prefix(byte_order_mark.size());
    return body;
}

bool is_plain_text(std::string_view text) {
    return !first_invalid_utf8(text) && !first_refused_control(text) && !first_noncharacter(text);
}

void require_plain_text(const std::shared_ptr<const Source>& source) {
    if (source->text.size() > largest_netlist_bytes) {
        refuse("file-too-large",
               fmt::format("'{}' is larger than {} MiB", source->name, largest_netlist_bytes >> 20),
               {});
    }
    const std::string_view body = body_of(*source);
    if (const auto broken = first_invalid_utf8(body)) {
        refuse("text-encoding", "this byte is not UTF-8; save the file as UTF-8",
               PlaceFinder(source).at(*broken));
    }
    if (const auto control = first_refused_control(body)) {
        refuse("text-control", "a control character stands here; remove it",
               PlaceFinder(source).at(*control));
    }
}

PlaceFinder::PlaceFinder(std::shared_ptr<const Source> source)
    : source_(std::move(source)), body_(body_of(*source_)) {}

Mark PlaceFinder::at(std::size_t offset) {
    offset = std::min(offset, body_.size());
    if (offset < offset_) {
        offset_ = line_begins_ = 0;
        line_ = column_ = 1;
    }
    for (std::size_t end = body_.find('\n', offset_); end < offset;
         end = body_.find('\n', end + 1)) {
        ++line_;
        column_ = 1;
        line_begins_ = offset_ = end + 1;
    }
    column_ += code_points(body_.substr(offset_, offset - offset_));
    offset_ = offset;
    const std::size_t mark_bytes = source_->text.size() - body_.size();
    return {source_, line_, column_, line_begins_ == 0 ? 0 : line_begins_ + mark_bytes};
}

}  // namespace pinfold
