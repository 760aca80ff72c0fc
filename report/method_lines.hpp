// The method statement as data: every prescription once, in the order of the page, numbered so that
// a crew can refer to it. Private to the report room.
#pragma once

#include <string>
#include <vector>

#include "report/plan.hpp"

namespace rootstead {

// The same instruction elsewhere, with other figures.
struct AlikeLine {
  std::vector<std::string> trees;
  Prescription prescription;
  std::vector<std::string> figures;         // of its text, where it differs: "F3", "3.42 m"
  std::vector<std::string> reason_figures;  // of its reason
};

struct MethodLine {
  std::string number;                                // "M12"
  std::vector<std::string> trees;                    // ids; empty: no one tree
  Prescription prescription;                         // of the first of them
  std::vector<AlikeLine> alike;                      // told with it
  std::vector<std::string> figures, reason_figures;  // its own where those of `alike` differ
};

struct MethodTopic {
  std::string head;  // "root cut"; of moved trees the stage of the work: "lifting day"
  std::vector<MethodLine> lines;
};

// What is done at one work, for one tree, for several works or trees alike, or on the whole site.
struct MethodGroup {
  enum class About { site, works, work, trees, tree };
  About about = About::site;
  std::string id;  // of the work or tree; empty: of no one
  std::vector<MethodTopic> topics;
};

// Site-wide lines first, then what several works have in common, then work by work in the order of
// the site, then what several trees have in common, then tree by tree. A sentence that is the same
// for several trees stands once and names them; sentences that differ in their figures only stand
// in one line. Empty where the plan holds no advice.
std::vector<MethodGroup> method_lines(const Plan& plan);

// Its text; of counts of roots, that they are as the table of the work counts them: there they
// stand a row a tree, and as sentences they would be a list of bare figures.
std::string told_in_method(const Prescription& prescription);

// "M12, M15" of the lines that several works have in common, this one among them.
std::string lines_of_works_alike(const std::vector<MethodGroup>& groups, const std::string& work);

// The same of the lines that several trees have in common.
std::string lines_of_trees_alike(const std::vector<MethodGroup>& groups, const std::string& tree);

// "M12 to M18", or "M12"; empty where no line is of this tree alone.
std::string lines_of_tree(const std::vector<MethodGroup>& groups, const std::string& tree);

}  // namespace rootstead
