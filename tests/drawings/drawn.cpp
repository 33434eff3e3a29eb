#include "drawings/drawn.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace drawn {
namespace {

std::string whole(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

struct Tree final : ferrule::Surroundings {
  std::vector<LibraryFile> files;
  Tree() {
    for (const auto& entry : std::filesystem::directory_iterator(std::string(FERRULE_SOURCE_DIR) + "/stdlib"))
      if (entry.path().extension() == ".fer") files.push_back({entry.path().filename(), whole(entry.path())});
    std::sort(files.begin(), files.end(), [](const LibraryFile& a, const LibraryFile& b) { return a.name < b.name; });
  }
  Read read(const std::string& path) const override { return {whole(path), {}}; }
  const std::vector<LibraryFile>& library() const override { return files; }
};

}  // namespace

std::string read(const std::string& path) { return whole(std::string(FERRULE_SOURCE_DIR) + "/" + path); }

ferrule::Drawing text(const std::string& circuit, const std::string& name) {
  static const Tree tree;
  const auto compilation = ferrule::compile(tree, name + ".fer", circuit);
  return ferrule::draw(*compilation, name);
}

ferrule::Drawing file(const std::string& path) { return text(read(path), std::filesystem::path(path).stem()); }

}  // namespace drawn
