// CutAdvice: how the roots of one tree are cut for one work, where they must be: where, how deep,
// how many are likely to be met, with what, who is there, and what is done with them afterwards.
// Stability is told beside it and never mixed in. Sources and limits: docs/methods/cutting.md.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/anchorage/anchorage.hpp"
#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/cutting/cut_distance.hpp"
#include "engine/cutting/cut_face.hpp"
#include "engine/cutting/cut_standard.hpp"
#include "engine/cutting/excavation.hpp"
#include "engine/roots/roots_met.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

struct CutAdvice {
  std::string tree, work;  // ids
  bool cuts = false;       // the work severs, and its ground comes within reach of the roots

  // where
  CutFace face;                   // the line to cut along; empty where it does not come near
  CutDistance distance;           // how near it may come
  std::optional<Length> nearest;  // from the trunk face
  std::optional<double> nearest_diameters;  // the same in stem diameters; never of a palm
  enum class Nearness { unknown, clear, nearer_than_preferred, nearer_than_least, at_trunk };
  Nearness nearness = Nearness::unknown;

  // how deep
  Length depth;  // of the cut
  bool depth_assumed = false;
  std::optional<Length> hand_depth;  // the standard's own, where it gives one

  // how many: roots at least 25, 50 and 100 mm thick; nothing where the model gives none (palms)
  std::optional<std::array<Range, kSpokenThickness.size()>> expected;

  std::optional<Range> anchorage_kept;  // stability, in the weakest direction: all works together
  CutStandard standard;                 // chosen
  std::vector<CutStandard> others;      // that speak of the same things: shown beside it
  ExcavationSafety excavation;
  std::vector<std::string> present;  // who must be there, each with the reason in brackets
  std::vector<Figure> figures;       // cutting.*
  // Topics "root cut", "dig by hand", "aftercare of roots", "excavation safety".
  std::vector<Prescription> prescriptions;
  std::vector<Note> notes;
};

// `met`: what the root model gives for this tree; entries of other works are passed over.
// `kept` may be null. Sentences are in the units of site.settings. A tree without a position gets
// what can be said without one, and a note. Never fails.
CutAdvice cut_advice(const Tree& tree, const Work& work, const std::vector<RootsMet>& met,
                     const AnchorageKept* kept, const Site& site, const Tables& tables,
                     const CutStandard& standard);

// False where CutAdvice::cuts is sure to be: the root model was asked, and the work meets no root
// of this tree. Quick, for sites where most works lie far from most trees.
bool may_cut(const Tree& tree, const Work& work, const std::vector<RootsMet>& met,
             const Tables& tables);

std::string_view to_text(CutAdvice::Nearness nearness);  // "clear", "nearer than preferred" ...

}  // namespace rootstead
