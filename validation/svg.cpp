#include "validation/svg.hpp"

#include <cassert>
#include <cmath>
#include <string_view>
#include <utility>

#include "engine/base/text.hpp"

namespace rootstead::validation {
namespace {

// The sheet, in the units of the picture (CSS pixels at full size).
constexpr double kLeft = 64, kTop = 36, kWidth = 420, kHeight = 260;
constexpr double kBelowAxes = 50;     // tick labels and the title of x
constexpr double kLegendLine = 18;    // a line of the legend
constexpr double kSampleLength = 34;  // of a line in the legend
constexpr double kMarkRadius = 3.4;
constexpr double kTick = 5;

std::string number(double value) {
  return fixed_number(value, 1);
}

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '&')
      safe += "&amp;";
    else if (c == '<')
      safe += "&lt;";
    else if (c == '>')
      safe += "&gt;";
    else if (c == '"')
      safe += "&quot;";
    else
      safe += c;
  }
  return safe;
}

std::string text_at(double x, double y, std::string_view text, std::string_view more = "") {
  return "<text x=\"" + number(x) + "\" y=\"" + number(y) + "\"" + std::string(more) + ">" +
         escaped(text) + "</text>\n";
}

std::string segment(double x0, double y0, double x1, double y1, std::string_view more = "") {
  return "<path d=\"M" + number(x0) + " " + number(y0) + "L" + number(x1) + " " + number(y1) +
         "\"" + std::string(more) + "/>\n";
}

std::string_view dashes(Dash dash) {
  switch (dash) {
    case Dash::solid:
      return "";
    case Dash::dashed:
      return " stroke-dasharray=\"8 4\"";
    case Dash::dotted:
      return " stroke-dasharray=\"2 3\"";
    case Dash::dash_dot:
      return " stroke-dasharray=\"9 3 2 3\"";
  }
  return "";
}

std::string circle(double x, double y, std::string_view fill) {
  return "<circle cx=\"" + number(x) + "\" cy=\"" + number(y) + "\" r=\"" + number(kMarkRadius) +
         "\" fill=\"" + std::string(fill) + "\"/>\n";
}

std::string mark_at(Mark mark, double x, double y) {
  const double r = kMarkRadius;
  switch (mark) {
    case Mark::dot:
      return circle(x, y, "black");
    case Mark::ring:
      return circle(x, y, "white");
    case Mark::cross:
      return segment(x - r, y - r, x + r, y + r) + segment(x - r, y + r, x + r, y - r);
    case Mark::square:
      return "<path d=\"M" + number(x - r) + " " + number(y - r) + "h" + number(2 * r) + "v" +
             number(2 * r) + "h" + number(-2 * r) + "z\" fill=\"white\"/>\n";
    case Mark::triangle:
      return "<path d=\"M" + number(x) + " " + number(y - r) + "L" + number(x + r) + " " +
             number(y + r) + "H" + number(x - r) + "z\" fill=\"black\"/>\n";
  }
  return {};
}

int ticks_of(const Axis& axis) {
  assert(axis.step > 0 && axis.from != axis.to);
  return static_cast<int>(std::lround(std::abs(axis.to - axis.from) / axis.step));
}

double tick(const Axis& axis, int i) {
  return axis.from + (axis.to > axis.from ? axis.step : -axis.step) * i;
}

}  // namespace

Chart::Chart(std::string title, Axis x, Axis y)
    : title_(std::move(title)), x_(std::move(x)), y_(std::move(y)) {}

Chart& Chart::line(std::string name, Points points, Dash dash) {
  series_.push_back({Series::Kind::line, std::move(name), std::move(points), dash, {}});
  return *this;
}

Chart& Chart::marks(std::string name, Points points, Mark mark) {
  series_.push_back({Series::Kind::marks, std::move(name), std::move(points), {}, mark});
  return *this;
}

Chart& Chart::band(std::string name, const Points& low, const Points& high) {
  assert(low.size() == high.size());
  Points outline = low;
  outline.insert(outline.end(), high.rbegin(), high.rend());
  series_.push_back({Series::Kind::band, std::move(name), std::move(outline), {}, {}});
  return *this;
}

double Chart::across(double x) const {
  return kLeft + kWidth * (x - x_.from) / (x_.to - x_.from);
}

double Chart::down(double y) const {
  return kTop + kHeight * (1 - (y - y_.from) / (y_.to - y_.from));
}

std::string Chart::axes() const {
  std::string drawn = "<rect x=\"" + number(kLeft) + "\" y=\"" + number(kTop) + "\" width=\"" +
                      number(kWidth) + "\" height=\"" + number(kHeight) + "\"/>\n";
  const double foot = kTop + kHeight;
  for (int i = 0; i <= ticks_of(x_); ++i) {
    const double x = across(tick(x_, i));
    drawn += segment(x, foot, x, foot + kTick);
    drawn += text_at(x, foot + 18, fixed_number(tick(x_, i), x_.decimals), " class=\"mid\"");
  }
  for (int i = 0; i <= ticks_of(y_); ++i) {
    const double y = down(tick(y_, i));
    drawn += segment(kLeft - kTick, y, kLeft, y);
    drawn += text_at(kLeft - 9, y + 4, fixed_number(tick(y_, i), y_.decimals), " class=\"end\"");
  }
  drawn += text_at(kLeft + kWidth / 2, foot + 36, x_.title, " class=\"mid\"");
  const double middle = kTop + kHeight / 2;
  return drawn + text_at(16, middle, y_.title,
                         " class=\"mid\" transform=\"rotate(-90 16 " + number(middle) + ")\"");
}

std::string Chart::drawn(const Series& series) const {
  std::string path;
  std::string marks;
  for (const At& at : series.points) {
    path += (path.empty() ? "M" : "L") + number(across(at.x)) + " " + number(down(at.y));
    if (series.kind == Series::Kind::marks) marks += mark_at(series.mark, across(at.x), down(at.y));
  }
  if (series.kind == Series::Kind::marks) return marks;
  if (series.kind == Series::Kind::band)
    return "<path d=\"" + path + "z\" fill=\"#dcdcdc\" stroke=\"none\"/>\n";
  return "<path d=\"" + path + "\" stroke-width=\"1.6\"" + std::string(dashes(series.dash)) +
         "/>\n";
}

std::string Chart::legend() const {
  std::string drawn;
  double y = kTop + kHeight + kBelowAxes + kLegendLine / 2;
  for (const Series& series : series_) {
    const double middle = kLeft + kSampleLength / 2;
    if (series.kind == Series::Kind::line)
      drawn += segment(kLeft, y, kLeft + kSampleLength, y,
                       " stroke-width=\"1.6\"" + std::string(dashes(series.dash)));
    if (series.kind == Series::Kind::marks) drawn += mark_at(series.mark, middle, y);
    if (series.kind == Series::Kind::band)
      drawn += "<rect x=\"" + number(kLeft) + "\" y=\"" + number(y - 5) + "\" width=\"" +
               number(kSampleLength) + "\" height=\"10\" fill=\"#dcdcdc\" stroke=\"none\"/>\n";
    drawn += text_at(kLeft + kSampleLength + 8, y + 4, series.name);
    y += kLegendLine;
  }
  return drawn;
}

std::string Chart::svg() const {
  const double height =
      kTop + kHeight + kBelowAxes + kLegendLine * static_cast<double>(series_.size()) + 6;
  std::string picture =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 500 " + number(height) +
      "\" role=\"img\" fill=\"none\" stroke=\"black\">\n<title>" + escaped(title_) +
      "</title>\n<style>text{fill:black;stroke:none;font:12px sans-serif}.mid{text-anchor:middle}"
      ".end{text-anchor:end}.head{font-weight:bold}</style>\n<rect width=\"500\" height=\"" +
      number(height) + "\" fill=\"white\" stroke=\"none\"/>\n" +
      text_at(kLeft, kTop - 14, title_, " class=\"head\"");
  // Bands lie under everything else.
  for (const Series& series : series_)
    if (series.kind == Series::Kind::band) picture += drawn(series);
  picture += axes();
  for (const Series& series : series_)
    if (series.kind != Series::Kind::band) picture += drawn(series);
  return picture + legend() + "</svg>\n";
}

}  // namespace rootstead::validation
