// canvas.hpp as the program links it: every function goes to the module, which is loaded by the first call.
#include <dlfcn.h>

#include <filesystem>

#include "render/canvas/functions.hpp"

namespace ferrule::canvas {
namespace {

constexpr const char* module_name = "ferrule-canvas.so";

struct Loaded {
  const Functions* functions = nullptr;
  std::string why_not;
};

// Beside the program in a build folder, in lib/ferrule beside bin/ where it is installed.
Loaded load() {
  std::error_code unused;
  const std::filesystem::path folder = std::filesystem::read_symlink("/proc/self/exe", unused).parent_path();
  std::string why;
  for (const auto& place : {folder / module_name, folder / "../lib/ferrule" / module_name}) {
    if (!std::filesystem::exists(place, unused)) continue;
    void* module = dlopen(place.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (void* door = module ? dlsym(module, "ferrule_canvas_functions") : nullptr)
      return {reinterpret_cast<decltype(&ferrule_canvas_functions)>(door)(), {}};
    if (const char* reason = dlerror()) why = reason;
  }
  if (why.empty()) return {nullptr, std::string("the drawing module ") + module_name + " is missing beside the program: build or install Ferrule again"};
  return {nullptr, "the drawing module can't be loaded: " + why};
}

const Loaded& loaded() {
  static const Loaded once = load();
  return once;
}

}  // namespace

std::unique_ptr<Canvas> new_canvas(Format format, const DocumentData& data) {
  return loaded().functions ? loaded().functions->new_canvas(format, data) : nullptr;
}

std::string why_no_canvas() { return loaded().functions ? loaded().functions->why_no_canvas() : loaded().why_not; }

TextSize measured(std::string_view words, double capital_mm) {
  return loaded().functions ? loaded().functions->measured(words, capital_mm) : TextSize{};
}

std::string lacking(std::string_view words) { return loaded().functions ? loaded().functions->lacking(words) : std::string(); }

std::string font_file() { return loaded().functions ? loaded().functions->font_file() : std::string(); }

}  // namespace ferrule::canvas
