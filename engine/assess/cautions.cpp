#include "engine/assess/assess.hpp"

namespace rootstead {

// Each is one sentence or two, in our own words; their order is that of the page.
const std::vector<std::string>& cautions() {
  static const std::vector<std::string> kCautions = {
      "This is a screening aid built from published averages. It is not a tree risk assessment, "
      "not "
      "an engineering design and not a certificate.",
      "It must never be the only ground on which a tree is called safe, or is felled.",
      "Roots are where they are, not where a formula puts them: expose them by hand or with "
      "compressed air before anything is cut.",
      "A qualified arborist inspects every tree concerned on site. Where a figure about stability "
      "is "
      "relied on, an engineer or a pull test must confirm it.",
      "Local law, permits, protected trees and protected species come before every figure here, "
      "and "
      "so does the edition of a standard that is in force: check which one applies.",
      "Have all buried services located and marked before any digging, by hand or by air as well.",
      "Keep people clear while roots are cut. Stop at once if the tree or the ground round its "
      "base "
      "moves.",
      "Health and stability are two separate answers. A good answer to one says nothing about the "
      "other.",
      "Anchorage can be lost suddenly, in less wind than any design assumes, and also years after "
      "roots were cut, through decay: have the tree looked at after the works, after storms and "
      "every year for at least five years.",
      "A range runs from the value one case in ten stays below to the value one case in ten "
      "exceeds. "
      "The middle value alone is not the answer.",
      "Values that were assumed because the record is silent, and values quoted from memory, are "
      "marked as such wherever they are used: confirm them before relying on a figure.",
  };
  return kCautions;
}

}  // namespace rootstead
