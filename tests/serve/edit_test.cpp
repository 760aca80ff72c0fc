#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "serve/edit.hpp"
#include "serve/shape_json.hpp"
#include "tests/serve/open_desk.hpp"

namespace rootstead::test {
namespace {

using io::Json;

Json put(const char* sort, const char* id, Json fields, Json shape) {
  return {{"put", {{"sort", sort}, {"id", id}, {"fields", fields}, {"shape", shape}}}};
}
Json remove(const char* sort, const char* id) {
  return {{"remove", {{"sort", sort}, {"id", id}}}};
}
Json trench_fields(const char* depth) {
  return {{"kind", "trench"}, {"state", "proposed"}, {"width", "600 mm"}, {"depth", depth}};
}
Json place(double x, double y) {
  return serve::to_json(Shape{{}, {}, {{kEast + x, kNorth + y}}});
}

std::string version_of(serve::Desk& desk) {
  return desk.site()["version"];
}
Result<Json> edit(serve::Desk& desk, const std::vector<Json>& changes) {
  return desk.edit(version_of(desk), changes, kNow);
}
Result<Json> take_back(serve::Desk& desk, const Json& edited) {
  return desk.edit(version_of(desk), edited["inverse"], kNow);
}

// The answers of the open desk are those of the project read anew, to the last bit.
void expect_as_saved(const OpenDesk& small, serve::Desk& desk) {
  serve::Desk again = small.open();
  EXPECT_EQ(desk.assessment()["trees"], again.assessment()["trees"]);
  EXPECT_EQ(desk.site()["works"], again.site()["works"]);
}

TEST(Edit, AWorkIsAddedChangedAndTakenAway) {
  const OpenDesk small;
  serve::Desk desk = small.open();
  const Json drawn = serve::to_json(trench_at(-4));
  const auto added = edit(desk, {put("work", "W9", trench_fields("900 mm"), drawn)});
  ASSERT_TRUE(added) << added.error().sentence();
  EXPECT_EQ((*added)["inverse"], Json::array({remove("work", "W9")}));
  EXPECT_FALSE((*added)["trees"].empty());
  expect_as_saved(small, desk);

  const auto deeper = edit(desk, {put("work", "W9", trench_fields("3 ft"), drawn)});
  ASSERT_TRUE(deeper) << deeper.error().sentence();
  EXPECT_EQ((*desk.work("W9"))["fields"]["depth"], "3 ft");
  EXPECT_EQ((*deeper)["inverse"][0]["put"]["fields"]["depth"], "900 mm");
  expect_as_saved(small, desk);

  ASSERT_TRUE(edit(desk, {remove("work", "W9")}));
  EXPECT_FALSE(desk.work("W9"));
  expect_as_saved(small, desk);
}

TEST(Edit, ATreeAndABarrierAreAddedAndTheSiteIsReadAnew) {
  const OpenDesk small;
  serve::Desk desk = small.open();
  const Json tree = {
      {"form", "broadleaf"}, {"stem_diameter", "300 mm+250 mm"}, {"measured_at", "1.3 m"}};
  const Json wall = {{"kind", "wall"}, {"depth", "800 mm"}, {"width", "300 mm"}};
  const auto added = edit(desk, {put("tree", "T9", tree, place(8, -12)),
                                 put("barrier", "B9", wall, serve::to_json(trench_at(-9)))});
  ASSERT_TRUE(added) << added.error().sentence();
  EXPECT_EQ((*added)["whole"], true);
  EXPECT_EQ((*desk.survey("T9"))["fields"]["stem_diameter"], "300 mm+250 mm");
  EXPECT_EQ(desk.site()["barriers"].size(), 1U);
  expect_as_saved(small, desk);
  ASSERT_TRUE(take_back(desk, *added));
  EXPECT_EQ(desk.site()["barriers"].size(), 0U);
  expect_as_saved(small, desk);
}

TEST(Edit, WhatNoFormShowsComesBackWithUndo) {
  const OpenDesk small;
  {
    io::Project project = small.project();
    io::Edits edits;
    Tree tree = project.read()->trees.front();
    tree.flare.signs = {FlareSign::graft_below_ground};
    tree.flare.taper = {{metres(0.1), metres(0.6)}};
    tree.stems = {{Stem::Read::diameter, metres(0.3), metres(1.4)},
                  {Stem::Read::girth, metres(0.9), metres(1.0)}};
    edits.trees = {tree};
    ASSERT_TRUE(project.edit(edits, kNow));
  }
  serve::Desk desk = small.open();
  const Json before = *desk.survey("T1");
  const auto gone = edit(desk, {remove("tree", "T1")});
  ASSERT_TRUE(gone) << gone.error().sentence();
  ASSERT_TRUE(take_back(desk, *gone));
  EXPECT_EQ(*desk.survey("T1"), before);
  const Site saved = std::move(small.project().read()).value();
  for (const Tree& tree : saved.trees) {
    if (tree.id != "T1") continue;
    EXPECT_EQ(tree.flare.signs.size(), 1U);
    EXPECT_EQ(tree.flare.taper.size(), 1U);
    ASSERT_EQ(tree.stems.size(), 2U);
    EXPECT_EQ(tree.stems[1].read, Stem::Read::girth);
  }
}

TEST(Edit, ATreeMayBeEnteredBeforeItIsMeasured) {
  const OpenDesk small;
  serve::Desk desk = small.open();
  const auto added = edit(desk, {put("tree", "T9", {{"tag", "Taped"}}, place(8, -12))});
  ASSERT_TRUE(added) << added.error().sentence();
  EXPECT_EQ(desk.site()["trees"].size(), 4U);
  expect_as_saved(small, desk);
}

TEST(Edit, ARefusedEditChangesNothing) {
  const OpenDesk small;
  serve::Desk desk = small.open();
  const Json before = desk.assessment();
  const Json drawn = serve::to_json(trench_at(-4));
  const std::pair<std::vector<Json>, const char*> cases[] = {
      {{put("work", "W9", trench_fields("-900 mm"), drawn)}, "cannot be read"},
      {{put("work", "W9", trench_fields("900"), drawn)}, "unit"},
      {{put("work", "W9", {{"kind", "canal"}}, drawn)}, "kind"},
      {{put("work", "W9", {{"kind", "trench"}, {"colour", "red"}}, drawn)}, "colour"},
      {{put("work", "W9", trench_fields("900 mm"), Json())}, "no shape"},
      {{put("work", "", trench_fields("900 mm"), drawn)}, "no id"},
      {{put("work", "W1", trench_fields("1 m"), drawn), remove("work", "W1")}, "twice"},
      {{remove("tree", "T77")}, "nothing of this name"},
      {{put("tree", "T9", {{"stem_diameter", "0 mm"}}, place(1, 1))}, "0"},
      {{put("tree", "T9", Json::object(), drawn)}, "one point"},
      {{}, "none"},
      {{Json{{"push", 1}}}, "neither"}};
  for (const auto& [changes, part] : cases) {
    const auto refused = edit(desk, changes);
    ASSERT_FALSE(refused) << Json(changes).dump();
    EXPECT_NE(refused.error().sentence().find(part), std::string::npos)
        << refused.error().sentence();
  }
  EXPECT_EQ(desk.assessment(), before);
  const auto stale = desk.edit("an older one", Json::array({remove("work", "W1")}), kNow);
  ASSERT_FALSE(stale);
  EXPECT_EQ(stale.error().code, Code::project_busy);
}

RC_GTEST_PROP(Edit, AnySequenceEndsAsSavedAndGoesAllTheWayBack, ()) {
  const OpenDesk small;
  serve::Desk desk = small.open();
  const Json before = desk.assessment()["trees"];
  std::vector<Json> back;
  const int steps = *rc::gen::inRange(1, 6);
  for (int i = 0; i < steps; ++i) {
    const double x = *rc::gen::inRange(-20, 20) + 0.25;
    const bool add = *rc::gen::arbitrary<bool>();
    const Json change = add ? put("work", *rc::gen::element("W1", "W7", "W8"),
                                  trench_fields("0.8 m"), serve::to_json(trench_at(x)))
                            : remove("work", *rc::gen::element("W1", "W7", "W8"));
    const auto done = edit(desk, std::vector<Json>{change});
    RC_ASSERT(done || !add);
    if (done) back.push_back(*done);
  }
  serve::Desk again = small.open();
  RC_ASSERT(desk.assessment()["trees"] == again.assessment()["trees"]);
  for (auto inverse = back.rbegin(); inverse != back.rend(); ++inverse)
    RC_ASSERT(static_cast<bool>(take_back(desk, *inverse)));
  RC_ASSERT(desk.site()["works"].size() == 2U);
  RC_ASSERT(desk.assessment()["trees"].size() == before.size());
}

TEST(Form, FieldsReadBackToTheSameThing) {
  Work work = trench("W1", 5, WorkState::approved);
  work.kind = WorkKind::traffic;
  work.width.reset();
  work.shape = {{}, rectangle(0, 0, 5, 5), {}};
  work.vehicle = Vehicle{"8 t excavator", 8000.0, 24.7, 118.3, millimetres(400), {}, 40.0};
  work.cover = GroundCover{"mats", millimetres(150), metres(1), metres(3)};
  work.wet = true;
  const io::Fields fields = io::fields_of(work);
  const auto read = io::work_from(fields, work.shape);
  ASSERT_TRUE(read) << read.error().sentence();
  EXPECT_EQ(io::fields_of(*read), fields);
  EXPECT_EQ(read->vehicle->gross_mass, work.vehicle->gross_mass);
  EXPECT_EQ(read->vehicle->wheel_load, work.vehicle->wheel_load);
}

TEST(Form, EveryWordItOffersIsTaken) {
  for (const io::FieldOfForm& field : io::form_of(io::ThingSort::work))
    for (const std::string& word : field.words) {
      io::Fields fields = {{"id", "W"}, {"kind", "fill"}};
      fields[field.name] = word;
      const bool line = fields["kind"] == "trench" || fields["kind"] == "bore" ||
                        fields["kind"] == "root cut" || fields["kind"] == "fence posts";
      const Shape shape = line ? trench_at(0) : Shape{{}, rectangle(0, 0, 5, 5), {}};
      const auto read = io::work_from(fields, shape);
      EXPECT_TRUE(read) << field.name << " " << word << ": " << read.error().sentence();
    }
  for (const io::FieldOfForm& field : io::form_of(io::ThingSort::tree))
    for (const std::string& word : field.words) {
      const auto read = io::tree_from({{"id", "T"}, {field.name, word}}, Point{kEast, kNorth},
                                      *io::reference_system("EPSG:32632"));
      ASSERT_TRUE(read) << field.name << " " << word << ": " << read.error().sentence();
      const io::Fields back = io::fields_of(*read);
      if (field.name == "columnar") continue;  // of a crown, which this tree has not
      EXPECT_EQ(back.count(field.name) ? back.at(field.name) : "", word) << field.name;
    }
  for (const io::FieldOfForm& field : io::form_of(io::ThingSort::barrier))
    for (const std::string& word : field.words)
      EXPECT_TRUE(io::barrier_from(
          {{"id", "B"}, {field.name, word}},
          word == "building" || word == "foundation" || word == "rock" || word == "water"
              ? Shape{{}, rectangle(0, 0, 5, 5), {}}
              : trench_at(0)))
          << word;
}

}  // namespace
}  // namespace rootstead::test
