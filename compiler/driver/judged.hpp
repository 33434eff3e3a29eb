// A circuit from file to findings, as every command needs it.
#pragma once

#include <memory>

#include "checks/report/report.hpp"
#include "compiler/compile.hpp"
#include "compiler/driver/verb.hpp"
#include "compiler/driver/disk.hpp"

namespace ferrule {

// Null when the file could not be read; then one line was said and the exit code is `unreadable`.
struct Compiled {
  std::unique_ptr<Disk> disk;
  std::unique_ptr<Compilation> compilation;
  std::string file;   // relative to the project root
  std::string root;
};
Compiled compiled(const std::string& path, Talk& talk);

// Messages of every step, in order; rules run only where the text could be read without error.
Checked judged(const Compiled& compiled, const std::string& today);

}  // namespace ferrule
