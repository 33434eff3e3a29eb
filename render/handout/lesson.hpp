// What is printed for a class of one circuit, and the parts it is put together from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compiler/compile.hpp"
#include "compiler/figures/book.hpp"
#include "compiler/phrases/phrases.hpp"
#include "render/drawing.hpp"
#include "render/pages/pages.hpp"
#include "render/state_view.hpp"

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
pages::Section symbols_page(const Lesson& lesson);
pages::Section parts_page(const Lesson& lesson);
// None when the text has no cycle.
std::optional<pages::Section> work_page(const Lesson& lesson);
std::vector<pages::Section> state_pages(const Lesson& lesson, std::vector<std::string>& notes);
pages::Section results_page(const Lesson& lesson);

// ---------------------------------------------------------------- the drawing as a figure

// Circuit and texts of one sheet of a drawing in true size, without frame, title block and tables.
pages::Figure figure_of(const Drawing& drawing, std::size_t sheet);
// The figure under `heading` and above what follows it, on the paper if it fits there in true size, else on the wide page;
// made smaller only when it does not fit there either, and that is noted.
pages::Section with_figure(const Lesson& lesson, const std::string& heading, pages::Figure figure, std::vector<pages::Block> below,
                           std::vector<std::string>& notes);

// States whose pages are printed: rest, the steps, and for every position of a valve that none of these shows the
// state in which it alone is worked.
struct ShownState {
  State state;
  StateView view;
};
std::vector<ShownState> shown_states(const Lesson& lesson);

}  // namespace ferrule::handout
