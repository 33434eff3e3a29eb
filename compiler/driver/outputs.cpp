#include "compiler/driver/outputs.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

namespace ferrule {
namespace {

namespace fs = std::filesystem;

bool holds_already(const fs::path& path, std::string_view bytes) {
  std::error_code failed;
  if (fs::file_size(path, failed) != bytes.size() || failed) return false;
  std::ifstream file(path, std::ios::binary);
  const std::string old{std::istreambuf_iterator<char>(file), {}};
  return file && old == bytes;
}

bool put_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(file, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  return true;
}

mode_t mode_for(const fs::path& target) {
  struct stat status {};
  if (stat(target.c_str(), &status) == 0) return status.st_mode & 0777;
  const mode_t mask = umask(0);
  umask(mask);
  return 0666 & ~mask;
}

}  // namespace

std::string written(const std::string& path, std::string_view bytes, std::string& standard_output) {
  if (path == "-") {
    standard_output += bytes;
    return {};
  }
  std::error_code failed;
  // A link is resolved first, so that it stays one.
  fs::path target = fs::is_symlink(path, failed) ? fs::canonical(path, failed) : fs::path(path);
  if (target.empty()) return "its link leads nowhere";
  if (fs::is_directory(target, failed)) return "it is a folder";
  if (fs::exists(target, failed) && !fs::is_regular_file(target, failed)) return "it is not a regular file";
  if (holds_already(target, bytes)) return {};
  if (fs::exists(target, failed) && access(target.c_str(), W_OK) != 0) return std::strerror(errno);
  std::string beside = target.string() + ".XXXXXX";
  const int file = mkstemp(beside.data());
  if (file < 0) return errno == ENOENT ? "its folder does not exist" : std::strerror(errno);
  const bool done = fchmod(file, mode_for(target)) == 0 && put_all(file, bytes) && fsync(file) == 0;
  const int error = errno;
  close(file);
  if (done && rename(beside.c_str(), target.c_str()) == 0) return {};
  const std::string why = std::strerror(done ? errno : error);
  unlink(beside.c_str());
  return why;
}

int put_file(const std::string& path, std::string_view bytes, Talk& talk) {
  const std::string why = written(path, bytes, talk.out);
  return why.empty() ? exit_code::done : say(talk, fmt::format("{} cannot be written: {}", path, why), exit_code::not_written);
}

}  // namespace ferrule
