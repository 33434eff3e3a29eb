// `symbol` and `part` statements: strokes in modules, x right, y down.
#include <algorithm>

#include <fmt/format.h>

#include "compiler/language/definitions.hpp"
#include "grammar/nearest.hpp"
#include "compiler/language/values.hpp"
#include "compiler/language/words.hpp"

namespace ferrule {
namespace {

struct StrokeWord {
  std::string_view word;
  StrokeKind kind;
  int least, most;  // how many numbers
  bool pairs;       // numbers are points
};
constexpr int any = 256;
constexpr StrokeWord stroke_words[] = {
    {"line", StrokeKind::line, 4, any, true},        {"closed", StrokeKind::closed, 6, any, true},
    {"fill", StrokeKind::fill, 6, any, true},        {"rect", StrokeKind::rect, 4, 4, false},
    {"circle", StrokeKind::circle, 3, 3, false},     {"disc", StrokeKind::disc, 3, 3, false},
    {"dot", StrokeKind::dot, 2, 3, false},           {"arc", StrokeKind::arc, 5, 5, false},
    {"arrow", StrokeKind::arrow, 4, any, true},      {"arrow2", StrokeKind::arrow2, 4, any, true},
    {"arc-arrow", StrokeKind::arc_arrow, 5, 5, false}, {"arc-arrow2", StrokeKind::arc_arrow2, 5, 5, false},
    {"pilot", StrokeKind::pilot, 4, any, true},      {"drain", StrokeKind::drain, 4, any, true},
    {"chain", StrokeKind::chain, 4, any, true},      {"thin", StrokeKind::thin, 4, any, true},
    {"text", StrokeKind::text, 2, 3, false},         {"use", StrokeKind::use, 2, 2, false},
    {"symbol", StrokeKind::symbol, 2, 2, false},
};

std::vector<std::string> known_words() {
  std::vector<std::string> words{"turn", "centre", "variant-of", "port"};
  for (const StrokeWord& word : stroke_words) words.emplace_back(word.word);
  return words;
}

void report(Reading& reading, Span at, std::string sentence, std::string fix) {
  reading.report(fault::definition_broken, at, std::move(sentence), std::move(fix));
}

void take_numbers(Cursor& cursor, std::vector<double>& into) {
  while (!cursor.done() && cursor.at(TermKind::number))
    if (const auto number = finite_number_of(cursor.take())) into.push_back(*number);
}

void take_turns(Cursor& cursor, Stroke& stroke) {
  static constexpr std::string_view turns[] = {"r0", "r90", "r180", "r270"};
  while (!cursor.done() && cursor.at(TermKind::word)) {
    if (cursor.take_word("flip")) {
      stroke.flip = true;
      continue;
    }
    const auto turn = std::find(std::begin(turns), std::end(turns), cursor.peek().text);
    if (turn == std::end(turns)) return;
    stroke.quarters = static_cast<std::uint8_t>(turn - std::begin(turns));
    cursor.take();
  }
}

std::optional<Stroke> read_stroke(Reading& reading, Cursor& cursor) {
  const auto found = std::find_if(std::begin(stroke_words), std::end(stroke_words), [&](const StrokeWord& w) { return cursor.at_word(w.word); });
  if (found == std::end(stroke_words)) {
    if (!cursor.at(TermKind::broken))
      report(reading, cursor.here(), fmt::format("`{}` is no stroke", reading.text(cursor.here())),
             write_instead(cursor.peek().text, known_words(), "write one of " + listed(known_words())));
    return {};
  }
  cursor.take();
  Stroke stroke;
  stroke.kind = found->kind;
  if (stroke.kind == StrokeKind::use || stroke.kind == StrokeKind::symbol) stroke.name = take_name(cursor);
  take_numbers(cursor, stroke.numbers);
  if (stroke.kind == StrokeKind::text) {
    stroke.name = take_text(cursor);
    take_numbers(cursor, stroke.numbers);
  }
  take_turns(cursor, stroke);
  const int count = static_cast<int>(stroke.numbers.size());
  if (count < found->least || count > found->most || (found->pairs && count % 2 != 0)) {
    report(reading, cursor.whole(), fmt::format("`{}` has {} numbers, which is not enough, too many or half a point", found->word, count),
           fmt::format("give it {} numbers{}", found->least, found->most > found->least ? " or more" : ""));
    return {};
  }
  if (!used_up(reading, cursor, "a stroke")) return {};
  return stroke;
}

std::optional<Side> side_named(std::string_view word) {
  static constexpr std::string_view sides[] = {"left", "right", "above", "below"};
  const auto found = std::find(std::begin(sides), std::end(sides), word);
  if (found == std::end(sides)) return {};
  return static_cast<Side>(found - std::begin(sides));
}

void read_symbol_port(Reading& reading, Cursor& cursor, Symbol& symbol) {
  SymbolPort port;
  port.name = take_name(cursor);
  std::vector<double> at;
  take_numbers(cursor, at);
  const auto side = cursor.done() ? std::nullopt : side_named(cursor.peek().text);
  if (port.name.empty() || at.size() != 2 || !side)
    return report(reading, cursor.whole(), "the port of a symbol needs its name, its place and its side", "write `port P 2 -2 above`");
  cursor.take();
  port.x = at[0], port.y = at[1], port.side = *side;
  if (const auto use = cursor.done() ? std::nullopt : port_use_named(cursor.peek().text)) {
    port.use = *use;
    cursor.take();
  }
  symbol.ports.push_back(std::move(port));
  used_up(reading, cursor, "a port of a symbol");
}

void read_centre(Reading& reading, Cursor& cursor, Symbol& symbol) {
  std::vector<double> at;
  take_numbers(cursor, at);
  if (at.size() != 2) return report(reading, cursor.whole(), "`centre` needs two numbers", "write `centre 0 0`");
  symbol.centre_x = at[0], symbol.centre_y = at[1];
}

void read_turn(Reading& reading, Cursor& cursor, Symbol& symbol) {
  symbol.upright = cursor.take_word("upright");
  if (!symbol.upright && !cursor.take_word("any"))
    report(reading, cursor.whole(), "`turn` is neither `any` nor `upright`", "write `turn any` or `turn upright`");
}

void read_symbol_item(Reading& reading, Cursor& cursor, Symbol& symbol) {
  if (cursor.take_word("turn")) return read_turn(reading, cursor, symbol);
  if (cursor.take_word("centre")) return read_centre(reading, cursor, symbol);
  if (cursor.take_word("variant-of")) return (void)(symbol.variant_of = take_name(cursor));
  if (cursor.take_word("port")) return read_symbol_port(reading, cursor, symbol);
  if (auto stroke = read_stroke(reading, cursor)) symbol.strokes.push_back(std::move(*stroke));
}

void read_part_item(Reading& reading, Cursor& cursor, StrokePart& part) {
  if (cursor.take_word("width")) {
    const Term* term = cursor.take_kind(TermKind::number);
    const auto width = term ? finite_number_of(*term) : std::nullopt;
    if (width) part.width = *width;
    else report(reading, cursor.whole(), "`width` needs a number", "write `width 2`");
  } else if (cursor.take_word("operator")) {
    part.operator_word = take_name(cursor);
    if (part.operator_word.empty()) part.operator_word = part.name;
  } else if (auto stroke = read_stroke(reading, cursor)) {
    part.strokes.push_back(std::move(*stroke));
  }
}

// `symbol NAME "what it is" { ... }`, `part NAME "what it is" { ... }`
template <class Drawn>
Drawn read_drawn(Reading& reading, Cursor cursor, std::string_view word, void (*read_item)(Reading&, Cursor&, Drawn&)) {
  Drawn drawn;
  const std::string quoted = fmt::format("`{}`", word);
  const auto name = want_word(reading, cursor, quoted, "a name", fmt::format("{} NAME \"what it is\" {{ ... }}", word));
  if (!name) return drawn;
  drawn.name = *name;
  drawn.term = take_text(cursor);
  if (const Block* block = want_block(reading, cursor, quoted, fmt::format("{} {} \"what it is\" {{ ... }}", word, *name)))
    each_item(cursor.tree(), *block, [&](Cursor& item) { read_item(reading, item, drawn); });
  return drawn;
}

}  // namespace

Symbol read_symbol(Reading& reading, Cursor cursor) { return read_drawn<Symbol>(reading, cursor, "symbol", read_symbol_item); }

StrokePart read_stroke_part(Reading& reading, Cursor cursor) { return read_drawn<StrokePart>(reading, cursor, "part", read_part_item); }

}  // namespace ferrule
