#include "render/refusals.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

namespace ferrule {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// One sentence to a refused hint, with the place of every hint it names.
std::string refusal_note(const Compilation& compilation, int hint, int other, const std::string& why) {
  const auto said = [&](int index) {
    const PlaceHint& place = compilation.circuit.hints[static_cast<std::size_t>(index)];
    return fmt::format("`place {}` (line {})", fmt::join(place.words, " "), position_of(compilation.sources[place.span.file], place.span.begin).line);
  };
  return fmt::format("{} is not obeyed: {}", said(hint), why) + (other < 0 ? "" : " " + said(other));
}

// By id of what is drawn: its sheet, by position in the set.
std::map<std::string, std::size_t> sheets_by_id(const std::vector<DrawnSheet>& sheets) {
  std::map<std::string, std::size_t> by_id;
  for (std::size_t s = 0; s < sheets.size(); ++s)
    for (const DrawnSymbol& symbol : sheets[s].symbols) {
      by_id.emplace(symbol.id, s);
      for (const std::string& part : symbol.parts) by_id.emplace(part, s);
    }
  return by_id;
}

}  // namespace

void note_unasked(const Compilation& compilation, const Sketch& sketch, std::vector<std::string>& notes) {
  for (const auto& [hint, why] : sketch.refused) notes.push_back(refusal_note(compilation, hint, -1, why));
}

void note_refusals(const Compilation& compilation, const Sketch& sketch, const std::vector<layout::Refusal>& refusals, std::vector<std::string>& notes) {
  const auto hint_of = [&](int index) { return index < 0 ? -1 : sketch.hints[static_cast<std::size_t>(index)]; };
  for (const layout::Refusal& refusal : refusals) notes.push_back(refusal_note(compilation, hint_of(refusal.hint), hint_of(refusal.other), refusal.why));
}

void note_sheets(const Compilation& compilation, const Sketch& sketch, const std::vector<DrawnSheet>& sheets, std::vector<std::string>& notes) {
  using Kind = layout::Hint::Kind;
  if (sketch.sheet_hints.empty() && sketch.problem.hints.empty()) return;
  const auto by_id = sheets_by_id(sheets);
  const auto sheet_of = [&](int item) { return by_id.find(sketch.problem.items[at(item)].id); };
  for (const auto& [hint, item, wanted] : sketch.sheet_hints) {
    const auto found = sheet_of(item);
    if (found == by_id.end() || sheets[found->second].id == wanted) continue;
    const std::string why = sheets.size() == 1 ? "the circuit stands on one sheet"
                                               : fmt::format("{} stands on sheet {}; sheets are filled in the order of the circuits", found->first, sheets[found->second].id);
    notes.push_back(refusal_note(compilation, hint, -1, why));
  }
  for (std::size_t h = 0; h < sketch.problem.hints.size(); ++h) {
    const layout::Hint& hint = sketch.problem.hints[h];
    if (hint.kind == Kind::rail || hint.kind == Kind::marks || hint.kind == Kind::trough) continue;
    const auto a = sheet_of(hint.a), b = sheet_of(hint.b);
    if (a == by_id.end() || b == by_id.end() || a->second == b->second) continue;
    if ((hint.kind == Kind::left_of && a->second < b->second) || (hint.kind == Kind::right_of && a->second > b->second)) continue;
    notes.push_back(refusal_note(compilation, sketch.hints[h], -1, fmt::format("{} stands on sheet {}, {} on sheet {}", a->first, sheets[a->second].id, b->first, sheets[b->second].id)));
  }
}

}  // namespace ferrule
