// Standard sizes, as stdlib/series.txt gives them with their sources: none stands in code.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ferrule::sizing {

struct Series {
  struct Column {
    std::string fact, unit;            // "outside", "mm"; unit empty where the number has none
    double si = 1;                     // of one unit
  };
  std::string name, source;
  std::vector<Column> columns;
  std::vector<std::vector<double>> rows;  // as written, the smallest first

  double si(const std::vector<double>& row, std::size_t column = 0) const { return row[column] * columns[column].si; }
  // "315 cm3/rev": as the language reads it.
  std::string written(const std::vector<double>& row, std::size_t column = 0) const;
};

// Every series of a text. A row whose numbers are not those of the columns is left out.
std::vector<Series> series_in(std::string_view text);
// The series of stdlib/series.txt, which is part of the program.
std::span<const Series> all_series();
// An empty series where none has the name.
const Series& series(std::string_view name);

// The first row whose first column is at least this (to a millionth), or null.
const std::vector<double>* at_least(const Series& series, double si);

}  // namespace ferrule::sizing
