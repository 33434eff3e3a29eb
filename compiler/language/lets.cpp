#include "compiler/language/lets.hpp"

#include <fmt/format.h>

#include "compiler/language/words.hpp"

namespace ferrule {
namespace {
constexpr int most_deep = 512;  // chains of names; deeper ones would only test the stack
}

void Lets::add(const Statement& statement) {
  Cursor cursor(*statement.tree, *statement.item);
  cursor.take();
  const Span at = cursor.here();
  const auto name = want_word(reading_, cursor, "`let`", "a name", "let load = 25 kN");
  if (!name) return;
  if (!cursor.take_sign("=")) {
    reading_.report(fault::word_expected, cursor.here(), fmt::format("`let {}` needs `=` and a value", *name),
                    fmt::format("write `let {} = 25 kN`", *name));
    lets_[*name].state = Let::State::done;
    return;
  }
  const Span whole = cursor.rest();
  const Formula formula{&cursor.tree(), static_cast<std::uint32_t>(&cursor.peek() - cursor.tree().terms.data()),
                        static_cast<std::uint32_t>(cursor.left()), whole};
  const auto [place, fresh] = lets_.try_emplace(*name, Let{cursor.done() ? Formula{&cursor.tree(), 0, 0, whole} : formula, at, {}, {}});
  if (fresh) return;
  Message& message = reading_.report(fault::let_twice, at, fmt::format("`{}` is given two values", *name), "give one of them another name", "again here");
  message.places.push_back({place->second.name, "first here"});
}

void Lets::compute_all() {
  for (auto& [name, let] : lets_)
    if (let.state == Let::State::waiting) compute(name, let, let.name);
}

Meaning Lets::find(std::string_view word, Span use) {
  const auto found = lets_.find(word);
  if (found == lets_.end()) return {};
  return compute(found->first, found->second, use);
}

Meaning Lets::compute(std::string_view name, Let& let, Span use) {
  if (let.state == Let::State::computing || depth_ > most_deep) {
    Message& message = reading_.report(fault::let_cycle, let.name, fmt::format("`{}` is computed from itself", name),
                                       "give one of the names a value of its own", "this value");
    message.places.push_back({use, "needs it again"});
    let.state = Let::State::done;
    return {Meaning::Kind::silent, {}};
  }
  if (let.state == Let::State::waiting) {
    let.state = Let::State::computing;
    ++depth_;
    const std::optional<Quantity> value = evaluate_any(reading_, let.formula, *this, "`let " + std::string(name) + "`");
    --depth_;
    if (let.state == Let::State::computing) let.value = value;
    let.state = Let::State::done;
  }
  if (!let.value) return {Meaning::Kind::silent, {}};
  return {Meaning::Kind::value, *let.value};
}

std::optional<Lets::Said> Lets::said(std::string_view name) const {
  const auto found = lets_.find(name);
  if (found == lets_.end() || !found->second.value) return {};
  return Said{found->second.formula.span, found->second.value->dimension};
}

std::vector<std::string> Lets::known() const {
  std::vector<std::string> names;
  for (const auto& [name, let] : lets_) names.push_back(name);
  return names;
}

}  // namespace ferrule
