#include "serve/root_system_json.hpp"

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "engine/losses/severed_roots.hpp"
#include "engine/site/diameter.hpp"
#include "serve/ground_json.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

constexpr Length kUsualThinnest = Length::millimetres(5);
constexpr double kCoarser = 1.25;  // a step, until few enough pieces are left
constexpr int kMostSteps = 20;
constexpr double kRoundAbout = 1;  // m of ground shown beyond the roots

Json place_json(const Place3& place) {
  return Json::array({rounded(place.x), rounded(place.y), rounded(place.z)});
}

Json piece_json(const RootPiece& piece, bool severed) {
  constexpr double kTenth = 0.0001;
  return {{"from", place_json(piece.from)},
          {"to", place_json(piece.to)},
          {"thickness_m", Json::array({rounded(piece.thickness_from, kTenth),
                                       rounded(piece.thickness_to, kTenth)})},
          {"parent", piece.parent},
          {"kind", to_text(piece.kind)},
          {"severed", severed}};
}

Box box_round(const RootSystem& roots, const Point& stem) {
  Line places{stem};
  for (const RootPiece& piece : roots.pieces) places.push_back({piece.to.x, piece.to.y});
  Box box = box_of(places);
  box.min_x -= kRoundAbout;
  box.min_y -= kRoundAbout;
  box.max_x += kRoundAbout;
  box.max_y += kRoundAbout;
  return box;
}

std::string note_of(const GrownRoots& grown, UnitSystem units) {
  std::string note =
      "One likely root system drawn by lot, not a map of this tree's roots. Nothing here says "
      "where a root is: expose roots by hand or air before cutting.";
  if (grown.system.palm) {
    if (grown.cut_short) note += " Some roots are left out.";
    return note;
  }
  const AmountText amounts{units};
  note += " Roots thinner than " + amounts.small_length(grown.thinnest) + " are not drawn";
  if (grown.thinnest > kUsualThinnest)
    note += ": with those down to " + amounts.small_length(kUsualThinnest) +
            " there would be too many to show";
  return note + ".";
}

}  // namespace

Result<GrownRoots> grown_roots(const Snapshot& snapshot, const Tree& tree, std::size_t most) {
  GrownRoots grown;
  grown.thinnest = kUsualThinnest;
  const auto grow = [&] {
    return grow_roots(tree, snapshot.site, snapshot.tables, snapshot.assessment.simulation.seed,
                      grown.thinnest);
  };
  ROOTSTEAD_TRY(grown.system, grow());
  for (int i = 0; i < kMostSteps && !grown.system.palm && grown.system.pieces.size() > most; ++i) {
    grown.thinnest = grown.thinnest * kCoarser;
    ROOTSTEAD_TRY(grown.system, grow());
  }
  if (grown.system.pieces.size() > most) {  // parents come first, so the rest is whole
    grown.system.pieces.resize(most);
    grown.cut_short = true;
  }
  grown.severed = severed_pieces(grown.system, snapshot.site);
  return grown;
}

Result<Json> root_system_json(const Snapshot& snapshot, const std::string& id) {
  ROOTSTEAD_TRY(const Tree* tree, snapshot.tree(id));
  ROOTSTEAD_TRY(const GrownRoots grown, grown_roots(snapshot, *tree));
  const Point stem = tree->position->at;
  const auto diameter = combined_diameter(*tree, {});
  const Box box = box_round(grown.system, stem);
  Json pieces = Json::array();
  for (std::size_t i = 0; i < grown.system.pieces.size(); ++i)
    pieces.push_back(piece_json(grown.system.pieces[i], grown.severed[i]));
  return Json{{"tree", tree->id},
              {"label", tree->label()},
              {"seed", snapshot.assessment.simulation.seed},
              {"each_stands_for", grown.system.each_stands_for},
              {"stem", {{"at", to_json(stem)}, {"diameter_m", diameter ? diameter->metres() : 0}}},
              {"pieces", std::move(pieces)},
              {"ground", ground_grid(snapshot, box)},
              {"works", work_blocks(snapshot.site, box)},
              {"barriers", barrier_blocks(snapshot.site, box)},
              {"note", note_of(grown, snapshot.site.settings.units)}};
}

}  // namespace rootstead::serve
