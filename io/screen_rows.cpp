#include "io/screen_rows.hpp"

#include "engine/base/text.hpp"

namespace rootstead::io {
namespace {

constexpr int kShareDigits = 9, kAreaDigits = 6, kLengthDigits = 3;

class RowLine {
 public:
  explicit RowLine(std::string& to) : to_(to) {}
  ~RowLine() { to_ += '\n'; }
  RowLine(const RowLine&) = delete;
  RowLine& operator=(const RowLine&) = delete;

  void text(std::string_view cell) {
    begin();
    if (cell.find_first_of(",\"\r\n") == std::string_view::npos) {
      to_ += cell;
      return;
    }
    to_ += '"';
    for (const char c : cell) to_.append(c == '"' ? 2 : 1, c);
    to_ += '"';
  }
  void number(std::optional<double> value, int digits) {
    begin();
    if (value) to_ += fixed_number(*value, digits);
  }

 private:
  void begin() {
    if (!first_) to_ += ',';
    first_ = false;
  }
  std::string& to_;
  bool first_ = true;
};

}  // namespace

const std::array<ScreenColumnType, kScreenColumns>& screen_columns() {
  using Type = ScreenColumnType;
  static constexpr std::array<Type, kScreenColumns> kColumns{{{"row", Type::whole},
                                                              {"tree", Type::text},
                                                              {"rule", Type::text},
                                                              {"zone", Type::text},
                                                              {"radius_m", Type::number},
                                                              {"status", Type::text},
                                                              {"share", Type::number},
                                                              {"taken_m2", Type::number},
                                                              {"nearest_work", Type::text},
                                                              {"nearest_m", Type::number},
                                                              {"worst_work", Type::text},
                                                              {"worst_share", Type::number},
                                                              {"x", Type::number},
                                                              {"y", Type::number},
                                                              {"remark", Type::text}}};
  return kColumns;
}

std::string screen_header() {
  std::string header;
  for (const ScreenColumnType& column : screen_columns()) {
    if (!header.empty()) header += ',';
    header += column.name;
  }
  return header + '\n';
}

void add_screen_row(const ScreenedTree& tree, const std::vector<std::string>& works,
                    std::string& to) {
  using Maybe = std::optional<double>;
  const TreeScreening& figures = tree.figures;
  const ScreenZone& zone = *tree.zone;
  const GroundAnswer& ground = figures.ground;
  const bool near = ground.nearest != GroundAnswer::kNone;
  const bool worst = ground.worst != GroundAnswer::kNone;
  const bool placed = figures.status != ScreenStatus::no_position;
  RowLine line(to);
  line.text(std::to_string(tree.row));
  line.text(tree.id);
  line.text(tree.rule);
  line.text(zone.zone);
  line.number(zone.known() ? Maybe(zone.radius.metres()) : Maybe(), kLengthDigits);
  line.text(to_text(figures.status));
  line.number(figures.share, kShareDigits);
  line.number(figures.share ? Maybe(ground.taken.square_metres()) : Maybe(), kAreaDigits);
  line.text(near ? works[ground.nearest] : std::string_view());
  line.number(near ? Maybe(ground.distance.metres()) : Maybe(), kLengthDigits);
  line.text(worst ? works[ground.worst] : std::string_view());
  line.number(figures.worst_share, kShareDigits);
  line.number(placed ? Maybe(tree.tree->position->at.x / tree.unit) : Maybe(), kLengthDigits);
  line.number(placed ? Maybe(tree.tree->position->at.y / tree.unit) : Maybe(), kLengthDigits);
  if (!placed) {
    line.text(zone.known() ? "no position" : "no position; " + zone.why_none);
  } else {
    line.text(zone.known() ? zone.remark : zone.why_none);
  }
}

}  // namespace rootstead::io
