#include "render/placed_labels.hpp"

#include "render/canvas/words.hpp"

namespace ferrule {
namespace {

struct Row {
  const layout::PlacedText& text;
  std::size_t index, rows;
  double half, capital;  // mm
};

bool has_tail(std::string_view words) {
  constexpr std::u32string_view tails = U"gjpqyQ,;()[]{}|_µβρφ/";
  for (const char32_t c : canvas::code_points(words))
    if (tails.find(c) != std::u32string_view::npos) return true;
  return false;
}

sheet::Anchor anchor_of(layout::PlacedText::Align align) {
  if (align == layout::PlacedText::Align::left) return sheet::Anchor::left;
  return align == layout::PlacedText::Align::right ? sheet::Anchor::right : sheet::Anchor::middle;
}

double share(sheet::Anchor anchor) { return anchor == sheet::Anchor::left ? 0 : anchor == sheet::Anchor::middle ? 0.5 : 1; }

// Capitals stand in the middle of their row.
void place(DrawnLabel& label, const Row& row) {
  const layout::Box& box = row.text.box;
  const double across = (row.text.turned ? box.right - box.left : box.bottom - box.top) * row.half;
  const double pitch = across / static_cast<double>(row.rows);
  const double foot = static_cast<double>(row.index) * pitch + pitch / 2 + row.capital / 2;
  const double width = canvas::measured(label.text, row.capital).width;
  const double height = row.capital * (has_tail(label.text) ? 1.3 : 1.0);
  const double s = share(label.anchor);
  if (row.text.turned) {
    label.baseline = {box.left * row.half + foot, (box.bottom - s * (box.bottom - box.top)) * row.half};
    label.box = {label.baseline.x - row.capital, label.baseline.y - (1 - s) * width, height, width};
    return;
  }
  label.baseline = {(box.left + s * (box.right - box.left)) * row.half, box.top * row.half + foot};
  label.box = {label.baseline.x - s * width, label.baseline.y - row.capital, width, height};
}

bool may_stand_inside(const SketchText& text) { return text.kind == "port" || text.kind == "designation" || text.kind == "setting"; }

}  // namespace

namespace {

// What stands in a trough belongs to the trough.
std::map<std::string, std::string> troughs_of(const Sketch& sketch) {
  std::map<std::string, std::string> hosts;
  for (const layout::Item& item : sketch.problem.items)
    if (item.in_trough && item.host >= 0) hosts[item.id] = sketch.problem.items[static_cast<std::size_t>(item.host)].id;
  return hosts;
}

}  // namespace

std::vector<DrawnLabel> labels_of(const Sketch& sketch, const layout::Layout& layout, double module_mm, double capital_mm) {
  std::vector<DrawnLabel> labels;
  const auto troughs = troughs_of(sketch);
  for (const layout::PlacedText& text : layout.texts) {
    const auto source = sketch.texts.find(text.id);
    if (source == sketch.texts.end()) continue;
    const SketchText& words = source->second;
    for (std::size_t i = 0; i < words.rows.size(); ++i) {
      DrawnLabel label{text.id + "." + std::to_string(i + 1), words.owner, words.kind, words.port, words.rows[i], {}, false, text.turned, anchor_of(text.align), {}, {}};
      if (i == 0)
        for (const layout::Point& point : text.leader) label.leader.push_back({point.x * module_mm / 2, point.y * module_mm / 2});
      if (i > 0 && label.kind == "designation") label.kind = "setting";
      if (const auto host = troughs.find(label.owner); host != troughs.end()) label.owner = host->second;
      label.inside = may_stand_inside(words);
      place(label, {text, i, words.rows.size(), module_mm / 2, capital_mm});
      labels.push_back(std::move(label));
    }
  }
  return labels;
}

}  // namespace ferrule
