#include "grammar/tree.hpp"

#include <charconv>
#include <limits>

namespace ferrule {
namespace {

// A figure without sign: `12`, `.5`, `1,5`, `1e300`. from_chars knows no locale.
double decimal_of(std::string_view digits) {
  std::string spelled(digits);
  if (const auto comma = spelled.find(','); comma != std::string::npos) spelled[comma] = '.';
  double value = 0;
  const auto read = std::from_chars(spelled.data(), spelled.data() + spelled.size(), value);
  if (read.ec != std::errc::result_out_of_range) return value;
  // Too large or too small; a negative power of ten tells which.
  return spelled.find("e-") == std::string::npos ? std::numeric_limits<double>::infinity() : 0;
}

double quotient(std::string_view text, std::size_t stroke) {
  const double below = decimal_of(text.substr(stroke + 1));
  return below == 0 ? std::numeric_limits<double>::quiet_NaN() : decimal_of(text.substr(0, stroke)) / below;
}

// `3/8`, `1 1/4`, `4:1` or a plain figure.
double figure_of(std::string_view text) {
  const auto stroke = text.find_first_of("/:");
  if (stroke == std::string_view::npos) return decimal_of(text);
  if (text[stroke] == ':') return quotient(text, stroke);
  const auto before_fraction = text.substr(0, stroke).find_last_not_of("0123456789");
  if (before_fraction == std::string_view::npos) return quotient(text, stroke);
  const std::size_t fraction = before_fraction + 1;
  return decimal_of(text.substr(0, fraction)) + quotient(text.substr(fraction), stroke - fraction);
}

}  // namespace

double number_of(const Term& number) {
  std::string_view text = number.text;
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  return negative ? -figure_of(text) : figure_of(text);
}

std::string unescaped(const Term& text) {
  std::string out;
  out.reserve(text.text.size());
  for (std::size_t i = 0; i < text.text.size(); ++i) {
    const bool escape = text.text[i] == '\\' && i + 1 < text.text.size() && (text.text[i + 1] == '"' || text.text[i + 1] == '\\');
    out += text.text[escape ? ++i : i];
  }
  return out;
}

}  // namespace ferrule
