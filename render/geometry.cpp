// The neutral geometry, so that anybody can measure a drawing without our code.
#include <fmt/format.h>

#include "render/canvas/words.hpp"
#include "render/drawing.hpp"

namespace ferrule {
namespace {

using layout::NetKind;

std::string number(double value) {
  const std::string text = fmt::format("{:.3f}", value);
  return text == "-0.000" ? "0.000" : text;
}

std::string quoted(std::string_view words) {
  std::string out = "\"";
  for (char c : canvas::clean(words)) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string pair(sheet::Point p) { return fmt::format("[{}, {}]", number(p.x), number(p.y)); }

template <class Things, class Write>
std::string list(const Things& things, Write write, std::string_view between = ", ") {
  std::string out;
  for (const auto& thing : things) {
    if (!out.empty()) out += between;
    out += write(thing);
  }
  return "[" + out + "]";
}

std::string rect_fields(const sheet::Rect& r) {
  return fmt::format("\"x\": {}, \"y\": {}, \"w\": {}, \"h\": {}", number(r.x), number(r.y), number(r.w), number(r.h));
}

char side_letter(Side side) {
  constexpr char letters[] = {'W', 'E', 'N', 'S'};  // left right above below
  return letters[static_cast<int>(side)];
}

std::string_view kind_word(NetKind kind) {
  constexpr std::string_view words[] = {"pressure", "work", "return", "suction", "drain", "pilot", "shaft"};
  return words[static_cast<int>(kind)];
}

std::string written(const DrawnPort& port) {
  std::string out = fmt::format("{{\"id\": {}, \"x\": {}, \"y\": {}, \"side\": \"{}\"", quoted(port.name), number(port.at.x), number(port.at.y),
                                side_letter(port.side));
  if (port.use == PortUse::mechanical) out += ", \"use\": \"shaft\"";
  if (!port.part.empty()) out += fmt::format(", \"of\": {{\"symbol\": {}, \"port\": {}}}", quoted(port.part), quoted(port.part_port));
  return out + "}";
}

std::string written(const DrawnSymbol& s) {
  std::string out = fmt::format("{{\"id\": {}, \"kind\": {}, \"family\": {}, \"tier\": {}, \"unit\": {}, \"branch\": {}, {}, ", quoted(s.id),
                                quoted(s.kind), quoted(s.family), s.tier, s.unit, s.branch, rect_fields(s.box));
  out += fmt::format("\"rot\": {}, \"mirror\": {}, \"centre\": {}, \"ports\": {}", s.quarters * 90, s.mirror, pair(s.centre),
                     list(s.ports, [](const DrawnPort& port) { return written(port); }));
  if (!s.stands_for.empty()) out += ", \"stands_for\": " + quoted(s.stands_for);
  if (!s.parts.empty()) out += ", \"parts\": " + list(s.parts, [](const std::string& part) { return quoted(part); });
  return out + "}";
}

// Indices of the paths that are drawn dashed though the net as a whole is not.
std::string dashed_paths(const DrawnNet& net, NetKind look) {
  std::string out;
  if (net.kind == look) return out;
  for (std::size_t i = 0; i < net.paths.size(); ++i)
    if (net.paths[i].look == look) out += (out.empty() ? "" : ", ") + std::to_string(i);
  return out;
}

std::string written(const DrawnNet& net) {
  std::string out = fmt::format("{{\"id\": {}, \"logical\": {}, \"kind\": \"{}\", ", quoted(net.id), quoted(net.logical), kind_word(net.kind));
  out += "\"ends\": " + list(net.ends, [](const DrawnNet::End& end) {
           return fmt::format("{{\"symbol\": {}, \"port\": {}}}", quoted(end.symbol), quoted(end.port));
         });
  out += ", \"paths\": " + list(net.paths, [](const DrawnPath& path) { return list(path.points, pair); });
  out += ", \"junctions\": " + list(net.junctions, pair);
  out += ", \"path_lines\": " + list(net.paths, [](const DrawnPath& path) { return path.line.empty() ? "null" : quoted(path.line); });
  if (const auto pilots = dashed_paths(net, NetKind::pilot); !pilots.empty()) out += ", \"pilot_paths\": [" + pilots + "]";
  if (const auto drains = dashed_paths(net, NetKind::drain); !drains.empty()) out += ", \"drain_paths\": [" + drains + "]";
  return out + "}";
}

std::string written(const DrawnLabel& l) {
  return fmt::format("{{\"id\": {}, \"owner\": {}, \"kind\": {}, \"port\": {}, \"text\": {}, {}, \"inside\": {}, \"inline\": false}}", quoted(l.id),
                     quoted(l.owner), quoted(l.kind), quoted(l.port), quoted(l.text), rect_fields(l.box), l.inside);
}

std::string written(const DrawnGroup& g) {
  return fmt::format("{{\"id\": {}, \"kind\": \"enclosure\", {}, \"members\": {}}}", quoted(g.id), rect_fields(g.box),
                     list(g.members, [](const std::string& member) { return quoted(member); }));
}

std::string written(const DrawnReference& r) {
  return fmt::format("{{\"symbol\": {}, \"net\": {}, \"name\": {}, \"at\": {}, \"to\": {}, \"field\": {}, \"partner\": {{\"sheet\": {}, \"symbol\": {}, \"field\": {}}}}}",
                     quoted(r.symbol), quoted(r.net), quoted(r.name), pair(r.at), r.to, quoted(r.field), quoted(r.partner_sheet), quoted(r.partner_symbol),
                     quoted(r.partner_field));
}

std::string written(const DrawnPart& p) {
  return fmt::format("{{\"tag\": {}, \"term\": {}, \"data\": {}, \"sheet\": {}, \"field\": {}, \"symbol\": {}, {}}}", quoted(p.tag), quoted(p.term), quoted(p.data),
                     quoted(p.sheet), quoted(p.field), quoted(p.symbol), rect_fields(p.box));
}

std::string written(const DrawnIndexRow& r) {
  return fmt::format("{{\"sheet\": {}, \"title\": {}, \"contents\": {}, {}}}", quoted(r.sheet), quoted(r.title), quoted(r.contents), rect_fields(r.box));
}

std::string written(const DrawnFinding& f) {
  const auto frame = [](const DrawnFinding::Frame& frame) { return "{" + rect_fields(frame.box) + "}"; };
  const auto flag = [](const DrawnFinding::Flag& flag) { return pair(flag.at); };
  return fmt::format("{{\"number\": {}, \"title\": {}, \"paths\": {}, \"frames\": {}, \"numbers_at\": {}}}", f.number, quoted(f.title),
                     list(f.bands, [](const std::vector<sheet::Point>& band) { return list(band, pair); }), list(f.frames, frame), list(f.flags, flag));
}

template <class Things>
std::string rows(const Things& things) {
  return things.empty() ? "[]" : list(things, [](const auto& thing) { return "\n  " + written(thing); }, ",");
}

// What only a set of sheets has, and sheets for review.
std::string at_times(const DrawnSheet& page) {
  std::string out;
  if (!page.findings.empty()) out += ",\n \"findings\": " + rows(page.findings);
  if (!page.references.empty()) out += ",\n \"references\": " + rows(page.references);
  if (!page.parts.empty()) out += ",\n \"parts\": " + rows(page.parts);
  if (!page.index.empty()) out += ",\n \"index\": " + rows(page.index);
  return out;
}

std::string written(const DrawnSheet& page) {
  std::string out = fmt::format("{{\"id\": {}, ", quoted(page.id));
  if (!page.title.empty()) out += fmt::format("\"title\": {}, ", quoted(page.title));
  out += fmt::format(
      "\"width\": {}, \"height\": {}, \"area\": [{}, {}, {}, {}],\n \"symbols\": {},\n \"nets\": {},\n \"labels\": {},\n \"groups\": {}",
      number(page.format.width), number(page.format.height), number(page.area.x), number(page.area.y), number(page.area.w),
      number(page.area.h), rows(page.symbols), rows(page.nets), rows(page.labels), rows(page.groups));
  return out + at_times(page) + "}";
}

}  // namespace

std::string geometry_json(const Drawing& drawing) {
  std::string out = "{\"format\": \"schematic-geometry\", \"version\": 1, \"units\": \"mm\", \"source\": " + quoted(drawing.source);
  out += ", \"tool\": {\"name\": \"ferrule\", \"version\": \"0.1\"},\n\"sheets\": ";
  return out + list(drawing.sheets, [](const DrawnSheet& page) { return "\n" + written(page); }, ",") + "}\n";
}

}  // namespace ferrule
