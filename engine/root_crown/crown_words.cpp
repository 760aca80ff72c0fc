#include "engine/root_crown/crown_words.hpp"

#include <cmath>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

const Citation kPractice{"trade-practice", "", Status::common_practice};
const Citation kFirmPage{"hendel-tree", "", Status::published};
const Citation kAirTools{"air-tool-pages", "", Status::published};

class Crew {
 public:
  explicit Crew(const CrownCase& c) : c_(c), text_{c.units} {}

  std::vector<Prescription> of_hole() {
    services();
    say("Probe with a thin steel pin, or dig a hole by hand, " +
            small("root_crown.criterion.from_trunk") +
            " from the trunk on three sides or more, until main roots are met.",
        criterion_words() + " One side without a flare may only be a side without roots.",
        row("root_crown.criterion.depth").from);
    cover();
    return std::move(said_);
  }

  std::vector<Prescription> of_uncovering() {
    services();
    season();
    dig();
    look_for();
    girdlers();
    backfill();
    cover();
    promise();
    return std::move(said_);
  }

  std::vector<Prescription> of_found() {
    if (c_.advice.compared->deep) {
      season();
      keep_open();
    }
    if (c_.tree.flare.found->girdled_share.value_or(0) > 0) girdlers();
    if (!said_.empty()) promise();
    return std::move(said_);
  }

 private:
  void say(std::string text, std::string reason, const Citation& from) {
    Prescription one;
    one.topic = "uncover the flare";
    one.tree = c_.tree.id;
    one.text = std::move(text);
    one.reason = std::move(reason);
    one.from = from;
    said_.push_back(std::move(one));
  }
  void with_figures(const std::string& start) {
    for (const Figure& figure : c_.advice.figures)
      if (figure.name.starts_with(start)) said_.back().figures.push_back(figure);
  }
  const Parameter& row(std::string_view id) const { return c_.tables.parameter(id); }
  // The makers give psi and cubic feet a minute; a sheet keeps to one system.
  std::string air_pressure() const {
    constexpr double kKilopascalsPerPsi = 6.894757293168361;
    const double psi = row("root_crown.air.pressure").best;
    if (c_.units != UnitSystem::metric) return fixed_number(psi, 0) + " psi";
    return text_.pressure(Pressure::kilopascals(psi * kKilopascalsPerPsi));
  }
  std::string air_flow() const {
    constexpr double kCubicMetresPerCubicFoot = 0.028316846592;
    const double feet = row("root_crown.air.flow").best;
    if (c_.units != UnitSystem::metric) return fixed_number(feet, 0) + " cubic feet";
    return fixed_number(feet * kCubicMetresPerCubicFoot, 1) + " m³";
  }
  // "76 to 102 mm", "2.0 to 4.0 in".
  std::string small(const Range& metres) const {
    const std::string low = text_.small_length(Length::metres(metres.low));
    const std::string high = text_.small_length(Length::metres(metres.high));
    if (low == high) return high;
    return low.substr(0, low.find(' ')) + " to " + high;
  }
  std::string small(std::string_view id) const {
    const Parameter& p = row(id);
    const double per = metres_per(length_unit_from(p.unit).value_or(LengthUnit::metre));
    return small(Range{p.low * per, p.best * per, p.high * per});
  }

  std::string criterion_words() const {
    return "Two main roots or more should be met within " +
           small(c_.prone ? "root_crown.criterion.depth_prone" : "root_crown.criterion.depth") +
           " of the surface" +
           (c_.prone ? ", this kind of tree being prone to girdling roots." : ".");
  }

  void services() {
    say("Have buried services located and marked before any digging, lamps and irrigation of "
        "private "
        "ground too.",
        "Compressed air is kinder to cables and pipes than a spade, not harmless.", kPractice);
  }

  void season() {
    say("Do this work in mild, moist weather: not in drought, not in hot sun, not in frost.",
        "Roots that have lived in the dark soon dry out or freeze.", kPractice);
  }

  void dig() {
    const CrownExcavation& plan = *c_.advice.excavation;
    const bool one = plan.radius_m.low == plan.radius_m.high;
    const std::string radius = one ? text_.length(Length::metres(plan.radius_m.best))
                                   : text_.length(Length::metres(plan.radius_m.low)) + " to " +
                                         text_.length(Length::metres(plan.radius_m.high));
    say("Loosen and remove the soil with compressed air, water or hand tools to " + radius +
            " from the bark all round, until the first main roots are seen and " +
            small("root_crown.excavation.below_first") + " below them, here about " +
            small(plan.depth_m) + " deep; never with a digging machine.",
        "The opening must show the flare and stand with a slope that stays.", kFirmPage);
    said_.back().from.status = Status::common_practice;  // radius and depth are
    with_figures("root-crown.excavation.");
    say("With air, work at about " + air_pressure() + " with a compressor of about " + air_flow() +
            " a minute; wear protection for eyes, ears and lungs, and keep people and "
            "windows out of the spray.",
        "Dry soil blown about holds dust that harms the lungs.", kAirTools);
    said_.back().from.status = Status::common_practice;  // the protection is
  }

  void look_for() {
    say("Write down and photograph the depth of the flare and of the first main root on each side, "
        "roots that lie round or across the trunk and the share of the circumference they press "
        "on, "
        "soft or dead bark, decay and old wounds, and roots that grew from the trunk above the "
        "flare.",
        "What is found goes before every sign and every estimate.", kPractice);
    with_figures("root-crown.girdling.");
  }

  void girdlers() {
    say("Leave every root that carries the flare; of a root that girdles, cut it whole only where "
        "it "
        "touches less than a third of the flare, else shave away no more than a third of its "
        "thickness where it presses.",
        "A girdling root may by now be one of those that hold the tree.",
        {"root-management-blog", "shaving", Status::common_practice});
    say("Take girdling roots in stages over several seasons, never those of more than half of the "
        "circumference at one time, and look at the tree between stages.",
        "The tree loses what those roots supply; a person qualified in tree stability decides "
        "where "
        "a large root is cut.",
        kPractice);
  }

  void backfill() {
    say("Put no soil back; where people walk, fill with pea gravel or with " +
            small("root_crown.mulch") +
            " of mulch that does not touch the bark, and leave no pit in which water stands.",
        "Soil put back buries the flare again; a pit without an outlet drowns it.", kPractice);
  }

  void keep_open() {
    say("Keep the flare open: put no soil back, hold mulch to " + small("root_crown.mulch") +
            " and off the bark, and lead water away from the opening.",
        "Soil put back buries the flare again.", kPractice);
  }

  void cover() {
    say("Cover bare roots the same day, with moist burlap, mulch or gravel, and water them.",
        "Fine roots die where they dry.", kPractice);
  }

  void promise() {
    say("Look again after one and after three growing seasons, and promise nothing: recovery is "
        "not "
        "certain, and many trees that have stood like this for ten years and more need no more.",
        "Work at the base of an old tree may do more harm than the soil did.", kFirmPage);
    said_.back().from.status = Status::common_practice;  // when to look again is
  }

  const CrownCase& c_;
  AmountText text_;
  std::vector<Prescription> said_;
};

}  // namespace

std::vector<Prescription> prescriptions_of(const CrownCase& c) {
  switch (c.advice.answer) {
    case FlareAnswer::dig_to_see:
      return Crew(c).of_hole();
    case FlareAnswer::burial_likely:
      return Crew(c).of_uncovering();
    case FlareAnswer::found:
      return Crew(c).of_found();
    default:
      return {};
  }
}

}  // namespace rootstead
