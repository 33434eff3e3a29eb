#include "grammar/characters.hpp"

#include <algorithm>

#include "grammar/rules.hpp"

namespace ferrule {
namespace {

namespace pegtl = tao::pegtl;
using Input = pegtl::memory_input<pegtl::tracking_mode::lazy>;

// Almost every text and comment is plain ASCII, and then nothing can hide in it.
bool is_plain(std::string_view part) {
  return std::all_of(part.begin(), part.end(), [](char c) { return c >= 0x20 && c < 0x7F; });
}

template <class Hidden>
std::string_view first(std::string_view part) {
  Input input(part.data(), part.data() + part.size(), "");
  if (!pegtl::parse<pegtl::until<pegtl::at<Hidden>, pegtl::utf8::any>>(input)) return {};
  const char* begin = input.current();
  pegtl::parse<Hidden>(input);
  return {begin, static_cast<std::size_t>(input.current() - begin)};
}

}  // namespace

std::size_t first_byte_that_is_not_utf8(std::string_view text) {
  Input input(text.data(), text.data() + text.size(), "");
  pegtl::parse<pegtl::star<pegtl::sor<pegtl::range<'\0', '\x7f'>, pegtl::utf8::any>>>(input);
  return static_cast<std::size_t>(input.current() - text.data());
}

std::string_view first_hidden_in(std::string_view part, bool in_text) {
  if (is_plain(part)) return {};
  return in_text ? first<rules::hidden_in_text>(part) : first<rules::hidden_character>(part);
}

}  // namespace ferrule
