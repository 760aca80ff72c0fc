#include "serve/section_view.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/block.hpp"
#include "engine/site/diameter.hpp"
#include "serve/ground_json.hpp"
#include "serve/root_system_json.hpp"
#include "serve/section_roots.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

constexpr double kMostHalfWidth = 5, kMostLength = 5'000;  // m; our assumption
constexpr double kGroundStep = 0.5;                        // m, between heights
constexpr int kMostHeights = 500;

Error unfit(const std::string& message, const std::string& remedy) {
  return {Code::value_invalid, "the section", message, remedy};
}

std::string name_of(const Work& work) {
  return work.name.empty() || work.name == work.id ? work.id : work.id + " " + work.name;
}

// The longest of a work's lines: one section has one chainage.
Result<Line> line_along(const Snapshot& snapshot, const std::string& id, std::string& note) {
  ROOTSTEAD_TRY(const Work* work, snapshot.work(id));
  const Line* longest = nullptr;
  for (const Line& line : work->shape.lines)
    if (longest == nullptr || length_of(line) > length_of(*longest)) longest = &line;
  if (longest == nullptr || !(length_of(*longest) > Length()))
    return Error{Code::wrong_use, "work " + id, "it has no line to cut a section along",
                 "draw a line across it"};
  if (work->shape.lines.size() > 1)
    note = " " + name_of(*work) + " has several lines: the section goes along the longest.";
  return *longest;
}

class SectionDrawer {
 public:
  SectionDrawer(const Snapshot& snapshot, Line line, Length half_width)
      : snapshot_(snapshot), site_(snapshot.site), line_(std::move(line)), half_(half_width) {}

  Json view(const std::string& more) {
    Json line = Json::array();
    for (const Point& at : line_) line.push_back(to_json(at));
    Json roots = predicted();
    return {{"line", std::move(line)}, {"length_m", length_of(line_).metres()},
            {"ground", ground()},      {"pieces", pieces()},
            {"zones", zones()},        {"stems", stems()},
            {"predicted", roots},      {"found", found()},
            {"note", note() + more}};
  }

 private:
  // ---- the ground -------------------------------------------------------------------------------

  Json ground() const {
    Json list = Json::array();
    const PreparedLevels* existing = snapshot_.existing_levels();
    const PreparedLevels* proposed = snapshot_.proposed_levels();
    if (existing == nullptr && proposed == nullptr) return list;
    const double length = length_of(line_).metres();
    const int steps = std::clamp(int(std::ceil(length / kGroundStep)), 1, kMostHeights);
    for (int i = 0; i <= steps; ++i) {
      const double along = length * i / steps;
      list.push_back({{"along_m", along},
                      {"existing_m", height(existing, along)},
                      {"proposed_m", height(proposed, along)}});
    }
    return list;
  }

  Json height(const PreparedLevels* levels, double along) const {
    if (levels == nullptr) return nullptr;
    const auto height = levels->height_at(point_along(line_, along));
    return height ? Json(rounded(*height)) : Json(nullptr);
  }

  template <class Thing>
  void add_pieces(const Thing& thing, const char* sort, const Json& pipe, Json& list) const {
    for (const Block& block : blocks_of(thing))
      for (const auto& [from, to] : inside(line_, block.areas))
        list.push_back({{"id", thing.id},
                        {"name", thing.name},
                        {"kind", to_text(thing.kind)},
                        {"sort", sort},
                        {"from_m", from},
                        {"to_m", to},
                        {"top_m", block.top},
                        {"bottom_m", block.bottom},
                        {"pipe_m", block.pipe ? pipe : Json(nullptr)}});
  }

  Json pieces() const {
    Json list = Json::array();
    for (const Work& work : site_.works)
      add_pieces(work, "work", bore_diameter_of(work).metres(), list);
    for (const Barrier& barrier : site_.barriers) add_pieces(barrier, "barrier", nullptr, list);
    return list;
  }

  // ---- trees ------------------------------------------------------------------------------------

  double away(const Tree& tree) const {
    return distance_between(tree.position->at, line_).metres();
  }

  // How far a tree's zones and roots may reach.
  double reach(const Tree& tree) const {
    const TreeAssessment& assessed = snapshot_.assessed(tree);
    double reach = 0;
    for (const ZoneAssessment& zone : assessed.zones)
      reach = std::max(reach, zone.zone.reach.metres());
    if (assessed.estimate) reach = std::max(reach, assessed.estimate->extent_m.high);
    return reach;
  }

  std::vector<const Tree*> trees_in_reach() const {
    std::vector<const Tree*> trees;
    for (const Tree& tree : site_.trees)
      if (tree.position && away(tree) <= reach(tree) + half_.metres()) trees.push_back(&tree);
    return trees;
  }

  Json zones() const {
    Json list = Json::array();
    for (const Tree* tree : trees_in_reach()) {
      for (const ZoneAssessment& assessed : snapshot_.assessed(*tree).zones) {
        const Zone& zone = assessed.zone;
        const auto met = zone.outline ? inside(line_, *zone.outline)
                                      : inside(line_, Circle{zone.centre, zone.radius});
        for (const auto& [from, to] : met)
          list.push_back({{"tree", tree->id},
                          {"rule", zone.rule},
                          {"zone", zone.zone},
                          {"from_m", from},
                          {"to_m", to}});
      }
    }
    return list;
  }

  // Positive to the right of the line as it runs.
  double aside(const Point& at) const {
    const double along = nearest_chainage(line_, at);
    const double step = std::min(0.01, length_of(line_).metres() / 2);
    const Point a = point_along(line_, std::max(0.0, along - step));
    const Point b = point_along(line_, along + step);
    const double turn = (b.y - a.y) * (at.x - a.x) - (b.x - a.x) * (at.y - a.y);
    const double far = distance_between(at, line_).metres();
    return turn < 0 ? -far : far;
  }

  Json stems() const {
    Json list = Json::array();
    for (const Tree* tree : trees_in_reach()) {
      const Point& at = tree->position->at;
      const auto diameter = combined_diameter(*tree, {});
      list.push_back({{"tree", tree->id},
                      {"label", tree->label()},
                      {"along_m", nearest_chainage(line_, at)},
                      {"aside_m", aside(at)},
                      {"diameter_m", diameter ? Json(diameter->metres()) : Json(nullptr)}});
    }
    return list;
  }

  // ---- roots ------------------------------------------------------------------------------------

  Json predicted() {
    std::vector<const Tree*> trees = trees_in_reach();
    std::sort(trees.begin(), trees.end(),
              [&](const Tree* a, const Tree* b) { return away(*a) < away(*b); });
    left_out_ = trees.size() > kMostTreesGrown;
    trees.resize(std::min(trees.size(), kMostTreesGrown));
    Json list = Json::array();
    for (const Tree* tree : trees) {
      const auto grown = grown_roots(snapshot_, *tree, kMostPieces / trees.size());
      if (grown) add_roots(*tree, *grown, list);
    }
    return list;
  }

  void add_roots(const Tree& tree, const GrownRoots& grown, Json& list) const {
    for (const LaidRoot& root : laid_into(line_, half_, grown.system))
      list.push_back({{"tree", tree.id},
                      {"along_m", Json::array({rounded(root.along_from), rounded(root.along_to)})},
                      {"depth_m", Json::array({rounded(root.depth_from), rounded(root.depth_to)})},
                      {"thickness_m", rounded(root.thickness, 0.0001)},
                      {"severed", bool(grown.severed[root.piece])}});
  }

  // Those whose depth was not written down cannot be shown.
  Json found() const {
    Json list = Json::array();
    for (const Evidence& evidence : site_.evidence) {
      const MultiPolygon opening = footprint(evidence);
      for (const FoundRoot& root : evidence.roots) {
        if (!root.depth || (!root.at && opening.empty())) continue;
        const Point at = root.at ? *root.at : box_of(opening).centre();
        if (distance_between(at, line_) > half_) continue;
        list.push_back({{"tree", evidence.tree},
                        {"along_m", nearest_chainage(line_, at)},
                        {"depth_m", root.depth->length().metres()},
                        {"diameter_m", root.diameter.length().metres()},
                        {"alive", root.alive}});
      }
    }
    return list;
  }

  std::string note() const {
    const AmountText amounts{site_.settings.units};
    std::string note = "Predicted roots within " + amounts.length(half_) +
                       " of the line are of one likely root system of each tree, drawn by lot, "
                       "not a map: expose roots by hand or air before cutting.";
    if (left_out_)
      note += " Only those of the " + std::to_string(kMostTreesGrown) +
              " nearest trees are shown: choose a shorter line for the others.";
    return note;
  }

  const Snapshot& snapshot_;
  const Site& site_;
  const Line line_;
  const Length half_;
  bool left_out_ = false;
};

}  // namespace

Result<SectionAsked> section_asked(const Json& body) {
  SectionAsked asked;
  const bool work = body.contains("work"), line = body.contains("line");
  if (work == line) return unfit("it needs either a work or a line", "send one of the two");
  if (body.contains("half_width_m")) {
    const Json& width = body["half_width_m"];
    const bool fit =
        width.is_number() && width.get<double>() > 0 && width.get<double>() <= kMostHalfWidth;
    if (!fit) return unfit("its half width is not above 0 and up to 5 m", "send metres");
    asked.half_width = Length::metres(width.get<double>());
  }
  if (work) {
    if (!body["work"].is_string()) return unfit("its work is no text", "send the id of a work");
    asked.work = body["work"].get<std::string>();
    return asked;
  }
  ROOTSTEAD_TRY(const Shape shape, shape_from(Json{{"lines", Json::array({body["line"]})},
                                                   {"areas", Json::array()},
                                                   {"points", Json::array()}}));
  asked.line = shape.lines.front();
  const double length = length_of(asked.line).metres();
  if (!(length > 0) || length > kMostLength)
    return unfit("its line has no length, or more than 5 km", "draw another line");
  return asked;
}

Result<Json> section_view(const Snapshot& snapshot, const SectionAsked& asked) {
  std::string note;
  Line line = asked.line;
  if (!asked.work.empty()) {
    ROOTSTEAD_TRY(line, line_along(snapshot, asked.work, note));
  }
  return SectionDrawer(snapshot, std::move(line), asked.half_width).view(note);
}

}  // namespace rootstead::serve
