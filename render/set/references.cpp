#include "render/set/references.hpp"

#include <algorithm>
#include <map>

#include "render/set/mark.hpp"

namespace ferrule::set {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

const DrawnSymbol& symbol_of(const DrawnSheet& page, const std::string& id) {
  return *std::find_if(page.symbols.begin(), page.symbols.end(), [&](const DrawnSymbol& symbol) { return symbol.id == id; });
}

struct MarkAt {
  DrawnSheet* page;
  const PieceMark* mark;
};

// Marks of one net by the order of the sheets: to the next sheet, from the one before, to the next ...
using MarksByNet = std::map<int, std::vector<MarkAt>>;

DrawnReference reference_of(const MarkAt& own, const MarkAt& partner, const std::string& net, const std::string& letters) {
  const DrawnSymbol& here = symbol_of(*own.page, own.mark->symbol);
  const DrawnSymbol& there = symbol_of(*partner.page, partner.mark->symbol);
  return {here.id, net, letters, here.ports.front().at, own.mark->to, sheet::field_at(own.page->format, here.centre), partner.page->id, there.id,
          sheet::field_at(partner.page->format, there.centre)};
}

void refer_to(const MarkAt& own, const MarkAt& partner, const std::string& net, const std::string& letters, const Drawing& drawing) {
  DrawnReference reference = reference_of(own, partner, net, letters);
  letter(*own.page, reference, own.mark->side, drawing);
  for (DrawnSymbol& symbol : own.page->symbols)
    if (symbol.id == reference.symbol) symbol.title = letters + " " + words_of(reference);
  own.page->references.push_back(std::move(reference));
}

}  // namespace

void refer(std::vector<CircuitSheet>& sheets, const Sketch& sketch, const Drawing& drawing) {
  MarksByNet nets;
  for (CircuitSheet& made : sheets)
    for (const PieceMark& mark : made.piece.marks) nets[mark.net].push_back({&made.composed.page, &mark});
  std::vector<layout::NetKind> kinds;
  for (const auto& [net, marks] : nets) kinds.push_back(sketch.problem.nets[at(net)].kind);
  const std::vector<std::string> letters = letters_of(kinds);
  std::size_t next = 0;
  for (const auto& [net, marks] : nets) {
    for (std::size_t i = 0; i + 1 < marks.size(); i += 2) {
      refer_to(marks[i], marks[i + 1], sketch.nets[at(net)].id, letters[next], drawing);
      refer_to(marks[i + 1], marks[i], sketch.nets[at(net)].id, letters[next], drawing);
    }
    ++next;
  }
}

}  // namespace ferrule::set
