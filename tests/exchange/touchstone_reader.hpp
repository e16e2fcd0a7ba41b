// A reader of Touchstone version 1, written from the specification and apart from the writer.
#pragma once

#include <algorithm>
#include <cctype>
#include <cmath>
#include <complex>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace pinfold {

struct TouchstoneFile {
    double reference = 50.0;
    std::vector<double> hertz;
    std::vector<std::vector<std::complex<double>>> points;  ///< row by row
    std::vector<std::string> comments;
};

/// IBIS Touchstone File Format Specification 2.0 (2009), version 1 files: the options stand in any
/// order on the first line with `#` (default GHz S MA R 50), `!` begins a comment, letters may be
/// of either case, data run on over lines, two ports stand as 11 21 12 22, frequencies rise.
inline TouchstoneFile read_touchstone(const std::string& text, std::size_t ports) {
    TouchstoneFile file;
    std::istringstream lines(text);
    std::string line, format = "MA";
    double unit = 1e9;
    bool has_options = false;
    std::vector<double> numbers;
    while (std::getline(lines, line)) {
        if (const std::size_t at = line.find('!'); at != std::string::npos) {
            file.comments.push_back(line.substr(at + 1));
            line.resize(at);
        }
        std::ranges::transform(line, line.begin(),
                               [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
        std::istringstream words(line);
        std::string word;
        if (!(words >> word)) continue;
        if (word.starts_with('#')) {
            if (has_options) continue;
            has_options = true;
            if (word.size() > 1) throw std::runtime_error("an option clings to #");
            while (words >> word) {
                if (word == "HZ")
                    unit = 1.0;
                else if (word == "KHZ")
                    unit = 1e3;
                else if (word == "MHZ")
                    unit = 1e6;
                else if (word == "GHZ")
                    unit = 1e9;
                else if (word == "RI" || word == "MA" || word == "DB")
                    format = word;
                else if (word == "R")
                    words >> file.reference;
                else if (word != "S")
                    throw std::runtime_error("option " + word);
            }
            continue;
        }
        std::istringstream values(line);
        double value = 0.0;
        std::size_t in_line = 0;
        while (values >> value) numbers.push_back(value), ++in_line;
        if (!values.eof()) throw std::runtime_error("no number in: " + line);
        if (in_line > 9) throw std::runtime_error("more than four pairs in: " + line);
    }
    const std::size_t record = 1 + 2 * ports * ports;
    if (numbers.size() % record != 0) throw std::runtime_error("a record is cut short");
    for (std::size_t at = 0; at < numbers.size(); at += record) {
        const double hertz = numbers[at] * unit;
        if (!file.hertz.empty() && hertz <= file.hertz.back()) {
            throw std::runtime_error("frequencies do not rise");
        }
        file.hertz.push_back(hertz);
        std::vector<std::complex<double>> point;
        for (std::size_t i = 0; i < ports * ports; ++i) {
            const double a = numbers[at + 1 + 2 * i], b = numbers[at + 2 + 2 * i];
            const double angle = b * std::numbers::pi / 180.0;
            if (format == "RI") point.emplace_back(a, b);
            if (format == "MA") point.push_back(std::polar(a, angle));
            if (format == "DB") point.push_back(std::polar(std::pow(10.0, a / 20.0), angle));
        }
        if (ports == 2) std::swap(point[1], point[2]);
        file.points.push_back(std::move(point));
    }
    return file;
}

}  // namespace pinfold
