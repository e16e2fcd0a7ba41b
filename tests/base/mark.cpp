#include "base/mark.hpp"

#include <catch2/catch.hpp>

#include <fstream>

#include "support.hpp"

namespace pinfold {
namespace {

struct TempFolder {
    std::filesystem::path path = std::filesystem::temp_directory_path() / "pinfold-test-mark";
    TempFolder() { std::filesystem::create_directories(path); }
    ~TempFolder() { std::filesystem::remove_all(path); }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
};

}  // namespace

TEST_CASE("a file is read whole with all its bytes") {
    const TempFolder folder;
    const std::filesystem::path path = folder.path / "bytes";
    const std::string bytes("a\0\r\n\xFF", 5);
    std::ofstream(path, std::ios::binary) << bytes;
    const auto source = read_source(path);
    CHECK(source->text == bytes);
    CHECK(source->name == path.string());
}

TEST_CASE("a file that is not there and a folder are refused by name") {
    const TempFolder folder;
    const std::string missing = (folder.path / "none.yaml").string();
    CHECK(complaint([&] { read_source(missing); }) ==
          "error: cannot read '" + missing + "' [file-unreadable]\n");
    CHECK(complaint([&] { read_source(folder.path); }) ==
          "error: '" + folder.path.string() + "' is a folder, not a file [file-unreadable]\n");
}

TEST_CASE("a file of 8 MiB is read and one of a byte more is refused") {
    const TempFolder folder;
    const std::filesystem::path path = folder.path / "large";
    std::ofstream(path) << std::string(largest_input_bytes, 'a');
    CHECK(read_source(path)->text.size() == largest_input_bytes);
    std::ofstream(path, std::ios::app) << 'a';
    CHECK(complaint([&] { read_source(path); }) ==
          "error: '" + path.string() + "' is larger than 8 MiB [file-too-large]\n");
}

TEST_CASE("a file without an end is refused and not read for ever") {
    if (!std::filesystem::exists("/dev/zero")) return;
    CHECK(complaint([] { read_source("/dev/zero"); }) ==
          "error: '/dev/zero' is larger than 8 MiB [file-too-large]\n");
}

}  // namespace pinfold
