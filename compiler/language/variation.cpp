#include "compiler/language/variation.hpp"

#include <fmt/format.h>

#include "compiler/language/words.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

constexpr std::string_view example = "vary load from 20 kN to 30 kN by 2 kN";

// The value behind a word that has to stand there; none when a message was given.
std::optional<Quantity> value_behind(Reading& reading, Cursor& cursor, std::string_view word, Dimension dimension) {
  if (cursor.take_word(word)) return read_quantity(reading, cursor, dimension, fmt::format("`{}`", word));
  reading.report(fault::word_expected, cursor.here(), fmt::format("`vary` needs `{}` and a value here", word), fmt::format("write `{}`", example));
  return {};
}

}  // namespace

void read_variation(Reading& reading, const Lets& lets, const Statement& statement, Circuit& circuit) {
  Cursor cursor(*statement.tree, *statement.item);
  Variation variation;
  variation.span = statement.span();
  cursor.take();
  const Span at = cursor.here();
  const auto name = want_word(reading, cursor, "`vary`", "a name that a `let` gives", std::string(example));
  if (!name) return;
  const auto let = lets.said(*name);
  if (!let) {
    reading.report(fault::unknown_name, at, fmt::format("no `let` gives `{}` a value", *name), write_instead(*name, lets.known(), fmt::format("write `let {} = ...` first", *name)));
    return;
  }
  variation.name = *name, variation.value = let->value;
  const auto least = value_behind(reading, cursor, "from", let->dimension);
  const auto most = least ? value_behind(reading, cursor, "to", let->dimension) : std::nullopt;
  const auto step = most ? value_behind(reading, cursor, "by", let->dimension) : std::nullopt;
  if (!step) return;
  used_up(reading, cursor, "the variation");
  variation.least = *least, variation.most = *most, variation.step = *step;
  if (!(step->si > 0) || most->si < least->si + 0.5 * step->si) {
    reading.report(fault::out_of_limits, variation.span, fmt::format("`{}` has nothing to vary between", *name), fmt::format("write the smaller value first and a step that fits between, as `{}`", example));
    return;
  }
  circuit.variations.push_back(std::move(variation));
}

}  // namespace ferrule
