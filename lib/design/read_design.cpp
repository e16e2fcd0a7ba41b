#include <fmt/format.h>

#include <map>

#include "design/read.hpp"
#include "design/read_board.hpp"
#include "design/read_budget.hpp"
#include "design/read_joins.hpp"
#include "design/read_promises.hpp"
#include "design/read_ribbon.hpp"

namespace pinfold {
namespace {

/// Reads one design file from top to bottom.
class DesignReader {
public:
    DesignReader(std::filesystem::path folder, Library& library)
        : folder_(std::move(folder)), library_(library), desk_{design_, library_, findings_} {}

    Design read(const std::shared_ptr<const Source>& source) {
        design_.file = source->name;
        const Yaml yaml = parse_yaml(source);
        Fields fields(yaml, findings_);
        fields.version("pinfold");
        design_.title = fields.text("title");
        for (const Yaml::Entry& entry : fields.map("devices")) read_device(entry);
        for (const Yaml::Entry& entry : fields.map("boards")) read_board_entry(entry);
        for (const Yaml::Entry& entry : fields.map("ribbons")) {
            claim(entry.key, entry.at);
            design_.ribbons.push_back(read_ribbon(entry, desk_));
        }
        const NameIndex names(desk_);
        read_joins(fields.list("joins"), names, desk_);
        for (const Yaml::Entry& entry : fields.map("leads")) {
            claim(entry.key, entry.at);
            read_lead(entry, names, desk_);
        }
        for (const Yaml& item : fields.list("carry")) read_carry(item, names, desk_);
        if (const Yaml* budget = fields.any("budget")) read_budget(*budget, names, desk_);
        for (const Yaml& item : fields.list("accept")) read_acceptance(item, desk_);
        fields.done();
        if (!findings_.empty()) throw InputError(std::move(findings_));
        read_kin();
        design_.remarks = library_.hidden();
        return std::move(design_);
    }

private:
    /// The other connectors of the interfaces in use: a board may be wired in their order.
    void read_kin() {
        for (const auto& [id, interface] : design_.interfaces) {
            for (const std::string& kin : interface.connectors) {
                design_.connectors.try_emplace(kin, library_.connector(kin, Mark{}));
            }
        }
    }

    /// Boards, devices, ribbons and leads share one set of names.
    void claim(const std::string& name, const Mark& at) {
        require_plain_name(name, at, findings_);
        const auto [twin, is_new] = names_.try_emplace(name, at);
        if (is_new) return;
        complain(findings_, "name-twice", fmt::format("'{}' is named twice in this design", name),
                 at, {{twin->second, "first here"}});
    }

    void read_device(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        Board device;
        device.name = entry.key;
        device.is_device = true;
        device.at = entry.at;
        Fields fields(entry.value, findings_);
        device.title = fields.text_or("title", {});
        fields.require("ports");
        for (const Yaml::Entry& port : fields.map("ports")) {
            device.ports.push_back(read_port(port, true, desk_).port);
        }
        fields.done();
        design_.boards.push_back(std::move(device));
    }

    void read_board_entry(const Yaml::Entry& entry) {
        claim(entry.key, entry.at);
        if (entry.value.kind == Yaml::Kind::map) {
            design_.boards.push_back(read_copper_board(entry.value, entry.key, false, desk_));
            return;
        }
        const std::string text =
            text_of(entry.value, "a board file's name, or a map of the board", findings_);
        if (text.empty()) return;
        try {
            read_board(board_source(text, entry.value.at), entry.key, design_, library_);
        } catch (const InputError& error) {
            take(findings_, error);
        }
    }

    std::shared_ptr<const Source> board_source(const std::string& text, const Mark& at) const {
        const std::filesystem::path path = (folder_ / text).lexically_normal();
        std::error_code trouble;
        if (!std::filesystem::exists(path, trouble)) {
            throw InputError({{Severity::error, "file-missing",
                               fmt::format("there is no board file '{}'", path.string()), at}});
        }
        if (!std::filesystem::is_regular_file(path, trouble)) {
            throw InputError({{Severity::error, "file-unreadable",
                               fmt::format("'{}' is not a file", path.string()), at}});
        }
        return read_source(path);
    }

    std::filesystem::path folder_;
    Library& library_;
    Design design_;
    Findings findings_;
    ReaderDesk desk_;
    std::map<std::string, Mark> names_;
};

}  // namespace

Design read_design(std::shared_ptr<const Source> source, const std::filesystem::path& folder,
                   Library& library) {
    return DesignReader(folder, library).read(source);
}

Design read_design(const std::filesystem::path& file, Library& library) {
    return read_design(read_source(file), file.parent_path(), library);
}

}  // namespace pinfold
