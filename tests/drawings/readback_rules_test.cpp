// What a line on paper says: tiny drawings with known joints. ISO 1219-1 (from memory): lines that cross are not joined, a joint
// of three or more ways has a dot; all marks of one reservoir are one point; ISO 1219-2 (from memory): a line that leaves a sheet
// ends in a reference that is answered on the other sheet.
#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "render/readback/geometry.hpp"
#include "render/readback/netlist.hpp"

using namespace ferrule::readback;

namespace {

// Ports a (left), b (right), c (top), d (bottom) around the point (5, 5) mm.
Sheet cross(std::vector<Stroke> strokes, std::vector<Point> dots = {}) {
  Sheet sheet{"1", 210, 297, {}, std::move(strokes), std::move(dots), {}};
  for (const auto& [name, at] : {std::pair{"a", Point{0, 500}}, {"b", Point{1000, 500}}, {"c", Point{500, 0}}, {"d", Point{500, 1000}}})
    sheet.symbols.push_back({name, "box", "", {}, {{name, "1", at, false}}});
  return sheet;
}

Stroke line(std::vector<Point> points) { return {std::move(points), false, ""}; }

const Point middle{500, 500}, left{0, 500}, right{1000, 500}, top{500, 0}, foot{500, 1000};

// "ab|c|d": which components each net joins.
std::string nets(const std::vector<ReadNet>& all) {
  std::set<std::string> words;
  for (const ReadNet& net : all) {
    std::set<std::string> names;
    for (const Terminal& end : net.ends) names.insert(end.component);
    std::string word;
    for (const std::string& name : names) word += name;
    words.insert(word);
  }
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "|") + word;
  return text;
}

struct Read {
  std::string oil, faults;
};
Read read(std::vector<Sheet> sheets) {
  const Netlist list = netlist_of({std::move(sheets), ""});
  std::string faults;
  for (const Fault& fault : list.faults) faults += (faults.empty() ? "" : "; ") + fault.what;
  return {nets(list.oil), faults};
}

Sheet page(const std::string& id, const std::string& part, const std::string& name, const std::string& partner_sheet) {
  Sheet sheet{id, 210, 297, {{part, "box", "", {}, {{part, "1", left, false}}}, {"x", "xref", "", {}, {{"x", "1", right, false}}}}, {line({left, right})}, {}, {}};
  sheet.references.push_back({"x", name, partner_sheet, "x"});
  return sheet;
}

}  // namespace

TEST_CASE("lines that cross pass each other, and are joined under a dot") {
  const Read plain = read({cross({line({left, right}), line({top, foot})})});
  CHECK(plain.oil == "ab|cd");
  CHECK(plain.faults == "");
  const Read dotted = read({cross({line({left, right}), line({top, foot})}, {middle})});
  CHECK(dotted.oil == "abcd");
  CHECK(dotted.faults == "");
}

TEST_CASE("strokes do not matter, ink does: a crossing drawn in four strokes is a crossing") {
  const Read four = read({cross({line({left, middle}), line({middle, right}), line({top, middle}), line({middle, foot})})});
  CHECK(four.oil == "ab|cd");
  const Read overlapping = read({cross({line({left, {700, 500}}), line({{300, 500}, right})})});
  CHECK(overlapping.oil == "ab|c|d");
  CHECK(overlapping.faults == "");
}

TEST_CASE("a corner joins, a tee joins under its dot and is a fault without one") {
  CHECK(read({cross({line({left, middle, foot})})}).oil == "ad|b|c");
  const Read tee = read({cross({line({left, right}), line({middle, foot})}, {middle})});
  CHECK(tee.oil == "abd|c");
  CHECK(tee.faults == "");
  CHECK(read({cross({line({left, right}), line({middle, foot})})}).faults == "lines meet without a dot");
}

TEST_CASE("loose ends, dots that join nothing, oblique lines and lines that run past a port are faults") {
  CHECK(read({cross({line({left, middle})})}).faults == "a line ends at nothing");
  CHECK(read({cross({line({left, right})}, {middle})}).faults == "a dot stands where nothing joins");
  CHECK(read({cross({line({left, right})}, {{500, 800}})}).faults == "a dot stands on no line");
  CHECK(read({cross({line({left, top})})}).faults == "a line runs neither level nor upright");
  Sheet past = cross({line({left, right})});
  past.symbols.push_back({"e", "box", "", {}, {{"e", "1", middle, false}}});
  CHECK(read({past}).faults == "a line runs on past a port without a dot");
}

TEST_CASE("a hundredth of a millimetre is no gap, a tenth is one") {
  CHECK(read({cross({line({left, {998, 500}})})}).faults == "a line ends at nothing");
  const Geometry close = geometry_in(R"({"format": "schematic-geometry", "version": 1, "sheets": [{"id": "1", "width": 210, "height": 297,
    "symbols": [{"id": "a", "kind": "box", "ports": [{"id": "1", "x": 0, "y": 5}]}, {"id": "b", "kind": "box", "ports": [{"id": "1", "x": 10, "y": 5}]}],
    "nets": [{"id": "n", "kind": "pressure", "paths": [[[0.004, 5], [9.996, 4.997]]], "junctions": []}]}]})");
  CHECK(close.fault == "");
  CHECK(nets(netlist_of(close).oil) == "ab");
}

TEST_CASE("shafts carry no oil and oil lines turn nothing") {
  Sheet sheet = cross({{{left, right}, true, ""}, line({top, foot})});
  const Netlist list = netlist_of({{sheet}, ""});
  CHECK(nets(list.oil) == "a|b|cd");
  CHECK(nets(list.shafts) == "ab");
}

TEST_CASE("a line goes on where a mark on another sheet answers its own") {
  const Read pair = read({page("1", "a", "P", "2"), page("2", "b", "P", "1")});
  CHECK(pair.oil == "ab");
  CHECK(pair.faults == "");
  const Read other_name = read({page("1", "a", "P", "2"), page("2", "b", "T", "1")});
  CHECK(other_name.oil == "a|b");
  CHECK(other_name.faults.find("where its mark is of line T") != std::string::npos);
  CHECK(read({page("1", "a", "P", "3"), page("2", "b", "P", "1")}).faults.find("where no mark answers it") != std::string::npos);
  Sheet lost = page("1", "a", "P", "2");
  lost.references.clear();
  CHECK(read({lost}).faults == "a mark says that a line goes on, but not where");
}

TEST_CASE("what is no geometry is said with its place") {
  CHECK(geometry_in("{").fault == "it is not JSON");
  CHECK(geometry_in("[]").fault == "the file is not an object");
  CHECK(geometry_in(R"({"format": "other", "version": 1})").fault.find("does not say") != std::string::npos);
  const std::string head = R"({"format": "schematic-geometry", "version": 1, "sheets": [{"id": "1", "width": 210, )";
  CHECK(geometry_in(head + R"("height": "tall"}]})").fault == "sheets[0].height is not a number");
  CHECK(geometry_in(head + R"("height": 297, "symbols": [{"id": "a"}], "nets": []}]})").fault == "sheets[0].symbols[0] lacks \"kind\"");
  CHECK(geometry_in(head + R"("height": 1e300, "symbols": [], "nets": []}]})").fault == "sheets[0].height is no length on a sheet");
  CHECK(geometry_in(std::string(200000, '[')).fault == "it is not JSON");
}
