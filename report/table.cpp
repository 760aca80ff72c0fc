#include <algorithm>
#include <numeric>

#include "report/flow.hpp"

namespace rootstead::layout {
namespace {

constexpr double kPadX = 1.1, kPadY = 0.85;
constexpr double kWholeTable = 40;  // mm: one as short as this is not parted

class TableSetter {
 public:
  TableSetter(Flow& flow, const std::vector<Column>& columns) : flow_(flow), columns_(columns) {
    double sum = 0;
    for (const Column& c : columns) sum += c.width;
    double x = flow.format().left;
    for (const Column& c : columns) {
      x_.push_back(x);
      x += c.width / sum * flow.format().text_width();
    }
    x_.push_back(x);
  }

  void set(const std::vector<Row>& rows) {
    std::vector<double> heights;
    for (const Row& row : rows) heights.push_back(height_of(row));
    std::size_t head = rows.size();  // of the group this row is in
    if (const double all = std::accumulate(heights.begin(), heights.end(), 0.0); all <= kWholeTable)
      flow_.need(head_height() + all);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double kept = kept_height(rows, heights, i);
      if (rows[i].heads_group) head = i;
      const bool again = head < i && open_ && kept > flow_.room();
      if (!open_ || kept > flow_.room()) start_page(kept + (again ? heights[head] : 0));
      if (again) draw(continued(rows[head]), heights[head]);
      draw(rows[i], heights[i]);
    }
    finish_page();
    flow_.space(3);
  }

 private:
  static Row continued(Row head) {
    head.name += ":continued";
    if (!head.cells.empty()) head.cells.front().text += ", continued";
    return head;
  }

  double width_of(std::size_t first, std::size_t span) const {
    return x_[std::min(first + span, columns_.size())] - x_[first] - 2 * kPadX;
  }

  double height_of(const Row& row) {
    double height = 0;
    std::size_t column = 0;
    for (const Cell& cell : row.cells) {
      const double text =
          cell.text.empty()
              ? 0
              : flow_.meter().measure(cell.text, cell.style, width_of(column, cell.span)).h;
      height = std::max({height, text, cell.height});
      column += cell.span;
    }
    return height + 2 * row.pad;
  }

  // This row and those it must stay with.
  static double kept_height(const std::vector<Row>& rows, const std::vector<double>& heights,
                            std::size_t i) {
    double sum = heights[i];
    // A table's first row and its last do not stand alone on a page.
    const bool first = i == 0 && rows.size() > 1;
    if (first) sum += heights[++i];
    while (i + 1 < rows.size() && (rows[i].keeps_with_next || i + 2 == rows.size()))
      sum += heights[++i];
    return sum;
  }

  double head_height() {
    double height = 0;
    for (std::size_t c = 0; c < columns_.size(); c += columns_[c].span) {
      const double wide = width_of(c, columns_[c].span);
      height = std::max(height, flow_.meter().measure(columns_[c].title, kTableHead, wide).h);
    }
    return height + 2 * kPadY;
  }

  void start_page(double kept) {
    finish_page();
    const double head = head_height();
    flow_.need(head + kept);
    Pen pen = flow_.pen();
    pen.add(Tag{Role::table, true});
    open_ = true;
    const Rect box = flow_.take(head);
    pen.tagged(Role::row, [&] {
      for (std::size_t c = 0; c < columns_.size(); c += columns_[c].span) {
        const double w = width_of(c, columns_[c].span);
        const double h = pen.measure(columns_[c].title, kTableHead, w).h;
        pen.tagged(Role::header_cell, [&] {
          pen.block({x_[c] + kPadX, box.bottom() - kPadY - h}, w, columns_[c].title,
                    aligned(kTableHead, columns_[c].align));
        });
      }
    });
    pen.line({x_.front(), box.bottom()}, {x_.back(), box.bottom()}, kRule);
    first_on_page_ = true;
  }

  void finish_page() {
    if (!open_) return;
    Pen pen = flow_.pen();
    pen.add(Tag{Role::table, false});
    open_ = false;
  }

  void draw(const Row& row, double height) {
    const Rect box = flow_.take(height);
    Pen pen = flow_.pen();
    if (!std::exchange(first_on_page_, false)) {
      const Stroke above = row.opens_group ? Stroke{.width = 0.18, .colour = kQuiet} : kHairline;
      pen.line({x_.front(), box.y}, {x_.back(), box.y}, above);
    }
    pen.tagged(Role::row, [&] {
      std::size_t column = 0;
      for (const Cell& cell : row.cells) {
        draw_cell(pen, row, cell, column, box);
        column += cell.span;
      }
    });
  }

  void draw_cell(Pen& pen, const Row& row, const Cell& cell, std::size_t column, const Rect& box) {
    const Rect inner{x_[column] + kPadX, box.y + row.pad, width_of(column, cell.span),
                     box.h - 2 * row.pad};
    pen.tagged(Role::cell, [&] {
      if (cell.draw) cell.draw(pen, inner);
      TextStyle style = cell.style;
      if (cell.span == 1 && columns_[column].align != Align::left)
        style.align = columns_[column].align;
      pen.block({inner.x, inner.y}, inner.w, cell.text, style, row.name, cell.link);
    });
  }

  Flow& flow_;
  const std::vector<Column>& columns_;
  std::vector<double> x_;
  bool open_ = false, first_on_page_ = false;
};

}  // namespace

void table(Flow& flow, const std::vector<Column>& columns, const std::vector<Row>& rows) {
  TableSetter(flow, columns).set(rows);
}

}  // namespace rootstead::layout
