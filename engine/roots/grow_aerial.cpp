// Roots above ground of the few genera that bear them. Which genera: recalled, not looked up; how
// many and how thick: our assumption. They are drawn so that the reader expects them, no more.
#include <array>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/roots/root_grower.hpp"

namespace rootstead {
namespace {

enum class Habit { none, props, pillars, knees };

struct Bearer {
  std::string_view taxon;
  Habit habit;
};
constexpr std::array<Bearer, 9> kBearers = {{
    {"Ficus benghalensis", Habit::pillars},
    {"Ficus microcarpa", Habit::pillars},
    {"Ficus aurea", Habit::pillars},
    {"Metrosideros excelsa", Habit::pillars},
    {"Rhizophora", Habit::props},
    {"Pandanus", Habit::props},
    {"Clusia", Habit::props},
    {"Avicennia", Habit::knees},
    {"Taxodium", Habit::knees},
}};

constexpr double kPillarNearest = 0.3, kPillarFarthest = 0.7;  // of the crown radius
constexpr double kPillarHeight = 2.5;                          // m: limb it hangs from
constexpr double kPropHeight = 1.2, kPropReach = 0.8;          // m
constexpr double kKneeHeight = 0.3;                            // m
constexpr double kIntoGround = 0.3;                            // m
constexpr double kThinsTo = 0.6;                               // of its thickness, downward
constexpr int kArcPieces = 4;

Habit habit_of(const Tree& tree) {
  for (const Bearer& bearer : kBearers)
    if (same_taxon(tree.botanical_name, bearer.taxon)) return bearer.habit;
  return Habit::none;
}

double crown_radius(const Growing& growing) {
  if (growing.tree.crown) return growing.tree.crown->mean_radius().metres();
  return growing.best("roots.crown_radius_per_diameter") * growing.law.diameter;
}

void grow_pillar(Growing& growing, double azimuth, double thickness) {
  const double out =
      crown_radius(growing) * growing.random.uniform(kPillarNearest, kPillarFarthest);
  const Point at = offset(growing.stem, Angle::radians(azimuth), Length::metres(out));
  RootPiece piece{{at.x, at.y, -kPillarHeight},
                  {at.x, at.y, 0},
                  thickness,
                  kThinsTo * thickness,
                  -1,
                  0,
                  RootKind::aerial};
  piece.parent = growing.add(piece);
  piece.from = piece.to;
  piece.to.z = kIntoGround;
  piece.thickness_from = piece.thickness_to;
  growing.add(piece);
}

// A quarter of an ellipse from the trunk down into the ground.
void grow_prop(Growing& growing, double azimuth, double thickness) {
  const double radius = growing.law.diameter / 2;
  const double height = kPropHeight * growing.random.uniform(0.5, 1.0);
  const double reach = kPropReach * growing.random.uniform(0.5, 1.5);
  RootPiece piece;
  piece.kind = RootKind::prop;
  piece.thickness_to = thickness;
  const auto place = [&](double turn) {
    const Point at = offset(growing.stem, Angle::radians(azimuth),
                            Length::metres(radius + reach * std::sin(turn)));
    return Place3{at.x, at.y, kIntoGround - (height + kIntoGround) * std::cos(turn)};
  };
  piece.to = place(0);
  for (int i = 1; i <= kArcPieces; ++i) {
    piece.from = piece.to;
    piece.to = place(std::numbers::pi / 2 * i / kArcPieces);
    piece.thickness_from = piece.thickness_to;
    piece.thickness_to = thickness * (1 - (1 - kThinsTo) * i / kArcPieces);
    piece.parent = growing.add(piece);
  }
}

// On a lateral within the crown, straight up.
void grow_knee(Growing& growing, double thickness) {
  std::vector<int> able;
  const double reach = crown_radius(growing);
  for (std::size_t i = 0; i < growing.roots.pieces.size(); ++i) {
    const RootPiece& piece = growing.roots.pieces[i];
    const Point at{piece.to.x, piece.to.y};
    if (piece.kind == RootKind::lateral && distance(at, growing.stem).metres() < reach &&
        piece.thickness_to >= std::max(2 * growing.thinnest, growing.law.diameter / 20))
      able.push_back(static_cast<int>(i));
  }
  const double lot = growing.random.uniform();
  if (able.empty()) return;
  const int parent = able[static_cast<std::size_t>(lot * static_cast<double>(able.size()))];
  const RootPiece& bearer = growing.roots.pieces[static_cast<std::size_t>(parent)];
  const double knee = std::min(thickness, bearer.thickness_to / 2);
  growing.add({bearer.to,
               {bearer.to.x, bearer.to.y, -kKneeHeight},
               knee,
               knee,
               parent,
               bearer.order + 1,
               RootKind::aerial});
}

}  // namespace

void grow_aerial(Growing& growing) {
  const Habit habit = habit_of(growing.tree);
  if (habit == Habit::none) return;
  const auto count =
      static_cast<std::size_t>(std::lround(growing.drawn("architecture.aerial_roots")));
  for (const double azimuth : azimuths_round(kEvenSectors, count, growing.random)) {
    const double thickness = growing.drawn("architecture.aerial_thickness");
    if (habit == Habit::pillars) grow_pillar(growing, azimuth, thickness);
    if (habit == Habit::props) grow_prop(growing, azimuth, thickness);
    if (habit == Habit::knees) grow_knee(growing, thickness);
  }
}

}  // namespace rootstead
