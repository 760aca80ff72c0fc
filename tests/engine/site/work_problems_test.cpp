// What is wrong with works, barriers and surfaces.
#include "tests/engine/site/problem_site.hpp"

namespace rootstead {
namespace {

TEST(Problems, AWorkWithoutShapeBlocks) {
  Site site = sound_site();
  site.works[0].shape = {};
  expect_only(site, true, NoteCode::shape_missing,
              "works.dxf entity 3F, trench W1: no shape, so it can take nothing; draw the work.");
  site.works[0].shape.lines = {{{431000, 122000}, {431000, 122000}}};
  expect_only(site, true, NoteCode::shape_missing,
              "works.dxf entity 3F, trench W1: the shape has neither length nor area; draw it "
              "again.");
}

TEST(Problems, DefaultsThatWillBeUsedAreTold) {
  Site site = sound_site();
  site.works[0].depth.reset();
  expect_only(site, false, NoteCode::depth_assumed,
              "works.dxf entity 3F, trench W1: no depth; 0.9 m is assumed; enter the depth of the "
              "work.");
  site = sound_site();
  site.works[0].width.reset();
  expect_only(site, false, NoteCode::width_assumed,
              "works.dxf entity 3F, trench W1: no width; 0.6 m is assumed; enter the width of the "
              "work.");
}

TEST(Problems, ImpossibleMeasuresOfWorksBlock) {
  for (const double depth : {0.0, -1.0}) {
    Site site = sound_site();
    site.works[0].depth = metres(depth);
    EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks) << depth;
  }
  Site site = sound_site();
  site.works[0].width = metres(0);
  EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
  site = sound_site();
  site.works[0].working_room = metres(-0.5);
  EXPECT_TRUE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
  site = sound_site();
  site.works[0].depth = metres(900);  // millimetres taken for metres
  EXPECT_FALSE(with_code(site, NoteCode::measure_doubtful).at(0).blocks);
}

TEST(Problems, ABoreWithoutPitsIsTold) {
  Site site = sound_site();
  site.works[0].kind = WorkKind::bore;
  site.works[0].bore_diameter = metres(0.2);
  const auto found = with_code(site, NoteCode::shape_missing);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_FALSE(found[0].blocks);
}

TEST(Problems, OutlinesThatCrossThemselvesAreTold) {
  const MultiPolygon bow_tie = {
      {{{431000, 122000}, {431002, 122002}, {431002, 122000}, {431000, 122002}}, {}}};
  Site site = sound_site();
  site.works[0].kind = WorkKind::pit;
  site.works[0].shape = {{}, bow_tie, {}};
  Barrier barrier;
  barrier.id = "B1";
  barrier.depth = metres(1);
  barrier.shape.areas = bow_tie;
  site.barriers.push_back(barrier);
  Surface surface;
  surface.id = "S1";
  surface.area = bow_tie;
  site.surfaces.push_back(surface);
  EXPECT_EQ(with_code(site, NoteCode::shape_doubtful).size(), 3u);
}

TEST(Problems, DoubleIdsOfWorksBlock) {
  Site site = sound_site();
  site.works.push_back(sound_trench("W1"));
  EXPECT_TRUE(with_code(site, NoteCode::tag_duplicate).at(0).blocks);
}

TEST(Problems, BarriersWithoutDepthAreToldOnceAFile) {
  Site site = sound_site();
  for (int i = 0; i < 300; ++i) {
    Barrier kerb;
    kerb.id = "K" + std::to_string(i);
    kerb.kind = BarrierKind::kerb;
    kerb.shape.lines = {{{431000, 122000}, {431010, 122000}}};
    kerb.origin = {"kerbs.shp", "feature " + std::to_string(i)};
    site.barriers.push_back(kerb);
  }
  expect_only(site, false, NoteCode::depth_assumed,
              "kerbs.shp, all 300 barriers: no depth; 0.3 m is assumed; enter the depth to its "
              "underside.");
}

}  // namespace
}  // namespace rootstead
