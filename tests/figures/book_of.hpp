// A circuit as text, compiled and solved, with its book of results.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "compiler/figures/book.hpp"
#include "compiler/text.hpp"

namespace ferrule::tests {

struct Open {
  std::unique_ptr<Compilation> compilation;
  States states;
  std::unique_ptr<Points> points;
  std::unique_ptr<working::Book> book;

  explicit Open(const std::string& text) : compilation(compiled(text)), states(states_of(compilation->circuit)) {
    points = std::make_unique<Points>(compilation->circuit, states.states);
    book = std::make_unique<working::Book>(compilation->circuit, states.states, *points);
  }
  // "1A1.speed" in a state by name (any for what belongs to the cycle).
  working::Worked result(const std::string& address, const std::string& state = {}) const {
    const std::size_t dot = address.rfind('.');
    const std::string what = address.substr(dot + 1);
    const auto subject = book->subject(address.substr(0, dot), what);
    if (!subject) throw std::runtime_error("nothing is called " + address);
    const auto in = state.empty() ? book->told().front() : book->state_named(state).value();
    return book->result(*subject, what, in);
  }
  double si(const std::string& address, const std::string& state = {}) const { return result(address, state).result().si.value(); }
};

inline std::string contents_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

// Every sample and machine of the project.
inline std::vector<std::filesystem::path> all_circuits() {
  std::vector<std::filesystem::path> out;
  for (const char* folder : {"samples", "samples/pairs", "tests/briefs"})
    for (const auto& entry : std::filesystem::directory_iterator(std::string(FERRULE_SOURCE_DIR) + "/" + folder))
      if (entry.path().extension() == ".fer") out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace ferrule::tests
