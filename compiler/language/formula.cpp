#include "compiler/language/formula.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "grammar/nearest.hpp"

namespace ferrule {
namespace {

constexpr int most_deep = 64;
constexpr double standard_atmosphere = 101325;  // Pa, ISO 2533


std::string article(Dimension dimension) {
  if (dimension == dimension::none) return "a plain number";
  const std::string name = name_of(dimension);
  return (std::string_view("aeio").find(name[0]) != std::string_view::npos ? "an " : "a ") + name;
}

// "12", "-1.5", "1e3"; a decimal comma is read as a point (its message comes from the grammar).
std::optional<double> decimal(std::string_view text) {
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), ',', '.');
  if (plain.starts_with('+')) plain.erase(0, 1);
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc{} || end != plain.data() + plain.size() || !std::isfinite(value)) return {};
  return value;
}

// `3/8`, `4:1`, or a plain number.
std::optional<double> fraction(std::string_view text) {
  const std::size_t bar = text.find_first_of("/:");
  if (bar == std::string_view::npos) return decimal(text);
  const auto above = decimal(text.substr(0, bar)), below = decimal(text.substr(bar + 1));
  if (!above || !below || *below == 0) return {};
  return *above / *below;
}

}  // namespace

std::optional<double> finite_number_of(const Term& term) {
  if (term.kind != TermKind::number) return {};
  const std::size_t rest = term.text.find_last_of(" \t\xA0\x80\x81\x82\x83\x84\x85\x86\x87\x88\x89\x8A\xAF\x9F");
  if (rest == std::string_view::npos) return fraction(term.text);
  // `1 1/4`: the blank may be any that pasted text brings.
  const auto whole = decimal(term.text.substr(0, term.text.find_first_not_of("+-0123456789")));
  const auto part = fraction(term.text.substr(rest + 1));
  if (!whole || !part) return {};
  return term.text.starts_with('-') ? *whole - *part : *whole + *part;
}

Formula take_formula(Cursor& cursor) {
  const std::size_t mark = cursor.mark();
  const Term* first = cursor.done() ? nullptr : &cursor.peek();
  int open = 0;
  bool want_operand = true;
  while (!cursor.done()) {
    const Term& term = cursor.peek();
    const bool is_operator = term.kind == TermKind::sign && std::string_view("+-*/").find(term.text) != std::string_view::npos;
    if (cursor.at_sign("(")) ++open;
    else if (cursor.at_sign(")")) --open;
    else if (open == 0 && !is_operator && !want_operand) break;
    if (term.kind == TermKind::text || term.kind == TermKind::block) break;
    want_operand = is_operator || cursor.at_sign("(");
    // The unit belongs to its number, and `abs` to its unit.
    const bool was_number = term.kind == TermKind::number;
    cursor.take();
    while (was_number && cursor.at(TermKind::word) && (unit_named(cursor.peek().text) || cursor.at_word("abs"))) cursor.take();
    if (!was_number && term.kind == TermKind::word && cursor.at_sign("(")) want_operand = true;
  }
  if (!first || cursor.mark() == mark) return {&cursor.tree(), 0, 0, cursor.here()};
  const auto index = static_cast<std::uint32_t>(first - cursor.tree().terms.data());
  return {&cursor.tree(), index, static_cast<std::uint32_t>(cursor.mark() - mark), cursor.since(mark)};
}

std::optional<Operand> Calculation::sum() {
  std::optional<Operand> left = product();
  while (left && (cursor.at_sign("+") || cursor.at_sign("-"))) {
    const bool plus = cursor.take().text == "+";
    const std::optional<Operand> right = product();
    if (!right) return {};
    left = added(*left, *right, plus ? 1 : -1, plus ? "added" : "subtracted");
  }
  return left;
}

std::optional<Operand> Calculation::product() {
  std::optional<Operand> left = operand();
  while (left && (cursor.at_sign("*") || cursor.at_sign("/"))) {
    const bool times = cursor.take().text == "*";
    const std::optional<Operand> right = operand();
    if (!right) return {};
    const Quantity a = left->quantity, b = right->quantity;
    const Quantity result = times ? Quantity{a.si * b.si, a.dimension * b.dimension} : Quantity{a.si / b.si, a.dimension / b.dimension};
    left = Operand{result, joined(left->span, right->span), false, true};
  }
  return left;
}

std::optional<Operand> Calculation::operand() {
  const Term& term = cursor.peek();
  if (term.kind == TermKind::number) return number();
  if (cursor.at_sign("(")) return in_parentheses();
  if (term.kind == TermKind::word) return word();
  if (term.kind != TermKind::broken || cursor.done())
    reading.report(fault::value_missing, cursor.here(), fmt::format("a value of {} ends too early", purpose),
                   "write a number with its unit, or a name");
  return {};
}

std::optional<Operand> Calculation::number() {
  const std::size_t mark = cursor.mark();
  const std::optional<double> value = finite_number_of(cursor.peek());
  if (!value) {
    reading.report(fault::number_unreadable, cursor.here(),
                   fmt::format("`{}` is not a number that can be computed with", cursor.peek().text), "write a decimal number, as `1.5`");
    return {};
  }
  cursor.take();
  const std::optional<Unit> unit = take_unit();
  if (!unit) return Operand{{*value, dimension::none}, cursor.since(mark), true, false};
  double si = *value * unit->factor + unit->offset;
  if (unit->dimension == dimension::pressure && cursor.take_word("abs")) si -= standard_atmosphere;
  return Operand{{si, unit->dimension}, cursor.since(mark), false, false};
}

std::optional<Unit> Calculation::unit_behind(std::size_t ahead, std::size_t& words) const {
  if (!cursor.at(TermKind::word, ahead)) return {};
  const std::string_view first = cursor.peek(ahead).text;
  words = 2;
  if (cursor.at(TermKind::word, ahead + 1))
    if (const auto unit = unit_named(std::string(first) + " " + std::string(cursor.peek(ahead + 1).text))) return unit;
  words = 1;
  return unit_named(first);
}

std::optional<Unit> Calculation::take_unit() {
  std::size_t words = 0;
  if (const auto unit = unit_behind(0, words)) {
    while (words-- > 0) cursor.take();
    return unit;
  }
  for (std::size_t ahead = 0; (cursor.at_word("to", ahead) || cursor.at_word("x", ahead) || cursor.at_word("and", ahead)) &&
                              cursor.at(TermKind::number, ahead + 1); ahead += 2)
    if (const auto unit = unit_behind(ahead + 2, words)) return unit;
  return {};
}

std::optional<Operand> Calculation::in_parentheses() {
  const std::size_t mark = cursor.mark();
  if (++depth > most_deep) {
    reading.report(fault::too_deep, cursor.here(), "the formula is nested more than 64 deep", "name a part of it by `let`");
    return {};
  }
  cursor.take();
  std::optional<Operand> inside = sum();
  --depth;
  if (!inside) return {};
  if (!cursor.take_sign(")")) {
    reading.report(fault::value_missing, cursor.here(), "a parenthesis is not closed", "write `)`");
    return {};
  }
  inside->span = cursor.since(mark);
  return inside;
}

std::optional<Operand> Calculation::word() {
  const Term& term = cursor.take();
  if (term.text == "pi") return Operand{{3.14159265358979323846, dimension::none}, term.span, false, true};
  if (cursor.at_sign("(") && (term.text == "min" || term.text == "max" || term.text == "sqrt")) return function(term.text, term.span);
  const Meaning meaning = names ? names->find(term.text, term.span) : Meaning{};
  if (meaning.kind == Meaning::Kind::value) return Operand{meaning.quantity, term.span, false, false};
  if (const std::string parted = with_blank(term.text); meaning.kind == Meaning::Kind::none && !parted.empty())
    reading.report(fault::number_unreadable, term.span, fmt::format("`{}` lacks the blank between number and unit", term.text),
                   fmt::format("write `{}`", parted));
  else if (meaning.kind == Meaning::Kind::none)
    reading.report(fault::unknown_name, term.span, fmt::format("`{}` is no value: {} needs a number or a name", term.text, purpose),
                   write_instead(term.text, names ? names->known() : std::vector<std::string>{},
                                 "write a number with its unit, or name the value: `let " + std::string(term.text) + " = ...`"));
  return {};
}

std::optional<Operand> Calculation::function(std::string_view name, Span at) {
  cursor.take();
  if (++depth > most_deep) {
    reading.report(fault::too_deep, at, "the formula is nested more than 64 deep", "name a part of it by `let`");
    return {};
  }
  std::optional<Operand> result = sum();
  while (result && name != "sqrt" && (cursor.take_word("and") || cursor.take_sign(","))) {
    const std::optional<Operand> next = sum();
    result = next ? extreme(*result, *next, name == "max") : std::nullopt;
  }
  --depth;
  if (!result) return {};
  if (!cursor.take_sign(")")) {
    reading.report(fault::value_missing, cursor.here(), fmt::format("the parenthesis of `{}` is not closed", name),
                   name == "sqrt" ? "write `)`" : "write `)`, or `and` before the next value");
    return {};
  }
  return name == "sqrt" ? root(*result, at) : result;
}

bool Calculation::same_dimension(const Operand& left, const Operand& right, std::string_view verb) {
  Dimension a = left.quantity.dimension, b = right.quantity.dimension;
  if (left.computed || right.computed) a.angle = b.angle = 0;
  if (a == b) return true;
  Message& message = reading.report(
      fault::unit_mismatch, left.span,
      fmt::format("{} and {} cannot be {}: {} and {}", reading.text(left.span), reading.text(right.span), verb,
                  article(left.quantity.dimension), article(right.quantity.dimension)),
      "give both the same dimension", name_of(left.quantity.dimension));
  message.places.push_back({right.span, name_of(right.quantity.dimension)});
  return false;
}

std::optional<Operand> Calculation::added(const Operand& left, const Operand& right, double sign, std::string_view verb) {
  if (!same_dimension(left, right, verb)) return {};
  return Operand{{left.quantity.si + sign * right.quantity.si, left.quantity.dimension}, joined(left.span, right.span), false, true};
}

std::optional<Operand> Calculation::extreme(const Operand& left, const Operand& right, bool larger) {
  if (!same_dimension(left, right, "compared")) return {};
  const double a = left.quantity.si, b = right.quantity.si;
  return Operand{{larger ? std::max(a, b) : std::min(a, b), left.quantity.dimension}, joined(left.span, right.span), false, true};
}

std::optional<Operand> Calculation::root(const Operand& of, Span at) {
  Dimension d = of.quantity.dimension;
  const bool even = d.length % 2 == 0 && d.mass % 2 == 0 && d.time % 2 == 0 && d.temperature % 2 == 0;
  if (!even || of.quantity.si < 0) {
    reading.report(fault::not_finite, joined(at, of.span), fmt::format("{} has no square root", reading.text(of.span)),
                   "take the root of a value that is not negative and a square, as of an area");
    return {};
  }
  const auto half = [](std::int8_t exponent) { return static_cast<std::int8_t>(exponent / 2); };
  d = {half(d.length), half(d.mass), half(d.time), half(d.temperature), half(d.angle)};
  return Operand{{std::sqrt(of.quantity.si), d}, joined(at, of.span), false, true};
}

}  // namespace ferrule
