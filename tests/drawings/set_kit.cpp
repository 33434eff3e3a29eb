#include "drawings/set_kit.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <set>

#include "drawings/measure.hpp"

namespace set_kit {
namespace {

using Sheets = std::map<std::string, const Json*>;

const Json* named(const Json& list, const char* key, const std::string& name) {
  for (const Json& one : list)
    if (one[key] == name) return &one;
  return nullptr;
}

std::string field_of(const Json& sheet, const Json& centre) { return set_kit::field_of(sheet["width"], sheet["height"], centre[0], centre[1]); }

bool has_text(const Json& sheet, const std::string& owner, const std::string& text) {
  for (const Json& label : sheet["labels"])
    if (label["owner"] == owner && label["text"] == text) return true;
  return false;
}

// A mark stands where it says, its partner where it says too, and the partner names it back.
void check_reference(const Sheets& sheets, const Json& sheet, const Json& reference) {
  INFO("sheet " << sheet["id"] << " " << reference.dump());
  const std::string symbol = reference["symbol"];
  const Json *mark = named(sheet["symbols"], "id", symbol), &partner = reference["partner"];
  REQUIRE(mark != nullptr);
  CHECK(reference["field"] == field_of(sheet, (*mark)["centre"]));
  REQUIRE(sheets.contains(partner["sheet"]));
  const Json& other = *sheets.at(partner["sheet"]);
  CHECK(other["id"] != sheet["id"]);
  const Json *there = named(other["symbols"], "id", partner["symbol"]), *back = named(other["references"], "symbol", partner["symbol"]);
  REQUIRE(there != nullptr);
  REQUIRE(back != nullptr);
  CHECK(partner["field"] == field_of(other, (*there)["centre"]));
  CHECK((*back)["partner"]["sheet"] == sheet["id"]);
  CHECK((*back)["partner"]["symbol"] == symbol);
  CHECK((*back)["net"] == reference["net"]);
  CHECK((*back)["name"] == reference["name"]);
  CHECK((*back)["to"] != reference["to"]);
  const std::string words = std::string(reference["to"] ? "to " : "from ") + std::string(partner["sheet"]) + "/" + std::string(partner["field"]);
  CHECK(has_text(sheet, symbol, words));
  CHECK(has_text(sheet, symbol, reference["name"]));
}

// Every net piece that ends in a mark, and every mark, has its reference; the letters of a net are its own.
void check_marks(const Json& file) {
  std::map<std::string, std::string> net_of_letters;
  for (const Json& sheet : file["sheets"]) {
    std::set<std::string> marks, told;
    for (const Json& symbol : sheet["symbols"])
      if (symbol["kind"] == "xref") marks.insert(symbol["id"]);
    for (const Json& reference : sheet.value("references", Json::array())) {
      told.insert(reference["symbol"]);
      const std::string letters = reference["name"], net = reference["net"];
      CHECK(net_of_letters.emplace(letters, net).first->second == net);
    }
    CHECK(marks == told);
  }
}

// What stands for a part without being one: signs of reservoirs, references, loads, breathers.
bool is_part(const Json& symbol) { return symbol["kind"] != "tankmark" && symbol["kind"] != "xref" && !symbol.contains("stands_for"); }

void check_parts(const Json& file, const Sheets& sheets) {
  std::map<std::string, int> drawn, listed;
  for (const Json& sheet : file["sheets"])
    for (const Json& symbol : sheet["symbols"]) {
      if (is_part(symbol)) ++drawn[symbol["id"]];
      for (const Json& inside : symbol.value("parts", Json::array())) ++drawn[inside];
    }
  for (const auto& [tag, times] : drawn) {
    INFO(tag);
    CHECK(times == 1);
  }
  for (const Json& page : file["sheets"]) {
    double before = 0;
    for (const Json& row : page.value("parts", Json::array())) {
      INFO("sheet " << page["id"] << " " << row.dump());
      ++listed[row["tag"]];
      REQUIRE(sheets.contains(row["sheet"]));
      const Json& sheet = *sheets.at(row["sheet"]);
      const Json* symbol = named(sheet["symbols"], "id", row["symbol"]);
      REQUIRE(symbol != nullptr);
      CHECK(row["field"] == field_of(sheet, (*symbol)["centre"]));
      CHECK(double(row["y"]) >= before);
      before = double(row["y"]) + double(row["h"]) - 0.01;
      CHECK(before < double(page["area"][1]) + double(page["area"][3]) - 36);   // above the title block (ISO 7200: 36 mm as drawn)
    }
  }
  for (const auto& [tag, times] : drawn) {
    INFO(tag);
    CHECK(listed[tag] == 1);
  }
}

void check_index(const Json& file) {
  std::vector<std::string> numbers, listed;
  for (const Json& sheet : file["sheets"]) {
    if (!sheet.contains("index")) numbers.push_back(sheet["id"]);
    for (const Json& row : sheet.value("index", Json::array())) {
      listed.push_back(row["sheet"]);
      CHECK(row["title"] == (*named(file["sheets"], "id", row["sheet"]))["title"]);
    }
  }
  CHECK(listed == numbers);
}

void check_numbers(const ferrule::Drawing& drawing) {
  for (std::size_t i = 0; i < drawing.sheets.size(); ++i) {
    const std::string number = std::to_string(i + 1) + " of " + std::to_string(drawing.sheets.size());
    CHECK(drawing.sheets[i].id == std::to_string(i + 1));
    int found = 0;
    for (const ferrule::sheet::Ink& ink : drawing.sheets[i].furniture) found += ink.words == number;
    CHECK(found == 1);
  }
}

}  // namespace

std::string field_of(double width, double height, double x, double y) {
  const std::map<int, std::pair<int, int>> fields{{1189, {24, 16}}, {841, {16, 12}}, {594, {12, 8}}, {420, {8, 6}}, {210, {4, 6}}};
  const auto [columns, rows] = fields.at(static_cast<int>(width));
  const auto index = [](double at, double length, int count) { return std::clamp(static_cast<int>(std::floor((at - length / 2) / 50)) + count / 2, 0, count - 1); };
  return std::string(1, "ABCDEFGHJKLMNPQRST"[index(y, height, rows)]) + std::to_string(index(x, width, columns) + 1);
}

Json check(const ferrule::Drawing& drawing) {
  const std::string text = ferrule::geometry_json(drawing);
  const measure::Figures figures = measure::of(text);
  INFO((figures.faults.empty() ? "" : figures.faults.front()));
  CHECK(figures.errors() == 0);
  Json file = Json::parse(text);
  Sheets sheets;
  for (const Json& sheet : file["sheets"]) sheets[sheet["id"]] = &sheet;
  for (const Json& sheet : file["sheets"])
    for (const Json& reference : sheet.value("references", Json::array())) check_reference(sheets, sheet, reference);
  check_marks(file);
  check_parts(file, sheets);
  check_index(file);
  check_numbers(drawing);
  return file;
}

}  // namespace set_kit
