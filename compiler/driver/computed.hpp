// A compiled circuit with its states and their results, as `solve`, `explain` and `draw` need it.
#pragma once

#include <memory>

#include "compiler/driver/judged.hpp"
#include "compiler/figures/book.hpp"

namespace ferrule {

struct Computed {
  States states;
  std::unique_ptr<Points> points;
  std::unique_ptr<working::Book> book;
};
Computed computed(const Circuit& circuit);
// The states that a user may ask for by name.
std::vector<std::string> told_names(const working::Book& book);

// What solve writes for scripts; see results.schema.json beside this file.
struct SolvedFile {
  std::string file, circuit;
  const working::Book* book = nullptr;
  std::vector<std::string> cautions;
};
std::string results_as_json(const std::vector<SolvedFile>& files, std::string_view wanted_state);

}  // namespace ferrule
