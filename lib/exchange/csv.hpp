// Tables for spreadsheets and programs: CSV after RFC 4180, in one flavour that both read right.
//
// Lines end in CR LF; a cell with a comma, a quote, a line end or a blank at either end is quoted,
// a quote inside is doubled; every line has as many cells as the head. UTF-8, with a byte order
// mark only if some cell is not plain ASCII.
//
// A spreadsheet turns `=1+1` into 2, `010` into 10, `1E3` into 1000, `1/2` or `1-2` or `MAR1` into
// a date and TRUE into a truth value; some choke on `+5V`, `-` and `@x`. RFC 4180 quotes do not
// keep them from it. So a text cell that could be taken for anything but text gets ONE APOSTROPHE
// in front, the spreadsheets' own sign for "this is text". The apostrophe is not data: a reader
// takes off exactly one where a cell starts with one (read_csv does). Without it stand only
//   - empty cells, and whole numbers of up to 15 digits without sign or leading zero;
//   - cells that start with an ASCII letter, are no truth value, and are not three or more letters
//     with nothing but digits and separators behind (a month and a day in some language).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace pinfold {

using CsvRows = std::vector<std::vector<std::string>>;

/// Whether a cell must get its apostrophe.
bool could_be_misread(std::string_view cell);

std::string write_csv(const CsvRows& rows);

/// What write_csv wrote. Tolerant of LF alone, of a missing last line end and of other people's
/// cells; throws InputError at a quote that is never closed or that stands inside a bare cell.
CsvRows read_csv(std::string_view text);

}  // namespace pinfold
