#include "checks/report/letters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace ferrule {
namespace {

struct Range {
  char32_t first, last;
};

constexpr Range hidden[] = {
    {0x00, 0x1F}, {0x7F, 0x9F}, {0x61C, 0x61C}, {0x200B, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x2069}, {0xFEFF, 0xFEFF},
};
constexpr Range no_width[] = {
    {0x300, 0x36F}, {0x483, 0x489}, {0x591, 0x5BD}, {0x610, 0x61A}, {0x64B, 0x65F}, {0x1AB0, 0x1AFF},
    {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F},
};
constexpr Range wide[] = {
    {0x1100, 0x115F}, {0x2E80, 0x303E}, {0x3041, 0x33FF}, {0x3400, 0x4DBF}, {0x4E00, 0x9FFF}, {0xA000, 0xA4CF}, {0xAC00, 0xD7A3},
    {0xF900, 0xFAFF}, {0xFE30, 0xFE6F}, {0xFF00, 0xFF60}, {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD},
};

template <std::size_t count>
bool within(const Range (&ranges)[count], char32_t code) {
  return std::any_of(std::begin(ranges), std::end(ranges), [&](Range r) { return r.first <= code && code <= r.last; });
}

int length_by_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead < 0xE0) return 2;
  if (lead >= 0xE0 && lead < 0xF0) return 3;
  return lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
}

bool is_valid(char32_t code, int length) {
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  return code >= least[length] && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
}

}  // namespace

Letter letter_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const int length = length_by_lead(byte(at));
  const Letter bad{byte(at), 1, true};
  if (length == 0 || at + length > text.size()) return bad;
  if (length == 1) return {byte(at), 1, false};
  char32_t code = byte(at) & (0x7F >> length);
  for (int i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return bad;
    code = code << 6 | (byte(at + i) & 0x3F);
  }
  return is_valid(code, length) ? Letter{code, static_cast<std::uint8_t>(length), false} : bad;
}

std::string shown_letter(std::string_view text, std::size_t at, const Letter& letter) {
  if (letter.bad) return fmt::format("<0x{:02X}>", static_cast<unsigned>(letter.code));
  if (letter.code == '\t') return " ";
  if (within(hidden, letter.code)) return fmt::format("<U+{:04X}>", static_cast<unsigned>(letter.code));
  return std::string(text.substr(at, letter.bytes));
}

int columns_of(char32_t code) {
  if (code < 0x300) return 1;
  if (within(no_width, code)) return 0;
  return within(wide, code) ? 2 : 1;
}

std::size_t columns_of(std::string_view text) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    columns += columns_of(letter.code);
    at += letter.bytes;
  }
  return columns;
}

std::string safe(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    out += shown_letter(text, at, letter);
    at += letter.bytes;
  }
  return out;
}

std::string safe_lines(std::string_view text) {
  std::string lines;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines += safe(text.substr(from, end - from)) + "\n";
    from = end + 1;
  }
  return lines;
}

std::string without_log_commands(std::string output) {
  for (std::size_t at = 0; (at = output.find("##[", at)) != std::string::npos;) output.insert(at + 1, " ");
  for (std::size_t line = 0; line < output.size();) {
    const std::size_t word = output.find_first_not_of(" \t", line);
    if (word == std::string::npos) break;
    if (output.compare(word, 2, "::") == 0) output.insert(word + 1, " ");
    const std::size_t end = output.find('\n', line);
    if (end == std::string::npos) break;
    line = end + 1;
  }
  return output;
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view indent) {
  std::string out;
  std::size_t column = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    const std::size_t next = std::min(text.find_first_not_of(' ', end), text.size());
    const std::size_t gap = column == 0 ? 0 : 1, columns = columns_of(word);
    if (column != 0 && column + gap + columns > width) {
      out += '\n';
      out += indent;
      column = 0;
    } else if (gap) {
      out += ' ';
      ++column;
    }
    out += word;
    column += columns;
    text.remove_prefix(next);
  }
  return out;
}

}  // namespace ferrule
