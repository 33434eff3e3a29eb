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
// Why results of all states are not begun with: "17244 parts in 1801 states are ...; INSTEAD". Empty when they may be.
std::string too_many_results(const Circuit& circuit, std::size_t states, std::string_view instead);
inline constexpr std::string_view cut_it_up = "cut the circuit into files, one for each supply or branch";
// The states that a user may ask for by name.
std::vector<std::string> told_names(const working::Book& book);

// What solve writes for scripts; see results.schema.json beside this file.
struct SolvedFile {
  std::string file, circuit;
  const working::Book* book = nullptr;
  std::vector<std::string> cautions;
};
// All of it, or of one state: its numbers and the requirements that speak of it.
std::string results_as_json(const std::vector<SolvedFile>& files, std::string_view wanted_state);

}  // namespace ferrule
