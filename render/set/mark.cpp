#include "render/set/mark.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace ferrule::set {
namespace {

// In modules, from the port outward: stub, flag with its point, words, and the clear step behind them.
constexpr double stub = 1, shoulder = 4, flag_end = 5, half_flag = 2.5, words_at = 6.5, end = 7.5;

double outward(Side side) { return side == Side::below ? -1 : 1; }

// y of the middle of the letters in the flag.
double letters_at(bool to) { return to ? stub + (shoulder - stub) / 2 : flag_end - (shoulder - stub) / 2; }

DrawnLabel label_of(const DrawnReference& reference, const std::string& name, const std::string& text, double y, double capital) {
  const double width = canvas::measured(text, capital).width;
  DrawnLabel label;
  label.id = reference.symbol + ":" + name;
  label.owner = reference.symbol;
  label.kind = mark_kind;
  label.port = mark_port;
  label.text = text;
  label.inside = true;
  label.anchor = sheet::Anchor::middle;
  label.baseline = {reference.at.x, y + capital / 2};
  label.box = {reference.at.x - width / 2, y - capital / 2, width, 1.3 * capital};  // the stroke of a fraction goes below the line
  return label;
}

}  // namespace

symbols::Figure mark_figure(Side side, bool to, double text_width) {
  const double s = outward(side);
  symbols::Figure figure;
  figure.name = mark_kind;
  figure.strokes.push_back(symbols::stroke(StrokeKind::line, {0, 0, 0, s * stub}));
  const std::vector<double> away{-half_flag, s * stub, half_flag, s * stub, half_flag, s * shoulder, 0, s * flag_end, -half_flag, s * shoulder};
  const double neck = stub + flag_end - shoulder;
  const std::vector<double> inward{0, s * stub, half_flag, s * neck, half_flag, s * flag_end, -half_flag, s * flag_end, -half_flag, s * neck};
  figure.strokes.push_back(symbols::stroke(StrokeKind::closed, to ? away : inward));
  const double half = std::max(half_flag, text_width / 2);
  figure.room = symbols::Extent{-half, std::min(0.0, s * end), half, std::max(0.0, s * end)};
  figure.ports.push_back({std::string(mark_port), 0, 0, side, PortUse::main});
  figure.centre = {0, s * 3};
  figure.fixed = true;
  return figure;
}

std::string words_of(const DrawnReference& reference) {
  return fmt::format("{} {}/{}", reference.to ? "to" : "from", reference.partner_sheet, reference.partner_field);
}

void letter(DrawnSheet& page, const DrawnReference& reference, Side side, const Drawing& drawing) {
  const double s = outward(side) * drawing.module_mm;
  page.labels.push_back(label_of(reference, "name", reference.name, reference.at.y + s * letters_at(reference.to), drawing.capital_mm));
  page.labels.push_back(label_of(reference, "to", words_of(reference), reference.at.y + s * words_at, drawing.capital_mm));
}

}  // namespace ferrule::set
