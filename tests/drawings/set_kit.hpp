// What must hold of any set of sheets, read from its geometry with code of its own.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "render/drawing.hpp"

namespace set_kit {

using Json = nlohmann::json;

// The field of a point by ISO 5457 (from memory): 50 mm counted from the middle, letters from the top without I and O, numerals
// from the left; A0 24 x 16 fields, A1 16 x 12, A2 12 x 8, A3 8 x 6, A4 (stands) 4 x 6, what is left goes to the corner fields.
std::string field_of(double width, double height, double x, double y);

// Fails the running test where references are not paired or name a wrong field, a part is drawn twice or missing in the parts list,
// a row leads elsewhere, the index is wrong, sheets are not numbered, or anything touches. Returns the geometry.
Json check(const ferrule::Drawing& drawing);

}  // namespace set_kit
