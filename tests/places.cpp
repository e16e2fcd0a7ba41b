// The one source that knows where this build stands, so that all others compile alike anywhere.
#include "support.hpp"

namespace pinfold {

std::filesystem::path repository() { return PINFOLD_ROOT; }

std::string program() { return PINFOLD_PROGRAM; }

}  // namespace pinfold
