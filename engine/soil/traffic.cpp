#include "engine/soil/traffic.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kLeastStrength = 1;  // kPa: loose soil has some

Cover cover_of(const GroundProtection& row) {
  Cover cover{Length::metres(row.chips), {}, {}};
  if (row.plate_width) cover.plate_width = Length::metres(*row.plate_width);
  if (row.plate_length) cover.plate_length = Length::metres(*row.plate_length);
  return cover;
}

// One traffic work under examination.
class TrafficStudy {
 public:
  TrafficStudy(const Work& work, const Soil& soil, const Tables& tables, UnitSystem units)
      : work_(work), soil_(soil), tables_(tables), text_{units}, depth_(check_depth(tables)) {}

  TrafficAdvice run() {
    advice_.work = work_.id;
    advice_.planned = work_.wet ? 2 : 1;
    if (work_.vehicle) advice_.contact = contact_of(*work_.vehicle, tables_);
    advice_.passes = passes();
    if (work_.cover) cover_ = cover_of(*work_.cover);
    advice_.covered = !cover_.nothing();
    if (!advice_.contact) {
      vehicle_unknown();
      return std::move(advice_);
    }
    for (const Moisture moisture : {Moisture::dry, Moisture::moist, Moisture::wet})
      advice_.cases.push_back(case_of(moisture));
    choose();
    notes();
    figures();
    prescriptions();
    return std::move(advice_);
  }

 private:
  static Length check_depth(const Tables& tables) {
    return Length::metres(tables.parameter("ground.check_depth").best);
  }
  const VehicleContact& contact() const { return *advice_.contact; }
  const TrafficCase& planned() const { return advice_.cases[advice_.planned]; }

  double passes() const {
    if (work_.vehicle && work_.vehicle->passes) return *work_.vehicle->passes;
    return tables_.parameter("ground.passes_unknown").best;
  }

  Range stress(const Cover& cover, Moisture moisture) const {
    const auto at = [&](const Contact& one) {
      return stress_below(one, cover, depth_, moisture, tables_).kilopascals();
    };
    return {at(contact().low), at(contact().best), at(contact().high)};
  }

  TrafficCase case_of(Moisture moisture) const {
    TrafficCase one;
    one.moisture = moisture;
    one.bare = stress({}, moisture);
    one.covered = stress(cover_, moisture);
    one.strength = *strength_of(soil_, depth_, moisture, tables_).range;
    one.ratio = ratio_of(one.covered, one.strength);
    one.risk = press_risk(one.ratio.best, tables_);
    const Range most = range_of(tables_.parameter("ground.density_rise"));
    const double share = share_after_passes(advice_.passes, tables_);
    one.density_rise = {most.low * share * pressed_share(one.ratio.low, tables_),
                        most.best * share * pressed_share(one.ratio.best, tables_),
                        most.high * share * pressed_share(one.ratio.high, tables_)};
    return one;
  }

  bool enough(const Cover& cover) const {
    const Range pressed = stress(cover, planned().moisture);
    return press_risk(ratio_of(pressed, planned().strength).best, tables_) ==
           PressRisk::none_expected;
  }

  void choose() {
    advice_.bare_is_enough = enough({});
    advice_.cover_is_enough = planned().risk == PressRisk::none_expected;
    if (advice_.bare_is_enough) return;
    for (const GroundProtection& row : tables_.soil.protections) {
      const bool too_heavy = row.heaviest && contact().mass.value_or(0) > *row.heaviest;
      if (too_heavy || !enough(cover_of(row))) continue;
      advice_.least = &row;
      return;
    }
  }

  void note(NoteCode code, std::string text) {
    advice_.notes.push_back({code, "work " + work_.id, std::move(text)});
  }

  void vehicle_unknown() {
    note(NoteCode::vehicle_unknown,
         "nobody said what drives here, so stress and ground protection cannot be worked out");
    prescribe(
        "Name the heaviest machine, its weight and its wheels or tracks before any comes; "
        "until then keep all machines on hard ground that is there already.",
        "The ground protection that is enough depends on the load.",
        {"rootstead", "docs/methods/soil_stress.md", Status::assumption});
  }

  void notes() {
    if (!contact().entered)
      note(NoteCode::vehicle_filled, "load and contact of the vehicle are filled from \"" +
                                         contact().filled + "\": the range is wide");
    if (contact().contradicts)
      note(NoteCode::contact_doubtful,
           "wheel load, contact pressure and contact size do not fit together; load and size were "
           "used");
    if (cover_.plate_width || cover_.plate_length ||
        (advice_.least != nullptr && advice_.least->plate_width))
      note(NoteCode::plates_taken_as_stiff,
           "plates are taken as stiff; one that bends under the wheel spreads less");
    if (strength().from.status != Status::published)
      note(NoteCode::strength_assumed,
           "the strength of the ground is assumed: " + strength().formula);
    if (advice_.covered && !advice_.cover_is_enough)
      note(NoteCode::cover_not_enough,
           "with the cover as planned the stress at " + text_.small_length(depth_) + " is " +
               percent(planned().ratio.best, 0) + " of the strength of " +
               std::string(to_text(planned().moisture)) +
               " ground: " + std::string(to_text(planned().risk)));
  }

  Figure strength() const { return strength_of(soil_, depth_, planned().moisture, tables_); }

  std::vector<FigureInput> inputs() const {
    const Contact& best = contact().best;
    std::vector<FigureInput> inputs = {
        {"Q", "load of the heaviest wheel or track", fixed_number(best.load_kn, 1) + " kN"},
        {"B x L", "contact", text_.length(best.width) + " x " + text_.length(best.length)},
        {"z", "depth below the old surface", text_.small_length(depth_)},
        input_from(concentration_row(), "nu")};
    if (!contact().filled.empty()) inputs.push_back({"row", "filled from", contact().filled});
    return inputs;
  }
  const Parameter& concentration_row() const {
    return tables_.parameter("ground.concentration_" + std::string(to_text(planned().moisture)));
  }

  Figure figure(std::string name, const Range& range, std::string unit, std::string formula,
                const Citation& from) const {
    return {std::move(name),
            range.best,
            std::move(unit),
            range,
            inputs(),
            std::move(formula),
            from,
            {}};
  }

  void figures() {
    const Citation stress_from{"soehne-1958",
                               "stress below a uniform rectangle; plates as stiff and chips at "
                               "two to one are ours",
                               Status::assumption};
    advice_.figures = {
        figure("soil.stress-bare", planned().bare, "kPa",
               "4 Q / (B L) I(B/2, L/2, z, nu) on bare ground", stress_from),
        figure("soil.stress-covered", planned().covered, "kPa",
               "the same with B and L widened to the plate, then by the settled chips at 2:1",
               stress_from),
        strength(),
        figure(
            "soil.stress-share", planned().ratio, "",
            "stress with the cover / strength; 0.5 no new compaction, 1.1 compaction",
            {"stettler-2014", "factors 0.5 and 1.1; stress and strength ours", Status::assumption}),
        figure("soil.density-rise", planned().density_rise, "g/cm3",
               "final rise x (1 - exp(-0.7 n)) x share pressed, n = " +
                   shortest_number(advice_.passes) + " passes",
               {"alberty-1984", "final rise; the rest ours", Status::assumption})};
    if (const auto chips = chips_needed()) {
      const double metres = chips->metres();
      advice_.figures.push_back(figure("soil.chips-needed", {metres, metres, metres}, "m",
                                       "loose chips alone that bring the stress to half of the "
                                       "strength",
                                       stress_from));
    }
  }

  // By halving; nothing where more would be needed than may be laid.
  std::optional<Length> chips_needed() const {
    Length low, high = Length::metres(tables_.parameter("ground.chips_most").best);
    if (advice_.bare_is_enough || !enough({high, {}, {}})) return std::nullopt;
    for (int i = 0; i < 30; ++i) {
      const Length middle = (low + high) / 2;
      (enough({middle, {}, {}}) ? high : low) = middle;
    }
    return high;
  }

  void prescribe(std::string text, std::string reason, const Citation& from) {
    advice_.prescriptions.push_back({"ground protection", "", work_.id, std::move(text),
                                     std::move(reason), advice_.figures, from});
  }

  std::string against(const Range& stress) const {
    return "the stress at " + text_.small_length(depth_) + " is about " +
           text_.pressure(Pressure::kilopascals(stress.best)) + " against a strength of about " +
           text_.pressure(Pressure::kilopascals(planned().strength.best)) + " in " +
           std::string(to_text(planned().moisture)) + " ground";
  }

  void prescriptions() {
    const Citation ours{"rootstead", "docs/methods/soil_stress.md", Status::assumption};
    if (advice_.bare_is_enough) {
      prescribe("Mark one way and keep to it; take no other ground.",
                "On bare ground " + against(planned().bare) + ".", ours);
    } else if (advice_.covered && advice_.cover_is_enough) {
      prescribe("Lay " + cover_name() + " before the first wheel and keep it whole to the last.",
                "With it " + against(planned().covered) + ".", ours);
    } else if (advice_.least != nullptr) {
      const Range left = stress(cover_of(*advice_.least), planned().moisture);
      prescribe(
          "Before the first wheel lay " + protection_words(*advice_.least, text_) +
              ", over the whole way.",
          "It is the least of the published ways that is enough: with it " + against(left) + ".",
          advice_.least->from);
    } else {
      prescribe(
          "Do not drive here with this machine: take another way or a lighter machine, or "
          "have the ground protection designed for the load by an engineer.",
          "On bare ground " + against(planned().bare) +
              ", and none of the usual ways of protection is enough.",
          ours);
    }
    when_wet();
    upkeep();
  }

  // What holds for the ground as planned may not hold after rain.
  void when_wet() {
    if (work_.wet || advice_.cases.back().risk == PressRisk::none_expected) return;
    prescribe(
        "Stop all driving while the ground is wet, and look again at the protection before "
        "going on.",
        "Wet ground has less strength: the same load is " +
            percent(advice_.cases.back().ratio.best, 0) + " of it.",
        {"rootstead", "docs/methods/soil_stress.md", Status::assumption});
  }

  void upkeep() {
    const bool planned_serves = advice_.covered && advice_.cover_is_enough;
    const bool chips = planned_serves             ? cover_.chips > Length()
                       : advice_.least != nullptr ? advice_.least->chips > 0
                                                  : false;
    if (advice_.bare_is_enough || !chips) return;
    const Length most = Length::metres(tables_.parameter("ground.chips_most").best);
    prescribe("Top up the chips as they settle, at most " + text_.small_length(most) +
                  " thick, and take all of it off within the season.",
              "Chips settle by a third to a half; a thick layer that stays works like fill.",
              tables_.parameter("ground.chips_settle").from);
  }

  std::string cover_name() const {
    return work_.cover->name.empty() ? "the planned cover" : work_.cover->name;
  }

  const Work& work_;
  const Soil& soil_;
  const Tables& tables_;
  AmountText text_;
  Length depth_;
  Cover cover_;
  TrafficAdvice advice_;
};

}  // namespace

Range ratio_of(const Range& stress, const Range& strength) {
  const auto over = [](double a, double b) { return a / std::max(b, kLeastStrength); };
  return {over(stress.low, strength.high), over(stress.best, strength.best),
          over(stress.high, strength.low)};
}

std::string protection_words(const GroundProtection& way, const AmountText& amounts) {
  constexpr std::string_view kDepth = "{depth}";
  std::string words = way.name;
  if (const auto at = words.find(kDepth); at != std::string::npos)
    words.replace(at, kDepth.size(), amounts.small_length(Length::metres(way.chips)));
  return words;
}

Cover cover_of(const GroundCover& cover) {
  Cover laid;
  if (cover.chips) laid.chips = std::max(cover.chips->length(), Length());
  if (cover.plate_width) laid.plate_width = cover.plate_width->length();
  if (cover.plate_length) laid.plate_length = cover.plate_length->length();
  return laid;
}

Pressure stress_below(const Contact& contact, const Cover& cover, Length depth, Moisture moisture,
                      const Tables& tables) {
  const Length a = cover.plate_width.value_or(Length()), b = cover.plate_length.value_or(Length());
  // The long side of the plate lies along the long side of the contact.
  const Length width = std::max(std::min(contact.width, contact.length), std::min(a, b));
  const Length length = std::max(std::max(contact.width, contact.length), std::max(a, b));
  const double settled = 1 - tables.parameter("ground.chips_settle").best;
  const Contact spread{contact.load_kn, width + cover.chips * settled,
                       length + cover.chips * settled};
  return rectangle_stress(spread.pressure(), spread.width, spread.length, depth,
                          concentration_factor(moisture, tables));
}

TrafficAdvice traffic_advice(const Work& work, const Soil& soil, const Tables& tables,
                             UnitSystem units) {
  assert(work.kind == WorkKind::traffic);
  return TrafficStudy(work, soil, tables, units).run();
}

}  // namespace rootstead
