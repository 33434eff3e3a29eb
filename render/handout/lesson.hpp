// What is printed for a class of one circuit, and the parts it is put together from.
#pragma once

#include <string>
#include <vector>

#include "compiler/compile.hpp"
#include "compiler/figures/book.hpp"
#include "compiler/phrases/phrases.hpp"
#include "render/drawing.hpp"
#include "render/pages/pages.hpp"
#include "render/state_view.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::handout {

// Everything a page may tell. All must outlive it.
struct Lesson {
  const Compilation& compilation;
  const working::Book& book;
  const Phrases& say;
  const pages::Paper& paper;
  std::string source;                 // name of the text without folder and ending
  std::vector<std::string> cautions;
  std::string date;                   // "2026-03-02"; empty when neither text nor environment gives one
  std::string variant = {};           // "variant 3" of a class set; empty for the text as it is

  const Circuit& circuit() const { return compilation.circuit; }
};

// Title page, sheet, symbols, parts, work, a page for every state, results, in this order.
// `notes`: for people, what was printed otherwise than one may expect.
pages::Document handout(const Lesson& lesson, std::vector<std::string>& notes);

// ---------------------------------------------------------------- the pages one by one

// An empty document with head and foot.
pages::Document frame_of(const Lesson& lesson, const std::string& kind);
pages::Section title_page(const Lesson& lesson, const std::string& kind);
std::vector<pages::Section> sheet_pages(const Lesson& lesson, std::vector<std::string>& notes);
// Symbols that occur, kinds of lines on the pages of states, parts with their data; of a cycle its steps and the displacement diagram.
pages::Section lists(const Lesson& lesson);
std::vector<pages::Section> state_pages(const Lesson& lesson, std::vector<std::string>& notes);
pages::Section results_page(const Lesson& lesson);

// ---------------------------------------------------------------- symbols

// Parts that are drawn alike.
struct SymbolShown {
  std::string key;
  std::vector<const Part*> parts;
  symbols::Figure figure;
};
std::vector<SymbolShown> symbols_that_occur(const Lesson& lesson);   // each once, in the order of the text
inline constexpr double symbol_module = 2;                           // mm, of a symbol that stands among words
pages::Figure symbol_figure(const symbols::Figure& figure, double module_mm = symbol_module);
std::string tags_of(const std::vector<const Part*>& parts);          // "1A1, 2A1"
std::string term_of(const Lesson& lesson, const Definition& definition);

// "Step 2: squeeze", "At rest", "Worked alone: 1V1: a".
std::string name_of(const Lesson& lesson, const State& state);

// ---------------------------------------------------------------- the drawing as a figure

// Circuit and texts without frame, title block and tables.
struct DrawnFigure {
  pages::Figure figure;
  std::string title;                  // of one sheet among several; else empty
  bool wide = false;                  // stands on the wide page
};
// In true size on the paper with `below` mm for what follows it, else with that overleaf, else on the wide page; what does not fit
// there either becomes a set of sheets, made smaller if need be, and that is noted. As usual, or in a state.
std::vector<DrawnFigure> figures_of(const Lesson& lesson, const StateView* view, double below, std::vector<std::string>& notes);
// What blocks take in all at this width, mm.
double height_of(const std::vector<pages::Block>& blocks, double width);

// States whose pages are printed: rest, the steps, and for every position of a valve that none of these shows the
// state in which it alone is worked.
struct ShownState {
  State state;
  StateView view;
};
std::vector<ShownState> shown_states(const Lesson& lesson);

}  // namespace ferrule::handout
