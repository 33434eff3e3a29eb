// Text to circuit.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "compiler/model/circuit.hpp"
#include "grammar/parse.hpp"

namespace ferrule {

// The outside world, handed in: nothing else in compiler/ opens a file, reads a clock or the environment.
struct Surroundings {
  virtual ~Surroundings() = default;
  struct Read {
    std::string text;
    std::string error;  // why it could not be read, for people; empty when it could
  };
  // A file of the project, path relative to its root; never leaves the root, whatever the path says.
  virtual Read read(const std::string& path) const = 0;
  // Library text by file name ("valves.fer"), all files in order.
  struct LibraryFile { std::string name; std::string text; };
  virtual const std::vector<LibraryFile>& library() const = 0;
};

// Everything that compiling one text gives. Owns the sources, trees and definitions the circuit points into.
struct Compilation {
  Sources sources;
  std::vector<std::unique_ptr<Tree>> trees;
  std::shared_ptr<Library> library;
  Circuit circuit;
  Messages messages;                 // in the order of file and place
  std::vector<std::string> files;    // every file read, library excluded
  bool unreadable = false;           // an input could not be read or broke a limit: exit code 3
};

std::unique_ptr<Compilation> compile(const Surroundings& surroundings, const std::string& path, std::string text);

}  // namespace ferrule
