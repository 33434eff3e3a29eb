// The stages, each on the text that the stage before has left, round and round until nothing changes any more.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "checks/sizing/sizing.hpp"
#include "compiler/figures/requirement.hpp"

namespace ferrule::sizing {
namespace {

using Sizes = std::vector<Proposal> (*)(const Basis&);
constexpr Sizes first[] = {actuator_sizes}, second[] = {pump_sizes}, third[] = {line_sizes, drive_sizes, reservoir_sizes, cooler_sizes};
constexpr std::span<const Sizes> stages[] = {first, second, third};

// A text with all that is known of it; points into itself.
struct Computed {
  Computed(const Surroundings& surroundings, const std::string& path, const std::string& text)
      : compilation(compile(surroundings, path, text)), found(solved(compilation->circuit)), book(compilation->circuit, found.states.states, found.points) {}
  std::unique_ptr<Compilation> compilation;
  Solved found;
  working::Book book;
  bool reads() const {
    return std::none_of(compilation->messages.begin(), compilation->messages.end(), [](const Message& m) { return m.severity == Severity::error; });
  }
};

std::string stands(const working::Book& book, const working::Subject& subject, std::size_t state) {
  const Motion* motion = subject.body ? working::stated_motion(book.states[state], *subject.body) : nullptr;
  if (!motion || !motion->moves()) return {};
  const auto speed = book.result(subject, "speed", state).result().si;
  if (!speed || !working::stands_still(*subject.body, *speed)) return {};
  const auto& motions = book.states[state].motions;
  const bool alone = std::count_if(motions.begin(), motions.end(), [](const Motion& m) { return m.moves(); }) < 2;
  return fmt::format("{} does not move in {}{}", subject.where, book.states[state].name, alone ? "" : " while others do: the lighter goes first");
}

std::vector<std::string> outcome_of(const working::Book& book) {
  std::vector<std::string> lines;
  for (std::size_t state : book.told()) {
    if (!book.point(state).settled) lines.push_back(fmt::format("{} has no numbers", book.states[state].name));
    else
      for (const working::Subject& subject : book.subjects())
        if (subject.kind == working::Kind::cylinder || subject.kind == working::Kind::motor)
          if (std::string line = stands(book, subject, state); !line.empty()) lines.push_back(std::move(line));
  }
  if (lines.empty()) lines.push_back("every step moves what it has to move");
  for (const working::Judged& judged : working::judged_requirements(book))
    lines.push_back(fmt::format("{}: {}", judged.outcome == working::Judged::Outcome::met ? "met" : "not met", judged.sentence()));
  return lines;
}

// Paste by paste; the proposals are those of the last text.
std::vector<Proposal> one_round(const Surroundings& surroundings, const std::string& path, std::string& text) {
  std::vector<Proposal> proposals;
  for (const auto& stage : stages) {
    const Computed now(surroundings, path, text);
    std::vector<Edit> edits;
    for (const Sizes sizes : stage)
      for (Proposal& proposal : sizes({*now.compilation, path, now.found, now.book})) {
        edits.insert(edits.end(), proposal.edits.begin(), proposal.edits.end());
        proposals.push_back(std::move(proposal));
      }
    text = applied(std::move(text), std::move(edits));
  }
  return proposals;
}

}  // namespace

Sized sized(const Surroundings& surroundings, const std::string& path, const std::string& text) {
  constexpr int most_rounds = 6;
  Sized out;
  out.text = text;
  std::map<std::string, std::string> in_the_text;  // by what is sized
  for (int round = 0; round < most_rounds; ++round) {
    const std::string before = out.text;
    out.proposals = one_round(surroundings, path, out.text);
    for (Proposal& proposal : out.proposals) proposal.now = in_the_text.try_emplace(proposal.working.address, proposal.now).first->second;
    if (out.text == before) break;
    if (round + 1 == most_rounds) out.outcome.push_back("some sizes pull each other to and fro: the last ones are shown");
  }
  out.lines = changed_lines(text, out.text);
  const Computed after(surroundings, path, out.text);
  if (!after.reads()) out.outcome.push_back("the text with these lines does not read: a fault of this program");
  else
    for (std::string& line : outcome_of(after.book)) out.outcome.push_back(std::move(line));
  return out;
}

}  // namespace ferrule::sizing
