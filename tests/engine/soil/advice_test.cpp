// Traffic, fill and the state of the soil: what is advised, and that it only ever turns one way.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "engine/soil/fill.hpp"
#include "engine/soil/pressing.hpp"
#include "engine/soil/soil_state.hpp"
#include "engine/soil/traffic.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Work traffic(std::string name, std::optional<double> mass = {}) {
  Work work;
  work.id = "W1";
  work.kind = WorkKind::traffic;
  work.vehicle.emplace();
  work.vehicle->name = std::move(name);
  work.vehicle->gross_mass = mass;
  return work;
}

Work covered(Work work, double chips, double plate_width = 0, double plate_length = 0) {
  work.cover.emplace();
  if (chips > 0) work.cover->chips = test::metres(chips);
  if (plate_width > 0) work.cover->plate_width = test::metres(plate_width);
  if (plate_length > 0) work.cover->plate_length = test::metres(plate_length);
  return work;
}

Work fill(SoilTexture texture, double thickness) {
  Work work;
  work.id = "F1";
  work.kind = WorkKind::fill;
  work.depth = test::metres(thickness);
  work.fill_texture = texture;
  return work;
}

bool has_note(const std::vector<Note>& notes, NoteCode code) {
  return std::any_of(notes.begin(), notes.end(), [&](const Note& n) { return n.code == code; });
}

Vehicle vehicle(std::string name) {
  Vehicle one;
  one.name = std::move(name);
  return one;
}

// ---- vehicles -----------------------------------------------------------------------------------

TEST(GroundPressures, AreFoundByTheLongestPhrase) {
  ASSERT_NE(ground_pressure_of("8 t excavator", tables()), nullptr);
  EXPECT_EQ(ground_pressure_of("8 t excavator", tables())->pressure.best, 43);
  EXPECT_EQ(ground_pressure_of("a Mini Excavator", tables())->pressure.best, 30);
  EXPECT_EQ(ground_pressure_of("unicycle", tables()), nullptr);
}

TEST(Contact, OfANameOnlyIsARange) {
  const auto contact = contact_of(vehicle("8 t excavator"), tables());
  ASSERT_TRUE(contact);
  EXPECT_FALSE(contact->entered);
  EXPECT_EQ(contact->mass, 8000);
  // Two tracks: 8 t is 39.2 kN a track, up to twice that where it is uneven.
  EXPECT_NEAR(contact->low.load_kn, 39.2266, 1e-3);
  EXPECT_NEAR(contact->high.load_kn, 78.4532, 1e-3);
  EXPECT_LT(contact->low.pressure(), contact->high.pressure());
  EXPECT_EQ(contact->from.status, Status::assumption);
}

TEST(Contact, OfAMassOnlyIsAWideRange) {
  Vehicle heavy;
  heavy.gross_mass = 3000;
  const auto contact = contact_of(heavy, tables());
  ASSERT_TRUE(contact);
  EXPECT_GT(contact->high.pressure() / contact->low.pressure(), 5);
  EXPECT_FALSE(contact_of({}, tables()));
  EXPECT_FALSE(contact_of(vehicle("something"), tables()));
}

TEST(Contact, AsEnteredIsTaken) {
  Vehicle loader = vehicle("loader");
  loader.wheel_load = 20;
  loader.contact_pressure = 320;
  const auto contact = contact_of(loader, tables());
  ASSERT_TRUE(contact);
  EXPECT_TRUE(contact->entered);
  EXPECT_EQ(contact->low.load_kn, contact->high.load_kn);
  EXPECT_NEAR(contact->best.width.metres(), 0.25, 1e-12);  // 20 kN on 320 kPa: a square of 0.25 m
  loader.contact_width = loader.contact_length = test::metres(0.5);
  EXPECT_TRUE(contact_of(loader, tables())->contradicts);
}

// Worked by hand: 20 kN on 320 kPa bare, and on one stiff mat of 1.2 m by 2.4 m, at 0.2 m.
TEST(StressBelow, BareAndUnderAMatIsThatOfTheRectangle) {
  const Tables elastic = test::with(tables(), "ground.concentration_moist", 3);
  const Length quarter = Length::metres(0.25), depth = Length::metres(0.2);
  const Contact wheel{20, quarter, quarter};
  EXPECT_NEAR(stress_below(wheel, {}, depth, Moisture::moist, elastic).kilopascals(), 143.8, 0.05);
  const Cover mat{{}, Length::metres(2.4), Length::metres(1.2)};
  EXPECT_NEAR(stress_below(wheel, mat, depth, Moisture::moist, elastic).kilopascals(), 6.84, 5e-3);
}

// ---- traffic ------------------------------------------------------------------------------------

TEST(TrafficAdvice, OfAnUnknownVehicleAsksForIt) {
  Work work;
  work.kind = WorkKind::traffic;
  const TrafficAdvice advice = traffic_advice(work, {}, tables());
  EXPECT_FALSE(advice.contact);
  EXPECT_TRUE(has_note(advice.notes, NoteCode::vehicle_unknown));
  ASSERT_EQ(advice.prescriptions.size(), 1u);
  EXPECT_EQ(advice.prescriptions[0].topic, "ground protection");
}

TEST(TrafficAdvice, OfAnExcavatorOnWetClayNeedsMats) {
  Work work = traffic("8 t excavator");
  work.wet = true;
  Soil soil;
  soil.texture = SoilTexture::clay;
  const TrafficAdvice advice = traffic_advice(work, soil, tables());
  ASSERT_EQ(advice.cases.size(), 3u);
  EXPECT_EQ(advice.as_planned().moisture, Moisture::wet);
  EXPECT_NE(advice.as_planned().risk, PressRisk::none_expected);
  EXPECT_FALSE(advice.bare_is_enough);
  ASSERT_NE(advice.least, nullptr);
  EXPECT_TRUE(advice.least->plate_width.has_value());
  // A row made for machines to 2 t is no protection for 8 t, whatever the sum says.
  EXPECT_FALSE(advice.least->heaviest.has_value());
  const std::string least = protection_words(*advice.least, AmountText{UnitSystem::metric});
  EXPECT_EQ(least.find('{'), std::string::npos);
  EXPECT_NE(advice.prescriptions[0].text.find(least), std::string::npos);
  for (const Figure& figure : advice.figures) EXPECT_FALSE(figure.formula.empty()) << figure.name;
}

TEST(TrafficAdvice, OfAPersonOnDryGroundNeedsNothing) {
  const TrafficAdvice advice = traffic_advice(traffic("person walking"), {}, tables());
  EXPECT_TRUE(advice.bare_is_enough);
  EXPECT_EQ(advice.least, nullptr);
}

TEST(TrafficAdvice, SaysThatThePlannedCoverIsNotEnough) {
  const TrafficAdvice advice = traffic_advice(covered(traffic("lorry", 18000), 0.05), {}, tables());
  EXPECT_TRUE(has_note(advice.notes, NoteCode::cover_not_enough));
  EXPECT_FALSE(advice.cover_is_enough);
}

TEST(TrafficAdvice, IsWorseTheWetter) {
  const TrafficAdvice advice = traffic_advice(traffic("dumper"), {}, tables());
  EXPECT_LT(advice.cases[0].ratio.best, advice.cases[1].ratio.best);
  EXPECT_LT(advice.cases[1].ratio.best, advice.cases[2].ratio.best);
}

TEST(TrafficAdvice, NeverSaysSafe) {
  for (const char* name : {"person walking", "8 t excavator", "lorry", ""})
    for (const Prescription& one : traffic_advice(traffic(name), {}, tables()).prescriptions)
      EXPECT_EQ((one.text + one.reason).find("safe"), std::string::npos) << one.text;
}

// ---- fill ---------------------------------------------------------------------------------------

TEST(FillAdvice, OfTwentyCentimetresOfSandyLoamIsACautionNotLethal) {
  const FillAdvice advice = fill_advice(fill(SoilTexture::loam, 0.20), {}, tables());
  EXPECT_EQ(advice.verdict, FillVerdict::caution);
  EXPECT_TRUE(has_note(advice.notes, NoteCode::fill_evidence_disagrees));
}

TEST(FillAdvice, OfClayIsHarmfulWhereSandIsNot) {
  EXPECT_EQ(fill_advice(fill(SoilTexture::clay, 0.10), {}, tables()).verdict,
            FillVerdict::harm_likely);
  EXPECT_EQ(fill_advice(fill(SoilTexture::sand, 0.10), {}, tables()).verdict, FillVerdict::little);
  EXPECT_EQ(fill_advice(fill(SoilTexture::clay, 0.02), {}, tables()).verdict, FillVerdict::little);
  EXPECT_EQ(fill_advice(fill(SoilTexture::loam, 0.60), {}, tables()).verdict,
            FillVerdict::harm_likely);
}

// Worked by hand: R 10, qf 5, e .15, P .42, F .15 m leave 14.3 %, and 15 % is left by .1345 m.
TEST(FillAdvice, GivesTheWorkedOxygen) {
  const FillAdvice advice = fill_advice(fill(SoilTexture::silt, 0.15), {}, tables());
  EXPECT_NEAR(advice.oxygen.best, 14.29, 0.01);
  EXPECT_NEAR(advice.tolerated.best, 0.1345, 1e-4);
  EXPECT_LT(advice.oxygen.low, advice.oxygen.best);
  EXPECT_LT(advice.oxygen.best, advice.oxygen.high);
}

TEST(FillSensitivity, OfPinOakIsNotThatOfOaks) {
  EXPECT_EQ(tables().fill_sensitivity_of("Quercus robur")->sensitivity, FillSensitivity::very);
  EXPECT_EQ(tables().fill_sensitivity_of("Quercus palustris")->sensitivity, FillSensitivity::least);
  EXPECT_EQ(tables().fill_sensitivity_of("Acer saccharum")->sensitivity, FillSensitivity::very);
  EXPECT_EQ(tables().fill_sensitivity_of("Acer rubrum"), nullptr);
}

// ---- state --------------------------------------------------------------------------------------

TEST(SoilState, ShowsEveryTableAndPrescribesLoosening) {
  SoilLayer layer;
  layer.bottom = test::metres(0.4);
  layer.sand = 0.20;
  layer.silt = 0.25;
  layer.clay = 0.55;
  layer.bulk_density = 1.50;
  layer.water = 0.40;
  Soil soil;
  soil.layers = {layer};
  const auto state = soil_state(soil, tables());
  ASSERT_TRUE(state.ok());
  ASSERT_EQ(state->layers.size(), 1u);
  EXPECT_EQ(state->layers[0].texture, TextureClass::clay);
  EXPECT_EQ(state->layers[0].density, DensityVerdict::stopped);
  EXPECT_EQ(state->layers[0].readings.size(), 5u);
  // At 1.50 two tables hinder and three stop.
  EXPECT_TRUE(has_note(state->notes, NoteCode::density_tables_disagree));
  ASSERT_EQ(state->prescriptions.size(), 1u);
  EXPECT_EQ(state->prescriptions[0].topic, "soil");
  const auto& figures = state->layers[0].figures;
  const auto air = std::find_if(figures.begin(), figures.end(),
                                [](const Figure& f) { return f.name == "soil.air-filled"; });
  ASSERT_NE(air, figures.end());
  EXPECT_NEAR(air->value, 1 - 1.5 / 2.65 - 0.40, 1e-12);
  EXPECT_EQ(air->word, "poor aeration");
}

TEST(SoilState, OfAWordOnlySaysThatTheClassIsAssumed) {
  SoilLayer layer;
  layer.bottom = test::metres(0.3);
  layer.texture = SoilTexture::loam;
  layer.bulk_density = 1.2;
  Soil soil;
  soil.layers = {layer};
  const auto state = soil_state(soil, tables());
  ASSERT_TRUE(state.ok());
  EXPECT_TRUE(has_note(state->notes, NoteCode::texture_assumed));
  EXPECT_EQ(state->layers[0].density, DensityVerdict::free);
  EXPECT_FALSE(soil_state(soil, tables(), "nobody").ok());
  EXPECT_TRUE(soil_state({}, tables())->layers.empty());
}

// ---- pressing -----------------------------------------------------------------------------------

// Bare loam: .15/.35/.60; a cover that keeps the stress low leaves a tenth of the best.
TEST(Pressing, OfAProtectedHaulRoadIsASmallRest) {
  const Work bare = traffic("8 t excavator");
  const Range flat = pressing_effect(bare, {}, tables()).share;
  EXPECT_EQ(flat, (Range{0.15, 0.35, 0.60}));
  const Range kept = pressing_effect(covered(bare, 0.3, 2, 5), {}, tables()).share;
  EXPECT_NEAR(kept.best, 0.035, 1e-12);
  EXPECT_EQ(pressing_effect(covered(bare, 0), {}, tables()).share, flat);
}

TEST(Pressing, OfFillOfKnownTextureGoesByItsAir) {
  const auto share = [](SoilTexture texture, double depth) {
    return pressing_effect(fill(texture, depth), {}, tables()).share.best;
  };
  EXPECT_GT(share(SoilTexture::clay, 0.10), share(SoilTexture::silt, 0.10));
  EXPECT_GT(share(SoilTexture::silt, 0.20), share(SoilTexture::loam, 0.20));
  EXPECT_GT(share(SoilTexture::loam, 0.30), share(SoilTexture::sand, 0.30));
  EXPECT_LT(share(SoilTexture::loam, 0.20), 0.15);  // Day: no consistent harm
}

// ---- properties ---------------------------------------------------------------------------------

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

RC_GTEST_PROP(TrafficProperty, AMatOrMoreChipsNeverRaiseTheStressOnTheAxis, ()) {
  const Contact contact{between(1, 60), Length::metres(between(0.1, 0.8)),
                        Length::metres(between(0.1, 3))};
  const Moisture moisture = *rc::gen::element(Moisture::dry, Moisture::moist, Moisture::wet);
  const Length depth = Length::metres(between(0.05, 1));
  const auto at = [&](const Cover& cover) {
    return stress_below(contact, cover, depth, moisture, tables()).kilopascals() * (1 + 1e-9);
  };
  const Length chips = Length::metres(between(0, 0.3)), more = chips + Length::metres(0.05);
  const Length a = Length::metres(between(0.1, 3)), b = Length::metres(between(0.1, 5));
  RC_ASSERT(at({chips, {}, {}}) <= at({}) * (1 + 1e-8));
  RC_ASSERT(at({more, {}, {}}) <= at({chips, {}, {}}) * (1 + 1e-8));
  RC_ASSERT(at({chips, a, b}) <= at({chips, {}, {}}) * (1 + 1e-8));
}

RC_GTEST_PROP(TrafficProperty, MorePassesNeverPressLessAndCoversNeverPressMore, ()) {
  Work work = traffic(*rc::gen::element<std::string>("8 t excavator", "lorry", "car", "quad"));
  work.wet = *rc::gen::arbitrary<bool>();
  work.vehicle->passes = between(1, 40);
  const TrafficAdvice few = traffic_advice(work, {}, tables());
  *work.vehicle->passes += between(0, 40);
  const TrafficAdvice many = traffic_advice(work, {}, tables());
  RC_ASSERT(many.as_planned().density_rise.best >= few.as_planned().density_rise.best);
  RC_ASSERT(many.as_planned().density_rise.high >= few.as_planned().density_rise.high);
  const double chips = between(0.01, 0.3);
  const Range bare = pressing_effect(work, {}, tables()).share;
  const Range thin = pressing_effect(covered(work, chips), {}, tables()).share;
  const Range thick = pressing_effect(covered(work, chips + 0.05), {}, tables()).share;
  for (const auto& [more, less] : {std::pair(bare, thin), std::pair(thin, thick)}) {
    RC_ASSERT(less.low <= more.low + 1e-9);
    RC_ASSERT(less.best <= more.best + 1e-9);
    RC_ASSERT(less.high <= more.high + 1e-9);
  }
  RC_ASSERT(thick.low <= thick.best && thick.best <= thick.high);
}

RC_GTEST_PROP(FillProperty, ThickerNeverLeavesMoreOxygenNorTakesFewerRoots, ()) {
  const auto texture = *rc::gen::element(SoilTexture::unknown, SoilTexture::sand, SoilTexture::loam,
                                         SoilTexture::silt, SoilTexture::clay);
  const double thickness = between(0.01, 1.5), more = thickness + between(0.001, 0.5);
  Work thin = fill(texture, thickness), thick = fill(texture, more);
  thin.wet = thick.wet = *rc::gen::arbitrary<bool>();
  const FillAdvice a = fill_advice(thin, {}, tables()), b = fill_advice(thick, {}, tables());
  RC_ASSERT(b.oxygen.low <= a.oxygen.low);
  RC_ASSERT(b.oxygen.best <= a.oxygen.best);
  RC_ASSERT(b.verdict >= a.verdict);
  RC_ASSERT(pressing_effect(thick, {}, tables()).share.best >=
            pressing_effect(thin, {}, tables()).share.best);
}

}  // namespace
}  // namespace rootstead
