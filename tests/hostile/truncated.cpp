#include <catch2/catch.hpp>

#include "hostile/read_any.hpp"

namespace pinfold {

// Every fifth prefix, beginning with another one in each file, so that the sanitized build stays
// within half a minute; the fuzz targets take up the rest.
TEST_CASE("every prefix of every shipped file gives a result or an input error") {
    Library library = shipped_library();
    std::size_t read = 0;
    std::size_t refused = 0;
    std::size_t turn = 0;
    for (const ShippedFile& file : shipped_files()) {
        CAPTURE(file.path);
        for (std::size_t length = turn++ % 5; length < file.text.size(); length += 5) {
            CAPTURE(length);
            const Outcome outcome = read_spoilt(file, file.text.substr(0, length), library);
            ++(outcome == Outcome::read ? read : refused);
        }
        REQUIRE(read_spoilt(file, file.text, library) == Outcome::read);
    }
    CHECK(refused > 10'000);
    CHECK(read > 0);  // a file cut after its last field is still one
}

}  // namespace pinfold
