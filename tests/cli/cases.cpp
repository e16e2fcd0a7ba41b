// Runs the built program on every case in tests/cli/*.yaml and compares what it says.
//
// A case gives `run` (the command line, through a shell, from the repository) and `exit`, and any
// of: `prints` (standard output and error together), `stdout`, `stderr` (each letter for letter),
// `holds` (texts that must be somewhere in standard output). `before` runs in the shell first.
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>

#include "base/fields.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

namespace fs = std::filesystem;

struct Case {
    std::string what;
    std::string before;
    std::string run;
    int exit_code = 0;
    std::optional<std::string> prints, out, err;
    std::vector<std::string> holds;
};

std::optional<std::string> text_if_there(Fields& fields, const std::string& key) {
    if (!fields.has(key)) return std::nullopt;
    const Yaml* value = fields.any(key);
    return value->scalar;
}

Case read_case(const Yaml& item, Findings& findings) {
    Fields fields(item, findings);
    Case read;
    read.what = fields.text("case");
    read.before = fields.text_or("before", "");
    read.run = fields.text("run");
    read.exit_code = fields.whole("exit", 0);
    read.prints = text_if_there(fields, "prints");
    read.out = text_if_there(fields, "stdout");
    read.err = text_if_there(fields, "stderr");
    if (fields.has("holds")) read.holds = fields.texts("holds");
    fields.done();
    return read;
}

std::vector<Case> read_cases(const fs::path& file) {
    Findings findings;
    std::vector<Case> cases;
    for (const Yaml& item : parse_yaml(read_source(file)).items) {
        cases.push_back(read_case(item, findings));
    }
    if (!findings.empty()) throw InputError(findings);
    return cases;
}

/// What a run left behind.
struct Said {
    int exit_code = 0;
    std::string prints, out, err;
};

std::string text_of_file(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// Runs a line of shell with its output in files of a folder of its own.
Said run(const Case& wanted) {
    const fs::path folder =
        fs::temp_directory_path() / ("pinfold-cases-" + std::to_string(getpid()));
    fs::create_directories(folder);
    const std::string line = "cd '" + repository().string() + "'; export PINFOLD_PROGRAM='" +
                             program() + "' TMP='" + folder.string() + "'; " + wanted.before +
                             "\n" + program() + " " + wanted.run + " >'" +
                             (folder / "out").string() + "' 2>'" + (folder / "err").string() + "'";
    const int status = std::system(line.c_str());
    Said said{WEXITSTATUS(status), {}, text_of_file(folder / "out"), text_of_file(folder / "err")};
    said.prints = said.err + said.out;
    fs::remove_all(folder);
    return said;
}

void compare(const Case& wanted, const Said& said) {
    CHECK(said.exit_code == wanted.exit_code);
    if (wanted.prints) CHECK(said.prints == *wanted.prints);
    if (wanted.out) CHECK(said.out == *wanted.out);
    if (wanted.err) CHECK(said.err == *wanted.err);
    for (const std::string& text : wanted.holds) {
        CHECK_THAT(said.out, Catch::Matchers::Contains(text));
    }
}

std::vector<fs::path> case_files() {
    std::vector<fs::path> files;
    for (const auto& file : fs::directory_iterator(repository() / "tests/cli")) {
        if (file.path().extension() == ".yaml") files.push_back(file.path());
    }
    std::ranges::sort(files);
    return files;
}

}  // namespace

TEST_CASE("the program says what the cases say", "[cli]") {
    for (const fs::path& file : case_files()) {
        for (const Case& wanted : read_cases(file)) {
            INFO(file.filename().string() << ": " << wanted.what);
            compare(wanted, run(wanted));
        }
    }
}
