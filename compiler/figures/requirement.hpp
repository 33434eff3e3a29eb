// `require` statements against the results.
#pragma once

#include "compiler/figures/book.hpp"

namespace ferrule::working {

struct Judged {
  enum class Outcome : std::uint8_t { met, failed, no_value } outcome = Outcome::no_value;
  const Requirement* requirement = nullptr;
  std::string address;         // "1A1.speed", sums joined by " + "
  std::string wanted;          // "at most 0.3 m/s"
  Value value;                 // the worst of all states looked at; its why_none when there is none
  std::string state;           // where it was worst; empty for the cycle
  std::vector<std::string> addresses;  // single ones, for `explain`
  std::string sentence() const;
};

// The told states that a requirement speaks of; with `only`, that one or none.
std::vector<std::size_t> states_meant(const Book& book, const Requirement& requirement, std::optional<std::size_t> only = {});

// One for each requirement, in the order of the text. With `only`, of those that speak of this state, judged in it.
std::vector<Judged> judged_requirements(const Book& book, std::optional<std::size_t> only = {});

}  // namespace ferrule::working
