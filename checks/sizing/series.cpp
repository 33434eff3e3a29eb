#include "checks/sizing/series.hpp"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

#include "compiler/quantities/quantity.hpp"

namespace ferrule {
extern const std::string_view series_text;  // generated
}

namespace ferrule::sizing {
namespace {

// The pieces of a text between any of these signs, blanks at their ends left out.
std::vector<std::string> split(std::string_view text, std::string_view signs) {
  std::vector<std::string> pieces;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find_first_of(signs, from), text.size());
    if (end > from) pieces.emplace_back(text.substr(from, end - from));
    from = end + 1;
  }
  return pieces;
}

Series headed(std::string_view line) {
  Series series;
  const std::vector<std::string> words = split(line, " ");
  series.name = words.front();
  for (std::size_t i = 1; i + 1 < words.size(); i += 2) {
    const auto unit = unit_named(words[i + 1]);
    series.columns.push_back({words[i], unit ? words[i + 1] : "", unit ? unit->factor : 1});
  }
  return series;
}

void add_rows(std::string_view line, Series& series) {
  for (const std::string& piece : split(line, ",")) {
    std::vector<double> row;
    for (const std::string& number : split(piece, " ")) row.push_back(std::strtod(number.c_str(), nullptr));
    if (row.size() == series.columns.size()) series.rows.push_back(std::move(row));
  }
}

}  // namespace

std::string Series::written(const std::vector<double>& row, std::size_t column) const {
  const Column& c = columns[column];
  return c.unit.empty() ? fmt::format("{:g}", row[column]) : fmt::format("{:g} {}", row[column], c.unit);
}

std::vector<Series> series_in(std::string_view text) {
  constexpr std::string_view source = "  source: ";
  std::vector<Series> all;
  for (const std::string& line : split(text, "\n")) {
    if (line.front() == '#') continue;
    if (line.front() != ' ') all.push_back(headed(line));
    else if (all.empty()) continue;
    else if (line.starts_with(source)) all.back().source = line.substr(source.size());
    else add_rows(line, all.back());
  }
  return all;
}

std::span<const Series> all_series() {
  static const std::vector<Series> all = series_in(series_text);
  return all;
}

const Series& series(std::string_view name) {
  static const Series none;
  for (const Series& one : all_series())
    if (one.name == name) return one;
  return none;
}

const std::vector<double>* at_least(const Series& series, double si) {
  for (const std::vector<double>& row : series.rows)
    if (series.si(row) >= si * (1 - 1e-6)) return &row;
  return nullptr;
}

}  // namespace ferrule::sizing
