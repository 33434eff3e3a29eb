#include "render/canvas/lettering.hpp"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <algorithm>
#include <map>

#include "render/canvas/canvas.hpp"
#include "render/canvas/words.hpp"

namespace ferrule::canvas {
namespace {

constexpr char32_t missing_mark = 0x25A1;  // an empty square, which the face has
constexpr std::size_t most_kept = 50'000;  // texts; more than any set of sheets holds
constexpr double shaping_pixels = 256;     // per em; positions come in 1/1024 of a pixel

// Opened once, kept to the end of the program: fonts are immutable and shared by all sheets.
struct Face {
  FT_Library library = nullptr;
  FT_Face face = nullptr;
  double capital = 0;
  PangoContext* context = nullptr;
  PangoLayout* layout = nullptr;

  Face() {
    const std::string file = font_file();
    if (file.empty() || FT_Init_FreeType(&library) != 0 || FT_New_Face(library, file.c_str(), 0, &face) != 0) return;
    if (FT_Load_Char(face, 'H', FT_LOAD_NO_SCALE) != 0 || face->glyph->metrics.height <= 0) return;
    capital = static_cast<double>(face->glyph->metrics.height);
    open_pango(file);
  }

  bool ready() const { return layout != nullptr; }

 private:
  // A configuration that holds this one file: no other font can ever be chosen.
  void open_pango(const std::string& file) {
    FcConfig* only = FcConfigCreate();
    if (!FcConfigAppFontAddFile(only, reinterpret_cast<const FcChar8*>(file.c_str()))) return;
    PangoFontMap* map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), only);
    context = pango_font_map_create_context(map);
    pango_context_set_language(context, pango_language_from_string("en"));
    pango_context_set_base_dir(context, PANGO_DIRECTION_LTR);
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_cairo_context_set_resolution(context, 72);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    PangoFontDescription* description = pango_font_description_new();
    pango_font_description_set_family(description, face->family_name);
    pango_font_description_set_absolute_size(description, shaping_pixels * PANGO_SCALE);
    layout = pango_layout_new(context);
    pango_layout_set_auto_dir(layout, FALSE);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_font_description(layout, description);
    pango_font_description_free(description);
    g_object_unref(map);
  }
};

const Face& opened() {
  static const Face face;
  return face;
}

// A few signs that the face lacks have a plain spelling.
std::u32string_view spelled(char32_t c) {
  switch (c) {
    case 0x2026: return U"...";
    case 0x2192: return U"->";
    case 0x2018: return U"'";
    case 0x201C:
    case 0x201D: return U"\"";
    case 0x2212: return U"-";
    case 0x2010:
    case 0x2011: return U"-";
    case 0x03BC: return U"\u00B5";
    default: return {};
  }
}

std::string drawable(std::string_view words) {
  std::u32string out;
  for (char32_t c : code_points(clean(words))) {
    if (FT_Get_Char_Index(opened().face, c) != 0)
      out += c;
    else if (const auto other = spelled(c); !other.empty())
      out += other;
    else
      out += missing_mark;
  }
  return utf8(out);
}

double to_capitals(int pango_units) {
  const double em = pango_units / (PANGO_SCALE * shaping_pixels);
  return em * units_per_em() / units_per_capital();
}

void append_run(Lettering& result, const PangoGlyphItem& run, double& x) {
  for (int i = 0; i < run.glyphs->num_glyphs; ++i) {
    const PangoGlyphInfo& info = run.glyphs->glyphs[i];
    if (info.glyph != PANGO_GLYPH_EMPTY && (info.glyph & PANGO_GLYPH_UNKNOWN_FLAG) == 0)
      result.glyphs.push_back({info.glyph, x + to_capitals(info.geometry.x_offset), to_capitals(info.geometry.y_offset),
                               run.item->offset + run.glyphs->log_clusters[i]});
    x += to_capitals(info.geometry.width);
  }
}

Lettering shaped(std::string_view words) {
  Lettering result;
  if (!opened().ready()) return result;
  result.words = drawable(words);
  pango_layout_set_text(opened().layout, result.words.c_str(), static_cast<int>(result.words.size()));
  PangoLayoutLine* line = pango_layout_get_line_readonly(opened().layout, 0);
  if (line != nullptr)
    for (GSList* run = line->runs; run != nullptr; run = run->next)
      append_run(result, *static_cast<PangoGlyphItem*>(run->data), result.width);
  return result;
}

}  // namespace

FT_Face face() { return opened().ready() ? opened().face : nullptr; }
double units_per_em() { return opened().face->units_per_EM; }
double units_per_capital() { return opened().capital; }

const Lettering& lettering(std::string_view words) {
  static std::map<std::string, Lettering, std::less<>> known;
  const auto found = known.find(words);
  if (found != known.end()) return found->second;
  if (known.size() >= most_kept) known.clear();
  return known.emplace(std::string(words), shaped(words)).first->second;
}

std::string lacking(std::string_view words) {
  std::u32string missing;
  if (face() != nullptr)
    for (char32_t c : code_points(clean(words)))
      if (FT_Get_Char_Index(face(), c) == 0 && spelled(c).empty() && missing.find(c) == std::u32string::npos) missing += c;
  return utf8(missing);
}

TextSize measured(std::string_view words, double capital_mm) {
  return {lettering(words).width * capital_mm, capital_mm};
}

}  // namespace ferrule::canvas
