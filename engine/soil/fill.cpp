#include "engine/soil/fill.hpp"

#include <algorithm>
#include <cassert>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/soil/oxygen.hpp"

namespace rootstead {
namespace {

constexpr Words<FillVerdict, 3> kFillVerdicts{{
    {FillVerdict::little, "little effect expected"},
    {FillVerdict::caution, "caution"},
    {FillVerdict::harm_likely, "harm likely"},
}};

constexpr double kThroughWater = 1e-4;  // diffusion in water over that in air
constexpr double kLeastAir = 0.001;

double pick(const Range& range, int which) {
  return which == 0 ? range.low : which == 1 ? range.best : range.high;
}

double best(std::string_view id, const Tables& tables) {
  return tables.parameter(id).best;
}

class FillStudy {
 public:
  FillStudy(const Work& work, const Soil& soil, const Tables& tables, UnitSystem units)
      : work_(work), tables_(tables), text_{units} {
    wet_ = work.wet || soil.drainage == Drainage::poor;
  }

  FillAdvice run() {
    advice_.work = work_.id;
    advice_.thickness = depth_of(work_);
    advice_.texture = work_.fill_texture;
    const auto at = [&](int which) {
      return fill_oxygen(advice_.texture, wet_, advice_.thickness, which, tables_);
    };
    const FillOxygen low = at(0), middle = at(1), high = at(2);
    advice_.oxygen = {low.at_surface, middle.at_surface, high.at_surface};
    advice_.tolerated = {low.tolerated.metres(), middle.tolerated.metres(),
                         high.tolerated.metres()};
    read_rules();
    advice_.verdict = verdict();
    notes();
    figures();
    prescriptions();
    return std::move(advice_);
  }

 private:
  double wanted() const { return best("air.oxygen_wanted", tables_); }

  void read_rules() {
    for (const FillRule& rule : tables_.soil.fill_rules) {
      if (rule.texture != "any" && rule.texture != to_text(advice_.texture)) continue;
      // Written thicknesses of feet and inches come back with rounding.
      const bool over = advice_.thickness.metres() > rule.thickness + 1e-9;
      advice_.rules.push_back({rule, over});
    }
  }

  bool a_rule_is_passed() const {
    return std::any_of(advice_.rules.begin(), advice_.rules.end(), [](const auto& reading) {
      return !reading.rule.harmless && reading.passed_over;
    });
  }
  bool within_what_did_no_harm() const {
    return std::any_of(advice_.rules.begin(), advice_.rules.end(), [](const auto& reading) {
      return reading.rule.harmless && !reading.passed_over;
    });
  }

  FillVerdict verdict() const {
    const bool short_of_air = advice_.oxygen.best < wanted();
    if (!short_of_air && !a_rule_is_passed()) return FillVerdict::little;
    if (!short_of_air || within_what_did_no_harm()) return FillVerdict::caution;
    return a_rule_is_passed() ? FillVerdict::harm_likely : FillVerdict::caution;
  }

  void note(NoteCode code, std::string text) {
    advice_.notes.push_back({code, "work " + work_.id, std::move(text)});
  }

  void notes() {
    if (advice_.texture == SoilTexture::unknown)
      note(NoteCode::fill_texture_unknown,
           "the texture of the fill is not known: clay harms at a few centimetres, sand hardly at "
           "several times that");
    if (!a_rule_is_passed()) return;
    for (const FillRuleReading& reading : advice_.rules)
      if (reading.rule.harmless && !reading.passed_over)
        note(NoteCode::fill_evidence_disagrees,
             "a published limit is passed over, but " + reading.rule.text + " (" +
                 cited(reading.rule.from) + "): caution, not lethal");
  }

  std::vector<FigureInput> inputs() const {
    const FillAir air = fill_air(advice_.texture, wet_, tables_);
    return {{"F", "thickness of the fill", text_.length(advice_.thickness)},
            {"e", "air-filled share of the fill",
             percent(air.air.best, 0) + " (" + percent(air.air.low, 0) + " to " +
                 percent(air.air.high, 0) + ")"},
            {"P", "pores of the fill", percent(air.pores, 0)},
            input_from(tables_.parameter("air.respiration_profile"), "R"),
            input_from(tables_.parameter("air.respiration_fill"), "qf")};
  }

  void figures() {
    const Citation from{"steady-diffusion", "uniform use in the fill; air of the fill ours",
                        Status::assumption};
    advice_.figures.push_back({"soil.oxygen-below-fill",
                               advice_.oxygen.best,
                               "%",
                               advice_.oxygen,
                               inputs(),
                               "C0 - (R F + qf F^2 / 2) / Df, Df = D0 e^(10/3) / P^2",
                               from,
                               {}});
    std::vector<FigureInput> more = inputs();
    more.push_back(input_from(tables_.parameter("air.oxygen_wanted"), "C"));
    advice_.figures.push_back({"soil.tolerated-fill",
                               advice_.tolerated.best,
                               "m",
                               advice_.tolerated,
                               std::move(more),
                               "F that leaves C at the old surface, of the same equation",
                               from,
                               {}});
  }

  void prescribe(std::string text, std::string reason, const Citation& from) {
    advice_.prescriptions.push_back(
        {"fill", "", work_.id, std::move(text), std::move(reason), advice_.figures, from});
  }

  void prescriptions() {
    const Citation ours{"rootstead", "docs/methods/soil_air.md", Status::assumption};
    prescribe("Keep the fill off the trunk and the root flare: leave at least " +
                  text_.length(Length::metres(0.3)) + " free all round, to the old level.",
              "Bark that is buried rots, and roots grow round the trunk.",
              {"rootstead", "1 to 3 ft, recalled", Status::memory});
    prescribe("Place the fill from the edge, loose, without driving on it or on the ground below.",
              "Where fill harmed trees, traffic and cut roots were suspected as the true cause.",
              {"day-2001", "abstract", Status::published});
    if (advice_.verdict == FillVerdict::little) return;
    if (advice_.texture == SoilTexture::sand || advice_.texture == SoilTexture::loam) {
      thinner(ours);
    } else {
      prescribe("Use sandy loam or coarser fill, no finer than the ground below it.",
                "Clay fill keeps the air out, and a sharp change of texture keeps the water in.",
                {"maryland-grade-changes", "clay fill; contrast of layers", Status::published});
      thinner(ours);
    }
    prescribe(
        "Look at the crown every year for five years.",
        "Trees may die of fill months to years after it.",
        {"aggie-protecting-trees", "death may take months to 3 to 5 years", Status::published});
  }

  void thinner(const Citation& ours) {
    const Length tolerated = Length::metres(advice_.tolerated.best);
    if (advice_.thickness <= tolerated) return;
    prescribe("Over roots lay at most " + text_.small_length(tolerated) + " of this fill.",
              "Thicker, the soil air at the old surface falls below " + fixed_number(wanted(), 0) +
                  " % oxygen in summer.",
              ours);
  }

  const Work& work_;
  const Tables& tables_;
  AmountText text_;
  bool wet_ = false;
  FillAdvice advice_;
};

}  // namespace

std::string_view to_text(FillVerdict verdict) {
  return word_for(kFillVerdicts, verdict);
}

FillAir fill_air(SoilTexture texture, bool wet, const Tables& tables) {
  const Parameter& air = tables.parameter("air.fill_" + std::string(to_text(texture)));
  const char* pores = texture == SoilTexture::clay ? "air.pores_clay"
                      : texture == SoilTexture::sand || texture == SoilTexture::loam
                          ? "air.pores_sand"
                          : "air.pores_silt";
  const double room = best(pores, tables);
  const double lost = wet ? best("air.fill_lost_when_wet", tables) : 0;
  const auto kept = [&](double share) { return std::clamp(share - lost, kLeastAir, room); };
  return {{kept(air.low), kept(air.best), kept(air.high)}, room, air.from};
}

FillOxygen fill_oxygen(SoilTexture texture, bool wet, Length thickness, int which,
                       const Tables& tables) {
  const FillAir air = fill_air(texture, wet, tables);
  const double relative =
      relative_diffusivity(DiffusionModel::millington_1961, pick(air.air, which), air.pores);
  const double diffusivity = kOxygenDiffusion * std::max(relative, kThroughWater);
  const double profile = best("air.respiration_profile", tables);
  const double fill = best("air.respiration_fill", tables);
  const auto thickest = [&](std::string_view id) {
    const double left = best(id, tables) * kOxygenPerPercent;
    return thickest_fill(kOxygenAbove, left, profile, fill, diffusivity);
  };
  return {percent_oxygen(oxygen_below_fill(kOxygenAbove, profile, fill, diffusivity, thickness)),
          thickest("air.oxygen_wanted"), thickest("air.oxygen_little")};
}

FillAdvice fill_advice(const Work& work, const Soil& soil, const Tables& tables, UnitSystem units) {
  assert(work.kind == WorkKind::fill);
  return FillStudy(work, soil, tables, units).run();
}

}  // namespace rootstead
