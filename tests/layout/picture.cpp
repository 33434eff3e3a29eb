#include "layout/picture.hpp"

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace picture {

using namespace ferrule::layout;

namespace {

void words(std::ostringstream& out, const PlacedText& text) {
  const auto space = text.id.find(' ');
  std::string rows = space == std::string::npos ? text.id : text.id.substr(space + 1);
  int y = text.box.top + 3;
  const bool right = text.align == PlacedText::Align::right;
  if (text.turned) {
    out << "<text transform='translate(" << text.box.right << "," << text.box.bottom << ") rotate(-90)'>" << rows << "</text>\n";
    return;
  }
  std::istringstream list(rows);
  for (std::string row; std::getline(list, row, '|'); y += 4)
    out << "<text x='" << (right ? text.box.right : text.box.left) << "' y='" << y << "' text-anchor='" << (right ? "end" : "start") << "'>" << row << "</text>\n";
}

void box(std::ostringstream& out, const Box& b, const char* style) {
  out << "<rect x='" << b.left << "' y='" << b.top << "' width='" << b.right - b.left << "' height='" << b.bottom - b.top << "' " << style << "/>\n";
}

}  // namespace

std::string svg(const Problem& problem, const Layout& layout) {
  std::ostringstream out;
  const Box& e = layout.extent;
  out << "<svg xmlns='http://www.w3.org/2000/svg' viewBox='" << e.left - 8 << " " << e.top - 8 << " " << e.right - e.left + 16 << " "
      << e.bottom - e.top + 16 << "'>\n<style>*{fill:none;stroke:black;stroke-width:.25} text{fill:black;stroke:none;font:3.6px sans-serif}</style>\n"
      << "<rect x='" << e.left - 8 << "' y='" << e.top - 8 << "' width='100%' height='100%' style='fill:white;stroke:none'/>\n";
  for (std::size_t i = 0; i < layout.items.size(); ++i) {
    const Placed& p = layout.items[i];
    if (problem.items[i].trough) {
      box(out, {p.at.x - p.trough_width / 2, p.at.y, p.at.x + p.trough_width / 2, p.at.y + p.trough_height}, "");
      continue;
    }
    const Pose& pose = problem.items[i].poses[p.pose];
    box(out, {p.at.x + pose.box.left, p.at.y + pose.box.top, p.at.x + pose.box.right, p.at.y + pose.box.bottom}, "style='stroke:#88a;fill:#eef'");
    out << "<circle cx='" << p.at.x + pose.centre.x << "' cy='" << p.at.y + pose.centre.y << "' r='2' style='stroke:#aac'/>\n";
  }
  for (const TankMark& mark : layout.marks)
    out << "<path d='M" << mark.at.x << " " << mark.at.y << "v5 m-2 -1v2h4v-2'/>\n";
  for (const Routed& net : layout.nets) {
    for (const Path& path : net.paths) {
      const bool dashed = path.look == NetKind::pilot || path.look == NetKind::drain;
      out << "<polyline style='stroke:" << (path.look == NetKind::pressure ? "#a00" : path.look == NetKind::return_ ? "#00a" : "#000")
          << (dashed ? ";stroke-dasharray:1.6 .6" : "") << "' points='";
      for (const Point& point : path.points) out << point.x << "," << point.y << " ";
      out << "'/>\n";
    }
    for (const Point& dot : net.dots) out << "<circle cx='" << dot.x << "' cy='" << dot.y << "' r='.7' style='fill:black'/>\n";
  }
  for (const Enclosure& enclosure : layout.enclosures) box(out, enclosure.box, "style='stroke-dasharray:6 1 .5 1'");
  for (const PlacedText& text : layout.texts) {
    words(out, text);
    if (text.leader.size() == 2)
      out << "<line x1='" << text.leader[0].x << "' y1='" << text.leader[0].y << "' x2='" << text.leader[1].x << "' y2='" << text.leader[1].y << "' style='stroke:#0a0'/>\n";
  }
  out << "</svg>\n";
  return out.str();
}

void write_if_asked(const std::string& name, const Problem& problem, const Layout& layout) {
  if (const char* folder = std::getenv("FERRULE_PICTURES")) std::ofstream(std::string(folder) + "/" + name + ".svg") << svg(problem, layout);
}

}  // namespace picture
