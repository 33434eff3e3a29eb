#include "compiler/figures/board.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "compiler/figures/expression.hpp"

namespace ferrule::working {
namespace {

const Value* line_of(const Worked& worked, std::string_view symbol) {
  for (const Value& value : worked.values)
    if (value.symbol == symbol) return &value;
  return nullptr;
}

// A negative number put into a formula keeps its sign in brackets, and a number that is squared its unit.
std::string put_in(const Worked& worked, std::string_view symbol, bool is_raised) {
  const Value* value = line_of(worked, symbol);
  if (!value) return std::string(symbol);
  const std::string text = shown(*value);
  const bool bare = text.find(' ') == text.npos;
  return text.front() == '-' || (is_raised && !bare) ? "(" + text + ")" : text;
}

}  // namespace

std::string numbers_put_in(const Worked& worked, const Value& value) {
  std::size_t from = 0;
  return with_names_replaced(value.formula, [&](std::string_view name) {
    from = value.formula.find(name, from) + name.size();
    return put_in(worked, name, from < value.formula.size() && value.formula[from] == '^');
  });
}

namespace {

std::string ending(const Value& value) {
  std::string text;
  if (!value.origin.empty()) text = value.origin;
  if (!value.source.empty()) text += (text.empty() ? "" : "; ") + value.source;
  return text.empty() ? text : "   [" + text + "]";
}

std::string line(const Worked& worked, const Value& value) {
  const std::string head = fmt::format("  {:<8}{}\n", value.symbol, value.meaning);
  const std::string indent(10, ' ');
  if (!value.si) return head + fmt::format("{}none: {}\n", indent, value.why_none);
  const bool worked_out = value.formula.find(' ') != std::string::npos;
  if (value.formula.empty()) return head + fmt::format("{}= {}{}\n", indent, shown(value), ending(value));
  if (!worked_out) return head + fmt::format("{}= {} = {}\n", indent, value.formula, shown(value));
  return head + fmt::format("{}= {}{}\n{}= {}\n{}= {}\n", indent, value.formula, ending(value), indent, numbers_put_in(worked, value), indent, shown(value));
}

std::string bar_of(double pascal) { return shown(Quantity{pascal, dimension::pressure}); }

// The columns of a way: what, how much.
std::string row(std::string_view sign, const std::string& what, double pascal) {
  return fmt::format("    {:<2}{:<44}{:>12}\n", sign, what, bar_of(pascal));
}

}  // namespace

std::string as_text(const Way& way) {
  std::string text = row("", way.begins, way.from);
  for (const Loss& loss : way.losses) text += row(loss.pascal < 0 ? "+" : "-", loss.place, std::fabs(loss.pascal));
  return text + row("=", way.ends, way.to);
}

std::string lines_on_a_board(const Worked& worked) {
  std::string text;
  for (const Value& value : worked.values) text += line(worked, value);
  return text;
}

std::string on_a_board(const Worked& worked) {
  std::string text = worked.address + (worked.state.empty() ? "" : " during " + worked.state) + "\n\n" + lines_on_a_board(worked);
  const Value& result = worked.result();
  text += fmt::format("\n  {} = {}\n", worked.address, result.si ? shown(result) : "none: " + result.why_none);
  for (const Way& way : worked.ways) text += fmt::format("\n  pressures along the way of the oil\n{}", as_text(way));
  for (const std::string& note : worked.notes) text += "\n  note: " + note + "\n";
  return text;
}

}  // namespace ferrule::working
