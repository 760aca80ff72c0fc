// What stands and lies on the ground of the protection plan: enclosures, ground protection, ways,
// fences with their gates and signs.
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "report/protection_drawer.hpp"

namespace rootstead {

using layout::kGrey;

namespace {

std::string meaning_of(LoadClass load) {
  switch (load) {
    case LoadClass::foot:
      return "Ground protection, people on foot";
    case LoadClass::light_plant:
      return "Ground protection, light plant";
    case LoadClass::heavy:
      return "Ground protection, heavy plant, to a design";
  }
  return {};
}

}  // namespace

void ProtectionDrawer::draw_enclosures() {
  for (const Enclosure& enclosure : protection_.enclosures) {
    if (!draw_area({enclosure.area}, look_of_enclosure(), "enclosure:" + enclosure.id)) continue;
    use_area(Rank::fences, "enclosure", "Enclosed ground: no machines, no storage",
             look_of_enclosure());
    wish(enclosure.id, enclosure.id, kTag, view_.place(inner_point(enclosure.area)), 0.4, true);
  }
}

void ProtectionDrawer::draw_ground() {
  for (const CoveredGround& cover : protection_.covers) {
    const AreaLook look = look_of_cover(cover.load);
    if (!draw_area(cover.area, look, "cover:" + cover.id)) continue;
    use_area(Rank::ground, "cover:" + std::string(to_text(cover.load)), meaning_of(cover.load),
             look);
    if (const Polygon* polygon = largest_of(cover.area))
      wish(cover.id, cover.id, kPart, view_.place(inner_point(*polygon)), 0.4, true);
  }
  for (const Way& way : protection_.ways) draw_way(way);
}

void ProtectionDrawer::draw_way(const Way& way) {
  if (way.line.size() < 2) return;
  draw_area(corridor(way.line, way.width / 2), look_of_way(), "way:" + way.id);
  const Places places = view_.places(way.line);
  draw_way_arrow(pen_, places, "way:" + way.id);
  use(Rank::ground, "way", "Way left open for machines", [](Pen& pen, const Rect& box) {
    pen.rect(box, look_of_way().stroke, {}, "legend:way");
    draw_way_arrow(pen, {{box.x, box.centre().y}, {box.right(), box.centre().y}}, "legend:way");
  });
  wish(way.id, way.id + " " + words_.length(way.width), kPart, middle_of_line(places), 1.4);
}

void ProtectionDrawer::draw_fences() {
  for (const Fence& fence : protection_.fences) {
    if (fence.line.size() < 2 || !seen(box_of(fence.line))) continue;
    const Places places = view_.places(fence.line);
    for (const FenceStretch& stretch : fence.stretches) draw_stretch(fence, stretch);
    if (!parts_.standing) continue;
    for (const FencePost& post : fence.posts) {
      const Place at = view_.place(post.at);
      draw_post(pen_, at, heading_at(places, at), post.footing, "post:" + fence.id);
    }
    wish(fence.id, fence.id + " " + words_.length(length_of(fence)), kPart, middle_of_line(places),
         0.9);
  }
  if (!parts_.standing) return;
  for (const FenceGate& gate : protection_.gates) draw_fence_gate(gate);
  for (const Sign& sign : protection_.signs) draw_fence_sign(sign);
}

void ProtectionDrawer::draw_stretch(const Fence& fence, const FenceStretch& stretch) {
  const Places places = part_of(fence.line, stretch.from, stretch.to);
  if (places.size() < 2) return;
  if (!parts_.standing) {  // where it stands is told, how it stands is on the other sheet
    pen_.polyline(places, {0.35, kGrey, {}}, "fence:" + fence.id);
    use(Rank::fences, "fence", "Fence, see the sheet of fences", [](Pen& pen, const Rect& box) {
      const double y = box.centre().y;
      pen.line({box.x, y}, {box.right(), y}, {0.35, kGrey, {}}, "legend:fence");
    });
    return;
  }
  const Footing footing = stretch.footing;
  draw_fence_line(pen_, places, footing, "fence:" + fence.id);
  const bool driven = footing == Footing::driven;
  use(Rank::fences, driven ? "fence-driven" : "fence-ballasted",
      driven ? "Fence on driven posts" : "Fence on ballasted feet: nothing driven",
      [footing](Pen& pen, const Rect& box) {
        const double y = box.centre().y;
        draw_fence_line(pen, {{box.x, y}, {box.right(), y}}, footing, "legend:fence");
        for (const double at : {2.0, box.w / 2, box.w - 2})
          draw_post(pen, {box.x + at, y}, {}, footing, "legend:fence");
      });
}

void ProtectionDrawer::draw_fence_gate(const FenceGate& gate) {
  const Place at = view_.place(gate.at);
  Heading along;
  for (const Fence& fence : protection_.fences) {
    if (fence.id == gate.fence) along = heading_at(view_.places(fence.line), at);
  }
  const GateUse of = gate.use;
  draw_gate(pen_, at, along, view_.millimetres(gate.width), of, "gate:" + gate.id);
  const bool people = of == GateUse::people;
  use(Rank::gates, people ? "gate-people" : "gate-machines",
      people ? "Gate for people" : "Gate for machines", [of](Pen& pen, const Rect& box) {
        const Place middle{box.centre().x, box.y + 0.8};
        draw_fence_line(pen, {{box.x, middle.y}, {box.right(), middle.y}}, Footing::driven,
                        "legend:gate");
        draw_gate(pen, middle, {}, of == GateUse::people ? 2.6 : 5, of, "legend:gate");
      });
  keep_free(at, kGateReach);
  wish(gate.id, gate.id + " " + words_.length(gate.width), kPart, at, kGateReach);
}

void ProtectionDrawer::draw_fence_sign(const Sign& sign) {
  const Place at = view_.place(sign.at);
  draw_sign(pen_, at, "sign:" + sign.fence);
  keep_free(at, kSignReach);
  use(Rank::gates, "sign", "Sign on the fence",
      [](Pen& pen, const Rect& box) { draw_sign(pen, box.centre(), "legend:sign"); });
}

}  // namespace rootstead
