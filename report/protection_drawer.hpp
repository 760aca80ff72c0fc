// Draws the protection plan, piece by piece: what lies beneath and the trees, what stands and lies
// on the ground, where and how is dug. Private to the drawing of the protection plan.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "report/labels.hpp"
#include "report/protection_drawing.hpp"

namespace rootstead {

// Rows of the legend, in the order of reading.
enum class Rank { stems, fences, gates, ground, digging, clashes, trees, works, base };

inline const layout::TextStyle kTag{
    .points = layout::kSmallestType, .weight = layout::Weight::bold, .colour = layout::kInk};
inline const layout::TextStyle kPart{
    .points = layout::kSmallestType, .tabular = true, .colour = layout::kInk};

// A point well inside: the middle of the widest of some lines drawn across.
Point inner_point(const Polygon& polygon);
// Null where the area has no part.
const Polygon* largest_of(const MultiPolygon& area);

class ProtectionDrawer {
 public:
  ProtectionDrawer(layout::Pen& pen, const Plan& plan, const View& view,
                   const ProtectionParts& parts)
      : pen_(pen),
        site_(*plan.site),
        plan_(plan),
        protection_(*plan.advice->protection),
        view_(view),
        parts_(parts),
        words_(site_.settings.units) {}

  DrawnProtection draw();

 private:
  using Pen = layout::Pen;
  using Place = layout::Place;
  using Rect = layout::Rect;
  using Places = std::vector<Place>;

  // The legend and the labels.
  // `place`: among the rows of its rank.
  template <class Sample>
  void use(Rank rank, const std::string& key, const std::string& meaning, Sample sample,
           int place = 0) {
    rows_.try_emplace({place, key}, LegendRow{static_cast<int>(rank), key, meaning, sample});
  }
  void use_area(Rank rank, const std::string& key, const std::string& meaning,
                const AreaLook& look);
  void use_line(Rank rank, const std::string& key, const std::string& meaning,
                const AreaLook& look);
  void use_symbol(Rank rank, const Symbol& symbol);
  bool in_frame(Place at) const;
  void wish(const std::string& id, const std::string& text, const layout::TextStyle& style,
            Place at, double clearance, bool may_cover = false);
  void keep_free(Place at, double reach);

  // Areas and lines.
  bool seen(const Box& box) const;
  bool draw_area(const MultiPolygon& area, const AreaLook& look, const std::string& name);
  Places part_of(const Line& line, Length from, Length to) const;
  const Line* line_of(const std::string& work, std::size_t line) const;
  static Place middle_of_line(const Places& places);

  // What lies beneath: protection_drawing.cpp.
  void draw_base();
  void draw_barrier(const Barrier& barrier);
  void draw_crown(const TreeAssessment& assessed);
  void draw_work(const Work& work);
  void wish_work(const Work& work, const MultiPolygon& ground);

  // What stands and lies on the ground: protection_standing.cpp.
  void draw_enclosures();
  void draw_ground();
  void draw_way(const Way& way);
  void draw_fences();
  void draw_stretch(const Fence& fence, const FenceStretch& stretch);
  void draw_fence_gate(const FenceGate& gate);
  void draw_fence_sign(const Sign& sign);

  // Digging: protection_digging.cpp.
  void draw_digging();
  void draw_bores();
  void draw_pits(const std::string& id);
  void draw_stretch(const DigStretch& dig);
  void draw_cut(const RootCutLine& cut);
  std::string depth(Length depth, const std::string& work);

  // Trees, clashes, labels: protection_drawing.cpp.
  const StemGuard* guard_of(const Tree& tree) const;
  void draw_trees();
  static Action what_becomes_of(const Tree& tree, Action verdict);
  void draw_tree(const Tree& tree, Action action);
  void draw_clashes();
  void draw_labels();
  std::vector<std::size_t> place(const std::vector<layout::LabelWish>& wishes);

  Pen& pen_;
  const Site& site_;
  const Plan& plan_;
  const ProtectionPlan& protection_;
  const View& view_;
  const ProtectionParts& parts_;
  Wording words_;
  DrawnProtection drawn_;
  std::map<std::pair<int, std::string>, LegendRow> rows_;
  std::vector<layout::LabelWish> wishes_;
  std::vector<std::string> ids_;  // of the wishes; empty: not missed
  std::vector<Rect> taken_;
};

}  // namespace rootstead
