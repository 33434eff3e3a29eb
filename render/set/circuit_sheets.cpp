#include "render/set/circuit_sheets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ferrule::set {
namespace {

std::size_t digits(std::size_t number) { return std::to_string(number).size(); }

// Modules for the longest words of a mark: a set has about as many sheets as parts at most, lists included.
double mark_width(const Making& making, const Sketch& sketch, const sheet::Format& format) {
  const std::string last = sheet::field_at(format, {format.width, 0});
  const std::string widest = "from " + std::string(digits(2 * sketch.items.size() + 10), '8') + "/M" + std::string(last.size() - 1, '8');
  return std::ceil(canvas::measured(widest, making.drawing.capital_mm).width / making.drawing.module_mm);
}

std::vector<sheet::Format> larger_than(const sheet::Format& format) {
  std::vector<sheet::Format> all;
  for (const sheet::Format& other : sheet::formats())
    if (other.width > format.width) all.push_back(other);
  return all;
}

// Layout counts the branches of a piece from 1: back to those of the circuit. The marks for later sheets stand behind the last.
void renumber(DrawnSheet& page, const std::vector<Unit>& units, Range range) {
  std::vector<int> branches{0};
  for (std::size_t u = range.first; u < range.last; ++u)
    if (units[u].branch != branches.back()) branches.push_back(units[u].branch);
  branches.push_back(branches.back() + 1);
  for (DrawnSymbol& symbol : page.symbols) symbol.branch = branches[std::min(static_cast<std::size_t>(symbol.branch), branches.size() - 1)];
}

struct Maker {
  const Making& making;
  const Sketch& sketch;
  Whole whole;
  std::vector<std::string>& notes;

  // With air where a sheet holds several units, as tight as needed for one alone and for all.
  bool fits(const std::vector<Unit>& units, Range range, std::span<const sheet::Format> formats) const {
    const Piece piece = whole.piece(units, range);
    const bool one = range.last - range.first == 1 || range.last - range.first == units.size();
    const std::vector<layout::Distances> all = one ? spacings_of(piece.sketch) : std::vector{layout::Distances{}};
    return composed(making, piece.sketch, all, formats).has_value();
  }

  bool fits_each(const std::vector<Unit>& units, const sheet::Format& format) const {
    for (std::size_t u = 0; u < units.size(); ++u)
      if (!fits(units, {u, u + 1}, {&format, 1})) return false;
    return true;
  }

  CircuitSheet made(const std::vector<Unit>& units, Range range, const sheet::Format& format) {
    CircuitSheet result{whole.piece(units, range), {}, name_of(making.circuit, sketch, units, range)};
    const std::vector<layout::Distances> spacings = spacings_of(result.piece.sketch);
    auto composed = ferrule::composed(making, result.piece.sketch, spacings, {&format, 1});
    if (!composed) composed = larger(result, spacings, format);
    result.composed = std::move(*composed);
    renumber(result.composed.page, units, range);
    return result;
  }

  // What can't be parted further and still does not fit.
  Composed larger(const CircuitSheet& made, const std::vector<layout::Distances>& spacings, const sheet::Format& format) {
    auto on_larger = ferrule::composed(making, made.piece.sketch, spacings, larger_than(format));
    Composed composed = on_larger ? std::move(*on_larger) : composed_apart(making, made.piece.sketch);
    const std::string what = made.name.contents.empty() ? made.name.title : sheet::cut_to(made.name.contents, 120, 2.5);
    notes.push_back(fmt::format("{} with its references needs {:.0f} x {:.0f} mm, more than {} holds: drawn on {}", what, composed.size.w, composed.size.h,
                                on_larger ? format.name : "A0", on_larger ? composed.page.format.name : "a sheet of its own size"));
    return composed;
  }
};

Maker maker_for(const Making& making, const Sketch& sketch, const sheet::Format& format, std::vector<std::string>& notes) {
  return {making, sketch, Whole(sketch, mark_width(making, sketch, format)), notes};
}

sheet::Format format_for(const Making& making, const Sketch& sketch, const std::vector<Unit>& units, std::span<const sheet::Format> formats,
                         std::vector<std::string>& notes) {
  if (formats.size() == 1) return formats.front();
  for (const sheet::Format& format : formats)
    if (format.name != "A4" && maker_for(making, sketch, format, notes).fits_each(units, format)) return format;
  return formats.back();
}

}  // namespace

CircuitSheets circuit_sheets(const Making& making, const Sketch& sketch, std::span<const sheet::Format> formats, std::vector<std::string>& notes) {
  std::vector<Unit> units = units_of(sketch.problem);
  const sheet::Format format = format_for(making, sketch, units, formats, notes);
  const std::vector<sheet::Format> larger = larger_than(format);
  Maker maker = maker_for(making, sketch, format, notes);
  CircuitSheets result;
  result.division = divided(sketch.problem, std::move(units), {[&](const std::vector<Unit>& all, Range range) { return maker.fits(all, range, {&format, 1}); },
                                                               [&](const std::vector<Unit>& all, Range range) { return maker.fits(all, range, larger); }});
  for (const Range& range : result.division.sheets) result.sheets.push_back(maker.made(result.division.units, range, format));
  return result;
}

}  // namespace ferrule::set
