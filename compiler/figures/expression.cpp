#include "compiler/figures/expression.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <numbers>

namespace ferrule::working {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A word, a number or a sign; empty at the end.
std::string_view token_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {};
  std::size_t end = at + 1;
  if (is_letter(text[at]))
    while (end < text.size() && (is_letter(text[end]) || is_digit(text[end]) || text[end] == '.')) ++end;
  else if (is_digit(text[at]))
    while (end < text.size() && (is_digit(text[end]) || text[end] == '.')) ++end;
  return text.substr(at, end - at);
}

constexpr std::string_view own_words[] = {"x", "pi", "sqrt", "abs", "min", "max"};

bool is_name(std::string_view token) {
  return !token.empty() && is_letter(token.front()) && std::find(std::begin(own_words), std::end(own_words), token) == std::end(own_words);
}

class Reader {
 public:
  Reader(std::string_view text, const ValueOf& names) : text_(text), names_(names) {}
  double read() {
    const double value = sum();
    return peek().empty() ? value : none;
  }

 private:
  std::string_view peek() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    return token_at(text_, at_);
  }
  bool take(std::string_view token) {
    if (peek() != token) return false;
    at_ += token.size();
    return true;
  }
  double sum() {
    double value = take("-") ? -product() : product();
    for (;;) {
      if (take("+")) value += product();
      else if (take("-")) value -= product();
      else return value;
    }
  }
  double product() {
    double value = power();
    for (;;) {
      if (take("x")) value *= power();
      else if (take("/")) value /= power();
      else return value;
    }
  }
  double power() {
    const double base = atom();
    return take("^") ? std::pow(base, atom()) : base;
  }
  double in_brackets() {
    const double value = sum();
    return take(")") ? value : none;
  }
  double of_two(bool larger) {
    const double one = sum();
    if (!take(",")) return none;
    const double two = in_brackets();
    return larger ? std::max(one, two) : std::min(one, two);
  }
  double called(std::string_view word) {
    if (!take("(")) return none;
    if (word == "sqrt") return std::sqrt(in_brackets());
    if (word == "abs") return std::fabs(in_brackets());
    return of_two(word == "max");
  }
  double atom() {
    if (take("(")) return in_brackets();
    const std::string_view token = peek();
    if (token.empty()) return none;
    at_ += token.size();
    if (is_digit(token.front())) {
      double value = none;
      std::from_chars(token.data(), token.data() + token.size(), value);
      return value;
    }
    if (token == "pi") return std::numbers::pi;
    if (is_name(token)) return names_(token);
    return called(token);
  }

  std::string_view text_;
  const ValueOf& names_;
  std::size_t at_ = 0;
};

template <class Use>
void each_token(std::string_view formula, Use use) {
  for (std::size_t at = 0; at < formula.size();) {
    const std::string_view token = token_at(formula, at);
    use(token);
    at += token.size();
  }
}

}  // namespace

double value_of(std::string_view formula, const ValueOf& value_of_name) { return Reader(formula, value_of_name).read(); }

std::vector<std::string> names_in(std::string_view formula) {
  std::vector<std::string> names;
  each_token(formula, [&](std::string_view token) {
    if (is_name(token) && std::find(names.begin(), names.end(), token) == names.end()) names.emplace_back(token);
  });
  return names;
}

std::string with_names_replaced(std::string_view formula, const std::function<std::string(std::string_view)>& by) {
  std::string out;
  each_token(formula, [&](std::string_view token) { out += is_name(token) ? by(token) : std::string(token); });
  return out;
}

}  // namespace ferrule::working
