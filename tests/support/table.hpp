// Tables in tests/reference: values with their sources, one row a line, cells by the names of their columns.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "support/files.hpp"

namespace ferrule::tests {

// Cells of a line of comma-separated values; quotation marks keep commas, a carriage return at the end does not count.
inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (char c : line) {
    if (c == '"') quoted = !quoted;
    else if (c == ',' && !quoted) cells.emplace_back();
    else if (c != '\r') cells.back() += c;
  }
  return cells;
}

using Row = std::map<std::string, std::string>;

// The number of a cell; throws where there is none.
inline double number(const Row& row, const std::string& column) { return std::stod(row.at(column)); }

// The number behind a word in a text of inputs: after("Q=20 L/min; bore 10 mm", "bore ") is 10.
inline double after(const std::string& text, const std::string& word) { return std::stod(text.substr(text.find(word) + word.size())); }

// All rows of tests/reference/NAME.csv; its first line names the columns.
inline std::vector<Row> table(const std::string& name) {
  std::vector<Row> rows;
  std::vector<std::string> columns;
  for (const std::string& line : lines_of(project_text("tests/reference/" + name + ".csv"))) {
    const std::vector<std::string> cells = cells_of(line);
    if (columns.empty()) {
      columns = cells;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < columns.size(); ++i) row[columns[i]] = i < cells.size() ? cells[i] : "";
    rows.push_back(row);
  }
  return rows;
}

// Rows of a table whose first column, `record`, is this.
inline std::vector<Row> table(const std::string& name, const std::string& record) {
  std::vector<Row> rows = table(name);
  std::erase_if(rows, [&](const Row& row) { return row.at("record") != record; });
  return rows;
}

}  // namespace ferrule::tests
