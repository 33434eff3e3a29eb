#include "compiler/language/values.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "compiler/language/formula.hpp"
#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

std::string with_article(const std::string& noun) {
  const bool vowel = !noun.empty() && std::string_view("aeio").find(noun[0]) != std::string_view::npos;
  return (vowel ? "an " : "a ") + noun;
}

std::string called(Dimension dimension) {
  return dimension == dimension::none ? "a plain number" : with_article(name_of(dimension));
}

// A radian has no unit of its own in SI, so a formula may gain or lose angles ("torque * speed" is a power).
bool alike(Dimension a, Dimension b, bool computed) {
  if (computed) a.angle = b.angle = 0;
  return a == b;
}

// The unit of the trade's example: "bar" of "160 bar".
std::string usual_unit(Dimension dimension) {
  const std::string example = example_of(dimension);
  return example.substr(std::min(example.size(), example.find(' ') + 1));
}

// The words that may stand behind a number without being a misspelt unit.
bool is_joiner(std::string_view word) {
  static constexpr std::string_view joiners[] = {"at", "to", "x", "and", "from", "until", "by", "during", "less", "times",
                                                 "against", "with", "on", "for", "while", "within", "because", "then"};
  return std::find(std::begin(joiners), std::end(joiners), word) != std::end(joiners);
}

void report_no_unit(Reading& reading, const Cursor& cursor, const Operand& operand, Dimension expected, Purpose purpose) {
  const Term& next = cursor.peek();
  if (next.kind == TermKind::word && !is_joiner(next.text)) {
    const std::string near = nearest_unit(next.text);
    reading.report(fault::unit_unknown, next.span, fmt::format("`{}` is no unit; {} takes {}", next.text, purpose, called(expected)),
                   near.empty() ? "write " + wanted(expected) : "write `" + near + "`");
    return;
  }
  reading.report(fault::unit_missing, operand.span,
                 fmt::format("`{}` has no unit; {} takes {}", reading.text(operand.span), purpose, called(expected)),
                 fmt::format("write its unit behind it, as `{} {}`", reading.text(operand.span), usual_unit(expected)));
}

bool fits(Reading& reading, const Cursor& cursor, const Operand& operand, Dimension expected, Purpose purpose) {
  if (alike(operand.quantity.dimension, expected, operand.computed)) return true;
  if (operand.bare && expected != dimension::none) {
    report_no_unit(reading, cursor, operand, expected, purpose);
    return false;
  }
  reading.report(fault::dimension_wrong, operand.span,
                 fmt::format("{} takes {}, but `{}` is {}", purpose, called(expected), reading.text(operand.span),
                             called(operand.quantity.dimension)),
                 "write " + wanted(expected));
  return false;
}

std::optional<Operand> read_operand(Reading& reading, Cursor& cursor, Names* names, std::optional<Dimension> expected, Purpose purpose) {
  if (cursor.done() || cursor.at(TermKind::text) || cursor.at(TermKind::block) || cursor.at(TermKind::dash)) {
    reading.report(fault::value_missing, cursor.here(),
                   expected ? fmt::format("{} needs a value: {}", purpose, called(*expected)) : fmt::format("{} needs a value", purpose),
                   expected ? "write " + wanted(*expected) : "write a number with its unit");
    cursor.skip_all();
    return {};
  }
  Calculation calculation{reading, cursor, names, purpose};
  std::optional<Operand> operand = calculation.sum();
  if (operand && !std::isfinite(operand->quantity.si)) {
    reading.report(fault::not_finite, operand->span, fmt::format("`{}` is not a number that can be computed with", reading.text(operand->span)),
                   "look for a division by zero, a root of less than nothing, or digits too many");
    operand.reset();
  }
  if (operand && expected && !fits(reading, cursor, *operand, *expected, purpose)) operand.reset();
  if (!operand) cursor.skip_all();
  return operand;
}

std::optional<Quantity> quantity_of(const std::optional<Operand>& operand, std::optional<Dimension> expected) {
  if (!operand) return {};
  return Quantity{operand->quantity.si, expected.value_or(operand->quantity.dimension)};
}

std::optional<Quantity> evaluated(Reading& reading, const Formula& formula, Names& names, std::optional<Dimension> expected,
                                  Purpose purpose) {
  Cursor cursor(*formula.tree, {formula.tree->terms.data() + formula.first, formula.count}, formula.span);
  const std::optional<Operand> operand = read_operand(reading, cursor, &names, expected, purpose);
  if (operand && !used_up(reading, cursor, fmt::format("the value of {}", purpose))) return {};
  return quantity_of(operand, expected);
}

}  // namespace

std::string wanted(Dimension dimension) {
  if (dimension == dimension::none) return "a plain number or a percentage";
  return with_article(name_of(dimension)) + ", as `" + example_of(dimension) + "`";
}

std::optional<Quantity> read_quantity(Reading& reading, Cursor& cursor, Dimension expected, Purpose purpose) {
  return quantity_of(read_operand(reading, cursor, reading.names, expected, purpose), expected);
}

std::optional<Quantity> read_any_quantity(Reading& reading, Cursor& cursor, Purpose purpose) {
  return quantity_of(read_operand(reading, cursor, reading.names, std::nullopt, purpose), std::nullopt);
}

std::optional<std::vector<Quantity>> read_quantities(Reading& reading, Cursor& cursor, std::string_view joiner,
                                                     Dimension expected, Purpose purpose) {
  std::vector<Quantity> values;
  do {
    const std::optional<Quantity> value = read_quantity(reading, cursor, expected, purpose);
    if (!value) return {};
    values.push_back(*value);
  } while (cursor.take_word(joiner));
  return values;
}

std::optional<Quantity> evaluate(Reading& reading, const Formula& formula, Names& names, Dimension expected, Purpose purpose) {
  return evaluated(reading, formula, names, expected, purpose);
}

std::optional<Quantity> evaluate_any(Reading& reading, const Formula& formula, Names& names, Purpose purpose) {
  return evaluated(reading, formula, names, std::nullopt, purpose);
}

}  // namespace ferrule
