#include "engine/protection/digging.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"
#include "engine/protection/along.hpp"

namespace rootstead {
namespace {

using Indices = std::vector<std::size_t>;

std::vector<std::string> names(const Indices& trees, const PlanGround& ground) {
  std::vector<std::string> ids;
  for (const std::size_t i : trees) ids.push_back(ground.kept[i].tree->id);
  return ids;
}

// ---- root-cut lines -----------------------------------------------------------------------------

// Is `stem` on the outer side of the edge from a to b? Rings keep their ground on the left.
bool faces(const Point& a, const Point& b, const Point& stem) {
  return (b.x - a.x) * (stem.y - a.y) - (b.y - a.y) * (stem.x - a.x) < 0;
}

struct CutPiece {
  Line line;
  Indices trees;
};

// The ring's edges that face trees, cut where the set of trees changes, joined where it does not.
std::vector<CutPiece> pieces_of_ring(const Ring& ring, const Indices& near,
                                     const PlanGround& ground) {
  std::vector<CutPiece> pieces;
  for (std::size_t e = 0; e < ring.size(); ++e) {
    const Line edge{ring[e], ring[(e + 1) % ring.size()]};
    std::vector<TreeInterval> in;
    for (const std::size_t i : near) {
      if (!faces(edge[0], edge[1], ground.kept[i].tree->position->at)) continue;
      for (const Interval& on : inside(edge, ground.kept[i].ground)) in.push_back({on, i, false});
    }
    for (const TreeStretch& stretch : stretches_of(in)) {
      const Line part = part_of(edge, stretch.on.first, stretch.on.second);
      const bool joins = !pieces.empty() && pieces.back().trees == stretch.trees &&
                         distance(pieces.back().line.back(), part[0]) < Length::millimetres(1);
      if (joins)
        pieces.back().line.push_back(part[1]);
      else
        pieces.push_back({part, stretch.trees});
    }
  }
  // The ring's first corner is no end of a cut.
  if (pieces.size() > 1 && pieces.back().trees == pieces.front().trees &&
      distance(pieces.back().line.back(), pieces.front().line[0]) < Length::millimetres(1)) {
    Line& last = pieces.back().line;
    last.insert(last.end(), pieces.front().line.begin() + 1, pieces.front().line.end());
    pieces.front() = std::move(pieces.back());
    pieces.pop_back();
  }
  return pieces;
}

// A root cut is a line already; its corridor would give both its sides.
std::vector<CutPiece> pieces_of_line(const Line& line, const Indices& near,
                                     const PlanGround& ground) {
  std::vector<TreeInterval> in;
  for (const std::size_t i : near) {
    for (const Interval& on : inside(line, ground.kept[i].ground)) in.push_back({on, i, false});
  }
  std::vector<CutPiece> pieces;
  for (const TreeStretch& stretch : stretches_of(in))
    pieces.push_back({part_of(line, stretch.on.first, stretch.on.second), stretch.trees});
  return pieces;
}

Indices trees_near(const CountedWork& work, const PlanGround& ground) {
  Indices near;
  for (const std::size_t i : ground.trees_meeting(work.box)) {
    if (ground.kept[i].reason.empty()) near.push_back(i);
  }
  return near;
}

void add_cuts(const CountedWork& work, const std::vector<CutPiece>& pieces,
              const PlanGround& ground, std::vector<RootCutLine>& cuts) {
  for (const CutPiece& piece : pieces) {
    if (length_of(piece.line) < Length::millimetres(10)) continue;
    RootCutLine cut;
    cut.id = "R" + std::to_string(cuts.size() + 1);
    cut.work = work.work->id;
    cut.line = piece.line;
    cut.depth = severed_depth(*work.work);
    cut.trees = names(piece.trees, ground);
    cut.nearest = Length::metres(HUGE_VAL);
    for (const std::size_t i : piece.trees)
      cut.nearest =
          std::min(cut.nearest, distance_between(ground.kept[i].tree->position->at, piece.line));
    cuts.push_back(std::move(cut));
  }
}

// ---- stretches along lines ----------------------------------------------------------------------

// Shorter than a crew can peg out: it would print as one chainage twice ("27.0 to 27.0 m").
constexpr double kLeastStretch = 0.1;  // m, our assumption

enum class Plates { apart, alike };  // are root plates told from other ground?

// Where the full width of a line work touches the ground of trees.
std::vector<TreeStretch> stretches_along(const Line& line, Length half_width, const Indices& near,
                                         const PlanGround& ground, Plates plates) {
  std::vector<TreeInterval> in;
  for (const std::size_t i : near) {
    const KeptTree& kept = ground.kept[i];
    for (const Interval& on : inside(line, grown(kept.ground, half_width, 8)))
      in.push_back({on, i, false});
    if (plates == Plates::alike) continue;
    for (const Interval& on :
         inside(line, Circle{kept.tree->position->at, kept.plate + half_width}))
      in.push_back({on, i, true});
  }
  // A root plate outside the ground, beyond the boundary say, is nobody's to dig in.
  std::vector<TreeStretch> found;
  for (TreeStretch& stretch : stretches_of(in)) {
    const double middle = (stretch.on.first + stretch.on.second) / 2;
    const bool owned = std::any_of(in.begin(), in.end(), [&](const TreeInterval& one) {
      return !one.near_stem && one.on.first <= middle && middle <= one.on.second;
    });
    if (owned) found.push_back(std::move(stretch));
  }
  return without_slivers(std::move(found), length_of(line).metres(), kLeastStretch);
}

// Paving over roots is built on top (no_dig_areas): a line to cut roots along its edge would say
// the contrary. Posts are single holes, placed by eye.
bool cuts_along_edge(const Work& work) {
  return severs(work) && work.kind != WorkKind::fence_posts && work.kind != WorkKind::paving;
}

bool is_dug_along(WorkKind kind) {
  return kind == WorkKind::trench || kind == WorkKind::root_cut || kind == WorkKind::fence_posts;
}

}  // namespace

std::vector<RootCutLine> root_cut_lines(const PlanGround& ground) {
  std::vector<RootCutLine> cuts;
  for (const CountedWork& work : ground.works) {
    if (!cuts_along_edge(*work.work)) continue;
    const Indices near = trees_near(work, ground);
    if (near.empty()) continue;
    if (work.work->kind == WorkKind::root_cut) {
      for (const Line& line : work.work->shape.lines)
        add_cuts(work, pieces_of_line(line, near, ground), ground, cuts);
      continue;
    }
    for (const Polygon& polygon : work.footprint) {
      add_cuts(work, pieces_of_ring(polygon.outer, near, ground), ground, cuts);
      for (const Ring& hole : polygon.holes)
        add_cuts(work, pieces_of_ring(hole, near, ground), ground, cuts);
    }
  }
  return cuts;
}

std::vector<DigStretch> dig_stretches(const PlanGround& ground) {
  std::vector<DigStretch> digs;
  for (const CountedWork& counted : ground.works) {
    const Work& work = *counted.work;
    if (!is_dug_along(work.kind)) continue;
    const Indices near = trees_near(counted, ground);
    for (std::size_t l = 0; l < work.shape.lines.size(); ++l) {
      const Line& line = work.shape.lines[l];
      if (line.size() < 2) continue;
      for (const TreeStretch& stretch :
           stretches_along(line, width_of(work) / 2, near, ground, Plates::apart)) {
        const auto [from, to] = stretch.on;
        const bool air = stretch.near_stem || work.method == DigMethod::air;
        digs.push_back({"D" + std::to_string(digs.size() + 1), work.id, l, Length::metres(from),
                        Length::metres(to), point_along(line, from), point_along(line, to),
                        air ? DigMethod::air : DigMethod::hand, names(stretch.trees, ground)});
      }
    }
  }
  return digs;
}

std::vector<BorePassage> bore_passages(const PlanGround& ground) {
  std::vector<BorePassage> bores;
  for (const CountedWork& counted : ground.works) {
    const Work& work = *counted.work;
    if (work.kind != WorkKind::bore) continue;
    std::size_t pits = 0;
    for (const Polygon& pit : work.bore_pits) {
      if (!ground.trees_in({pit}).empty()) ++pits;
    }
    for (std::size_t l = 0; l < work.shape.lines.size(); ++l) {
      const Line& line = work.shape.lines[l];
      if (line.size() < 2) continue;
      Indices near;  // a deep bore has no footprint, so it is asked by its line
      for (const std::size_t i : ground.trees_meeting(box_of(line))) {
        if (ground.kept[i].reason.empty()) near.push_back(i);
      }
      for (const TreeStretch& stretch :
           stretches_along(line, width_of(work) / 2, near, ground, Plates::alike))
        bores.push_back({work.id, l, Length::metres(stretch.on.first),
                         Length::metres(stretch.on.second), depth_of(work), pits,
                         names(stretch.trees, ground)});
    }
  }
  return bores;
}

}  // namespace rootstead
