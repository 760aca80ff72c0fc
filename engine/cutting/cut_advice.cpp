#include "engine/cutting/cut_advice.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/base/words.hpp"
#include "engine/cutting/cut_words.hpp"
#include "engine/geom/measure.hpp"
#include "engine/losses/losses.hpp"
#include "engine/roots/root_model.hpp"

namespace rootstead {
namespace {

using Nearness = CutAdvice::Nearness;
constexpr auto kNearness = std::to_array<Word<Nearness>>({
    {Nearness::unknown, "not known"},
    {Nearness::clear, "clear"},
    {Nearness::nearer_than_preferred, "nearer than preferred"},
    {Nearness::nearer_than_least, "nearer than the least"},
    {Nearness::at_trunk, "at the trunk"},
});
constexpr double kSlack = 1e-9;  // m: a line drawn exactly at a distance keeps it

Figure plain_figure(std::string name, double value, std::string unit, std::string formula,
                    const Citation& from) {
  Figure figure;
  figure.name = "cutting." + std::move(name);
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = from;
  return figure;
}

const RootsMet* entry_of(const Work& work, const std::vector<RootsMet>& met) {
  const auto own = std::find_if(met.begin(), met.end(),
                                [&](const RootsMet& one) { return one.work == work.id; });
  return own == met.end() ? nullptr : &*own;
}

// Works out one advice, part by part.
class CutAdviser {
 public:
  CutAdviser(const Tree& tree, const Work& work, const Site& site, const Tables& tables)
      : tree_(tree), work_(work), site_(site), tables_(tables) {
    advice_.tree = tree.id;
    advice_.work = work.id;
  }

  CutAdvice advise(const std::vector<RootsMet>& met, const AnchorageKept* kept,
                   const CutStandard& standard) {
    choose(standard);
    advice_.distance = cut_distance(tree_, tables_);
    advice_.notes = advice_.distance.notes;
    depth();
    const RootsMet* own = entry_of(work_, met);
    where(reach(own));
    count(own, !met.empty());
    if (kept) advice_.anchorage_kept = kept->kept;
    figures();
    advice_.excavation = excavation_safety(dug_depth(), work_.id, site_.settings.units, tables_);
    for (const Figure& figure : advice_.excavation.figures) advice_.figures.push_back(figure);
    slope_note();
    const CutCase c{tree_, work_, site_.settings.units, tables_, advice_};
    if (advice_.cuts) {
      advice_.present = present_of(c);
      advice_.prescriptions = prescriptions_of(c);
    }
    return std::move(advice_);
  }

 private:
  void note(NoteCode code, std::string text) {
    advice_.notes.push_back(
        {code, "tree " + tree_.label() + ", work " + work_.id, std::move(text)});
  }

  void choose(const CutStandard& standard) {
    advice_.standard = standard;
    for (CutStandard& other : cut_standards(tables_))
      if (other.id != standard.id) advice_.others.push_back(std::move(other));
    const bool recalled =
        std::any_of(standard.rows.begin(), standard.rows.end(),
                    [](const CutRow& r) { return r.figure.from.status >= Status::memory; });
    if (recalled)
      note(NoteCode::cut_rule_from_memory,
           "what " + standard.id +
               " says of cutting roots is given from memory: check the edition in force");
  }

  void depth() {
    advice_.depth = severed_depth(work_);
    advice_.depth_assumed = !work_.depth;
    if (advice_.depth_assumed)
      note(NoteCode::cut_depth_assumed, "its depth is not entered; that of its kind is taken");
    if (const CutRow* row = advice_.standard.row(CutRule::depth))
      advice_.hand_depth = Length::metres(row->value);
  }
  // A root cut alone opens a narrow slot that nobody enters.
  Length dug_depth() const {
    return work_.kind == WorkKind::root_cut || !severs(work_) ? Length() : advice_.depth;
  }

  // How far from the stem roots are to be cut: as far as any are met, else as far as they likely
  // go.
  Length reach(const RootsMet* own) const {
    if (!tree_.position) return {};
    double furthest = 0;
    if (own)
      for (const FacePiece& piece : own->pieces)
        for (const Point& end : {piece.from, piece.to})
          furthest = std::max(furthest, distance(tree_.position->at, end).metres());
    constexpr double kBeyond = 0.01;  // m: so that the last piece's end is in
    if (furthest > 0) return Length::metres(furthest + kBeyond);
    const auto model = root_model(tree_, site_, tables_);
    // Where no model can be made, for want of a stem diameter: far enough to be careful.
    return model ? (*model)->likely_extent()
                 : Length::metres(tables_.parameter("cutting.unknown_reach").best);
  }

  void where(Length reach) {
    if (!tree_.position) {
      note(NoteCode::cut_nearness_unknown,
           "the tree has no position: how near the cut comes is not known");
      return;
    }
    const MultiPolygon ground = footprint(work_);
    if (ground.empty() || !severs(work_)) return;
    advice_.face = cut_face(tree_.position->at, ground, reach);
    const double away = advice_.face.nearest - advice_.distance.trunk_radius.metres();
    advice_.nearest = Length::metres(std::max(0.0, away));
    if (const auto diameter = advice_.distance.diameter)
      advice_.nearest_diameters = *advice_.nearest / *diameter;
    advice_.nearness = nearness();
  }

  Nearness nearness() const {
    const CutDistance& distance = advice_.distance;
    if (*advice_.nearest <= Length()) return Nearness::at_trunk;
    const Length near = *advice_.nearest + Length::metres(kSlack);
    if (!distance.least) return Nearness::unknown;
    if (near < *distance.least) return Nearness::nearer_than_least;
    if (distance.preferred && near < *distance.preferred) return Nearness::nearer_than_preferred;
    return Nearness::clear;
  }

  // `counted`: the root model was asked; a work it gives nothing for meets no roots.
  void count(const RootsMet* own, bool counted) {
    const bool comes_near = !advice_.face.lines.empty() || advice_.face.round_the_stem;
    if (!severs(work_)) return;
    if (!tree_.position) {
      advice_.cuts = true;
      return;
    }
    advice_.cuts = comes_near;
    if (advice_.distance.palm) return;
    if (own) advice_.expected = own->expected;
    if (counted) advice_.cuts = comes_near && own && !own->pieces.empty();
  }

  void figures() {
    const Citation geometry{"plane-geometry", "distance in plan", Status::published};
    for (const Figure& figure : advice_.distance.figures) advice_.figures.push_back(figure);
    if (advice_.nearest) {
      advice_.figures.push_back(
          plain_figure("nearest", advice_.nearest->metres(), "m",
                       "from the trunk face, the stem's radius in from its centre", geometry));
      if (advice_.nearest_diameters)
        advice_.figures.push_back(plain_figure("nearest-in-stem-diameters",
                                               *advice_.nearest_diameters, "", "distance over D",
                                               geometry));
    }
    if (advice_.cuts)
      advice_.figures.push_back(plain_figure(
          "depth", advice_.depth.metres(), "m",
          advice_.depth_assumed ? "assumed for its kind" : "as drawn",
          advice_.depth_assumed ? Citation{"rootstead", "default depth", Status::assumption}
                                : Citation{"survey", "as entered", Status::published}));
    roots_met_figures();
  }

  void roots_met_figures() {
    if (!advice_.expected) return;
    for (std::size_t i = 0; i < kSpokenThickness.size(); ++i) {
      const Range& n = (*advice_.expected)[i];
      Figure figure =
          plain_figure("roots-met-" + fixed_number(kSpokenThickness[i] * 1000, 0), n.best, "",
                       "mean number along the line, by the model of thick roots",
                       {"rootstead", "docs/methods/thick_roots.md", Status::assumption});
      figure.range = n;
      advice_.figures.push_back(std::move(figure));
    }
  }

  // A dig with sloped sides comes nearer to the tree than it is drawn.
  void slope_note() {
    if (!advice_.nearest || !advice_.excavation.protect || advice_.excavation.set_backs.empty())
      return;
    const AmountText text{site_.settings.units};
    const Length flattest = Length::metres(advice_.excavation.set_backs.back().value);
    const Length left = std::max(Length(), *advice_.nearest - flattest);
    note(NoteCode::slope_takes_roots, "sides sloped as for type C soil would bring its edge " +
                                          text.length(flattest) + " nearer: " + text.length(left) +
                                          " from the trunk");
  }

  const Tree& tree_;
  const Work& work_;
  const Site& site_;
  const Tables& tables_;
  CutAdvice advice_;
};

}  // namespace

CutAdvice cut_advice(const Tree& tree, const Work& work, const std::vector<RootsMet>& met,
                     const AnchorageKept* kept, const Site& site, const Tables& tables,
                     const CutStandard& standard) {
  return CutAdviser(tree, work, site, tables).advise(met, kept, standard);
}

bool may_cut(const Tree& tree, const Work& work, const std::vector<RootsMet>& met,
             const Tables& tables) {
  if (!severs(work)) return false;
  if (!tree.position || met.empty()) return true;
  if (roots_like_a_palm(tree, tables.species_of(tree.botanical_name))) return true;
  const RootsMet* own = entry_of(work, met);
  return own != nullptr && !own->pieces.empty();
}

std::string_view to_text(CutAdvice::Nearness nearness) {
  return word_for(kNearness, nearness);
}

}  // namespace rootstead
