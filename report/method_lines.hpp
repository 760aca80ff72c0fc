// The method statement as data: every prescription once, in the order of the page, numbered so that
// a crew can refer to it. Private to the report room.
#pragma once

#include <string>
#include <vector>

#include "report/plan.hpp"

namespace rootstead {

struct MethodLine {
  std::string number;              // "M12"
  std::vector<std::string> trees;  // ids; empty: no one tree
  Prescription prescription;       // of the first of them
};

struct MethodTopic {
  std::string head;  // "root cut"; of moved trees the stage of the work: "lifting day"
  std::vector<MethodLine> lines;
};

// What is done at one work, for one tree, for several trees alike, or on the whole site.
struct MethodGroup {
  std::string work;  // id; empty: of no one work
  std::string tree;  // id; empty: of no one tree
  bool alike = false;  // the same for several trees, of no one work
  std::vector<MethodTopic> topics;
  bool site_wide() const { return work.empty() && tree.empty() && !alike; }
};

// Site-wide lines first, then work by work in the order of the site, then what several trees have
// in common, then tree by tree. A sentence that is the same for several trees stands once and
// names them. Empty where the plan holds no advice.
std::vector<MethodGroup> method_lines(const Plan& plan);

// "M12 to M18", or "M12"; empty where no line is of this tree alone.
std::string lines_of_tree(const std::vector<MethodGroup>& groups, const std::string& tree);

}  // namespace rootstead
