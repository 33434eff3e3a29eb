// Programs that have nothing to do with us, asked for their judgement of a file.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace ferrule::tests {

// What a command prints; "" when it can't be run.
inline std::string printed(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return out;
  char buffer[4096];
  while (const std::size_t count = fread(buffer, 1, sizeof buffer, pipe)) out.append(buffer, count);
  pclose(pipe);
  return out;
}

// A file that is gone when the test is over.
struct TemporaryFile {
  std::filesystem::path path;
  TemporaryFile(const std::string& bytes, const std::string& ending) {
    std::string name = std::filesystem::temp_directory_path() / "ferrule-XXXXXX";
    const int made = mkstemp(name.data());
    if (made < 0) return;
    path = name + ending;
    std::filesystem::rename(name, path);
    std::ofstream(path, std::ios::binary) << bytes;
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() { std::filesystem::remove(path); }
};

}  // namespace ferrule::tests
