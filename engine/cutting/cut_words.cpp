#include "engine/cutting/cut_words.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

using Nearness = CutAdvice::Nearness;
const Citation kPractice{"trade-practice", "", Status::common_practice};

class Crew {
 public:
  explicit Crew(const CutCase& c) : c_(c), text_{c.units} {}

  std::vector<Prescription> write() {
    where();
    permissions();
    services();
    by_hand();
    how();
    sizes();
    if (!palm()) at_once();
    season();
    aftercare();
    for (const Prescription& one : c_.advice.excavation.prescriptions) said_.push_back(one);
    return std::move(said_);
  }

 private:
  bool palm() const { return c_.advice.distance.palm; }
  const Parameter& row(std::string_view id) const { return c_.tables.parameter(id); }
  void say(std::string topic, std::string text, std::string reason, const Citation& from) {
    Prescription one;
    one.topic = std::move(topic);
    one.tree = c_.tree.id;
    one.work = c_.work.id;
    one.text = std::move(text);
    one.reason = std::move(reason);
    one.from = from;
    said_.push_back(std::move(one));
  }
  void cut(std::string text, std::string reason, const Citation& from) {
    say("root cut", std::move(text), std::move(reason), from);
  }
  // A thickness or short distance as its source writes it: millimetres or inches.
  std::string small(double metres) const { return text_.small_length(Length::metres(metres)); }
  std::string small_row(std::string_view id) const {
    const Parameter& p = row(id);
    return small(p.best * metres_per(length_unit_from(p.unit).value()));
  }
  // "15 to 30", "4".
  static std::string span(const Parameter& p, double scale = 1) {
    const std::string low = fixed_number(p.low * scale, 0), high = fixed_number(p.high * scale, 0);
    return low == high ? high : low + " to " + high;
  }

  // "1.20 m (2.4 stem diameters)"; palms: "1.20 m".
  std::string distance_words(Length distance) const {
    std::string words = text_.length(distance);
    if (const auto diameter = c_.advice.distance.diameter)
      words += " (" + fixed_number(distance / *diameter, 1) + " stem diameters)";
    return words;
  }
  const Figure& distance_figure(std::size_t i) const { return c_.advice.distance.figures.at(i); }

  void where() {
    const CutDistance& distance = c_.advice.distance;
    switch (c_.advice.nearness) {
      case Nearness::at_trunk:
        cut("Move " + name() + ": its ground meets the trunk.",
            "No cutting of roots makes room for it there.", kPractice);
        return;
      case Nearness::nearer_than_least:
        cut("Cut nothing here until a person qualified in tree stability has agreed: the line "
            "comes " +
                distance_words(*c_.advice.nearest) + " from the trunk, the least is " +
                distance_words(*distance.least) + ".",
            palm() ? in_words(*distance.regrowth) : "Within that distance trees lose their hold.",
            distance_figure(0).from);
        said_.back().figures = distance.figures;
        break;
      case Nearness::nearer_than_preferred:
        cut("Draw the line back to " + distance_words(*distance.preferred) +
                " from the trunk if the work allows: it comes " +
                distance_words(*c_.advice.nearest) + ".",
            "The further from the trunk, the fewer and thinner the roots that are cut.",
            distance_figure(1).from);
        said_.back().figures = distance.figures;
        break;
      default:
        break;
    }
    mark();
  }

  std::string name() const { return c_.work.name.empty() ? c_.work.id : c_.work.name; }

  void mark() {
    if (!c_.advice.nearest) {
      cut("Have the arborist mark the line of the cut on the ground before anyone cuts.",
          "Neither the line nor the tree has a place on the plan.", kPractice);
      return;
    }
    cut("Mark the line of the cut on the ground, " +
            text_.length(Length::metres(c_.advice.face.length)) + " long on the tree's side of " +
            name() + " and nowhere nearer to the trunk than " + distance_words(*c_.advice.nearest) +
            ", and have the arborist approve it before anyone cuts.",
        "What is torn by a machine is torn back towards the tree.", marking());
    said_.back().figures = c_.advice.figures;
  }
  // Marking before cutting is asked for by one road authority; elsewhere it is practice.
  Citation marking() const {
    if (const CutRow* notice = c_.advice.standard.row(CutRule::notice_days))
      return notice->figure.from;
    return kPractice;
  }

  void permissions() {
    const CutStandard& standard = c_.advice.standard;
    if (const CutRow* notice = standard.row(CutRule::notice_days)) {
      cut("Give notice " + fixed_number(notice->value, 0) + " days before cutting starts.", "",
          notice->figure.from);
      said_.back().figures = {notice->figure};
    } else {
      cut("Ask whether a permit, an order or the neighbour's consent is needed, and how many days "
          "of "
          "notice; local law goes before everything here.",
          "", kPractice);
    }
    std::string people = joined(c_.advice.present, "; ");
    if (!people.empty()) cut("Have there while roots are cut: " + people + ".", "", kPractice);
  }

  void services() {
    const Parameter& days = row("cutting.locate_days");
    const Parameter& near = row("cutting.locate_tolerance");
    say("dig by hand",
        "Ask for buried services to be located " + span(days) +
            " working days before digging or as your law says, and dig only by hand, air or vacuum "
            "within " +
            small(near.high * metres_per(length_unit_from(near.unit).value())) + " of their marks.",
        "Days and distances differ from state to state and land to land; services on private "
        "ground "
        "are not marked by that call.",
        days.from);
    say("dig by hand",
        "Bring no machine nearer than " + small_row("cutting.machine_from_service") +
            " to a known cable or pipe; find it first by trial holes dug by hand.",
        "", row("cutting.machine_from_service").from);
  }

  void by_hand() {
    std::string until = "to the full depth of the cut, " + text_.length(c_.advice.depth);
    if (c_.advice.hand_depth && *c_.advice.hand_depth < c_.advice.depth)
      until = "to " + text_.length(*c_.advice.hand_depth) +
              " at least, the depth of the standard, and on " + until +
              " wherever roots are still met";
    say("dig by hand",
        "Open a narrow trench along the line by hand or compressed air, " + until +
            ", and bring no machine before the roots are cut; then dig from the far side, away "
            "from "
            "the tree.",
        "An excavator's bucket tears roots up to " +
            text_.length(Length::metres(row("cutting.bucket_tears").best)) +
            " behind the wall of the hole; most roots lie in the upper " +
            small_row("cutting.rooted_depth") + ".",
        row("cutting.bucket_tears").from);
    const CutStandard& standard = c_.advice.standard;
    if (const CutRow* nothing = standard.row(CutRule::nothing_within)) {
      say("dig by hand",
          "Dig nothing nearer to the trunk than " + text_.length(Length::metres(nothing->value)) +
              " without full consultation with the tree officer.",
          "", nothing->figure.from);
      said_.back().figures = {nothing->figure};
    }
    const CutRow* girths = standard.row(CutRule::by_hand_girths);
    if (girths && c_.advice.distance.diameter) {
      constexpr double kPi = 3.14159265358979323846;
      const Length within = girths->value * kPi * *c_.advice.distance.diameter;
      say("dig by hand",
          "Use no digging machine nearer to the trunk than " + text_.length(within) + ", " +
              fixed_number(girths->value, 0) + " girths.",
          "", girths->figure.from);
      said_.back().figures = {girths->figure};
    }
  }

  void how() {
    if (palm()) {
      cut("Cut palm roots clean with a sharp spade or saw; do not tear them, and leave the ground "
          "at "
          "the base of the trunk as it is.",
          in_words(*c_.advice.distance.regrowth), kPractice);
      return;
    }
    cut("Cut every root square and clean, to a side root where there is one, with hand pruners, a "
        "hand "
        "saw, a reciprocating saw or a small chain saw; not with a trencher or a bucket.",
        "A torn root decays further back than a cut one.",
        {"root-management-blog", "tools; the square cut from memory", Status::memory});
    cut("Cut torn ends back to sound wood.", "", kPractice);
    expect();
  }

  static std::string number_words(const Range& n) {
    return fixed_number(n.best, 1) + " (" + fixed_number(n.low, 1) + " to " +
           fixed_number(n.high, 1) + ")";
  }

  void expect() {
    if (!c_.advice.expected) return;
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < kSpokenThickness.size(); ++i)
      parts.push_back(number_words((*c_.advice.expected)[i]) + " of " + small(kSpokenThickness[i]) +
                      " and thicker");
    cut("Expect about this many roots along the line: " + joined(parts, ", ") +
            "; stop and call the arborist where many more or much thicker ones are met.",
        "An estimate from published averages: the roots are where they are.",
        {"rootstead", "docs/methods/thick_roots.md", Status::assumption});
    for (const Figure& figure : c_.advice.figures)
      if (figure.name.starts_with("cutting.roots-met")) said_.back().figures.push_back(figure);
  }

  // Does a row say what is done with a root of some thickness?
  static bool of_thickness(CutRule rule) {
    return rule <= CutRule::treat_from && rule != CutRule::approval_within;
  }

  void sizes() {
    if (palm()) return;  // all roots of a palm are thin
    for (const CutRow& row : c_.advice.standard.rows) {
      if (!of_thickness(row.rule)) continue;
      std::string text = small(row.value) + ": " + row.meaning;
      const CutRow* within = c_.advice.standard.row(CutRule::approval_within);
      if (row.rule == CutRule::approval_from && within)
        text += ", within " + text_.length(Length::metres(within->value)) + " of the trunk";
      cut("By " + c_.advice.standard.id + ", " + text + ".", others_on(row.rule), row.figure.from);
      said_.back().figures = {row.figure};
    }
  }
  // "Others: westminster 25 mm (published), ..." where they draw the same line elsewhere.
  std::string others_on(CutRule rule) const {
    std::vector<std::string> others;
    for (const CutStandard& other : c_.advice.others)
      if (const CutRow* same = other.row(rule))
        others.push_back(other.id + " " + small(same->value) + " (" +
                         std::string(to_text(same->figure.from.status)) + ")");
    return others.empty() ? "" : "Other sources, for the same: " + joined(others, ", ") + ".";
  }

  void at_once() {
    const Parameter& years = row("cutting.years_between_sides");
    const Parameter& share = row("cutting.share_at_once");
    const int sides = c_.advice.face.sides;
    cut("Cut on one side of four at a time and leave " + span(years) +
            " years before the next; in all no more than " + span(share, 100) + " % of the roots." +
            (sides > 1 ? " This line lies on " + std::to_string(sides) + " of the four sides."
                       : ""),
        "The limits are practice and one page of low authority, not research.", years.from);
  }

  void season() {
    if (palm())
      cut("Cut at the start of the warm season.", "Palm roots grow while the soil is warm.",
          kPractice);
    else
      cut("Cut while the tree is dormant, not in the flush of spring growth, and not in drought, "
          "heat "
          "or frost.",
          "The tree has to make new roots from what it has stored.", kPractice);
  }

  void aftercare() {
    const auto after = [&](std::string text, std::string reason, const Citation& from) {
      say("aftercare of roots", std::move(text), std::move(reason), from);
    };
    after(
        "Wet the cut ends and fill back the same day with the soil that was dug, without stones "
        "and "
        "rubble, pressed by foot and watered.",
        "Bare roots suffer within " + span(row("cutting.dry_minutes")) + " minutes.",
        row("cutting.dry_minutes").from);
    after(
        "Where the cut stays open, cover the roots at once with burlap and keep it wet, and take "
        "it "
        "off before filling.",
        "", kPractice);
    after("Where it stays open for days, hold moist soil against the roots with a temporary wall.",
          "", {"batavia-trees", "", Status::published});
    after("Leave out paint and sealing unless the standard chosen asks for treatment.", "",
          kPractice);
    after("Write down every root of " + small(kSpokenThickness[0]) +
              " and thicker that was met or cut: thickness, depth, distance from the trunk, what "
              "was done.",
          "It tells the next person what holds and feeds this tree.", kPractice);
  }

  const CutCase& c_;
  AmountText text_;
  std::vector<Prescription> said_;
};

}  // namespace

std::vector<std::string> present_of(const CutCase& c) {
  std::vector<std::string> people;
  const CutStandard& standard = c.advice.standard;
  if (const CutRow* licence = standard.row(CutRule::licence); licence && licence->value > 0)
    people.push_back("a licensed tree expert (" + cited(licence->figure.from) + ")");
  else if (const CutRow* row = standard.row(CutRule::arborist_present); row && row->value > 0)
    people.push_back("an arborist (" + cited(row->figure.from) + ")");
  else
    people.push_back("an arborist (common practice)");
  if (c.advice.nearness == Nearness::nearer_than_least || c.advice.nearness == Nearness::at_trunk)
    people.push_back("a person qualified in tree stability (common practice)");
  if (c.advice.excavation.ladder)
    people.push_back("a competent person for the excavation (" +
                     cited(c.tables.parameter("cutting.osha.protect_from").from) + ")");
  return people;
}

std::vector<Prescription> prescriptions_of(const CutCase& c) {
  return Crew(c).write();
}

}  // namespace rootstead
