#include "render/drawn_file.hpp"

namespace ferrule {

DrawnFile on_canvas(std::string_view ending, const canvas::DocumentData& data, const std::function<void(canvas::Canvas&)>& painted) {
  const bool known = ending == ".pdf" || ending == ".svg" || ending == ".png";
  if (!known) return {{}, "drawings are written as .pdf, .svg, .png or .json, not as " + std::string(ending), {}};
  const auto format = ending == ".pdf" ? canvas::Format::pdf : ending == ".svg" ? canvas::Format::svg : canvas::Format::png;
  const auto canvas = canvas::new_canvas(format, data);
  if (canvas == nullptr) return {{}, canvas::why_no_canvas(), {}};
  painted(*canvas);
  std::string bytes = canvas->finish();
  if (bytes.empty()) return {{}, "the sheet is too large for this kind of file; a .svg or .pdf holds any size", {}};
  return {std::move(bytes), {}, {}};
}

}  // namespace ferrule
