#include "render/sketch_hints.hpp"

#include <algorithm>

namespace ferrule {
namespace {

using Kind = layout::Hint::Kind;

struct Relation {
  std::string_view words;
  Kind kind;
};
constexpr Relation between_parts[] = {{"left of", Kind::left_of}, {"right of", Kind::right_of}, {"above", Kind::above},
                                      {"below", Kind::below}, {"same row as", Kind::same_row}, {"same column as", Kind::same_column}};
constexpr Relation of_returns[] = {{"on rail", Kind::rail}, {"in trough", Kind::trough}, {"by marks", Kind::marks}};

const Relation* found(std::string_view words, const Relation* first, const Relation* last) {
  const Relation* at = std::find_if(first, last, [&](const Relation& relation) { return relation.words == words; });
  return at == last ? nullptr : at;
}

struct Asker {
  const Circuit& circuit;
  SketchParts& parts;

  int item(const std::string& tag) const {
    const PartId part = circuit.part_named(tag);
    return part ? parts.item_of_part[part.index] : -1;
  }

  void ask(int index, layout::Hint hint) {
    parts.sketch.problem.hints.push_back(hint);
    parts.sketch.hints.push_back(index);
  }

  // The lines of a part that lead to a reservoir; of a reservoir those that lead to it. A suction line always ends in the trough.
  bool ask_returns(int index, Kind kind, int part) {
    const layout::Problem& problem = parts.sketch.problem;
    bool any = false;
    for (std::size_t n = 0; n < problem.nets.size(); ++n) {
      const layout::Net& net = problem.nets[n];
      const auto ends_at = [&](auto&& wanted) { return std::any_of(net.ends.begin(), net.ends.end(), wanted); };
      if (net.kind == layout::NetKind::suction || !ends_at([&](const layout::End& end) { return end.item == part; })) continue;
      if (!ends_at([&](const layout::End& end) { return problem.items[static_cast<std::size_t>(end.item)].trough; })) continue;
      ask(index, {kind, static_cast<int>(n), -1});
      any = true;
    }
    return any;
  }

  // Why not; empty when layout was asked.
  std::string asked(int index, const PlaceHint& hint) {
    const std::string& relation = hint.words[1];
    const int part = item(hint.words[0]);
    if (part < 0) return hint.words[0] + " has no symbol of its own on the sheet";
    if (const Relation* returns = found(relation, std::begin(of_returns), std::end(of_returns)))
      return ask_returns(index, returns->kind, part) ? "" : "no line leads from " + hint.words[0] + " to a reservoir";
    if (relation == "on sheet" && hint.words.size() > 2) return parts.sketch.sheet_hints.push_back({index, part, hint.words[2]}), "";
    const Relation* between = found(relation, std::begin(between_parts), std::end(between_parts));
    if (between == nullptr || hint.words.size() < 3) return "it does not say beside which part";
    const int other = item(hint.words[2]);
    if (other < 0) return hint.words[2] + " has no symbol of its own on the sheet";
    if (other == part) return "a part has no place relative to itself";
    ask(index, {between->kind, part, other});
    return "";
  }
};

}  // namespace

void add_hints(const Circuit& circuit, SketchParts& parts) {
  Asker asker{circuit, parts};
  for (std::size_t i = 0; i < circuit.hints.size(); ++i)
    if (const std::string why = asker.asked(static_cast<int>(i), circuit.hints[i]); !why.empty())
      parts.sketch.refused.push_back({static_cast<int>(i), why});
}

}  // namespace ferrule
