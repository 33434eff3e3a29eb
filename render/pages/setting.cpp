#include "render/pages/setting.hpp"

#include <algorithm>

#include "render/canvas/words.hpp"

namespace ferrule::pages {
namespace {

using sheet::Inks;

constexpr double below_capital = 0.45;   // of a capital: tails are 0.3 h (ISO 3098)
constexpr double mark_width = 7, frame_inset = 4, frame_line = 0.7;

double width_of(std::string_view words, double capital) { return canvas::measured(words, capital).width; }

// As many characters of a word as fit; at least one.
std::string_view piece_that_fits(std::string_view word, double width, double capital) {
  const std::u32string letters = canvas::code_points(word);
  std::size_t count = letters.size();
  while (count > 1 && width_of(canvas::utf8(std::u32string_view(letters).substr(0, count)), capital) > width) count = count > 64 ? count / 2 : count - 1;
  return word.substr(0, canvas::utf8(std::u32string_view(letters).substr(0, count)).size());
}

void put(Set& set, Piece piece, Inks inks) {
  set.pieces.push_back(piece);
  set.inks.push_back(std::move(inks));
}

void set_block(const Heading& heading, double width, Set& set) {
  constexpr double capitals[] = {7, 5, 3.5}, air[] = {0, 9, 6}, behind[] = {5, 3, 1.5};
  const auto level = static_cast<std::size_t>(std::clamp(heading.level, 0, 2));
  const double capital = capitals[level];
  const auto lines = lines_of(heading.text, width, capital);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const bool last = i + 1 == lines.size();
    put(set, {last ? capital * (1 + below_capital) + behind[level] : pitch_of(capital), i == 0 ? air[level] : 0, true, -1},
        {sheet::words({0, capital}, lines[i], capital)});
  }
}

void set_block(const Paragraph& paragraph, double width, Set& set) {
  const double hung = paragraph.mark.empty() ? 0 : mark_width;
  const auto lines = lines_of(paragraph.text, width - hung, paragraph.capital);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Inks inks;
    if (i == 0 && hung > 0) inks.push_back(sheet::words({0, paragraph.capital}, paragraph.mark, paragraph.capital));
    inks.push_back(sheet::words({hung, paragraph.capital}, lines[i], paragraph.capital));
    put(set, {pitch_of(paragraph.capital), i == 0 ? 0.6 * paragraph.capital : 0, stays_with_next(i, lines.size()), -1}, std::move(inks));
  }
}

void set_block(const Figure& figure, double width, Set& set) {
  Inks inks = figure.inks;
  sheet::move(inks, {(width - figure.width) / 2, 0});
  put(set, {figure.height, 2, false, -1}, std::move(inks));
}

void set_block(const Frame& frame, double width, Set& set) {
  Set inside;
  for (const Paragraph& paragraph : frame.paragraphs) set_block(paragraph, width - 2 * frame_inset, inside);
  Inks inks;
  double top = frame_inset;
  for (std::size_t i = 0; i < inside.pieces.size(); ++i) {
    if (i > 0) top += inside.pieces[i].before;
    sheet::move(inside.inks[i], {frame_inset, top});
    sheet::append(inks, std::move(inside.inks[i]));
    top += inside.pieces[i].height;
  }
  top += frame_inset - 1.5;  // the last line has air of its own below it
  inks.push_back(sheet::outline({0, 0, width, top}, frame_line));
  put(set, {top, 3, false, -1}, std::move(inks));
}

void set_block(const Table& table, double width, Set& set) { set_table(table, width, set); }

void set_block(const Spacing& spacing, double, Set& set) { put(set, {0, spacing.height, false, -1}, {}); }

}  // namespace

std::vector<std::string> lines_of(std::string_view words, double width, double capital) {
  std::vector<std::string> lines{""};
  const double blank = width_of("n n", capital) - width_of("nn", capital);
  double used = 0;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    std::string_view word = words.substr(0, end);
    words.remove_prefix(std::min(end + 1, words.size()));
    while (!word.empty()) {
      const double wide = width_of(word, capital);
      const double needed = wide + (lines.back().empty() ? 0 : blank);
      if (used + needed <= width) {
        lines.back() += (lines.back().empty() ? "" : " ") + std::string(word);
        used += needed;
        word = {};
      } else if (wide <= width || !lines.back().empty()) {
        lines.emplace_back();
        used = 0;
      } else {
        const std::string_view piece = piece_that_fits(word, width, capital);
        lines.back() = piece;
        used = width;
        word.remove_prefix(piece.size());
      }
    }
  }
  return lines;
}

std::vector<double> shared_widths(const std::vector<double>& liked, const std::vector<double>& least, double room) {
  std::vector<double> widths = liked;
  double sum = 0, widest = 0;
  for (const double width : widths) sum += width, widest = std::max(widest, width);
  if (sum <= room) return widths;
  // The common width by halving: what all columns take grows with it.
  double low = 0, high = widest;
  for (int i = 0; i < 60; ++i) {
    const double common = (low + high) / 2;
    sum = 0;
    for (std::size_t c = 0; c < liked.size(); ++c) sum += std::max(std::min(liked[c], common), least[c]);
    (sum > room ? high : low) = common;
  }
  for (std::size_t c = 0; c < liked.size(); ++c) widths[c] = std::max(std::min(liked[c], low), least[c]);
  return widths;
}

Set set_blocks(const std::vector<Block>& blocks, double width) {
  Set set;
  for (const Block& block : blocks) std::visit([&](const auto& one) { set_block(one, width, set); }, block);
  return set;
}

}  // namespace ferrule::pages
