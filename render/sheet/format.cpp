#include "render/sheet/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace ferrule::sheet {
namespace {

// ISO 216.
const std::array<Format, 5> iso_formats{{{"A4", 210, 297}, {"A3", 420, 297}, {"A2", 594, 420}, {"A1", 841, 594}, {"A0", 1189, 841}}};

constexpr double filing = 20, border = 10, band = 5, field = 50;
constexpr double frame_line = 0.7, reference_line = 0.35, reference_letter = 3.5;

// Cuts of the reference band along a side of this length, counted from its middle; what is left goes to the corner fields.
std::vector<double> cuts(double length) {
  std::vector<double> at;
  const int half = std::max(1, static_cast<int>(std::lround(length / (2 * field))));
  for (int i = -half + 1; i < half; ++i) at.push_back(length / 2 + i * field);
  return at;
}

std::string row_letter(std::size_t row) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";  // no I, no O
  std::string name(1, letters[row % letters.size()]);
  return row < letters.size() ? name : std::string(1, letters[row / letters.size() - 1]) + name;
}

Ink reference(Point middle, std::string text) {
  return words({middle.x, middle.y + reference_letter / 2}, std::move(text), reference_letter, Anchor::middle);
}

// Numerals along the top, and along the bottom when asked.
void columns(Inks& inks, const Format& format, const Rect& space, bool both) {
  std::vector<double> at = cuts(format.width);
  for (double x : at) {
    inks.push_back(line({{x, space.y - band}, {x, space.y}}, reference_line));
    if (both) inks.push_back(line({{x, space.bottom()}, {x, space.bottom() + band}}, reference_line));
  }
  at.insert(at.begin(), space.x);
  at.push_back(space.right());
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double x = (at[i] + at[i + 1]) / 2;
    inks.push_back(reference({x, space.y - band / 2}, std::to_string(i + 1)));
    if (both) inks.push_back(reference({x, space.bottom() + band / 2}, std::to_string(i + 1)));
  }
}

// Letters along the right, and along the left when asked.
void rows(Inks& inks, const Format& format, const Rect& space, bool both) {
  std::vector<double> at = cuts(format.height);
  for (double y : at) {
    inks.push_back(line({{space.right(), y}, {space.right() + band, y}}, reference_line));
    if (both) inks.push_back(line({{space.x - band, y}, {space.x, y}}, reference_line));
  }
  at.insert(at.begin(), space.y);
  at.push_back(space.bottom());
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double y = (at[i] + at[i + 1]) / 2;
    inks.push_back(reference({space.right() + band / 2, y}, row_letter(i)));
    if (both) inks.push_back(reference({space.x - band / 2, y}, row_letter(i)));
  }
}

// At the ends of the middle axes of the trimmed sheet, from the band's outer edge to 5 mm inside the frame.
void centring_marks(Inks& inks, const Format& format, const Rect& space) {
  const double x = format.width / 2, y = format.height / 2;
  inks.push_back(line({{x, space.y - band}, {x, space.y + 5}}, frame_line));
  inks.push_back(line({{x, space.bottom() - 5}, {x, space.bottom() + band}}, frame_line));
  inks.push_back(line({{space.x - band, y}, {space.x + 5, y}}, frame_line));
  inks.push_back(line({{space.right() - 5, y}, {space.right() + band, y}}, frame_line));
}

std::size_t cuts_before(double length, double at) {
  const std::vector<double> all = cuts(length);
  return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](double cut) { return cut <= at; }));
}

}  // namespace

std::string field_at(const Format& format, Point at) {
  return row_letter(cuts_before(format.height, at.y)) + std::to_string(cuts_before(format.width, at.x) + 1);
}

std::span<const Format> formats() { return iso_formats; }

std::optional<Format> format_named(std::string_view name) {
  for (const Format& format : iso_formats)
    if (format.name == name) return format;
  return {};
}

Rect drawing_space(const Format& format) { return {filing, border, format.width - filing - border, format.height - 2 * border}; }

Inks frame(const Format& format) {
  const Rect space = drawing_space(format);
  const bool both_sides = format.name != "A4";
  Inks inks{outline(space, frame_line), outline({space.x - band, space.y - band, space.w + 2 * band, space.h + 2 * band}, reference_line)};
  columns(inks, format, space, both_sides);
  rows(inks, format, space, both_sides);
  centring_marks(inks, format, space);
  inks.push_back(words({space.right() + band, space.bottom() + band + 4.2}, format.name == "special" ? "" : format.name, reference_letter,
                       Anchor::right));
  return inks;
}

}  // namespace ferrule::sheet
