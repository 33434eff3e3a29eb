#include "drawings/drawn.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

#include "render/readback/verify.hpp"
#include "support/outside.hpp"
#include "support/programs.hpp"

namespace drawn {
namespace {

// The library, and whatever a circuit of the project includes.
struct Tree final : ferrule::Surroundings {
  std::vector<LibraryFile> files = ferrule::tests::library_files();
  Read read(const std::string& path) const override { return {ferrule::tests::text_of(path), {}}; }
  const std::vector<LibraryFile>& library() const override { return files; }
};

}  // namespace

std::string read(const std::string& path) { return ferrule::tests::project_text(path); }

std::unique_ptr<ferrule::Compilation> compiled(const std::string& circuit, const std::string& name) {
  static const Tree tree;
  return ferrule::compile(tree, name + ".fer", circuit);
}

void check_schema(const std::string& geometry) {
  const std::string program = "import json,sys,jsonschema as j; s=json.load(open(sys.argv[1])); j.Draft7Validator.check_schema(s); "
                              "j.Draft7Validator(s).validate(json.load(open(sys.argv[2]))); print(\"kept\")";
  const ferrule::tests::TemporaryFile file(geometry, ".json");
  const std::string schema = ferrule::tests::in_project("render/geometry.schema.json").string();
  CHECK(ferrule::tests::printed("/usr/bin/python3 -W ignore -c '" + program + "' " + schema + " " + file.path.string()) == "kept\n");
}

void check_read_back(const ferrule::Compilation& made, const ferrule::Drawing& drawing) {
  const ferrule::readback::Verdict verdict = ferrule::readback::verify(made.circuit, ferrule::geometry_json(drawing));
  INFO(drawing.source << ": " << (verdict.differences.empty() ? "" : verdict.differences.front()));
  CHECK(verdict.unreadable == "");
  CHECK(verdict.differences.empty());
  CHECK(verdict.ports > 0);
}

ferrule::Drawing text(const std::string& circuit, const std::string& name, const ferrule::SheetWish& wish) {
  const auto made = compiled(circuit, name);
  ferrule::Drawing drawing = ferrule::draw(*made, name, nullptr, wish);
  check_read_back(*made, drawing);
  return drawing;
}

ferrule::Drawing file(const std::string& path, const ferrule::SheetWish& wish) { return text(read(path), std::filesystem::path(path).stem(), wish); }

}  // namespace drawn
