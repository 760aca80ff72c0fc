#include "engine/roots/palm_regrowth.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

constexpr double kHardlyAny = 0.02;  // share of cut roots that branch again

// "Phoenix reclinata" -> "phoenix-reclinata"
std::string key_of(std::string_view taxon) {
  std::string key = lower_case(trimmed(taxon));
  std::replace(key.begin(), key.end(), ' ', '-');
  return key;
}

const Parameter* row(const Tables& tables, std::string_view what, const Species& species) {
  const std::string name = key_of(species.botanical_name);
  const std::string start = "palm_regrowth." + std::string(what) + ".";
  for (const std::string& key : {name, name.substr(0, name.find('-'))})
    for (const Parameter& parameter : tables.parameters)
      if (parameter.id == start + key) return &parameter;
  return nullptr;
}

}  // namespace

PalmRegrowth palm_regrowth(const Species* species, const Tables& tables) {
  PalmRegrowth regrowth;
  if (!species) return regrowth;
  if (const Parameter* zone = row(tables, "zone", *species))
    regrowth.many_from_base = zone->best > 0;
  const Parameter* tips = row(tables, "tips", *species);
  const Parameter* rises = row(tables, "rises", *species);
  if (tips) {
    regrowth.share_of_cut_roots = Range{tips->low, tips->best, tips->high};
    regrowth.kind =
        tips->best < kHardlyAny ? PalmRegrowth::Kind::base_only : PalmRegrowth::Kind::any_length;
    regrowth.from = tips->from;
  }
  if (rises && rises->best > 0) {
    regrowth.kind = PalmRegrowth::Kind::longer_more;
    regrowth.from = rises->from;
  }
  return regrowth;
}

std::string in_words(const PalmRegrowth& regrowth) {
  std::string words;
  switch (regrowth.kind) {
    case PalmRegrowth::Kind::unknown:
      words = "How this palm replaces cut roots is not known: leave as much root as can be left";
      break;
    case PalmRegrowth::Kind::base_only:
      words =
          "Cut roots of this palm hardly ever branch again (under " +
          percent(regrowth.share_of_cut_roots->high, 0) +
          "): it must replace them from the base of the trunk, so keep ground there undisturbed";
      break;
    case PalmRegrowth::Kind::any_length:
      words = "About " + percent(regrowth.share_of_cut_roots->best, 0) +
              " of this palm's cut roots branch again, however short what is left of them";
      break;
    case PalmRegrowth::Kind::longer_more:
      words =
          "The longer the roots that are left, the more of this palm's cut roots branch again: "
          "every decimetre further from the trunk helps";
      break;
  }
  words += ".";
  if (regrowth.many_from_base)
    words += *regrowth.many_from_base ? " It sends many new roots from the base of the trunk."
                                      : " It sends few new roots from the base of the trunk.";
  return words;
}

}  // namespace rootstead
