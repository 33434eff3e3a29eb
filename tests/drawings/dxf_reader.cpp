#include "drawings/dxf_reader.hpp"

#include <algorithm>
#include <stdexcept>

#include "support/files.hpp"

namespace dxf_reader {
namespace {

struct Group {
  int code = 0;
  std::string value;
};

std::vector<Group> groups_of(const std::string& bytes, std::vector<std::string>& faults) {
  const std::vector<std::string> lines = ferrule::tests::lines_of(bytes);
  if (lines.size() % 2 != 0) faults.push_back("a group code without a value");
  std::vector<Group> groups;
  for (std::size_t i = 0; i + 1 < lines.size(); i += 2) groups.push_back({std::stoi(lines[i]), lines[i + 1]});
  if (std::any_of(bytes.begin(), bytes.end(), [](char c) { return (c < 0x20 && c != '\n') || c == 0x7F; })) faults.push_back("a byte outside ASCII");
  return groups;
}

double number(const Group& group) { return std::stod(group.value); }

void take(Entity& entity, const Group& group) {
  const auto point = [&](std::size_t n) -> Point& {
    if (entity.points.size() <= n) entity.points.resize(n + 1);
    return entity.points[n];
  };
  switch (group.code) {
    case 1: entity.text = group.value; break;
    case 6: entity.line_type = group.value; break;
    case 8: entity.layer = group.value; break;
    case 10: case 11: case 12: case 13: point(static_cast<std::size_t>(group.code - 10)).x = number(group); break;
    case 20: case 21: case 22: case 23: point(static_cast<std::size_t>(group.code - 20)).y = number(group); break;
    case 40: entity.size = number(group); break;
    case 50: entity.kind == "ARC" ? entity.from = number(group) : entity.turned = number(group); break;
    case 51: entity.to = number(group); break;
    case 70: entity.closed = entity.kind == "POLYLINE" && std::stoi(group.value) % 2 == 1; break;
    default: break;
  }
}

// Vertices go to their polyline, whose own point is a dummy.
void collect(File& file, std::vector<Entity> raw) {
  bool open = false;
  for (Entity& entity : raw) {
    if (entity.kind == "VERTEX") {
      if (!open) file.faults.push_back("a VERTEX outside a POLYLINE");
      else file.entities.back().points.push_back(entity.points.at(0));
    } else if (entity.kind == "SEQEND") {
      open = false;
    } else {
      if (open) file.faults.push_back("a POLYLINE without SEQEND");
      open = entity.kind == "POLYLINE";
      if (open) entity.points.clear();
      if (entity.kind == "TEXT" && entity.points.size() == 2) entity.points = {entity.points[1]};
      file.entities.push_back(std::move(entity));
    }
  }
  if (open) file.faults.push_back("a POLYLINE without SEQEND");
}

}  // namespace

File read(const std::string& bytes) {
  File file;
  std::string section, table, variable;
  std::vector<Entity> raw;
  const std::vector<Group> groups = groups_of(bytes, file.faults);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const Group& group = groups[i];
    const bool named = i + 1 < groups.size() && groups[i + 1].code == 2;
    if (group.code == 9) variable = group.value;
    if (variable == "$ACADVER" && group.code == 1) file.version = group.value;
    if (group.code == 0) {
      if (group.value == "SECTION") section = named ? groups[i + 1].value : "";
      else if (group.value == "ENDSEC") section.clear();
      else if (section == "TABLES" && group.value == "LAYER" && named) file.layers.insert(groups[i + 1].value);
      else if (section == "TABLES" && group.value == "LTYPE" && named) file.line_types.insert(groups[i + 1].value);
      else if (section == "TABLES" && group.value == "STYLE" && named) file.styles.insert(groups[i + 1].value);
      else if (section == "ENTITIES") raw.push_back({group.value, {}, {}, {}, false, {}, 0, 0, 0, 0});
    } else if (section == "ENTITIES" && !raw.empty()) {
      take(raw.back(), group);
    }
  }
  if (groups.empty() || groups.back().code != 0 || groups.back().value != "EOF") file.faults.push_back("no EOF");
  if (!section.empty()) file.faults.push_back("a section without its end");
  collect(file, std::move(raw));
  return file;
}

}  // namespace dxf_reader
