// What the crew is told, stretch by stretch. Sentences of practice are common practice; each figure
// in them carries its own source.
#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/protection/fencing.hpp"
#include "engine/protection/protection_plan.hpp"

namespace rootstead {
namespace {

const Citation kPractice{"trade-practice", "", Status::common_practice};

class Sentences {
 public:
  Sentences(const ProtectionPlan& plan, const Site& site, const Tables& tables, UnitSystem units)
      : plan_(plan), site_(site), tables_(tables), amount_{units} {}

  std::vector<Prescription> write() {
    for (const Fence& fence : plan_.fences) of_fence(fence);
    for (const FenceGate& gate : plan_.gates) of_gate(gate);
    for (const StemGuard& guard : plan_.guards) of_guard(guard);
    of_signs();
    for (const CoveredGround& cover : plan_.covers) of_cover(cover);
    for (const RootCutLine& cut : plan_.root_cuts) of_root_cut(cut);
    for (const DigStretch& dig : plan_.digs) of_dig(dig);
    for (const BorePassage& bore : plan_.bores) of_bore(bore);
    for (const NoDigArea& area : plan_.no_dig) of_no_dig(area);
    of_steps();
    return std::move(all_);
  }

 private:
  Prescription& add(std::string topic, std::string text, std::string reason, Citation from) {
    all_.push_back(
        {std::move(topic), {}, {}, std::move(text), std::move(reason), {}, std::move(from)});
    return all_.back();
  }

  const Parameter& row(std::string_view name) const {
    return tables_.parameter("protection." + std::string(name));
  }
  std::string metres(std::string_view name) const {
    return amount_.length(Length::metres(row(name).best));
  }
  Figure figure(std::string_view name) const {
    const Parameter& p = row(name);
    Figure made;
    made.name = p.id;
    made.value = p.best;
    made.unit = p.unit;
    made.inputs = {input_from(p, "row")};
    made.formula = p.meaning;
    made.from = p.from;
    return made;
  }
  Figure measured(std::string name, double value, std::string unit) const {
    Figure made;
    made.name = "protection." + std::move(name);
    made.value = value;
    made.unit = std::move(unit);
    made.formula = "measured on the plan";
    made.from = {"plane-geometry", "lengths and areas of the plan", Status::published};
    return made;
  }

  std::string names(const std::vector<std::string>& trees) const {
    std::vector<std::string> labels;
    for (const std::string& id : trees) {
      const Tree* tree = site_.tree(id);
      labels.push_back(tree == nullptr ? id : tree->label());
    }
    return (labels.size() == 1 ? "tree " : "trees ") + joined(labels, ", ");
  }
  // "trench Storm drain"; a name that says what it is needs no kind before it: "Root cut".
  std::string work_name(const std::string& id) const {
    const Work* work = site_.work(id);
    if (work == nullptr) return id;
    const std::string kind(to_text(work->kind));
    if (lower_case(work->name).find(kind) != std::string::npos) return work->name;
    return kind + " " + (work->name.empty() ? id : work->name);
  }
  std::string place(const Point& p) const {
    return "E " + fixed_number(p.x, 1) + ", N " + fixed_number(p.y, 1);
  }
  // "from 0.00 m to 6.20 m"
  std::string between(Length from, Length to) const {
    return "from " + amount_.length(from) + " to " + amount_.length(to);
  }

  void of_fence(const Fence& fence) {
    for (const FenceStretch& stretch : fence.stretches) {
      const bool driven = stretch.footing == Footing::driven;
      const std::string run = "Fence " + fence.id + " " + between(stretch.from, stretch.to);
      const std::string height =
          metres("fence_height") + " high, posts at most " + metres("post_spacing") + " apart";
      Prescription& p =
          driven ? add("fence",
                       run + ": set it " + height +
                           ", on driven posts; probe each place by hand and shift a post along "
                           "the line rather than drive it through a root.",
                       "A fence that stands before all else keeps wheels, spoil and stores off "
                       "the roots.",
                       row("fence_height").from)
                 : add("fence",
                       run + ": stand it on ballasted feet with stays inside, " + height +
                           "; drive and dig nothing, and set the feet by hand off the roots.",
                       "It crosses the root plate of " + names(stretch.trees) +
                           ", where driven posts would go through the roots that hold the tree.",
                       tables_.parameter("anchorage.plate_radius_per_diameter").from);
      if (stretch.trees.size() == 1) p.tree = stretch.trees.front();
      p.figures = {figure("fence_height"), figure("post_spacing"),
                   measured("stretch", (stretch.to - stretch.from).metres(), "m")};
    }
  }

  void of_gate(const FenceGate& gate) {
    const bool people = gate.use == GateUse::people;
    Prescription& p =
        add("fence",
            "Hang gate " + gate.id + ", " + amount_.length(gate.width) + " wide, in fence " +
                gate.fence + " at " + place(gate.at) + " and keep it locked.",
            people ? "Those who water, prune and inspect the trees need a way in."
                   : "Machines pass here, only over ground that is covered.",
            {"willoughby-trees", "gate or access point", Status::published});
    p.figures = {measured("gate-width", gate.width.metres(), "m")};
  }

  void of_guard(const StemGuard& guard) {
    Prescription& p = add("fence",
                          "Box the trunk of " + names({guard.tree}) + " with boards to " +
                              metres("guard_height") + ", fixed to each other and not to the tree.",
                          "For " + guard.reason + ".", row("guard_height").from);
    p.tree = guard.tree;
    p.figures = {figure("guard_height")};
  }

  void of_signs() {
    if (plan_.signs.empty()) return;
    Prescription& p = add(
        "signs",
        "Fix " + std::to_string(plan_.signs.size()) +
            " signs on the fences, at least one on each and at most " + metres("sign_spacing") +
            " apart: tree protection, keep out, whom to call; in the languages spoken on "
            "site.",
        "Who reads why the fence is there is less likely to move it.", row("sign_spacing").from);
    p.figures = {figure("sign_spacing"),
                 measured("signs", static_cast<double>(plan_.signs.size()), "")};
  }

  std::string layer_words(LoadClass load) const {
    const auto chips = [&](const char* name) {
      return amount_.small_length(Length::metres(row(name).best));
    };
    switch (load) {
      case LoadClass::foot:
        return "lay boards on " + chips("chips_foot") + " of wood chips over a geotextile";
      case LoadClass::light_plant:
        return "lay linked boards on " + chips("chips_light_plant") +
               " of wood chips over a geotextile";
      case LoadClass::heavy:
        return "lay what is designed for the vehicle by the engineer and the arborist together";
    }
    return {};
  }

  void of_cover(const CoveredGround& cover) {
    std::string why = "People or machines must use ground where " + names(cover.trees) +
                      (cover.trees.size() == 1 ? " roots" : " root");
    if (!cover.work.empty()) why += ", for " + work_name(cover.work);
    if (cover.load_assumed) why += "; no vehicle is on record, so the heaviest class is taken";
    if (cover.work.empty() && cover.way.empty())
      why = "No fence can hold this ground, and " + names(cover.trees) +
            (cover.trees.size() == 1 ? " roots here" : " root here");
    const Citation& from = row("light_plant_mass").from;
    Prescription& p =
        add("ground protection",
            "Area " + cover.id + ", " + amount_.area(area_of(cover.area)) + ": " +
                layer_words(cover.load) + ", on the ground as it lies, before anything passes.",
            why + ".", from);
    p.work = cover.work;
    if (cover.trees.size() == 1) p.tree = cover.trees.front();
    p.figures = {measured("cover", area_of(cover.area).square_metres(), "m2"),
                 figure("light_plant_mass")};
    if (cover.load != LoadClass::heavy)
      p.figures.push_back(
          figure(cover.load == LoadClass::foot ? "chips_foot" : "chips_light_plant"));
  }

  void of_root_cut(const RootCutLine& cut) {
    const Parameter& thick = tables_.parameter("verdict.root_to_ask_about");
    Prescription& p =
        add("root cut",
            "Line " + cut.id + ", the edge of " + work_name(cut.work) + " towards " +
                names(cut.trees) + ", " + amount_.length(length_of(cut.line)) + " long from " +
                place(cut.line.front()) + " to " + place(cut.line.back()) +
                ": open it by hand or with air to " + amount_.length(cut.depth) +
                " before any machine, cut roots square with a sharp tool, ask before cutting roots "
                "of " +
                amount_.small_length(Length::millimetres(thick.best)) + " and thicker.",
            "Torn roots die back farther than cut ones; it comes as near as " +
                amount_.length(cut.nearest) + " to a stem.",
            thick.from);
    p.work = cut.work;
    if (cut.trees.size() == 1) p.tree = cut.trees.front();
    p.figures = {measured("root-cut", length_of(cut.line).metres(), "m"),
                 measured("root-cut-nearest", cut.nearest.metres(), "m")};
  }

  void of_dig(const DigStretch& dig) {
    const bool air = dig.method == DigMethod::air;
    Prescription& p =
        add("dig by hand",
            "Stretch " + dig.id + ", " + work_name(dig.work) + " " + between(dig.from, dig.to) +
                (air ? ": dig with air" : ": dig by hand or with air") +
                ", no machine; lead the work under or between roots and keep them moist.",
            air ? "It crosses the root plate of " + names(dig.trees) +
                      ", where thick roots are to stay whole."
                : "It lies in the ground of " + names(dig.trees) + ".",
            {"connecticut-13b-17-45", "hand or air tools in the root zone", Status::published});
    p.work = dig.work;
    if (dig.trees.size() == 1) p.tree = dig.trees.front();
    p.figures = {measured("dig", (dig.to - dig.from).metres(), "m")};
  }

  void of_bore(const BorePassage& bore) {
    std::string text = "Keep " + work_name(bore.work) + " " + between(bore.from, bore.to) + " at " +
                       amount_.length(bore.crown_depth) + " or deeper to its crown";
    text += bore.pits_in_ground == 0
                ? ", its pits outside the ground of kept trees."
                : "; " + std::to_string(bore.pits_in_ground) +
                      " of its pits lie in the ground of kept trees: move them out, or dig them "
                      "by hand or with air.";
    Prescription& p = add("dig by hand", std::move(text),
                          "It passes beneath the roots of " + names(bore.trees) + ".", kPractice);
    p.work = bore.work;
    if (bore.trees.size() == 1) p.tree = bore.trees.front();
    p.figures = {measured("bore", (bore.to - bore.from).metres(), "m")};
  }

  void of_no_dig(const NoDigArea& area) {
    Prescription& p = add(
        "no-dig",
        "Build " + work_name(area.work) + " on the ground as it lies over " +
            amount_.area(area_of(area.area)) +
            " of roots: no digging, no rolling, open stone held by a frame, a surface that lets "
            "air and water through.",
        "It lies in the ground of " + names(area.trees) + ".", kPractice);
    p.work = area.work;
    if (area.trees.size() == 1) p.tree = area.trees.front();
    p.figures = {measured("no-dig", area_of(area.area).square_metres(), "m2")};
  }

  void of_steps() {
    for (const Step& step : plan_.steps) {
      if (!step.hold) continue;
      add("hold point",
          "Step " + std::to_string(step.number) + ", hold: " + step.text +
              " Present: " + joined(step.attends, ", ") + ".",
          "Nothing goes on until there is in writing: " + step.record + ".", step.from);
    }
  }

  const ProtectionPlan& plan_;
  const Site& site_;
  const Tables& tables_;
  AmountText amount_;
  std::vector<Prescription> all_;
};

}  // namespace

std::vector<Prescription> prescriptions_of(const ProtectionPlan& plan, const Site& site,
                                           const Tables& tables, UnitSystem units) {
  return Sentences(plan, site, tables, units).write();
}

}  // namespace rootstead
