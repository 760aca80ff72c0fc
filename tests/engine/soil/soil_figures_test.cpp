// Every check value of the soil, asked as a person asks: by the name of the figure.
#include "engine/soil/soil_figures.hpp"

#include <gtest/gtest.h>

#include "engine/base/text.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

// "soil.boussinesq load=10kN depth=0.5m"
Result<std::vector<Figure>> ask(const std::string& text) {
  const auto words = split(text, ' ');
  FigureArguments arguments;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const auto at = words[i].find('=');
    arguments.emplace_back(words[i].substr(0, at), words[i].substr(at + 1));
  }
  for (const HandFigure& figure : soil_figures(tables()))
    if (figure.kind.name == words[0]) return answer(figure, arguments);
  return Error{Code::unknown_name, words[0], "is not there", ""};
}

struct Check {
  const char* asked;
  double value, within;
};

// Worked by an independent script from the formulas; numbers as they are printed there.
constexpr Check kChecks[] = {
    {"soil.boussinesq load=10kN depth=0.5m", 19.099, 5e-4},
    {"soil.boussinesq load=10kN depth=0.5m offset=0.5m", 3.376, 5e-4},
    {"soil.soehne load=10kN depth=0.5m concentration=4", 25.465, 5e-4},
    {"soil.soehne load=10kN depth=0.5m concentration=5", 31.831, 5e-4},
    {"soil.soehne load=10kN depth=0.5m concentration=6", 38.197, 5e-4},
    {"soil.soehne load=10kN depth=0.5m offset=0.25m concentration=3", 10.933, 5e-4},
    {"soil.soehne load=10kN depth=0.5m offset=0.25m concentration=5", 14.577, 5e-4},
    {"soil.circle-stress pressure=100kPa radius=0.25m depth=0.3m", 54.66, 5e-3},
    {"soil.circle-stress pressure=100kPa radius=0.25m depth=0.3m concentration=6", 79.44, 6e-3},
    {"soil.circle-stress pressure=100kPa radius=0.25m depth=0.5m concentration=4", 36.00, 5e-3},
    {"soil.newmark width=1m length=2m depth=1m", 0.1999, 5e-5},
    {"soil.newmark width=3m length=3m depth=1m", 0.2439, 5e-5},
    {"soil.two-to-one load=20kN width=0.5m length=0.5m depth=0.5m", 20.0, 1e-9},
    {"soil.two-to-one load=20kN width=0.25m length=0.4m depth=0.5m", 29.63, 5e-3},
    {"soil.rectangle-stress load=20kN width=0.25m length=0.25m depth=0.2m", 143.8, 0.05},
    {"soil.rectangle-stress load=20kN width=1.2m length=2.4m depth=0.2m", 6.84, 5e-3},
    {"soil.two-to-one-layer load=10kN width=0.25m allowed=50kPa", 0.1972, 5e-5},
    {"soil.strength-schjonning density=1.46g/cm3 clay=30% suction=100hPa", 117.90, 5e-3},
    {"soil.strength-schjonning density=1.30g/cm3 clay=15% suction=100hPa", 45.55, 5e-3},
    {"soil.strength-severiano clay=60% suction=33kPa", 106, 0.5},
    {"soil.porosity density=1.4g/cm3", 0.4717, 5e-5},
    {"soil.densest-with-air water=20%", 1.559, 5e-4},
    {"soil.least-limiting-water-range density=1.4g/cm3", 0.0553, 5e-5},
    {"soil.least-limiting-water-range density=1.6g/cm3", 0, 1e-12},
    {"soil.gas-diffusivity air=20% pores=50%", 0.01871, 5e-6},
    {"soil.gas-diffusivity air=20% pores=50% model=millington_1960", 0.0635, 5e-5},
    {"soil.gas-diffusivity air=20% model=currie", 0.1996, 5e-5},
    {"soil.oxygen air=20% pores=50% respiration=10g/m2/day rooting=0.5m depth=0.1m", 18.86, 5e-3},
    {"soil.oxygen air=10% pores=40% respiration=10g/m2/day rooting=0.5m depth=0.2m", 0, 1e-12},
    {"soil.oxygen air=20% pores=50% respiration=10g/m2/day scale=0.15m depth=1m", 17.47, 5e-3},
    {"soil.oxygen-rate rate=0.2", 3.333e-5, 5e-9},
    {"soil.ground-pressure mass=8t width=0.45m length=2.2m contacts=2", 39.6, 0.05},
};

TEST(SoilFigures, GiveTheCheckValues) {
  for (const Check& check : kChecks) {
    const auto figures = ask(check.asked);
    ASSERT_TRUE(figures.ok()) << check.asked << ": " << figures.error().sentence();
    EXPECT_NEAR(figures->front().value, check.value, check.within) << check.asked;
  }
}

TEST(SoilFigures, CarryFormulaUnitSourceAndInputs) {
  for (const HandFigure& figure : soil_figures(tables())) {
    FigureArguments example;
    for (const FigureInput& input : figure.kind.inputs)
      if (input.symbol != "scale") example.emplace_back(input.symbol, input.value);
    const auto figures = answer(figure, example);
    ASSERT_TRUE(figures.ok()) << figure.kind.name << ": " << figures.error().sentence();
    for (const Figure& one : *figures) {
      EXPECT_FALSE(one.formula.empty()) << one.name;
      EXPECT_FALSE(one.inputs.empty()) << one.name;
      EXPECT_NE(tables().source(one.from.source), nullptr) << one.name << one.from.source;
    }
  }
}

TEST(SoilFigures, NameTheTextureClass) {
  const auto loam = ask("soil.texture sand=40% silt=40% clay=20%");
  ASSERT_TRUE(loam.ok());
  EXPECT_EQ(loam->front().word, "loam");
  EXPECT_FALSE(ask("soil.texture sand=40% silt=40% clay=17%").ok());
  EXPECT_FALSE(ask("soil.texture sand=40% silt=40% clay=20% limit=70um").ok());
}

TEST(SoilFigures, RefuseWhatIsNoLoadDepthOrAir) {
  for (const char* asked :
       {"soil.boussinesq load=-1kN depth=0.5m", "soil.boussinesq load=10kN depth=0m",
        "soil.soehne load=10kN depth=0.5m concentration=4.5",
        "soil.gas-diffusivity air=60% pores=50%", "soil.gas-diffusivity air=20%",
        "soil.oxygen air=20% pores=50% respiration=10g/m2/day depth=0.1m",
        "soil.density-limit texture=mud", "soil.density-limit texture=clay table=harry",
        "soil.porosity density=3g/cm3",
        "soil.two-to-one-layer load=10kN width=0.25m allowed=0kPa"}) {
    EXPECT_FALSE(ask(asked).ok()) << asked;
  }
}

TEST(SoilFigures, SetTheDensityTablesSideBySide) {
  const auto figures = ask("soil.density-limit texture=clay density=1.5g/cm3");
  ASSERT_TRUE(figures.ok());
  EXPECT_EQ(figures->size(), 7u);  // watch and stop of our default, five tables
  EXPECT_EQ((*figures)[1].word, "stopped");
}

}  // namespace
}  // namespace rootstead
