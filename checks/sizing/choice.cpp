#include "checks/sizing/choice.hpp"

#include <cmath>

#include <fmt/format.h>

namespace ferrule::sizing {
namespace {

std::string in_words(const std::vector<Written>& facts) {
  std::string text;
  for (const auto& [name, value] : facts) text += (text.empty() ? "" : ", ") + name + " " + value;
  return text;
}

}  // namespace

void choose(const Basis& basis, const Part& part, const std::vector<Written>& now, const std::vector<Written>& chosen, Proposal& proposal) {
  proposal.now = in_words(now), proposal.chosen = in_words(chosen);
  if (proposal.now != proposal.chosen) proposal.edits = with_facts(basis.compilation, part, chosen);
}

Proposal chosen_from(const Basis& basis, const Part& part, const Working& working, double needed, const Series& sizes) {
  const auto* row = needed > 0 ? at_least(sizes, needed) : nullptr;
  const Series::Column& column = sizes.columns.front();
  if (!row) return nothing_for(working, fmt::format("the series has no {} as large as that", column.fact));
  Proposal proposal;
  proposal.working = working.worked(), proposal.source = sizes.source;
  std::vector<Written> now;
  if (const auto si = part.si(column.fact)) now.emplace_back(column.fact, fmt::format("{:g} {}", *si / column.si, column.unit));
  choose(basis, part, now, {{column.fact, sizes.written(*row)}}, proposal);
  return proposal;
}

Proposal nothing_for(const Working& working, std::string why) {
  Proposal proposal;
  proposal.working = working.worked();
  proposal.why_none = std::move(why);
  return proposal;
}

std::string found_in(const Basis& basis, std::size_t state) { return "balance of the circuit, in " + basis.book.states[state].name; }

}  // namespace ferrule::sizing
