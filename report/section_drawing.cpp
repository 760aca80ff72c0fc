#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/text.hpp"
#include "report/labels.hpp"
#include "report/plan_drawing.hpp"
#include "report/section.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::coloured;
using layout::Hatch;
using layout::kGrey;
using layout::kInk;
using layout::kQuiet;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::TextStyle;

namespace {

const TextStyle kText{.points = layout::kSmallestType, .tabular = true, .colour = kInk};
constexpr double kZoneLevel = 4.8;  // mm between the zones' measures
constexpr double kLabelBand = 11;   // mm above the ground for names and the stem
constexpr double kFoot = 17;        // mm for the bar and the five lines under it
constexpr double kLeft = 11;        // mm for depths at the left
constexpr int kDots = 900;
constexpr double kDotRadius = 0.2;
constexpr double kThinnestRoot = 0.12, kSeveredRoot = 0.25;  // mm
constexpr double kLeastFound = 0.45;                         // mm, radius of a found root
constexpr double kFlareOfStem = 0.45;  // how far a flare spreads, of the stem's diameter (drawn)

class SectionDrawer {
 public:
  SectionDrawer(Pen& pen, const Rect& box, const Plan& plan, const TreeAssessment& assessed,
                const Section& section)
      : pen_(pen),
        plan_(plan),
        s_(section),
        words_(plan.site->settings.units),
        zones_(main_zones(assessed)),
        scale_(section_scale(section, box.w, words_.units())),
        box_(box) {
    ground_ = box.y + kZoneLevel * double(zones_.size()) + kLabelBand;
    left_ = box.x + kLeft;
    right_ = left_ + (s_.back + s_.ahead) * 1000 / scale_;
  }

  void draw(const Tree& tree) {
    draw_depths();
    draw_dots(tree);
    draw_roots(tree);
    for (const Section::Piece& piece : s_.pieces) draw_piece(piece);
    draw_found(tree);
    draw_ground();
    draw_stem(tree);
    draw_zones();
    draw_names(tree);
    draw_foot();
  }

 private:
  double x(double along) const { return left_ + (s_.back + along) * 1000 / scale_; }
  double y(double depth) const { return ground_ + depth * 1000 / scale_; }
  double mm(double metres) const { return metres * 1000 / scale_; }

  void draw_depths() {
    const double unit = words_.us() ? 0.3048 : 1, step = (words_.us() ? 1 : 0.5) * unit;
    const int every = mm(step) < 3.5 ? 2 : 1;
    for (int i = 0; i * step <= s_.deepest + 1e-9; i += every) {
      const double at = y(i * step);
      pen_.line({left_ - 1.5, at}, {i == 0 ? left_ : right_, at},
                i == 0 ? layout::kThin : layout::Stroke{0.1, layout::kHair, {0.5, 0.8}}, "depth");
      const double h = pen_.measure("0", kText).h;
      pen_.text({left_ - 2.2, at - h / 2},
                fixed_number(i * step / unit, words_.us() ? 0 : 1) + (words_.us() ? " ft" : " m"),
                coloured(aligned(kText, Align::right), kGrey), "depth-label");
    }
  }

  void draw_dots(const Tree& tree) {
    const Rect below{left_, ground_, right_ - left_, mm(s_.deepest)};
    pen_.clipped(below, [&] {
      for (const RootDot& dot : root_dots(plan_, tree, s_, kDots)) {
        pen_.disc({x(dot.along), y(dot.depth)}, kDotRadius, layout::kNoStroke,
                  {Hatch::solid, kGrey}, "root-dot");
        has_dots_ = true;
      }
    });
  }

  // One likely root system, thickness to scale; dashed where a new cut lies between root and stem.
  void draw_roots(const Tree& tree) {
    const Rect below{left_, ground_, right_ - left_, mm(s_.deepest)};
    pen_.clipped(below, [&] {
      for (const SectionRoot& root : section_roots(plan_, tree, s_)) {
        const double width = std::max(mm(root.thickness), kThinnestRoot);
        const layout::Stroke whole{width, kInk};
        const layout::Stroke severed{std::min(width, kSeveredRoot), kGrey, {0.8, 0.6}};
        pen_.line({x(root.from.along), y(root.from.depth)}, {x(root.to.along), y(root.to.depth)},
                  root.severed ? severed : whole, root.severed ? "severed-root" : "root");
        has_roots_ = true;
      }
    });
  }

  // Roots that were seen, as they lie across the plane; a stroke through those that were dead.
  void draw_found(const Tree& tree) {
    for (const FoundInSection& root : found_roots(plan_, tree, s_)) {
      const Place middle{x(root.middle.along), y(root.middle.depth)};
      const double radius = std::max(mm(root.thickness) / 2, kLeastFound);
      pen_.disc(middle, radius, {0.3, kInk}, layout::kWhiteFill, "found-root");
      if (!root.alive)
        pen_.line({middle.x - radius, middle.y + radius}, {middle.x + radius, middle.y - radius},
                  {0.25, kInk}, "found-root-dead");
      has_found_ = true;
    }
  }

  void draw_piece(const Section::Piece& piece) {
    const Symbol symbol =
        piece.work != nullptr ? symbol_of(*piece.work) : symbol_of(*piece.barrier);
    const double bottom = std::min(piece.bottom, s_.deepest);
    const Rect box{x(std::max(piece.from, -s_.back)), y(piece.top),
                   mm(std::min(piece.to, s_.ahead) - std::max(piece.from, -s_.back)),
                   mm(bottom - piece.top)};
    // The ground that is taken is shown empty, its roots gone, with the pattern of the plan.
    pen_.rect(box, layout::kNoStroke, layout::kWhiteFill, "void");
    layout::Fill fill = symbol.fill;
    if (fill.hatch == Hatch::none) fill = {};
    pen_.rect(box, {std::min(symbol.stroke.width, 0.35), symbol.stroke.colour}, fill,
              "symbol:" + symbol.key);
  }

  void draw_ground() {
    const layout::Stroke line{0.5, kInk};
    std::vector<std::pair<double, double>> gaps;
    for (const Section::Piece& piece : s_.pieces) {
      const bool open = piece.work != nullptr && piece.top == 0 &&
                        (piece.work->kind == WorkKind::trench ||
                         piece.work->kind == WorkKind::pit || piece.work->kind == WorkKind::cut);
      if (open) gaps.push_back({piece.from, piece.to});
    }
    std::sort(gaps.begin(), gaps.end());
    double at = -s_.back;
    for (const auto& [from, to] : gaps) {
      if (from > at) pen_.line({x(at), ground_}, {x(from), ground_}, line, "ground");
      at = std::max(at, to);
    }
    if (at < s_.ahead) pen_.line({x(at), ground_}, {right_, ground_}, line, "ground");
  }

  void draw_stem(const Tree& tree) {
    const double d = std::max(mm(drawn_diameter(tree).metres()), 0.6), half = d / 2;
    const double buried = tree.flare.buried_by ? mm(tree.flare.buried_by->length().metres()) : 0;
    const double foot = ground_ + std::min(buried, mm(s_.deepest)), c = x(0);
    const double spread = tree.is_monocot() ? half : half + kFlareOfStem * d;
    const double top = ground_ - stem_height(), shoulder = foot - std::min(d * 0.8, stem_height());
    const Place lower_left{c - spread, foot}, lower_right{c + spread, foot};
    const std::vector<Place> outline{
        {c - half, top},
        {c - half, shoulder},
        {c - half - (spread - half) * 0.3, foot - (foot - shoulder) * 0.3},
        lower_left,
        lower_right,
        {c + half + (spread - half) * 0.3, foot - (foot - shoulder) * 0.3},
        {c + half, shoulder},
        {c + half, top}};
    pen_.shape({outline}, layout::kNoStroke, layout::kPaleFill, "stem");
    pen_.polyline(outline, {0.3, kInk}, "stem");  // open above: the stem goes on
    pen_.line({c, top - 1}, {c, foot}, {0.12, kInk, {1.2, 0.5, 0.2, 0.5}}, "stem-axis");
  }

  static double stem_height() { return kLabelBand - 2; }

  void draw_zones() {
    double level = box_.y + 0.5;
    for (const Zone* zone : zones_) {
      const Symbol symbol = symbol_of(zone->purpose);
      const double r = std::min(zone->radius.metres(), s_.ahead);
      const double line = level + 3.2;
      pen_.line({x(0), line}, {x(r), line},
                {symbol.stroke.width, symbol.stroke.colour, symbol.stroke.dash}, "section-zone");
      for (const double end : {x(0), x(r)})
        pen_.line({end, line - 0.9}, {end, line + 0.9}, {0.2, kInk}, "section-zone");
      pen_.line({x(r), line}, {x(r), ground_}, {0.1, kQuiet, {0.6, 0.6}}, "section-zone");
      const std::string text =
          zone->name + " " + words_.length(zone->radius) + mark(zone->figure.from.status);
      // Over its line where that is long enough, else beside its end.
      const bool over = pen_.measure(text, kText).w + 2 < x(r) - x(0);
      const Place at = over ? Place{x(0) + 1, level - 0.1} : Place{x(r) + 1.2, line - 1.4};
      pen_.text(at, pen_.shortened(text, kText, box_.right() - at.x), kText);
      level += kZoneLevel;
    }
  }

  void draw_names(const Tree& tree) {
    std::vector<LabelWish> wishes;
    for (const Section::Piece& piece : s_.pieces) {
      const double from = std::max(piece.from, -s_.back), to = std::min(piece.to, s_.ahead);
      if (to <= from) continue;
      const std::string name =
          piece.work != nullptr
              ? (piece.work->name.empty() ? piece.work->id : piece.work->name)
              : (piece.barrier->name.empty() ? piece.barrier->id : piece.barrier->name);
      const double size = piece.bottom > 0 ? piece.bottom : -piece.top;
      std::string text = name;
      if (piece.work == nullptr || piece.work->kind != WorkKind::traffic)
        text += " " + words_.length(Length::metres(size), 2);
      wishes.push_back({pen_.shortened(text, kText, 48),
                        kText,
                        {x((from + to) / 2), std::min(ground_, y(piece.top))},
                        0.4,
                        false,
                        "name"});
    }
    const double d = mm(drawn_diameter(tree).metres());
    const Rect stem{x(0) - d, ground_ - stem_height() - 1.2, 2 * d, stem_height() + 1.2};
    const Rect band{left_, ground_ - kLabelBand + 0.4, right_ - left_, kLabelBand - 1};
    for (const auto& label : layout::place_labels(wishes, {stem}, band, pen_.meter())) {
      layout::draw_label(pen_, label, wishes[label.wish], {0.14, kInk}, 0);
    }
  }

  void draw_foot() {
    const double top = y(s_.deepest) + 2.5;
    const Rect bar = draw_scale_bar(pen_, {left_, top}, 40, scale_, words_.units());
    std::string text = "Scale " + words_.scale(scale_) + " both ways; the section runs at " +
                       degrees(s_.towards) + " from the stem, line A–A on the plan.";
    if (has_dots_) {
      text +=
          " Dots: equal shares of the absorbing roots predicted in this plane before the works" +
          mark(Status::assumption) + ".";
    } else {
      text += " No root estimate can be drawn.";
    }
    if (has_roots_)
      text += " Roots: one likely system drawn by lot, within " +
              words_.length(Length::metres(kSlab), 1) +
              " of the plane, no survey; dashed where a cut parts them from the tree.";
    if (has_found_)
      text += " Circles: roots found in openings, thickness to scale, struck through where dead.";
    const double from = bar.right() + 5;
    pen_.block({from, top}, box_.right() - from, text, layout::kCaption, "section-note");
  }

  Pen& pen_;
  const Plan& plan_;
  const Section& s_;
  Wording words_;
  std::vector<const Zone*> zones_;
  int scale_;
  Rect box_;
  double ground_ = 0, left_ = 0, right_ = 0;
  bool has_dots_ = false, has_roots_ = false, has_found_ = false;
};

constexpr std::array<int, 9> kMetricScales{20, 25, 50, 75, 100, 150, 200, 250, 500};
constexpr std::array<int, 8> kUsScales{24, 36, 48, 60, 96, 120, 240, 480};
constexpr double kTallest = 60;  // mm below ground

}  // namespace

int section_scale(const Section& section, double width, UnitSystem units) {
  const auto good = [&](int scale) {
    return (section.back + section.ahead) * 1000 / scale <= width - kLeft - 2 &&
           section.deepest * 1000 / scale <= kTallest;
  };
  const auto pick = [&](const auto& scales) {
    const auto at = std::find_if(scales.begin(), scales.end(), good);
    return at == scales.end() ? scales.back() * 4 : *at;
  };
  return units == UnitSystem::metric ? pick(kMetricScales) : pick(kUsScales);
}

double section_height(const Section& section, double width, const TreeAssessment& tree,
                      UnitSystem units) {
  return kZoneLevel * double(main_zones(tree).size()) + kLabelBand +
         section.deepest * 1000 / section_scale(section, width, units) + kFoot;
}

void draw_section(Pen& pen, const Rect& box, const Plan& plan, const TreeAssessment& assessed,
                  const Section& section) {
  const Tree* tree = tree_of(plan, assessed);
  if (tree != nullptr) SectionDrawer(pen, box, plan, assessed, section).draw(*tree);
}

}  // namespace rootstead
