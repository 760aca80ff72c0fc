#include "engine/site/evidence.hpp"

#include "engine/base/words.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr auto kKinds = std::to_array<Word<EvidenceKind>>({
    {EvidenceKind::pit, "pit"},
    {EvidenceKind::air_trench, "air trench"},
    {EvidenceKind::dug_root, "dug root"},
    {EvidenceKind::pit, "trial pit"},
    {EvidenceKind::pit, "hole"},
    {EvidenceKind::air_trench, "trench"},
    {EvidenceKind::dug_root, "root"},
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
  return value_for(kKinds, text);
}

}  // namespace rootstead
