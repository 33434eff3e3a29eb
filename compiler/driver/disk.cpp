#include "compiler/driver/disk.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <linux/openat2.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

namespace ferrule {

const std::vector<Surroundings::LibraryFile>& library_text();  // generated, library_text.cmake

namespace {

namespace fs = std::filesystem;
constexpr std::size_t largest = 4;  // MiB, of a circuit

struct Descriptor {
  int number = -1;
  ~Descriptor() {
    if (number >= 0) close(number);
  }
};

std::string reason(int error) { return error == ENOENT ? "there is no such file" : std::strerror(error); }

Surroundings::Read contents(int file, std::size_t most_mib = largest) {
  struct stat status {};
  if (fstat(file, &status) != 0) return {"", reason(errno)};
  if (S_ISDIR(status.st_mode)) return {"", "it is a folder"};
  if (!S_ISREG(status.st_mode)) return {"", "it is not a regular file"};
  if (status.st_size > static_cast<off_t>(most_mib << 20)) return {"", fmt::format("it is larger than {} MiB, the most such a file may hold", most_mib)};
  // One byte more than the file held when it was asked for: a file that grows meanwhile is read as it was, or refused.
  std::string text(static_cast<std::size_t>(status.st_size) + 1, '\0');
  std::size_t filled = 0;
  while (filled < text.size()) {
    const ssize_t got = ::read(file, text.data() + filled, text.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return {"", reason(errno)};
    if (got == 0) break;
    filled += static_cast<std::size_t>(got);
  }
  if (filled == text.size()) return {"", "it grows while it is read"};
  text.resize(filled);
  return {std::move(text), ""};
}

// The kernel resolves beneath the root: a prefix check could be got round by a link that is swapped meanwhile.
int open_beneath(int root, const std::string& path) {
  open_how how{};
  how.flags = O_RDONLY | O_CLOEXEC | O_NONBLOCK;
  how.resolve = RESOLVE_BENEATH | RESOLVE_NO_MAGICLINKS;
  return static_cast<int>(syscall(SYS_openat2, root, path.c_str(), &how, sizeof how));
}

// Where openat2 is missing: part by part, following no link at all.
int open_part_by_part(int root, const fs::path& path) {
  int folder = dup(root);
  for (auto part = path.begin(); part != path.end() && folder >= 0; ++part) {
    const bool last = std::next(part) == path.end();
    if (*part == ".." || part->is_absolute()) {
      close(folder);
      errno = EXDEV;
      return -1;
    }
    const int next = openat(folder, part->c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOFOLLOW | (last ? 0 : O_DIRECTORY));
    close(folder);
    folder = next;
  }
  return folder;
}

fs::path project_root(const fs::path& file) {
  std::error_code unused;
  for (fs::path folder = file.parent_path();; folder = folder.parent_path()) {
    if (fs::exists(folder / ".git", unused) || fs::exists(folder / "ferrule.toml", unused)) return folder;
    if (folder == folder.parent_path()) return file.parent_path();
  }
}

}  // namespace

Surroundings::Read Disk::read(const std::string& path) const {
  const Descriptor root{open(root_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (root.number < 0) return {"", reason(errno)};
  if (path.empty() || path.front() == '/') return {"", "it is not below the project root"};
  Descriptor file{open_beneath(root.number, path)};
  if (file.number < 0 && (errno == ENOSYS || errno == EPERM)) file.number = open_part_by_part(root.number, fs::path(path).lexically_normal());
  if (file.number < 0) return {"", errno == EXDEV || errno == ELOOP ? "it is not below the project root" : reason(errno)};
  return contents(file.number);
}

const std::vector<Surroundings::LibraryFile>& Disk::library() const { return library_text(); }

Input opened(const std::string& path, std::size_t most_mib) {
  const Descriptor file{open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY)};
  if (file.number < 0) return {"", path, "", reason(errno)};
  auto [text, error] = contents(file.number, most_mib);
  std::error_code failed;
  const fs::path real = fs::canonical(path, failed);
  if (failed || !error.empty()) return {"", path, "", error.empty() ? failed.message() : error};
  const fs::path root = project_root(real);
  return {root.string(), real.lexically_relative(root).generic_string(), std::move(text), ""};
}

Input from_standard_input(std::string text) {
  std::error_code unused;
  if (text.size() > largest << 20) return {"", "standard input", "", fmt::format("it is larger than {} MiB, the most a circuit file may hold", largest)};
  return {project_root(fs::current_path(unused) / "x").string(), "standard-input.fer", std::move(text), ""};
}

std::vector<std::string> files_meant(const std::string& named) {
  std::error_code failed;
  if (!fs::is_directory(named, failed)) return {named};
  std::vector<std::string> files;
  for (const fs::directory_entry& entry : fs::directory_iterator(named, failed))
    if (entry.path().extension() == ".fer") files.push_back((fs::path(named) / entry.path().filename()).string());
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace ferrule
