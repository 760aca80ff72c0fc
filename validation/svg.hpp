// Small charts for docs/validation.md: axes, lines, marks, bands and a legend, in black and grey.
// Series are told apart by the shape of their marks and the dashes of their lines, never by colour,
// so that a photocopy says the same. Fixed digits: the same numbers give the same bytes.
//
//   Chart chart("Roots thin out with distance", {"distance, m", 0, 5, 1}, {"roots/m2", 0, 60, 10});
//   chart.marks("Silsoe", {{0.5, 54.5}, {1.5, 39}}, Mark::dot);
//   chart.line("model", points, Dash::solid);
//   chart.band("model, P10 to P90", low, high);
//   findings.plots.push_back({"counts.svg", chart.title(), chart.svg()});
#pragma once

#include <string>
#include <vector>

namespace rootstead::validation {

struct Axis {
  std::string title;  // with its unit
  double from = 0, to = 1;
  double step = 0.1;  // between ticks
  int decimals = 0;   // of the tick labels
};

struct At {
  double x = 0, y = 0;
};
using Points = std::vector<At>;

enum class Mark { dot, ring, cross, square, triangle };
enum class Dash { solid, dashed, dotted, dash_dot };

class Chart {
 public:
  // `y` may fall from `from` to `to`, e.g. depth {"depth, m", 1.6, 0, 0.2, 1}: then 0 is on top.
  Chart(std::string title, Axis x, Axis y);

  Chart& line(std::string name, Points points, Dash dash = Dash::solid);
  Chart& marks(std::string name, Points points, Mark mark = Mark::dot);
  // Both the same number of points, at the same x.
  Chart& band(std::string name, const Points& low, const Points& high);

  const std::string& title() const { return title_; }
  std::string svg() const;

 private:
  struct Series {
    enum class Kind { line, marks, band } kind = Kind::line;
    std::string name;
    Points points;
    Dash dash = Dash::solid;
    Mark mark = Mark::dot;
  };

  double across(double x) const;
  double down(double y) const;
  std::string axes() const;
  std::string drawn(const Series& series) const;
  std::string legend() const;

  std::string title_;
  Axis x_, y_;
  std::vector<Series> series_;
};

}  // namespace rootstead::validation
