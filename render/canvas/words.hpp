// Names and texts of a circuit are written by strangers: nothing of them may act, hide or break a file.
#pragma once

#include <string>
#include <string_view>

namespace ferrule::canvas {

// Valid UTF-8 without control, direction, invisible and non-characters: blanks for tab and line end, U+FFFD for the rest
// (that hidden characters stay visible is the point). Long texts are cut at `most` characters with three points.
std::string clean(std::string_view words, std::size_t most = 400);

// For element content and attribute values of XML; cleans first.
std::string xml_escaped(std::string_view words);

// [A-Za-z0-9_.-] only, so that it may be an XML id; every other byte becomes _XX in hexadecimal.
std::string xml_id(std::string_view words);

// The code points of valid UTF-8; bad bytes come as U+FFFD.
std::u32string code_points(std::string_view words);
std::string utf8(std::u32string_view points);

}  // namespace ferrule::canvas
