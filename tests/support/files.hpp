// Files of the project, for tests: their text, and which there are.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace ferrule::tests {

// The bytes of a file; "" when there is none.
inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// A path below the project's root, made absolute.
inline std::filesystem::path in_project(const std::string& path) { return std::filesystem::path(FERRULE_SOURCE_DIR) / path; }
inline std::string project_text(const std::string& path) { return text_of(in_project(path)); }

// All files below a folder of the project whose name ends in `ending` (".fer"), sorted, relative to the project.
inline std::vector<std::string> files_below(const std::string& folder, const std::string& ending) {
  std::vector<std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(in_project(folder)))
    if (entry.path().extension() == ending) found.push_back(entry.path().lexically_relative(FERRULE_SOURCE_DIR).generic_string());
  std::sort(found.begin(), found.end());
  return found;
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

}  // namespace ferrule::tests
