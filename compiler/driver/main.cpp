// The program: gives the commands their outside, and passes on what they say.
#include <sys/ioctl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include "compiler/driver/memory.hpp"
#include "compiler/driver/verb.hpp"

namespace {

// One byte more than a circuit file may hold is enough to know that it is too large.
std::string standard_input() {
  constexpr std::size_t most = (4u << 20) + 1;
  std::string text;
  char piece[65536];
  while (text.size() < most) {
    const ssize_t got = read(STDIN_FILENO, piece, sizeof piece);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
    text.append(piece, static_cast<std::size_t>(got));
  }
  return text;
}

std::string today() {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  const std::time_t now = epoch ? static_cast<std::time_t>(std::strtoll(epoch, nullptr, 10)) : std::time(nullptr);
  std::tm day{};
  gmtime_r(&now, &day);
  char text[16] = "";
  std::strftime(text, sizeof text, "%Y-%m-%d", &day);
  return text;
}

std::size_t columns() {
  winsize size{};
  return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= 20 ? size.ws_col : 100;
}

bool put(int file, const std::string& text) {
  for (std::size_t at = 0; at < text.size();) {
    const ssize_t put = write(file, text.data() + at, text.size() - at);
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return false;
    at += static_cast<std::size_t>(put);
  }
  return true;
}

}  // namespace

int main(int count, char** words) {
  ferrule::take_large_pages();
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  ferrule::Talk talk{standard_input, today(), columns(), epoch ? std::strtol(epoch, nullptr, 10) : 0, false, {}, {}, {}};
  const char* no_colour = std::getenv("NO_COLOR");
  talk.terminal = isatty(STDOUT_FILENO) && !(no_colour && *no_colour);
  int code = ferrule::run({words + 1, words + count}, talk);
  if (!put(STDOUT_FILENO, talk.out)) {
    talk.err += "ferrule: standard output could not be written\n";
    code = code < ferrule::exit_code::not_written ? ferrule::exit_code::not_written : code;
  }
  put(STDERR_FILENO, talk.err);
  std::_Exit(code);  // the system takes the memory back faster than a thousand parts are taken to pieces
}
