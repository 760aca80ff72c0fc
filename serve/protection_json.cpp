#include "serve/protection_json.hpp"

#include <cctype>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/geom/along.hpp"
#include "engine/protection/protection_plan.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

// Is it there as a word of its own: "F1", but not in "F12"?
bool names(const std::string& text, const std::string& id) {
  for (std::size_t at = text.find(id); at != std::string::npos; at = text.find(id, at + 1)) {
    const std::size_t end = at + id.size();
    const auto in_word = [&](std::size_t i) {
      return i < text.size() && std::isalnum(static_cast<unsigned char>(text[i])) != 0;
    };
    if ((at == 0 || !in_word(at - 1)) && !in_word(end)) return true;
  }
  return false;
}

class Told {
 public:
  Told(const ProtectionPlan& plan, const Snapshot& snapshot)
      : plan_(plan), site_(snapshot.site), tables_(snapshot.tables), version_(snapshot.version) {}

  Json json() const {
    return {{"version", version_},      {"fences", fences()},   {"grounds", grounds()},
            {"cut_lines", cut_lines()}, {"digging", digging()}, {"gates", gates()},
            {"guards", guards()},       {"signs", signs()},     {"clashes", clashes()}};
  }

 private:
  // The plan's sentences of one part, with their reasons.
  std::string told(std::string_view topic, const std::string& id) const {
    std::vector<std::string> texts;
    for (const Prescription& one : plan_.prescriptions)
      if (one.topic == topic && names(one.text, id))
        texts.push_back(one.text + (one.reason.empty() ? "" : " " + one.reason));
    return joined(texts, " ");
  }

  // No step of the works by itself, so the plan has no sentence for it.
  std::string mulch_text() const {
    const Parameter& depth = tables_.parameter("protection.mulch_depth");
    const Parameter& clear = tables_.parameter("protection.mulch_clear_of_stem");
    const AmountText amount{site_.settings.units};
    return "Mulch the bare ground inside the fences " +
           amount.small_length(Length::metres(depth.best)) + " deep, " +
           amount.small_length(Length::metres(clear.best)) + " clear of the bark (" +
           cited(depth.from) + ").";
  }

  std::string told_of_work(std::string_view topic, const std::string& work,
                           std::string_view begins = {}) const {
    std::vector<std::string> texts;
    for (const Prescription& one : plan_.prescriptions)
      if (one.topic == topic && one.work == work && one.text.starts_with(begins))
        texts.push_back(one.text + (one.reason.empty() ? "" : " " + one.reason));
    return joined(texts, " ");
  }

  std::string name_of(const std::string& id) const {
    const Work* work = site_.work(id);
    return work == nullptr || work->name.empty() ? id : work->name;
  }

  static Json drawn(const std::string& id, const std::string& name, const Line& line,
                    const std::string& text) {
    return {{"id", id}, {"name", name}, {"line", to_json(line)}, {"text", text}};
  }

  Json fences() const {
    Json list = Json::array();
    for (const Fence& fence : plan_.fences)
      list.push_back(drawn(fence.id, "Fence " + fence.id, fence.line, told("fence", fence.id)));
    return list;
  }

  static void add_ground(const std::string& id, const std::string& name, const std::string& kind,
                         const MultiPolygon& area, const std::string& text, Json& list) {
    list.push_back(
        {{"id", id}, {"name", name}, {"kind", kind}, {"areas", to_json(area)}, {"text", text}});
  }

  Json grounds() const {
    Json list = Json::array();
    for (const CoveredGround& cover : plan_.covers)
      add_ground(cover.id,
                 "Ground protection " + cover.id + ", " + std::string(to_text(cover.load)),
                 "ground protection", cover.area, told("ground protection", cover.id), list);
    for (const NoDigArea& area : plan_.no_dig)
      add_ground(area.work, name_of(area.work) + " without digging", "no-dig", area.area,
                 told_of_work("no-dig", area.work), list);
    if (!plan_.mulch.empty())
      add_ground("mulch", "Mulch inside the fences", "mulch", plan_.mulch, mulch_text(), list);
    return list;
  }

  Json cut_lines() const {
    Json list = Json::array();
    for (const RootCutLine& cut : plan_.root_cuts)
      list.push_back(drawn(cut.id, "Root cut " + cut.id + " for " + name_of(cut.work), cut.line,
                           told("root cut", cut.id)));
    return list;
  }

  Json dug(const std::string& id, const std::string& name, const std::string& work,
           std::size_t line, Length from, Length to, const std::string& text) const {
    const Work* of = site_.work(work);
    Line part;
    if (of != nullptr && line < of->shape.lines.size())
      part = part_of(of->shape.lines[line], from.metres(), to.metres());
    return {{"id", id}, {"name", name}, {"work", work}, {"line", to_json(part)}, {"text", text}};
  }

  Json digging() const {
    Json list = Json::array();
    for (const DigStretch& dig : plan_.digs)
      list.push_back(dug(dig.id, "Stretch " + dig.id + " of " + name_of(dig.work), dig.work,
                         dig.line, dig.from, dig.to, told("dig by hand", dig.id)));
    for (std::size_t i = 0; i < plan_.bores.size(); ++i) {
      const BorePassage& bore = plan_.bores[i];
      list.push_back(dug(bore.work + " beneath " + std::to_string(i + 1),
                         name_of(bore.work) + " beneath roots", bore.work, bore.line, bore.from,
                         bore.to, told_of_work("dig by hand", bore.work, "Keep ")));
    }
    return list;
  }

  Json gates() const {
    Json list = Json::array();
    for (const FenceGate& gate : plan_.gates) list.push_back(to_json(gate.at));
    return list;
  }

  // Trunks that are boxed with boards.
  Json guards() const {
    Json list = Json::array();
    for (const StemGuard& guard : plan_.guards) {
      const Tree* tree = site_.tree(guard.tree);
      list.push_back({{"tree", guard.tree},
                      {"name", "Trunk guard of " + (tree ? tree->label() : guard.tree)},
                      {"text", "For " + guard.reason + "."}});
    }
    return list;
  }

  Json signs() const {
    Json list = Json::array();
    for (const Sign& sign : plan_.signs) list.push_back(to_json(sign.at));
    return list;
  }

  Json clashes() const {
    Json list = Json::array();
    for (const Clash& clash : plan_.clashes)
      list.push_back(clash.remedy.empty() ? clash.text : clash.text + " " + clash.remedy);
    return list;
  }

  const ProtectionPlan& plan_;
  const Site& site_;
  const Tables& tables_;
  const std::string& version_;
};

}  // namespace

// The options are those of advise(), so that page and report draw one plan.
Result<Json> protection_json(const Snapshot& snapshot) {
  ProtectionOptions options;
  options.units = snapshot.site.settings.units;
  ROOTSTEAD_TRY(const ProtectionPlan plan,
                protection_plan(snapshot.site, snapshot.tables, snapshot.assessment, options));
  return Told(plan, snapshot).json();
}

}  // namespace rootstead::serve
