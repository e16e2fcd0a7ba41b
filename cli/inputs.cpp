#include "inputs.hpp"

#include <set>

namespace pinfold::cli {

std::vector<std::filesystem::path> inputs_of(const Design& design) {
    std::set<std::filesystem::path> files{design.file};
    for (const Board& board : design.boards) {
        if (board.at.source) files.insert(board.at.source->name);
    }
    return {files.begin(), files.end()};
}

}  // namespace pinfold::cli
