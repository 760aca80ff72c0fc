#include "engine/site/evidence.hpp"

#include "engine/base/words.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/accents.hpp"

namespace rootstead {
namespace {

// First the words this program writes, then others it reads, in English, German, French, Spanish
// and Dutch, without accents.
constexpr auto kKinds = std::to_array<Word<EvidenceKind>>({
    {EvidenceKind::pit, "pit"},
    {EvidenceKind::air_trench, "air trench"},
    {EvidenceKind::dug_root, "dug root"},
    {EvidenceKind::pit, "trial pit"},
    {EvidenceKind::pit, "trial hole"},
    {EvidenceKind::pit, "hole"},
    {EvidenceKind::pit, "schurf"},
    {EvidenceKind::pit, "schurfgrube"},
    {EvidenceKind::pit, "suchschacht"},
    {EvidenceKind::pit, "suchloch"},
    {EvidenceKind::pit, "fosse"},
    {EvidenceKind::pit, "sondage"},
    {EvidenceKind::pit, "cata"},
    {EvidenceKind::pit, "calicata"},
    {EvidenceKind::pit, "proefkuil"},
    {EvidenceKind::pit, "proefgat"},
    {EvidenceKind::air_trench, "trench"},
    {EvidenceKind::air_trench, "trial trench"},
    {EvidenceKind::air_trench, "suchgraben"},
    {EvidenceKind::air_trench, "graben"},
    {EvidenceKind::air_trench, "tranchee"},
    {EvidenceKind::air_trench, "tranchee a l'air"},
    {EvidenceKind::air_trench, "zanja"},
    {EvidenceKind::air_trench, "sleuf"},
    {EvidenceKind::air_trench, "proefsleuf"},
    {EvidenceKind::dug_root, "root"},
    {EvidenceKind::dug_root, "single root"},
    {EvidenceKind::dug_root, "wurzel"},
    {EvidenceKind::dug_root, "einzelwurzel"},
    {EvidenceKind::dug_root, "racine"},
    {EvidenceKind::dug_root, "raiz"},
    {EvidenceKind::dug_root, "wortel"},
});

}  // namespace

MultiPolygon footprint(const Evidence& evidence) {
  const double half = evidence.width.value_or(kDefaultOpeningWidth).length().metres() / 2;
  std::vector<MultiPolygon> parts = {evidence.shape.areas};
  for (const Line& line : evidence.shape.lines)
    parts.push_back(corridor(line, Length::metres(half)));
  for (const Point& p : evidence.shape.points)
    parts.push_back({{{{p.x - half, p.y - half},
                       {p.x + half, p.y - half},
                       {p.x + half, p.y + half},
                       {p.x - half, p.y + half}},
                      {}}});
  return union_of(parts);
}

std::string_view to_text(EvidenceKind kind) {
  return word_for(kKinds, kind);
}

std::optional<EvidenceKind> evidence_kind_from(std::string_view text) {
  return value_for(kKinds, without_accents(text));
}

}  // namespace rootstead
