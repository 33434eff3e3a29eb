// The finished layout checked against its promises, independent of how it was made. Sweeps over sorted boxes: near-linear.
#include <algorithm>
#include <map>
#include <set>

#include "render/layout/occupied.hpp"

namespace ferrule::layout {

std::vector<std::string> violations(const Problem& problem, const Layout& layout) {
  struct Thing { Box box; int item, net; const PlacedText* text; };
  std::vector<Thing> things;
  std::vector<std::string> found;
  for (std::size_t i = 0; i < layout.items.size(); ++i)
    if (!problem.items[i].poses.empty()) things.push_back({box_of(problem, layout, int(i)), int(i), -1, nullptr});
  for (const PlacedText& text : layout.texts) things.push_back({text.box, -1, -1, &text});
  for (std::size_t n = 0; n < layout.nets.size(); ++n)
    for (const Path& path : layout.nets[n].paths)
      for (std::size_t p = 1; p < path.points.size(); ++p) {
        const Point a = path.points[p - 1], b = path.points[p];
        if (a.x != b.x && a.y != b.y) found.push_back("an oblique piece of " + problem.nets[n].id);
        things.push_back({{std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)}, -1, int(n), nullptr});
      }
  std::sort(things.begin(), things.end(), [](const Thing& a, const Thing& b) { return a.box.left < b.box.left; });

  const auto name = [&](const Thing& t) {
    return t.text ? "the text " + t.text->id : t.item >= 0 ? problem.items[t.item].id : "the line " + problem.nets[t.net].id;
  };
  const auto hosted = [&](const Thing& a, const Thing& b) {
    return a.item >= 0 && problem.items[a.item].trough && (b.text || (b.item >= 0 && problem.items[b.item].host == a.item));
  };
  const auto wrong = [&](const Thing& a, const Thing& b) {
    const Box cut{std::max(a.box.left, b.box.left), std::max(a.box.top, b.box.top), std::min(a.box.right, b.box.right),
                  std::min(a.box.bottom, b.box.bottom)};
    if (cut.left > cut.right || cut.top > cut.bottom || hosted(a, b) || hosted(b, a)) return false;
    const bool deep = cut.left < cut.right || cut.top < cut.bottom;
    if (a.net >= 0 && b.net >= 0) {       // two nets: they may cross, not share or touch
      if (a.net == b.net) return false;
      const bool a_level = a.box.top == a.box.bottom, b_level = b.box.top == b.box.bottom;
      if (a_level == b_level) return true;
      const Thing &level = a_level ? a : b, &upright = a_level ? b : a;
      return !(upright.box.left > level.box.left && upright.box.left < level.box.right && level.box.top > upright.box.top &&
               level.box.top < upright.box.bottom);
    }
    if (a.text || b.text) {               // a port's letter may stand on its own symbol's ground
      const Thing& other = a.text ? b : a;
      return !(other.item >= 0 && !problem.items[other.item].poses.empty());
    }
    if (a.net < 0 && b.net < 0) return cut.left < cut.right && cut.top < cut.bottom;
    const Thing &line = a.net >= 0 ? a : b, &symbol = a.net >= 0 ? b : a;
    if (line.box.top == line.box.bottom) return deep && line.box.top > symbol.box.top && line.box.top < symbol.box.bottom;
    return deep && line.box.left > symbol.box.left && line.box.left < symbol.box.right;
  };
  std::vector<const Thing*> open;
  for (const Thing& thing : things) {
    open.erase(std::remove_if(open.begin(), open.end(), [&](const Thing* t) { return t->box.right < thing.box.left; }), open.end());
    for (const Thing* other : open)
      if (wrong(*other, thing)) found.push_back(name(*other) + " on " + name(thing));
    open.push_back(&thing);
  }
  return found;
}

}  // namespace ferrule::layout
