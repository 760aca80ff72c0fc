// Where and how is dug, on the protection plan: no-dig areas, bores and their pits, stretches, root
// cuts.
#include "engine/geom/measure.hpp"
#include "report/protection_drawer.hpp"

namespace rootstead {

void ProtectionDrawer::draw_digging() {
  for (const NoDigArea& area : protection_.no_dig) {
    if (!draw_area(area.area, look_of_no_dig(), "no-dig:" + area.work)) continue;
    use_area(Rank::digging, "no-dig", "No digging: built on the ground as it lies",
             look_of_no_dig());
    if (const Polygon* polygon = largest_of(area.area))
      wish(area.work, area.work + " no dig", kPart, view_.place(inner_point(*polygon)), 0.4, true);
  }
  draw_bores();
  for (const DigStretch& dig : protection_.digs) draw_stretch(dig);
  for (const RootCutLine& cut : protection_.root_cuts) draw_cut(cut);
}

void ProtectionDrawer::draw_bores() {
  for (const BorePassage& bore : protection_.bores) {
    const Line* line = line_of(bore.work, bore.line);
    if (line == nullptr) continue;
    const Places places = part_of(*line, bore.from, bore.to);
    if (places.size() < 2) continue;
    draw_bore(pen_, places, "bore:" + bore.work);
    use(Rank::digging, "bore", "Bore beneath the ground of kept trees",
        [](Pen& pen, const Rect& box) {
          draw_bore(pen, {{box.x, box.centre().y}, {box.right(), box.centre().y}}, "legend:bore");
        });
    wish(bore.work,
         bore.work + " bore " + chainages(words_, bore.from, bore.to) + ", " +
             depth(bore.crown_depth, bore.work) + " deep",
         kPart, middle_of_line(places), 0.8);
    draw_pits(bore.work);
  }
}

void ProtectionDrawer::draw_pits(const std::string& id) {
  const Work* work = site_.work(id);
  if (work == nullptr || work->bore_pits.empty()) return;
  if (draw_area(work->bore_pits, look_of_pit(), "bore-pit:" + id))
    use_area(Rank::digging, "bore-pit", "Pit of a bore", look_of_pit());
}

void ProtectionDrawer::draw_stretch(const DigStretch& dig) {
  const Line* line = line_of(dig.work, dig.line);
  if (line == nullptr) return;
  const Places places = part_of(*line, dig.from, dig.to);
  if (places.size() < 2) return;
  const DigMethod method = dig.method == DigMethod::air ? DigMethod::air : DigMethod::hand;
  draw_dig(pen_, places, method, "dig:" + dig.id);
  const bool air = method == DigMethod::air;
  use(Rank::digging, air ? "dig-air" : "dig-hand",
      air ? "Dig with air only, from tick to tick" : "Dig by hand only, from tick to tick",
      [method](Pen& pen, const Rect& box) {
        const double y = box.centre().y;
        draw_dig(pen, {{box.x, y}, {box.right(), y}}, method, "legend:dig");
      });
  wish(dig.id,
       dig.id + " " + chainages(words_, dig.from, dig.to) + ", " + std::string(to_text(method)),
       kPart, middle_of_line(places), 1);
}

void ProtectionDrawer::draw_cut(const RootCutLine& cut) {
  const Places places = view_.places(cut.line);
  if (places.size() < 2 || !seen(box_of(cut.line))) return;
  draw_root_cut(pen_, places, "root-cut:" + cut.id);
  use(Rank::digging, "root-cut", "Root-cut line: open by hand or air, cut cleanly",
      [](Pen& pen, const Rect& box) {
        const double y = box.centre().y;
        draw_root_cut(pen, {{box.x, y}, {box.right(), y}}, "legend:root-cut");
      });
  wish(cut.id, cut.id + " " + depth(cut.depth, cut.work) + " deep", kPart, middle_of_line(places),
       1);
}

std::string ProtectionDrawer::depth(Length depth, const std::string& work) {
  const Work* found = site_.work(work);
  drawn_.assumed_depth |= found != nullptr && !found->depth;
  return depth_text(words_, depth, found);
}

}  // namespace rootstead
