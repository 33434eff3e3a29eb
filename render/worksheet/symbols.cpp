// Name the symbols; letter their ports.
#include <fmt/format.h>

#include <algorithm>

#include "render/worksheet/question.hpp"

namespace ferrule::worksheet {
namespace {

constexpr std::size_t most_symbols = 8, most_ported = 4;

Question naming(const handout::Lesson& lesson, const std::vector<handout::SymbolShown>& symbols) {
  const Phrases& say = lesson.say;
  Question question{say("ask.symbols"), {}, {}, {}, static_cast<double>(symbols.size()), 1};
  pages::Table table{{{"", true}, {say("head.symbol"), true}, {say("head.component"), false, 70}}, {}};
  for (const handout::SymbolShown& one : symbols)
    table.rows.push_back({cell(std::to_string(table.rows.size() + 1)), {"", handout::symbol_figure(one.figure)}, cell(handout::term_of(lesson, *one.parts.front()->definition))});
  put_table(question, std::move(table), {2});
  return question;
}

// Ports that carry a letter; a symbol of one or none asks nothing.
std::vector<const SymbolPort*> lettered(const symbols::Figure& figure) {
  std::vector<const SymbolPort*> ports;
  for (const SymbolPort& port : figure.ports)
    if (!port.name.empty() && port.name.size() <= 3 && port.name.front() >= 'A' && port.name.front() <= 'Z') ports.push_back(&port);
  return ports;
}

// The symbol with a number beyond the end of each port, where the letter would stand.
pages::Figure numbered(const symbols::Figure& symbol, const std::vector<const SymbolPort*>& ports) {
  constexpr double capital = 2.5, away = 2;
  pages::Figure figure = handout::symbol_figure(symbol);
  const symbols::Extent extent = symbols::extent_of(symbol.strokes);
  for (std::size_t i = 0; i < ports.size(); ++i) {
    const double x = (ports[i]->x - extent.left) * handout::symbol_module, y = (ports[i]->y - extent.top) * handout::symbol_module;
    const std::string number = std::to_string(i + 1);
    switch (ports[i]->side) {
      case Side::above: figure.inks.push_back(sheet::words({x, y - away / 2}, number, capital, sheet::Anchor::middle)); break;
      case Side::below: figure.inks.push_back(sheet::words({x, y + away / 2 + capital}, number, capital, sheet::Anchor::middle)); break;
      case Side::left: figure.inks.push_back(sheet::words({x - away, y + capital / 2}, number, capital, sheet::Anchor::right)); break;
      case Side::right: figure.inks.push_back(sheet::words({x + away, y + capital / 2}, number, capital)); break;
    }
  }
  const sheet::Rect all = sheet::extent_of(figure.inks);
  sheet::move(figure.inks, {-all.x, -all.y});
  figure.width = all.w, figure.height = all.h;
  return figure;
}

Question lettering(const handout::Lesson& lesson, const std::vector<handout::SymbolShown>& symbols) {
  const Phrases& say = lesson.say;
  Question question{say("ask.ports"), {}, {}, {}, 0, 1};
  pages::Table table{{{say("head.codes")}, {say("head.symbol"), true}}, {}};
  std::size_t most = 0;
  for (const handout::SymbolShown& one : symbols) most = std::max(most, lettered(one.figure).size());
  std::vector<std::size_t> blank;
  for (std::size_t i = 0; i < most; ++i) blank.push_back(table.columns.size()), table.columns.push_back({std::to_string(i + 1), true});
  for (const handout::SymbolShown& one : symbols) {
    const auto ports = lettered(one.figure);
    std::vector<pages::Cell> row{cell(handout::tags_of(one.parts)), {"", numbered(one.figure, ports)}};
    for (std::size_t i = 0; i < most; ++i) row.push_back(cell(i < ports.size() ? ports[i]->name : "-"));
    table.rows.push_back(std::move(row));
    question.marks += 0.5 * static_cast<double>(ports.size());
  }
  put_table(question, std::move(table), blank);
  return question;
}

}  // namespace

Questions about_symbols(const handout::Lesson& lesson, Chance& chance) {
  Questions questions;
  std::vector<handout::SymbolShown> symbols = handout::symbols_that_occur(lesson), ported = symbols;
  draw_lots(symbols, most_symbols, chance);
  if (!symbols.empty()) questions.push_back(naming(lesson, symbols));
  std::erase_if(ported, [](const handout::SymbolShown& one) { return lettered(one.figure).size() < 2; });
  draw_lots(ported, most_ported, chance);
  if (!ported.empty()) questions.push_back(lettering(lesson, ported));
  return questions;
}

}  // namespace ferrule::worksheet
