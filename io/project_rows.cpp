#include "io/project_rows.hpp"

namespace rootstead::io {
namespace {

// What is known of a flare, in the tables it goes to.
class FlareInserter {
 public:
  explicit FlareInserter(const Project::State& state)
      : flares_(state.database, "flares", state.frame),
        taper_(state.database, "taper_readings", state.frame),
        signs_(state.database, "flare_signs", state.frame),
        found_(state.database, "flare_records", state.frame) {}

  Outcome operator()(const Tree& tree) {
    const Flare& flare = tree.flare;
    const bool known = flare.state != Flare::State::unknown || flare.buried_by;
    if (known) ROOTSTEAD_CHECK(flares_({tree.id, 1, flare}));
    std::int64_t number = 0;
    for (const TaperReading& reading : flare.taper)
      ROOTSTEAD_CHECK(taper_({tree.id, ++number, reading}));
    number = 0;
    for (const FlareSign sign : flare.signs) ROOTSTEAD_CHECK(signs_({tree.id, ++number, sign}));
    if (flare.found) ROOTSTEAD_CHECK(found_({tree.id, 1, *flare.found}));
    return Nothing{};
  }

 private:
  Inserter<FlareRow> flares_;
  Inserter<TaperRow> taper_;
  Inserter<FlareSignRow> signs_;
  Inserter<FlareRecordRow> found_;
};

}  // namespace

Outcome add_trees(const Project::State& state, const std::vector<Tree>& trees) {
  Inserter<StemRow> stems(state.database, "stems", state.frame);
  Inserter<CrownRow> crowns(state.database, "crowns", state.frame);
  FlareInserter flares(state);
  return add_records(state, "trees", "tree", trees, [&](const Tree& tree) -> Outcome {
    std::int64_t number = 0;
    for (const Stem& stem : tree.stems) ROOTSTEAD_CHECK(stems({tree.id, ++number, stem}));
    if (tree.crown) ROOTSTEAD_CHECK(crowns({tree.id, 1, *tree.crown}));
    return flares(tree);
  });
}

Outcome add_works(const Project::State& state, const std::vector<Work>& works) {
  Inserter<BorePitRow> pits(state.database, "bore_pits", state.frame);
  Inserter<VehicleRow> vehicles(state.database, "vehicles", state.frame);
  Inserter<CoverRow> covers(state.database, "ground_covers", state.frame);
  return add_records(state, "works", "work", works, [&](const Work& work) -> Outcome {
    for (const Polygon& pit : work.bore_pits) ROOTSTEAD_CHECK(pits({work.id, {pit}}));
    if (work.vehicle) ROOTSTEAD_CHECK(vehicles({work.id, *work.vehicle}));
    if (work.cover) ROOTSTEAD_CHECK(covers({work.id, *work.cover}));
    return Nothing{};
  });
}

Outcome add_barriers(const Project::State& state, const std::vector<Barrier>& barriers) {
  return add_records(state, "barriers", "barrier", barriers, kNothingElse);
}

}  // namespace rootstead::io
