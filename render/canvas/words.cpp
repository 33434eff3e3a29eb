#include "render/canvas/words.hpp"

#include <fmt/format.h>

namespace ferrule::canvas {
namespace {

constexpr char32_t replacement = 0xFFFD;

struct Decoded {
  char32_t point;
  std::size_t bytes;
};

Decoded decoded(std::string_view rest) {
  const auto first = static_cast<unsigned char>(rest[0]);
  if (first < 0x80) return {first, 1};
  const std::size_t bytes = first >= 0xF0 && first < 0xF5 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 0;
  if (bytes == 0 || first >= 0xF5 || rest.size() < bytes) return {replacement, 1};
  char32_t point = first & (0xFF >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    const auto next = static_cast<unsigned char>(rest[i]);
    if ((next & 0xC0) != 0x80) return {replacement, 1};
    point = point << 6 | (next & 0x3F);
  }
  const bool overlong = (bytes == 3 && point < 0x800) || (bytes == 4 && point < 0x10000);
  const bool surrogate = point >= 0xD800 && point < 0xE000;
  return {overlong || surrogate || point > 0x10FFFF ? replacement : point, bytes};
}

// Control, direction and invisible characters (the same list as the one printer of messages), non-characters of Unicode,
// private use: none of them may stand in a drawing.
bool forbidden(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0xAD || c == 0x061C || (c >= 0x200B && c <= 0x200F) ||
         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || (c >= 0xFFF9 && c <= 0xFFFC) ||
         (c >= 0xFDD0 && c <= 0xFDEF) || (c & 0xFFFE) == 0xFFFE || (c >= 0xE000 && c <= 0xF8FF) || c >= 0xE0000;
}

void append(std::string& out, char32_t c) {
  if (c < 0x80) {
    out += static_cast<char>(c);
  } else if (c < 0x800) {
    out += static_cast<char>(0xC0 | c >> 6);
    out += static_cast<char>(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    out += static_cast<char>(0xE0 | c >> 12);
    out += static_cast<char>(0x80 | (c >> 6 & 0x3F));
    out += static_cast<char>(0x80 | (c & 0x3F));
  } else {
    out += static_cast<char>(0xF0 | c >> 18);
    out += static_cast<char>(0x80 | (c >> 12 & 0x3F));
    out += static_cast<char>(0x80 | (c >> 6 & 0x3F));
    out += static_cast<char>(0x80 | (c & 0x3F));
  }
}

}  // namespace

std::u32string code_points(std::string_view words) {
  std::u32string points;
  while (!words.empty()) {
    const Decoded next = decoded(words);
    points += next.point;
    words.remove_prefix(next.bytes);
  }
  return points;
}

std::string utf8(std::u32string_view points) {
  std::string out;
  for (char32_t c : points) append(out, c);
  return out;
}

std::string clean(std::string_view words, std::size_t most) {
  std::u32string points = code_points(words.substr(0, most * 4 + 4));
  for (char32_t& c : points)
    c = c == '\t' || c == '\n' || c == '\r' || c == 0xA0 ? U' ' : forbidden(c) ? replacement : c;
  if (points.size() > most) points = points.substr(0, most) + U"...";
  return utf8(points);
}

std::string xml_escaped(std::string_view words) {
  std::string out;
  for (char c : clean(words)) switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += c;
    }
  return out;
}

std::string xml_id(std::string_view words) {
  std::string out;
  for (char c : words.substr(0, 200)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == ':';
    out += plain ? std::string(1, c) : fmt::format("_{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace ferrule::canvas
