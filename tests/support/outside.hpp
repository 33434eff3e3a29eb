// What a compilation asks of the outside, for tests: the library from the project, further files from a map.
#pragma once

#include <map>

#include "compiler/compile.hpp"
#include "support/files.hpp"

namespace ferrule::tests {

inline std::vector<Surroundings::LibraryFile> library_files() {
  std::vector<Surroundings::LibraryFile> files;
  for (const std::string& path : files_below("stdlib", ".fer"))
    files.push_back({std::filesystem::path(path).filename().string(), project_text(path)});
  return files;
}

struct Outside : Surroundings {
  std::map<std::string, std::string> files;
  std::vector<LibraryFile> texts = library_files();

  Read read(const std::string& path) const override {
    const auto found = files.find(path);
    return found == files.end() ? Read{"", "there is no such file"} : Read{found->second, ""};
  }
  const std::vector<LibraryFile>& library() const override { return texts; }
};

}  // namespace ferrule::tests
