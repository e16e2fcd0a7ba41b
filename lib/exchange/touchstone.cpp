#include "exchange/touchstone.hpp"

#include <fmt/format.h>

#include <cassert>

namespace pinfold {
namespace {

using Eigen::Index;
using Eigen::MatrixXcd;

std::string comment_line(std::string_view text) {
    std::string line = "! ";
    for (const char c : text) line += c >= ' ' && c <= '~' ? c : '?';
    return line + "\n";
}

std::string number(std::complex<double> value) {
    return fmt::format(" {:.9e} {:.9e}", value.real(), value.imag());
}

/// One row of a matrix, after four numbers on a new line.
std::string row_of(const MatrixXcd& matrix, Index row) {
    std::string text;
    for (Index column = 0; column < matrix.cols(); ++column) {
        if (column > 0 && column % 4 == 0) text += "\n ";
        text += number(matrix(row, column));
    }
    return text;
}

std::string point_of(Hertz frequency, const MatrixXcd& s) {
    std::string text = fmt::format("{:.10g}", frequency.value());
    if (s.rows() == 2) {
        return text + number(s(0, 0)) + number(s(1, 0)) + number(s(0, 1)) + number(s(1, 1)) + "\n";
    }
    for (Index row = 0; row < s.rows(); ++row) {
        if (row > 0) text += " ";
        text += row_of(s, row) + "\n";
    }
    return text;
}

}  // namespace

std::string write_touchstone(const Sweep& sweep, const std::vector<std::string>& port_names,
                             const std::vector<std::string>& remarks) {
    std::string text;
    for (const std::string& remark : remarks) text += comment_line(remark);
    for (std::size_t p = 0; p < port_names.size(); ++p) {
        text += comment_line(fmt::format("Port {}: {}", p + 1, port_names[p]));
    }
    text += fmt::format("# Hz S RI R {:g}\n", reference_ohm);
    for (std::size_t k = 0; k < sweep.points.size(); ++k) {
        assert(sweep.points[k].rows() == static_cast<Index>(port_names.size()));
        text += point_of(sweep.frequency(k), sweep.points[k]);
    }
    return text;
}

}  // namespace pinfold
