// The reviewed strokes of tests/reference/symbols.json, and what compares with them.
#pragma once

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "render/symbols/symbols.hpp"
#include "support/files.hpp"

namespace ferrule::symbols_test {

inline const nlohmann::json& reference() {
  static const nlohmann::json data = [] {
    return nlohmann::json::parse(tests::project_text("tests/reference/symbols.json"));
  }();
  return data;
}

inline StrokeKind kind_of(const std::string& word) {
  static const std::map<std::string, StrokeKind> kinds = {
      {"line", StrokeKind::line},     {"closed", StrokeKind::closed}, {"fill", StrokeKind::fill},           {"rect", StrokeKind::rect},
      {"circle", StrokeKind::circle}, {"disc", StrokeKind::disc},     {"dot", StrokeKind::dot},             {"arc", StrokeKind::arc},
      {"arrow", StrokeKind::arrow},   {"arrow2", StrokeKind::arrow2}, {"arc-arrow", StrokeKind::arc_arrow}, {"arc-arrow2", StrokeKind::arc_arrow2},
      {"pilot", StrokeKind::pilot},   {"drain", StrokeKind::drain},   {"chain", StrokeKind::chain},         {"thin", StrokeKind::thin},
      {"text", StrokeKind::text},     {"use", StrokeKind::use},       {"symbol", StrokeKind::symbol}};
  return kinds.at(word);
}

inline Stroke stroke_of(const nlohmann::json& written) {
  Stroke stroke;
  stroke.kind = kind_of(written[0]);
  for (std::size_t i = 1; i < written.size(); ++i) {
    if (written[i].is_number()) stroke.numbers.push_back(written[i]);
    else if (written[i] == "flip") stroke.flip = true;
    else if (written[i] == "r90" || written[i] == "r180" || written[i] == "r270")
      stroke.quarters = static_cast<std::uint8_t>(std::stoi(written[i].get<std::string>().substr(1)) / 90);
    else stroke.name = written[i];
  }
  return stroke;
}

// A stroke as text, so that two drawings compare whatever the order of their strokes. An arc is one range of angles.
inline std::string spelled(Stroke stroke) {
  if (symbols::is_arc(stroke.kind)) {
    auto& n = stroke.numbers;
    while (n[3] < -180) n[3] += 360, n[4] += 360;
    while (n[3] >= 180) n[3] -= 360, n[4] -= 360;
    while (stroke.kind == StrokeKind::arc && n[4] <= n[3]) n[4] += 360;
    while (stroke.kind == StrokeKind::arc && n[4] > n[3] + 360) n[4] -= 360;
  }
  std::string text = std::to_string(static_cast<int>(stroke.kind)) + stroke.name + (stroke.flip ? "f" : "") + std::to_string(stroke.quarters);
  for (const double number : stroke.numbers) text += " " + std::to_string(std::lround(number * 1000));
  return text;
}

inline std::multiset<std::string> spelled(const std::vector<Stroke>& strokes) {
  std::multiset<std::string> all;
  for (const Stroke& stroke : strokes) all.insert(spelled(stroke));
  return all;
}

inline std::vector<Stroke> strokes_of(const nlohmann::json& written) {
  std::vector<Stroke> strokes;
  for (const auto& stroke : written) strokes.push_back(stroke_of(stroke));
  return strokes;
}

// "P>A B>T", "P-A-T", "A|>P", "P~A"
inline std::vector<RowPath> paths_of(const std::string& written) {
  std::vector<RowPath> paths;
  std::size_t at = 0;
  while (at < written.size()) {
    RowPath path;
    std::string port;
    for (; at < written.size() && written[at] != ' '; ++at) {
      if (std::isalnum(static_cast<unsigned char>(written[at]))) {
        port += written[at];
        continue;
      }
      if (!port.empty()) path.ports.push_back(port);
      port.clear();
      if (written[at] == '~') path.kind = RowPath::Kind::restricted;
      if (written[at] == '>') path.kind = path.kind == RowPath::Kind::joined ? RowPath::Kind::arrow : path.kind;
      if (written[at] == '<') path.kind = RowPath::Kind::both;
      if (written[at] == '|') path.kind = RowPath::Kind::one_way;
    }
    path.ports.push_back(port);
    paths.push_back(path);
    ++at;
  }
  return paths;
}

}  // namespace ferrule::symbols_test
