#include "output.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "base/finding.hpp"

namespace pinfold::cli {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const char* rule, std::string text) {
    throw InputError({{Severity::error, rule, std::move(text), Mark{}}});
}

[[noreturn]] void give_up(const fs::path& file, int trouble) {
    refuse("output-failed", fmt::format("cannot write '{}': {}; nothing was written", file.string(),
                                        std::generic_category().message(trouble)));
}

void print(std::string_view text) {
    const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
    if (written && std::fflush(stdout) == 0) return;
    const int trouble = errno;
    refuse("output-failed", fmt::format("cannot write to standard output: {}",
                                        std::generic_category().message(trouble)));
}

/// A new file beside its final place; gone again unless it is put there.
class NewFile {
public:
    explicit NewFile(const fs::path& place) : place_(place) {
        for (int attempt = 0; attempt < 100 && open_ < 0; ++attempt) {
            path_ = place.parent_path() / fmt::format(".pinfold-{}-{}.part", getpid(), attempt);
            open_ = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (open_ < 0 && errno != EEXIST) break;
        }
        if (open_ < 0) give_up(place_, errno);
    }
    ~NewFile() {
        if (open_ >= 0) close(open_);
        if (!placed_) unlink(path_.c_str());
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    void take_mode(mode_t mode) const {
        if (fchmod(open_, mode) != 0) fail();
    }
    void write(std::string_view text) const {
        while (!text.empty()) {
            const ssize_t written = ::write(open_, text.data(), text.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) fail();
            text.remove_prefix(static_cast<std::size_t>(written));
        }
    }
    void put_in_place() {
        if (fsync(open_) != 0) fail();
        const int closed = close(open_);
        open_ = -1;
        if (closed != 0 || std::rename(path_.c_str(), place_.c_str()) != 0) fail();
        placed_ = true;
    }

private:
    [[noreturn]] void fail() const { give_up(place_, errno); }

    fs::path place_;
    fs::path path_;
    int open_ = -1;
    bool placed_ = false;
};

/// The file a link leads to; any other path as it is.
fs::path followed(const fs::path& file) {
    std::error_code trouble;
    if (!fs::is_symlink(file, trouble)) return file;
    const fs::path target = fs::canonical(file, trouble);
    if (!trouble) return target;
    refuse("output-refused", fmt::format("'{}' is a link that leads to no file; for standard "
                                         "output write '-'",
                                         file.string()));
}

void require_writable_place(const fs::path& file, const std::vector<fs::path>& inputs) {
    std::error_code trouble;
    for (const fs::path& input : inputs) {
        if (!fs::equivalent(file, input, trouble)) continue;
        refuse("output-refused", fmt::format("'{}' is an input of this command and is not "
                                             "overwritten",
                                             file.string()));
    }
    const fs::file_status status = fs::status(file, trouble);
    if (fs::is_directory(status)) {
        refuse("output-refused", fmt::format("'{}' is a folder; name a file", file.string()));
    }
    if (fs::exists(status) && !fs::is_regular_file(status)) {
        refuse("output-refused", fmt::format("'{}' is not a plain file; for standard output "
                                             "write '-'",
                                             file.string()));
    }
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, trouble)) {
        refuse("output-refused", fmt::format("there is no folder '{}' to write '{}' into",
                                             folder.string(), file.filename().string()));
    }
}

void write_whole(std::string_view text, const fs::path& file) {
    struct stat before = {};
    const bool exists = stat(file.c_str(), &before) == 0;
    if (exists && access(file.c_str(), W_OK) != 0) give_up(file, errno);
    NewFile fresh(file);
    if (exists) fresh.take_mode(before.st_mode & 07777);
    fresh.write(text);
    fresh.put_in_place();
}

}  // namespace

void deliver(std::string_view text, const fs::path& file, const std::vector<fs::path>& inputs) {
    if (file.empty() || file == "-") return print(text);
    const fs::path place = followed(file);
    require_writable_place(place, inputs);
    write_whole(text, place);
}

}  // namespace pinfold::cli
