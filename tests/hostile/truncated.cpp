#include <catch2/catch.hpp>

#include "hostile/read_any.hpp"

namespace pinfold {

// Every second prefix, the odd ones of one file and the even ones of the next, so that the sanitized
// build stays within half a minute; the fuzz targets take up the rest.
TEST_CASE("every prefix of every shipped file gives a result or an input error") {
    Library library = shipped_library();
    std::size_t read = 0;
    std::size_t refused = 0;
    std::size_t parity = 0;
    for (const ShippedFile& file : shipped_files()) {
        CAPTURE(file.path);
        for (std::size_t length = parity++ % 2; length < file.text.size(); length += 2) {
            CAPTURE(length);
            const Outcome outcome = read_spoilt(file, file.text.substr(0, length), library);
            ++(outcome == Outcome::read ? read : refused);
        }
        REQUIRE(read_spoilt(file, file.text, library) == Outcome::read);
    }
    CHECK(refused > 20'000);
    CHECK(read > 0);  // a file cut after its last field is still one
}

}  // namespace pinfold
