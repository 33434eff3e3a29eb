#include "render/set/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "render/set/mark.hpp"
#include "render/sheet/composition.hpp"
#include "render/sheet/list.hpp"
#include "render/symbols/symbols.hpp"

namespace ferrule::set {
namespace {

using sheet::Rect;

constexpr double capital = 2.5, heading = 3.5, title_capital = 7, gap = 8;

sheet::Format list_format() { return *sheet::format_named("A4"); }

DrawnSheet empty_page(const std::string& title, const std::string& caution, const sheet::Format& format = list_format()) {
  sheet::EmptySheet empty = sheet::empty_sheet(format, caution);
  DrawnSheet page;
  page.title = title;
  page.format = format;
  page.area = empty.area;
  page.furniture = std::move(empty.furniture);
  return page;
}

Rect free_space(const std::string& caution, const sheet::Format& format = list_format()) { return sheet::empty_sheet(format, caution).free; }

std::string place_of(const DrawnPart& part) { return part.sheet.empty() ? "-" : part.sheet + "/" + part.field; }

// A page for every page of the list; `keep` takes what stands in its rows.
template <class Keep>
std::vector<DrawnSheet> pages_of(const sheet::List& list, const std::string& caution, const sheet::Format& format, Keep keep) {
  const Rect space = free_space(caution, format);
  std::vector<DrawnSheet> pages;
  for (sheet::ListPage& written : sheet::list_pages(list, space, space)) {
    DrawnSheet page = empty_page(list.heading, caution, format);
    sheet::append(page.furniture, std::move(written.inks));
    for (std::size_t i = 0; i < written.rows.size(); ++i) keep(page, written.first + i, written.rows[i]);
    pages.push_back(std::move(page));
  }
  return pages;
}

double width_of_signal(const sheet::CycleTable& table, std::size_t signal) {
  double widest = canvas::measured(table.signals[signal], capital).width;
  for (const auto& row : table.rows) widest = std::max(widest, canvas::measured(row.marks[signal], capital).width);
  return std::max(9.0, widest + 4.5);
}

constexpr double step_width = 14, name_width = 40, least_end = 32;

// A column for each signal; none when they do not fit beside the words.
std::optional<sheet::List> cycle_by_signals(const sheet::CycleTable& table, double width) {
  sheet::List list{"Work cycle", {{"Step", step_width, true}, {"Name", name_width}}, {}};
  double left = width - step_width - name_width - least_end;
  for (std::size_t signal = 0; signal < table.signals.size(); ++signal) {
    list.columns.push_back({table.signals[signal], width_of_signal(table, signal), true});
    left -= list.columns.back().width;
  }
  if (left < 0) return {};
  list.columns.push_back({"Ends when", least_end + std::min(left, 40.0)});
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    std::vector<std::string> cells{std::to_string(i + 1), table.rows[i].name};
    cells.insert(cells.end(), table.rows[i].marks.begin(), table.rows[i].marks.end());
    cells.push_back(table.rows[i].ends);
    list.rows.push_back(std::move(cells));
  }
  return list;
}

// "1Y1, 2V1 lowered": what a step switches, in words.
std::string switched(const sheet::CycleTable& table, const sheet::CycleTable::Row& row) {
  std::string words;
  for (std::size_t i = 0; i < table.signals.size(); ++i) {
    if (row.marks[i].empty()) continue;
    words += (words.empty() ? "" : ", ") + table.signals[i] + (row.marks[i] == "+" ? "" : " " + row.marks[i]);
  }
  return words;
}

sheet::List cycle_in_words(const sheet::CycleTable& table, double width) {
  const double left = width - step_width - name_width;
  sheet::List list{"Work cycle", {{"Step", step_width, true}, {"Name", name_width}, {"Switched", left / 2}, {"Ends when", left / 2}}, {}};
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    list.rows.push_back({std::to_string(i + 1), table.rows[i].name, switched(table, table.rows[i]), table.rows[i].ends});
  return list;
}

// ---------------------------------------------------------------- cover

struct Cover {
  const CoverData& data;
  const Drawing& drawing;
  Rect space;

  sheet::Inks head(double& bottom) const {
    sheet::Inks inks;
    double y = space.y + title_capital;
    for (const std::string& row : lines(data.title, title_capital, 2)) inks.push_back(sheet::words({space.x, y}, row, title_capital)), y += 1.5 * title_capital;
    for (const std::string& row : lines(data.purpose, heading, 4)) inks.push_back(sheet::words({space.x, y}, row, heading)), y += 1.6 * heading;
    bottom = y;
    return inks;
  }

  std::vector<std::string> lines(const std::string& text, double height, std::size_t most) const {
    std::vector<std::string> all = sheet::wrapped(text, space.w, height);
    if (all.size() > most) all.resize(most), all.back() += " ...";
    for (std::string& row : all) row = sheet::cut_to(row, space.w, height);
    return all;
  }

  // How references are read, and the cautions in a frame; ends at the bottom of the space.
  sheet::Inks foot(double& top) const {
    const double m = drawing.module_mm, width = space.w;
    const auto words = sheet::wrapped(data.caution, width - 8, heading);
    const double frame = static_cast<double>(words.size()) * 1.6 * heading + 5;
    const double caution_top = space.bottom() - frame, marks_top = caution_top - gap - 8 * m;
    sheet::Inks inks{sheet::outline({space.x, caution_top, width, frame}, 0.5)};
    for (std::size_t i = 0; i < words.size(); ++i)
      inks.push_back(sheet::words({space.x + 4, caution_top + 2.5 + heading + static_cast<double>(i) * 1.6 * heading}, words[i], heading));
    mark(inks, {space.x + 3 * m, marks_top}, true, "To 2/C4: the line goes on on sheet 2 in field C4. The mark there names this one.");
    mark(inks, {space.x + 3 * m + width / 2, marks_top}, false, "From 2/C4: the line comes from there. The flag points the way of the oil.");
    top = marks_top - gap;
    return inks;
  }

  void mark(sheet::Inks& inks, sheet::Point at, bool to, const char* meaning) const {
    const double m = drawing.module_mm;
    sheet::append(inks, symbols::inks_of(mark_figure(Side::above, to, 0), at, m, drawing.line_mm));
    sheet::Panel panel = sheet::note(meaning, space.w / 2 - 8 * m);
    sheet::move(panel.inks, {at.x + 4 * m, at.y});
    sheet::append(inks, std::move(panel.inks));
  }
};

}  // namespace

std::vector<DrawnSheet> pages_of_parts(const std::vector<DrawnPart>& parts, const std::string& caution) {
  const double width = free_space(caution).w;
  constexpr double code = 24, term = 62, place = 25;
  sheet::List list{"Parts list", {{"Code", code}, {"Part", term}, {"Data", width - code - term - place}, {"Sheet/field", place, true}}, {}};
  for (const DrawnPart& part : parts) list.rows.push_back({part.tag, part.term, part.data, place_of(part)});
  return pages_of(list, caution, list_format(), [&](DrawnSheet& page, std::size_t row, const Rect& box) {
    page.parts.push_back(parts[row]);
    page.parts.back().box = box;
  });
}

std::vector<DrawnSheet> pages_of_cycle(const sheet::CycleTable& table, const std::string& caution, const sheet::Format& widest) {
  if (table.rows.empty()) return {};
  const auto no_rows = [](DrawnSheet&, std::size_t, const Rect&) {};
  for (const char* name : {"A4", "A3"}) {
    const sheet::Format format = *sheet::format_named(name);
    if (format.width > widest.width) continue;
    if (const auto list = cycle_by_signals(table, free_space(caution, format).w)) return pages_of(*list, caution, format, no_rows);
  }
  return pages_of(cycle_in_words(table, free_space(caution).w), caution, list_format(), no_rows);
}

std::vector<DrawnSheet> pages_of_cover(const CoverData& data, const Drawing& drawing) {
  Rect space = free_space("");
  const Cover cover{data, drawing, space};
  double top = space.y, bottom = space.bottom();
  sheet::Inks head = cover.head(top), foot = cover.foot(bottom);
  sheet::List list{"Sheets", {{"Sheet", 16, true}, {"Title", 50}, {"Shows", space.w - 66}}, {}};
  for (const DrawnIndexRow& row : data.index) list.rows.push_back({row.sheet, row.title, row.contents});
  const Rect first{space.x, top, space.w, bottom - top};
  std::vector<DrawnSheet> pages;
  for (sheet::ListPage& written : sheet::list_pages(list, first, space)) {
    DrawnSheet page = empty_page("Index of sheets", "");
    if (pages.empty()) sheet::append(page.furniture, head), sheet::append(page.furniture, foot);
    sheet::append(page.furniture, std::move(written.inks));
    for (std::size_t i = 0; i < written.rows.size(); ++i) {
      page.index.push_back(data.index[written.first + i]);
      page.index.back().box = written.rows[i];
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace ferrule::set
