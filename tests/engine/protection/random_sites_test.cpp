// Fifty seeded sites: what is planted is found, what is clean stays clean, and every quantity is
// measured again by other means.
#include <cmath>

#include "tests/engine/protection/plan_fixture.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

constexpr std::uint64_t kSites = 50;

double hypot_of(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

// Trees 60 m by 45 m, two buildings, works that keep clear of trunks, a gate in the boundary.
Site job(std::uint64_t seed) {
  RandomStream random(seed, "protection");
  SiteBuilder builder;
  builder.rules({"twelve"});
  builder.building("B1", rectangle(24, 18, 32, 26));
  std::vector<Circle> trunks;
  const int trees = 3 + static_cast<int>(random.next() % 6);
  for (int i = 0; i < trees; ++i) {
    const Point at{random.uniform(3, 57), random.uniform(3, 42)};
    const bool built = at.x > 22 && at.x < 34 && at.y > 16 && at.y < 28;
    const bool close = std::any_of(trunks.begin(), trunks.end(),
                                   [&](const Circle& c) { return hypot_of(c.centre, at) < 3; });
    if (built || close) continue;
    const double diameter = random.uniform(0.15, 0.7);
    builder.tree("T" + std::to_string(i + 1), at, diameter);
    trunks.push_back({at, Length::metres(diameter / 2)});
  }
  if (trunks.empty()) builder.tree("T0", {10, 10}, 0.4);
  Site site = builder;
  site.boundary = rectangle(0, 0, 60, 45);
  site.gates = {{"gate", {random.uniform(5, 55), 0}, metres(4)}};
  const int works = 2 + static_cast<int>(random.next() % 4);
  for (int i = 0; i < works; ++i) {
    const Point at{random.uniform(8, 52), random.uniform(8, 37)};
    Work work = random_work(random, "W" + std::to_string(i + 1), at);
    if (work.kind == WorkKind::root_cut) work.kind = WorkKind::trench;
    work.state = random.uniform() < 0.5 ? WorkState::approved : WorkState::proposed;
    work.working_room = metres(random.uniform(0.2, 1.2));
    const MultiPolygon ground = footprint(work, true);
    const bool clear =
        std::all_of(site.trees.begin(), site.trees.end(),
                    [&](const Tree& tree) {
                      return distance_between(tree.position->at, ground) > Length::metres(1.2);
                    }) &&
        area_of(difference_of(ground, rectangle(1, 1, 59, 44))).square_metres() < 1e-9 &&
        area_of(intersection_of(ground, rectangle(23, 17, 33, 27))).square_metres() < 1e-9;
    if (clear) site.works.push_back(work);
  }
  return site;
}

struct Planned {
  Site site;
  ProtectionPlan plan;
};

// Drawn once for all tests of this file.
const std::vector<Planned>& planned_sites() {
  static const std::vector<Planned> sites = [] {
    std::vector<Planned> made;
    for (std::uint64_t seed = 1; seed <= kSites; ++seed) {
      const Site site = job(seed);
      made.push_back({site, plan_of(site)});
    }
    return made;
  }();
  return sites;
}

template <class Check>
void on_every_site(Check check) {
  for (std::size_t i = 0; i < planned_sites().size(); ++i) {
    SCOPED_TRACE("seed " + std::to_string(i + 1));
    check(planned_sites()[i].site, planned_sites()[i].plan);
    if (::testing::Test::HasFatalFailure()) return;
  }
}

void expect_planted(const ProtectionPlan& plan, const Site& site, ClashKind kind,
                    const std::vector<std::string>& ids) {
  const auto clashes = clashes_of(plan, site);
  EXPECT_TRUE(has_clash(clashes, kind, ids)) << to_text(kind) << " not among\n"
                                             << words_of(clashes);
}

// ---- a clean plan -------------------------------------------------------------------------------

TEST(RandomSites, NoClashIsInvented) {
  on_every_site([](const Site&, const ProtectionPlan& plan) {
    EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
  });
}

// Measured again point by point, without the overlay.
TEST(RandomSites, NoFenceEntersAWorkingRoom) {
  on_every_site([](const Site& site, const ProtectionPlan& plan) {
    for (const Work& work : site.works) {
      const MultiPolygon room = footprint(work, true);
      for (const Fence& fence : plan.fences) {
        for (std::size_t i = 1; i < fence.line.size(); ++i) {
          const Point &a = fence.line[i - 1], &b = fence.line[i];
          const int pieces = 1 + static_cast<int>(hypot_of(a, b) / 0.25);
          for (int k = 0; k <= pieces; ++k) {
            const double t = static_cast<double>(k) / pieces;
            ASSERT_FALSE(contains(room, {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}))
                << fence.id << " in " << work.id;
          }
        }
      }
    }
  });
}

TEST(RandomSites, NoKeptTreeIsForgotten) {
  on_every_site([](const Site& site, const ProtectionPlan& plan) {
    for (const Tree& tree : site.trees) {
      const auto one = std::find_if(plan.trees.begin(), plan.trees.end(),
                                    [&](const ProtectedTree& t) { return t.tree == tree.id; });
      const bool named = has_clash(plan.clashes, ClashKind::tree_unprotected, {tree.id});
      ASSERT_TRUE(one != plan.trees.end() || named) << tree.id;
      if (one == plan.trees.end()) continue;
      EXPECT_GT(one->fenced + one->covered, 0) << tree.id;
      // What is neither fenced, covered nor a work's is a rim that straight runs leave.
      EXPECT_LT(area_of(one->open).square_metres(), 0.05 * area_of(one->ground).square_metres() + 1)
          << tree.id;
    }
  });
}

// ---- quantities ---------------------------------------------------------------------------------

double shoelace(const MultiPolygon& area) {
  double sum = 0;
  const auto ring_area = [](const Ring& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      twice += (a.x - ring[0].x) * (b.y - ring[0].y) - (b.x - ring[0].x) * (a.y - ring[0].y);
    }
    return std::abs(twice) / 2;
  };
  for (const Polygon& polygon : area) {
    sum += ring_area(polygon.outer);
    for (const Ring& hole : polygon.holes) sum -= ring_area(hole);
  }
  return sum;
}

double walked(const Line& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += hypot_of(line[i - 1], line[i]);
  return sum;
}

TEST(RandomSites, QuantitiesAreThoseOfTheGeometry) {
  on_every_site([](const Site& site, const ProtectionPlan& plan) {
    double fence = 0, gates = 0, cuts = 0, digs = 0;
    std::size_t posts = 0;
    for (const Fence& one : plan.fences) {
      fence += walked(one.line);
      posts += one.posts.size();
    }
    for (const FenceGate& gate : plan.gates) gates += gate.width.metres();
    EXPECT_NEAR(quantity(plan, "fence-driven") + quantity(plan, "fence-ballasted"), fence - gates,
                0.1);
    EXPECT_EQ(quantity(plan, "posts-driven") + quantity(plan, "posts-ballasted"),
              static_cast<double>(posts));
    EXPECT_EQ(quantity(plan, "signs"), static_cast<double>(plan.signs.size()));
    double covers = 0;
    for (const CoveredGround& cover : plan.covers) covers += shoelace(cover.area);
    EXPECT_NEAR(quantity(plan, "cover-foot") + quantity(plan, "cover-light-plant") +
                    quantity(plan, "cover-heavy"),
                covers, 0.1);
    for (const RootCutLine& cut : plan.root_cuts) cuts += walked(cut.line);
    EXPECT_NEAR(quantity(plan, "root-cut"), cuts, 0.1);
    for (const DigStretch& dig : plan.digs) {
      digs += (dig.to - dig.from).metres();
      const Line& line = site.work(dig.work)->shape.lines[dig.line];
      EXPECT_LE(dig.to.metres(), walked(line) + 1e-6);
      EXPECT_GE((dig.to - dig.from).metres(), std::min(0.1, walked(line)) - 1e-5);
    }
    EXPECT_NEAR(quantity(plan, "dig-hand") + quantity(plan, "dig-air"), digs, 0.1);
    EXPECT_NEAR(quantity(plan, "mulch-area"), shoelace(plan.mulch), 0.1);
  });
}

TEST(RandomSites, PostsStandNoFartherApartThanTheSpacing) {
  on_every_site([](const Site&, const ProtectionPlan& plan) {
    for (const Fence& fence : plan.fences) {
      for (std::size_t i = 1; i < fence.posts.size(); ++i) {
        const Point &a = fence.posts[i - 1].at, &b = fence.posts[i].at;
        const bool gate = std::any_of(plan.gates.begin(), plan.gates.end(), [&](const auto& g) {
          return g.fence == fence.id && hypot_of(g.at, a) <= g.width.metres() &&
                 hypot_of(g.at, b) <= g.width.metres();
        });
        EXPECT_TRUE(gate || hypot_of(a, b) <= 3.0 + 1e-6) << fence.id << " post " << i;
      }
    }
  });
}

TEST(RandomSites, CoversOverlapNeitherEachOtherNorAnExcavation) {
  on_every_site([](const Site& site, const ProtectionPlan& plan) {
    std::vector<MultiPolygon> all;
    double sum = 0;
    for (const CoveredGround& cover : plan.covers) {
      all.push_back(cover.area);
      sum += shoelace(cover.area);
      for (const Work& work : site.works) {
        if (!work.digs()) continue;
        EXPECT_LT(shoelace(intersection_of(cover.area, footprint(work))), 0.01);
      }
    }
    EXPECT_NEAR(shoelace(union_of(all)), sum, 0.01);
  });
}

// ---- the same site elsewhere --------------------------------------------------------------------

void expect_same(const ProtectionPlan& plan, const ProtectionPlan& other) {
  ASSERT_EQ(plan.enclosures.size(), other.enclosures.size());
  ASSERT_EQ(plan.fences.size(), other.fences.size());
  ASSERT_EQ(plan.bill.size(), other.bill.size());
  for (std::size_t i = 0; i < plan.bill.size(); ++i) {
    EXPECT_EQ(plan.bill[i].name, other.bill[i].name);
    // One post more or less where rounding puts a run on the other side of a whole bay.
    const bool posts = plan.bill[i].name.starts_with("posts");
    EXPECT_NEAR(plan.bill[i].quantity, other.bill[i].quantity, posts ? 1.0 : 0.1)
        << plan.bill[i].name;
  }
  EXPECT_EQ(plan.clashes.size(), other.clashes.size());
}

TEST(RandomSites, MovingAndTurningTheSiteChangesNothing) {
  for (std::uint64_t seed = 1; seed <= 15; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Site site = job(seed);
    const ProtectionPlan plan = plan_of(site);
    expect_same(plan, plan_of(moved_whole(site, [](Point p) {
                  return Point{p.x + 431'250.5, p.y + 92'117.25};
                })));
    const double c = std::cos(0.7), s = std::sin(0.7);
    expect_same(plan, plan_of(moved_whole(site, [&](Point p) {
                  return Point{c * p.x - s * p.y, s * p.x + c * p.y};
                })));
  }
}

// ---- planted clashes ----------------------------------------------------------------------------

Fence drawn(Line line) {
  Fence fence;
  fence.id = "planted";
  fence.line = std::move(line);
  return fence;
}

TEST(PlantedClashes, AFenceThroughAWorkingRoom) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    for (const Work& work : site.works) {
      const Point p = footprint(work).front().outer.front();
      ProtectionPlan wrong = plan;
      wrong.fences.push_back(drawn({{p.x - 1, p.y - 0.7}, {p.x + 1, p.y + 0.7}}));
      expect_planted(wrong, site, ClashKind::fence_in_work, {"planted", work.id});
      break;
    }
  });
}

TEST(PlantedClashes, AFenceOutsideTheBoundary) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    plan.fences.push_back(drawn({{5, 44.5}, {9, 45.4}}));
    expect_planted(plan, site, ClashKind::outside_boundary, {"planted"});
  });
}

TEST(PlantedClashes, ATreeWithoutAnyFence) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    const std::string tree = plan.enclosures.at(0).trees.at(0);
    std::erase_if(plan.enclosures, [&](const Enclosure& e) { return has(e.trees, tree); });
    plan.covers.clear();
    expect_planted(plan, site, ClashKind::tree_unprotected, {tree});
  });
}

TEST(PlantedClashes, AWorkShutInByARingOfFence) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    if (site.works.empty()) return;
    const Work& work = site.works.front();
    const MultiPolygon inner = grown_straight(footprint(work, true), Length::metres(0.2));
    const MultiPolygon ring = difference_of(grown(inner, Length::metres(2)), inner);
    Enclosure around;
    around.id = "ring";
    around.area = ring.front();
    plan.enclosures.push_back(around);
    expect_planted(plan, site, ClashKind::access_missing, {work.id});
  });
}

TEST(PlantedClashes, AGateBehindAFence) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    const Point at = site.gates[0].at;
    Enclosure across;
    across.id = "across";
    across.area = rectangle(at.x - 4, 0, at.x + 4, 3).front();
    plan.enclosures.push_back(across);
    expect_planted(plan, site, ClashKind::access_missing, {"gate"});
  });
}

TEST(PlantedClashes, ACoverOnAnExcavation) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    for (const Work& work : site.works) {
      if (!work.digs()) continue;
      CoveredGround cover;
      cover.id = "planted";
      cover.area = footprint(work);
      plan.covers.push_back(cover);
      expect_planted(plan, site, ClashKind::cover_on_excavation, {"planted", work.id});
      return;
    }
  });
}

TEST(PlantedClashes, AFenceAtATrunkAndADrivenPostOnItsPlate) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    const Tree& tree = site.trees.front();
    const Point p = tree.position->at;
    const double radius = tree.stems[0].diameter().metres() / 2;
    plan.fences.push_back(drawn({{p.x - 2, p.y + radius + 0.2}, {p.x + 2, p.y + radius + 0.2}}));
    plan.fences.back().posts = {
        {{p.x + 5 * radius, p.y + radius + 0.2}, Footing::driven, Length()}};
    expect_planted(plan, site, ClashKind::fence_near_stem, {"planted", tree.id});
    expect_planted(plan, site, ClashKind::post_near_stem, {"planted", tree.id});
  });
}

TEST(PlantedClashes, TwoFencesThatCross) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    const Fence& fence = plan.fences.at(0);
    const Point &a = fence.line[0], &b = fence.line[1];
    const Point middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    const double dx = (b.x - a.x) / 4, dy = (b.y - a.y) / 4;
    const std::string id = fence.id;
    plan.fences.push_back(drawn({{middle.x - dy, middle.y + dx}, {middle.x + dy, middle.y - dx}}));
    expect_planted(plan, site, ClashKind::fences_cross, {id, "planted"});
  });
}

TEST(PlantedClashes, AnEnclosureWithoutAGateAndOneWithoutAFence) {
  on_every_site([](const Site& site, const ProtectionPlan& plan) {
    ProtectionPlan no_gates = plan;
    no_gates.gates.clear();
    const std::string fenced = plan.fences.at(0).enclosure;
    expect_planted(no_gates, site, ClashKind::enclosure_without_gate, {fenced});
    ProtectionPlan no_fence = plan;
    std::erase_if(no_fence.fences, [&](const Fence& f) { return f.enclosure == fenced; });
    expect_planted(no_fence, site, ClashKind::fence_gap, {fenced});
  });
}

TEST(PlantedClashes, AFenceThroughABuilding) {
  on_every_site([](const Site& site, ProtectionPlan plan) {
    plan.fences.push_back(drawn({{22, 22}, {34, 22}}));
    expect_planted(plan, site, ClashKind::fence_in_building, {"planted"});
  });
}

}  // namespace
}  // namespace rootstead
