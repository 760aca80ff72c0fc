// The same work dug and bored, laid over the same roots.
#include <cmath>

#include "engine/cutting/bore_advice.hpp"
#include "engine/cutting/bore_line.hpp"
#include "engine/geom/measure.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead {
namespace {

constexpr double kFarEnough = 200;  // m: no root comes so far

// A square pit beyond one end of a stretch; `outward` is the way it lies from that end.
Polygon pit_at(const Point& end, Angle outward, double side) {
  const double half = side / 2;
  const double ux = std::sin(outward.radians()), uy = std::cos(outward.radians());
  const Point centre{end.x + half * ux, end.y + half * uy};
  const auto corner = [&](double along, double across) {
    return Point{centre.x + along * half * ux - across * half * uy,
                 centre.y + along * half * uy + across * half * ux};
  };
  return {{corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)}, {}};
}

// What stays an open trench: the line without its stretches.
std::vector<Line> open_lines(const Work& work, const BoreAdvice& advice) {
  std::vector<Line> open;
  for (std::size_t i = 0; i < work.shape.lines.size(); ++i) {
    const Line& line = work.shape.lines[i];
    double from = 0;
    const auto take = [&](double to) {
      if (Line piece = piece_of(line, from, to); !piece.empty()) open.push_back(std::move(piece));
    };
    for (const BoreStretch& one : advice.stretches) {
      if (one.line != i) continue;
      take(one.from);
      from = one.to;
    }
    take(length_of(line).metres());
  }
  return open;
}

Work bore_of(const Work& work, const BoreAdvice& advice, double pit_side) {
  constexpr double kHalfTurn = 180;
  Work bore = work;
  bore.id = work.id + " bored";
  bore.kind = WorkKind::bore;
  bore.shape = {};
  bore.working_room.reset();
  Length depth;
  for (const BoreStretch& one : advice.stretches) {
    const Line& line = work.shape.lines[one.line];
    bore.shape.lines.push_back(piece_of(line, one.from, one.to));
    depth = std::max(depth, one.depth);
    const Angle back = direction_at(line, one.from) + Angle::degrees(kHalfTurn);
    bore.bore_pits.push_back(pit_at(point_at(line, one.from), back, pit_side));
    bore.bore_pits.push_back(pit_at(point_at(line, one.to), direction_at(line, one.to), pit_side));
  }
  bore.depth = EnteredLength{depth.metres(), LengthUnit::metre};
  return bore;
}

std::vector<Work> bored(const Work& work, const BoreAdvice& advice, double pit_side) {
  std::vector<Work> works;
  Work rest = work;
  rest.kind = WorkKind::trench;
  rest.state = WorkState::proposed;
  rest.shape.lines = open_lines(work, advice);
  if (!rest.shape.lines.empty()) works.push_back(rest);
  if (!advice.stretches.empty()) {
    works.push_back(bore_of(work, advice, pit_side));
    works.back().state = WorkState::proposed;
  }
  return works;
}

struct Taken {
  Range loss;
  std::optional<Range> kept;
};

Result<Taken> taken_by(const std::vector<Work>& works, const Tree& tree, const Site& site,
                       const Tables& tables, const RootSimulation& how) {
  Site alone = site;
  alone.works = works;
  const WorkMap map(alone);
  ROOTSTEAD_TRY(const auto model, root_model(tree, alone, tables));
  const auto takings = takings_near(tree, Length::metres(kFarEnough), map);
  Taken taken;
  taken.loss = model->loss(takings, how).all;
  std::vector<AnchorageCut> cuts;
  for (const GroundTaking& taking : takings)
    if (taking.effect == GroundTaking::Effect::severs)
      cuts.push_back({taking.work, taking.area, taking.depth, true, false});
  const AnchorageContext context{site.soil, {}, site.barriers, site.evidence};
  if (const auto kept = anchorage_of(tree, cuts, tables, context)) taken.kept = kept->kept;
  return taken;
}

Figure share_figure(std::string name, const Range& range, std::string formula) {
  Figure figure;
  figure.name = "cutting." + std::move(name);
  figure.value = range.best;
  figure.range = range;
  figure.formula = std::move(formula);
  figure.from = {"rootstead", "docs/methods/cutting.md", Status::assumption};
  return figure;
}

}  // namespace

Result<TrenchOrBore> trench_or_bore(const Tree& tree, const Work& work, const Site& site,
                                    const Tables& tables, const RootSimulation& how) {
  if (work.shape.lines.empty())
    return Error{Code::outside_rule_domain, "work " + work.id,
                 "it has no line along which it could be bored", "draw it as a line"};
  Work trench = work;
  trench.kind = WorkKind::trench;
  trench.state = WorkState::proposed;
  TrenchOrBore both;
  both.bored = bored(trench, bore_advice(tree, trench, site, tables),
                     tables.parameter("cutting.bore.pit_side").best);
  ROOTSTEAD_TRY(const Taken dug, taken_by({trench}, tree, site, tables, how));
  ROOTSTEAD_TRY(const Taken beneath, taken_by(both.bored, tree, site, tables, how));
  both.trench_loss = dug.loss;
  both.bore_loss = beneath.loss;
  both.trench_kept = dug.kept;
  both.bore_kept = beneath.kept;
  both.figures = {
      share_figure("trench-loss", dug.loss, "absorbing roots lost, dug all along"),
      share_figure("bore-loss", beneath.loss,
                   "absorbing roots lost, bored where the tables ask; pits 1.5 m wide")};
  if (dug.kept)
    both.figures.push_back(share_figure("trench-kept", *dug.kept, "anchorage kept, dug all along"));
  if (beneath.kept)
    both.figures.push_back(
        share_figure("bore-kept", *beneath.kept, "anchorage kept, bored where the tables ask"));
  return both;
}

}  // namespace rootstead
