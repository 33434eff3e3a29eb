#include "drawings/drawn.hpp"

#include <filesystem>

#include "support/outside.hpp"

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

ferrule::Drawing text(const std::string& circuit, const std::string& name) { return ferrule::draw(*compiled(circuit, name), name); }

ferrule::Drawing file(const std::string& path) { return text(read(path), std::filesystem::path(path).stem()); }

}  // namespace drawn
