#include "io/dxf_scan.hpp"

#include <array>
#include <charconv>

#include "engine/base/text.hpp"
#include "io/csv.hpp"

namespace rootstead::io {
namespace {

// Pairs of lines: a group code, then its value.
class GroupReader {
 public:
  explicit GroupReader(std::string_view text) : text_(text) {}

  // False at the end, or where a code is no number: broken() then.
  bool next(DxfGroup& group) {
    if (broken_) return false;
    begin_ = at_;
    std::string_view code;
    do {
      if (at_ >= text_.size()) return false;
      code = trimmed(line());
    } while (code.empty() && at_ < text_.size());
    if (code.empty()) return false;
    const auto read = std::from_chars(code.data(), code.data() + code.size(), group.code);
    if (read.ec != std::errc() || read.ptr != code.data() + code.size()) {
      broken_ = true;
      return false;
    }
    group.value = trimmed(line());
    return true;
  }

  bool broken() const { return broken_; }
  std::size_t line_number() const { return line_; }
  std::size_t begin() const { return begin_; }  // of the pair read last
  std::size_t end() const { return at_; }

 private:
  std::string_view line() {
    ++line_;
    const std::size_t start = at_;
    const auto end = text_.find('\n', at_);
    at_ = end == std::string_view::npos ? text_.size() : end + 1;
    return text_.substr(start, at_ - start);
  }

  std::string_view text_;
  std::size_t at_ = 0, begin_ = 0, line_ = 0;
  bool broken_ = false;
};

bool is_part(std::string_view kind) {
  return kind == "VERTEX" || kind == "ATTRIB" || kind == "SEQEND";
}

class Scanner {
 public:
  Scanner(std::string_view text, const std::string& file)
      : text_(text), file_(file), groups_(text) {}

  Result<DxfDrawing> scan() {
    bool any_section = false;
    while (groups_.next(group_)) {
      if (group_.code == 999) continue;  // comment
      if (group_.code == 0 && group_.value == "EOF") break;
      const bool section = group_.code == 0 && group_.value == "SECTION";
      if (!section && !any_section) return no_dxf();
      if (section && read_section()) any_section = true;
    }
    if (groups_.broken()) return any_section ? broken_line() : no_dxf();
    if (!any_section) return no_dxf();
    return std::move(drawing_);
  }

 private:
  Error no_dxf() const {
    return {Code::format_broken, file_, "this is not a DXF drawing",
            "save it again as DXF (ASCII)"};
  }
  Error broken_line() const {
    return {Code::format_broken, file_ + " line " + std::to_string(groups_.line_number()),
            "a group code should stand here", "the file is damaged: save it again as DXF (ASCII)"};
  }

  bool read_section() {
    if (!groups_.next(group_) || group_.code != 2) return false;
    const std::string_view name = group_.value;
    if (name == "HEADER") {
      read_header();
    } else if (name == "TABLES") {
      read_tables();
    } else if (name == "BLOCKS") {
      read_entities(true);
    } else if (name == "ENTITIES") {
      read_entities(false);
    } else {
      while (groups_.next(group_) && !ends_section()) {
      }
    }
    return true;
  }

  bool ends_section() const {
    return group_.code == 0 && (group_.value == "ENDSEC" || group_.value == "EOF");
  }

  void read_header() {
    std::string_view variable;
    while (groups_.next(group_) && !ends_section()) {
      if (group_.code == 9) {
        variable = group_.value;
      } else if (variable == "$ACADVER" && group_.code == 1) {
        drawing_.version = group_.value;
      } else if (variable == "$INSUNITS" && group_.code == 70) {
        if (const auto number = number_from(group_.value); number && *number >= 0 && *number < 1000)
          drawing_.insunits = static_cast<int>(*number);
      }
    }
  }

  void read_tables() {
    bool in_layer = false;
    while (groups_.next(group_) && !ends_section()) {
      if (group_.code == 0) in_layer = group_.value == "LAYER";
      if (in_layer && group_.code == 2) {
        drawing_.layers.push_back(group_.value);
        in_layer = false;
      }
    }
  }

  void read_entities(bool in_blocks) {
    DxfBlock* block = nullptr;
    DxfEntity entity;  // being read; kind empty before the first
    std::size_t begin = 0;
    const auto close = [&](std::size_t end) {
      entity.end = end;
      if (!entity.kind.empty()) put(std::move(entity), block, in_blocks);
      entity = {};
    };
    while (groups_.next(group_)) {
      begin = groups_.begin();
      if (group_.code != 0) {
        take_group(entity);
        continue;
      }
      close(begin);
      if (ends_section()) return;
      entity.kind = group_.value;
      entity.layer = "0";
      entity.begin = begin;
    }
    close(text_.size());
  }

  void take_group(DxfEntity& entity) {
    if (entity.kind.empty()) return;
    if (group_.code == 8) entity.layer = group_.value;
    if (group_.code == 5) entity.handle = group_.value;
    if (group_.code == 67) entity.paper_space = group_.value == "1";
    entity.groups.push_back(group_);
  }

  void put(DxfEntity entity, DxfBlock*& block, bool in_blocks) {
    if (entity.kind == "BLOCK") {
      block = &drawing_.blocks[entity.text(2).value_or("")];
      block->base_x = entity.number(10, 0);
      block->base_y = entity.number(20, 0);
      return;
    }
    if (entity.kind == "ENDBLK") {
      block = nullptr;
      return;
    }
    if (in_blocks && block == nullptr) return;
    auto& entities = block != nullptr ? block->entities : drawing_.entities;
    if (is_part(entity.kind) && !entities.empty()) {
      entities.back().end = entity.end;
      if (entity.kind != "SEQEND") entities.back().parts.push_back(std::move(entity));
      return;
    }
    entities.push_back(std::move(entity));
  }

  std::string_view text_;
  const std::string& file_;
  GroupReader groups_;
  DxfGroup group_;
  DxfDrawing drawing_;
};

}  // namespace

std::optional<std::string_view> DxfEntity::text(int code) const {
  for (const DxfGroup& group : groups) {
    if (group.code == code) return group.value;
  }
  return std::nullopt;
}

double DxfEntity::number(int code, double otherwise) const {
  const auto written = text(code);
  return written ? number_from(*written).value_or(otherwise) : otherwise;
}

Result<DxfDrawing> scan_dxf(std::string_view text, const std::string& file) {
  if (text.starts_with("AutoCAD Binary DXF"))
    return Error{Code::format_unknown, file, "this is a binary DXF", "save it as DXF (ASCII)"};
  if (text.starts_with("AC10"))
    return Error{Code::format_unknown, file, "this is a DWG drawing, whatever its ending says",
                 "save it as DXF (ASCII)"};
  return Scanner(text, file).scan();
}

std::optional<LengthUnit> dxf_unit(int insunits) {
  switch (insunits) {
    case 1:
      return LengthUnit::inch;
    case 2:
      return LengthUnit::foot;
    case 4:
      return LengthUnit::millimetre;
    case 5:
      return LengthUnit::centimetre;
    case 6:
      return LengthUnit::metre;
    case 21:
      return LengthUnit::us_survey_foot;
    default:
      return std::nullopt;
  }
}

std::string_view dxf_skip_reason(std::string_view kind) {
  struct Reason {
    std::string_view kind;
    std::string_view why;
  };
  constexpr std::string_view kText = "text is not read";
  constexpr std::string_view kMark = "dimensions and pointers are not read";
  constexpr std::string_view kPicture = "pictures and windows are not read";
  constexpr std::string_view kEndless = "endless lines have no place on a site";
  constexpr std::string_view kSolid = "solids have no outline in plan";
  constexpr std::array<Reason, 23> kReasons{
      {{"TEXT", kText},           {"MTEXT", kText},          {"ATTDEF", kText},
       {"RTEXT", kText},          {"ARCALIGNEDTEXT", kText}, {"DIMENSION", kMark},
       {"LEADER", kMark},         {"MULTILEADER", kMark},    {"TOLERANCE", kMark},
       {"VIEWPORT", kPicture},    {"IMAGE", kPicture},       {"WIPEOUT", kPicture},
       {"OLEFRAME", kPicture},    {"OLE2FRAME", kPicture},   {"PDFUNDERLAY", kPicture},
       {"DWFUNDERLAY", kPicture}, {"DGNUNDERLAY", kPicture}, {"XLINE", kEndless},
       {"RAY", kEndless},         {"3DSOLID", kSolid},       {"REGION", kSolid},
       {"BODY", kSolid},          {"SURFACE", kSolid}}};
  constexpr std::array<std::string_view, 15> kRead{
      "POINT", "LINE",  "LWPOLYLINE", "POLYLINE", "CIRCLE", "ARC",   "ELLIPSE", "SPLINE",
      "HATCH", "MLINE", "SOLID",      "TRACE",    "3DFACE", "HELIX", "INSERT"};
  for (const Reason& reason : kReasons) {
    if (reason.kind == kind) return reason.why;
  }
  for (const std::string_view read : kRead) {
    if (read == kind) return {};
  }
  return "this kind of entity is not known";
}

Result<DxfSummary> dxf_summary(const std::filesystem::path& file) {
  ROOTSTEAD_TRY(const std::string text, read_bytes(file));
  ROOTSTEAD_TRY(const DxfDrawing drawing, scan_dxf(text, file.filename().string()));
  DxfSummary summary{drawing.version, drawing.insunits, {}, {}, {}};
  for (const std::string_view layer : drawing.layers)
    summary.layers.push_back(decoded(std::string(layer)).text);
  for (const DxfEntity& entity : drawing.entities) {
    if (entity.paper_space) continue;
    const std::string kind(entity.kind);
    ++summary.model_space[kind];
    if (const auto why = dxf_skip_reason(kind); !why.empty()) summary.skipped[kind] = why;
  }
  return summary;
}

}  // namespace rootstead::io
