#include "compiler/model/definition.hpp"

#include <algorithm>

namespace ferrule {
namespace {

template <class Rows>
auto* named(Rows& rows, std::string_view name) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.name == name; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

const FactSpec* Definition::fact(std::string_view name) const { return named(facts, name); }
const PortSpec* Definition::port(std::string_view name) const { return named(ports, name); }
const Role* Definition::role(std::string_view name) const { return named(roles, name); }
const ElementSpec* Definition::element(std::string_view name) const { return named(elements, name); }

}  // namespace ferrule
