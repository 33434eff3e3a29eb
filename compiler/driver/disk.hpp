// The disk as the compiler may see it: regular files below the project root, and nothing else.
#pragma once

#include <string>
#include <vector>

#include "compiler/compile.hpp"

namespace ferrule {

// Below `root` only, after symbolic links; regular files only, so that no FIFO or device can hold us up; 4 MiB at most.
class Disk : public Surroundings {
 public:
  explicit Disk(std::string root) : root_(std::move(root)) {}
  Read read(const std::string& path) const override;
  const std::vector<LibraryFile>& library() const override;

 private:
  std::string root_;
};

// A file that the user named. `error` says why it could not be read.
struct Input {
  std::string root;   // nearest folder upward that holds .git or ferrule.toml, else the file's own
  std::string path;   // relative to the root
  std::string text;
  std::string error;
};
Input opened(const std::string& path, std::size_t most_mib = 4);
Input from_standard_input(std::string text);

// A folder stands for its .fer files in sorted order; everything else for itself.
std::vector<std::string> files_meant(const std::string& named);

}  // namespace ferrule
