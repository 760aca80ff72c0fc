// What is said of the anchorage: its figures with their trail, and the notes.
#include "engine/anchorage/inspection.hpp"
#include "engine/anchorage/standing.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

std::string number(double value) {
  return shortest_number(value);
}

std::string band_words(const Range& band) {
  return fixed_number(band.best, 3) + " (" + fixed_number(band.low, 3) + " to " +
         fixed_number(band.high, 3) + ")";
}

// A figure beside anchorage.kept, with its inputs.
Figure beside(const Figure& kept, std::string name, double value, std::string unit,
              std::string formula) {
  Figure figure = kept;
  figure.name = std::move(name);
  figure.value = value;
  figure.unit = std::move(unit);
  figure.range.reset();
  figure.formula = std::move(formula);
  return figure;
}

Figure ranged(Figure figure, const Range& range) {
  figure.range = range;
  return figure;
}

void add_parts(const AnchorageKept& a, std::vector<Figure>& figures) {
  const struct {
    const char* name;
    double left, weight;
    const char* formula;
  } parts[] = {
      {"tension", a.parts.tension, a.shares.tension,
       "KT = sum over roots of max(0, c0 + cos) times what each still holds, over the uncut sum"},
      {"central", a.parts.central, a.shares.central,
       "KC = 1 less the share of roots above the depth dug under the stem"},
      {"plate", a.parts.plate, a.shares.plate,
       "KP = moment of the ground still tied to the tree about the tilting axis, over the uncut "
       "moment"},
      {"hinge", a.parts.hinge, a.shares.hinge,
       "KH = sum over lee roots of cos^2 times what each still holds, over the uncut sum"}};
  for (const auto& part : parts) {
    Figure figure = beside(a.figure, std::string("anchorage.component.") + part.name, part.left, "",
                           part.formula);
    figure.inputs.insert(
        figure.inputs.begin(),
        {{"f", "weight of this part in the anchorage kept", number(part.weight)},
         {"wind from", "the weakest direction", fixed_number(a.worst_from.degrees(), 0) + " deg"}});
    figures.push_back(std::move(figure));
  }
}

void add_directions(const AnchorageKept& a, std::vector<Figure>& figures) {
  std::string all;
  for (const Range& band : a.band) all += (all.empty() ? "" : "; ") + band_words(band);
  figures.push_back(beside(a.figure, "anchorage.weakest-wind-from", a.worst_from.degrees(), "deg",
                           "azimuth from which wind finds the least anchorage kept"));
  figures.back().inputs.push_back({"k", "for wind from 0, 10, ... 350 deg", all});
}

}  // namespace

Figure kept_figure(const AnchorageKept& kept, const Standing& standing, const CutFacts& facts) {
  const AnchorageShares& shares = kept.shares;
  Figure figure;
  figure.name = "anchorage.kept";
  figure.value = kept.kept.best;
  figure.range = kept.kept;
  figure.inputs = {
      {"D", standing.palm ? "trunk diameter" : "stem diameter, all stems together",
       fixed_number(standing.diameter.millimetres(), 0) + " mm"},
      {"type", "root architecture",
       standing.palm ? "palm" : std::string(class_word(standing.architecture))},
      {"fT, fC, fP, fH",
       "shares of windward tension, roots under the bole, plate and soil, lee hinge",
       number(shares.tension) + ", " + number(shares.central) + ", " + number(shares.plate) + ", " +
           number(shares.hinge)},
      {"u0, u0H", "length at which a severed root still holds 63 %, windward and lee",
       number(shares.u0) + ", " + number(shares.u0_hinge) + (standing.palm ? " x 0.30 m" : " x D")},
      {"n", "nearest cut from the trunk face",
       facts.nearest ? fixed_number(*facts.nearest, 2) + " m" : "none"},
      {"roots", "round the stem",
       kept.measured_roots > 0 ? std::to_string(kept.measured_roots) + " measured" : "even"}};
  if (shares.deepest)
    figure.inputs.push_back({"d_max", "depth of rock, pan or water: no root below",
                             fixed_number(shares.deepest->metres(), 2) + " m"});
  figure.formula =
      "k = fT KT + fC KC + fP KP + fH KH for each wind direction; a root cut at u holds "
      "1 - exp(-(u / u0)^1.5); the least k of 36 directions is shown";
  if (kept.before.best < 1) figure.formula += "; over the k that walls and kerbs alone leave";
  figure.from = {"smiley-2008", "calibrated on the published force losses", Status::assumption};
  return figure;
}

std::vector<Figure> figures_of(const AnchorageKept& a) {
  std::vector<Figure> figures = {a.figure};
  add_directions(a, figures);
  figures.push_back(ranged(
      beside(a.figure, "anchorage.before", a.before.best, "",
             "the same k with walls, kerbs, foundations and earlier cuts only, over a tree that "
             "nothing restricts"),
      a.before));
  figures.push_back(ranged(beside(a.figure, "anchorage.after", a.after.best, "",
                                  "the same k with the new cuts too, over a tree that nothing "
                                  "restricts"),
                           a.after));
  add_parts(a, figures);
  figures.push_back(beside(a.figure, "anchorage.circumference-cut", a.circumference_cut, "",
                           "share of the circle round the stem that meets a cut within 3 D"));
  figures.push_back(beside(a.figure, "anchorage.root-area-cut", a.area_cut, "",
                           "share of structural root cross-section severed within 3 D"));
  if (a.nearest_cut)
    figures.push_back(beside(a.figure, "anchorage.nearest-cut", a.nearest_cut->metres(), "m",
                             "distance of the nearest cut from the trunk face"));
  if (a.safety) figures.insert(figures.end(), a.safety->figures.begin(), a.safety->figures.end());
  return figures;
}

std::vector<Note> notes_of(const AnchorageKept& kept, const Standing& standing) {
  std::vector<Note> notes;
  const std::string& subject = standing.tree.label();
  if (standing.palm)
    notes.push_back({NoteCode::palm_model, subject,
                     "no pull test of a cut palm was found: distances count from the trunk, and "
                     "the band is wide"});
  if (!standing.diameter_known)
    notes.push_back({NoteCode::diameter_missing, subject,
                     "no trunk diameter is recorded: a trunk of " +
                         fixed_number(standing.diameter.metres(), 2) + " m is assumed"});
  if (!standing.palm && standing.shallow_soil)
    notes.push_back({NoteCode::architecture_assumed, subject,
                     "the rootable soil is less than 0.6 m deep: a shallow root plate is assumed"});
  else if (!standing.palm && !standing.architecture_known)
    notes.push_back({NoteCode::architecture_assumed, subject,
                     "the root architecture of this species is not in the tables: heart roots are "
                     "assumed, plate and tap roots bound the band"});
  if (kept.outside_tests)
    notes.push_back({NoteCode::diameter_outside_tests, subject,
                     standing.palm ? "a cut within 0.30 m of a palm is outside the model"
                                   : "no tree of this thickness was ever tested: the figure is "
                                     "an extrapolation"});
  if (!kept.reasons_to_inspect.empty())
    notes.push_back({NoteCode::anchorage_override, subject,
                     "a qualified person must look whatever the figure says"});
  if (kept.safety) notes.insert(notes.end(), kept.safety->notes.begin(), kept.safety->notes.end());
  if (kept.no_safety)
    notes.push_back({NoteCode::no_safety, subject,
                     "no safety against wind is given: " + kept.no_safety->message + "; " +
                         kept.no_safety->remedy});
  return notes;
}

}  // namespace rootstead
