// Column maps as TOML: docs/formats/column-map.md.
#include <toml++/toml.h>

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/import.hpp"
#include "io/import_fields.hpp"
#include "io/import_layers.hpp"
#include "io/toml_guard.hpp"

namespace rootstead::io {
namespace {

class Reading {
 public:
  explicit Reading(std::string file) : file_(std::move(file)) {}

  void read(const toml::table& root) {
    for (const auto& [key, node] : root) {
      const std::string_view name = key.str();
      if (name == "crs") {
        map_.crs = text_of(node, "crs");
      } else if (name == "columns") {
        each(node, name, [this](auto k, const auto& n) { read_column(k, n); });
      } else if (name == "values") {
        each(node, name, [this](auto k, const auto& n) { read_value(k, n); });
      } else if (name == "layers") {
        each(node, name, [this](auto k, const auto& n) { read_layer(k, n); });
      } else {
        mistake(node, "there is no key \"" + std::string(name) + "\"",
                "use crs, [columns], [values] or [layers]");
      }
    }
  }

  Result<ColumnMap> result() {
    if (mistakes_.empty()) return std::move(map_);
    std::stable_sort(mistakes_.begin(), mistakes_.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    Error first = mistakes_.front().second;
    if (const std::size_t others = mistakes_.size() - 1; others > 0)
      first.remedy += " (and " + std::to_string(others) + " more mistakes below)";
    return first;
  }

 private:
  void mistake(const toml::node& node, std::string message, std::string remedy) {
    const auto line = node.source().begin.line;
    mistakes_.emplace_back(line, Error{Code::value_invalid, file_ + " line " + std::to_string(line),
                                       std::move(message), std::move(remedy)});
  }

  std::string text_of(const toml::node& node, std::string_view key) {
    if (const auto text = node.value<std::string>()) return *text;
    mistake(node, std::string(key) + " is not a text", "put the value in quotation marks");
    return {};
  }

  template <class Each>
  void each(const toml::node& node, std::string_view name, const Each& read) {
    const toml::table* table = node.as_table();
    if (table == nullptr) {
      mistake(node, std::string(name) + " is not a section",
              "write [" + std::string(name) + "] on a line of its own");
      return;
    }
    for (const auto& [key, value] : *table) read(key.str(), value);
  }

  bool known_field(std::string_view key, const toml::node& node) {
    if (field_named(key)) return true;
    mistake(node, "there is no field \"" + std::string(key) + "\"",
            "use one of the fields listed in docs/formats/column-map.md, such as stem_diameter");
    return false;
  }

  void read_column(std::string_view key, const toml::node& node) {
    if (!known_field(key, node)) return;
    ColumnMap::Column column;
    if (const toml::table* table = node.as_table()) {
      read_column_table(column, *table);
    } else {
      column.column = text_of(node, key);
    }
    map_.fields[std::string(key)] = column;
  }

  void read_column_table(ColumnMap::Column& column, const toml::table& table) {
    for (const auto& [key, node] : table) {
      if (key.str() == "column") {
        column.column = text_of(node, "column");
      } else if (key.str() == "unit") {
        const std::string unit = text_of(node, "unit");
        column.unit = length_unit_from(unit);
        if (!column.unit && !unit.empty())
          mistake(node, "\"" + unit + "\" is no unit of length", "use m, cm, mm, in, ft or us-ft");
      } else {
        mistake(node, "a column has no key \"" + std::string(key.str()) + "\"",
                "use column and unit");
      }
    }
    if (column.column.empty() && !table.contains("column"))
      mistake(table, "the name of the column is missing", "add column = \"...\"");
  }

  void read_value(std::string_view key, const toml::node& node) {
    if (!known_field(key, node)) return;
    map_.values[std::string(key)] = text_of(node, key);
  }

  void read_layer(std::string_view key, const toml::node& node) {
    const std::string kind = text_of(node, key);
    if (!kind.empty() && !layer_kind_from(kind))
      mistake(node, "layer \"" + std::string(key) + "\" cannot be \"" + kind + "\"",
              "use one of: " + layer_kind_words());
    map_.layer_kinds[std::string(key)] = kind;
  }

  std::string file_;
  ColumnMap map_;
  std::vector<std::pair<toml::source_index, Error>> mistakes_;
};

// A TOML basic string. Written by hand because toml++ 3.3 leaves a tab in a key as it is.
std::string toml_string(std::string_view text) {
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string basic = "\"";
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      basic += '\\';
      basic += c;
    } else if (code < 0x20 || code == 0x7F) {
      basic += "\\u00";
      basic += kHex[code >> 4u];
      basic += kHex[code & 0xFu];
    } else {
      basic += c;
    }
  }
  return basic + '"';
}

void write_texts(std::string& toml, std::string_view section,
                 const std::map<std::string, std::string>& texts) {
  if (texts.empty()) return;
  toml += "\n[" + std::string(section) + "]\n";
  for (const auto& [key, text] : texts) toml += toml_string(key) + " = " + toml_string(text) + "\n";
}

}  // namespace

Result<ColumnMap> column_map_from_text(std::string_view toml, const std::string& file_name) {
  if (auto unfit = unfit_for_toml(toml, file_name)) return *unfit;
  try {
    Reading reading(file_name);
    reading.read(toml::parse(toml));
    return reading.result();
  } catch (const toml::parse_error& error) {
    const auto line = error.source().begin.line;
    return Error{Code::format_broken, file_name + " line " + std::to_string(line),
                 "this is not TOML: " + std::string(error.description()),
                 "correct the line; texts stand in quotation marks"};
  }
}

Result<ColumnMap> column_map_from_toml(const std::filesystem::path& file) {
  ROOTSTEAD_TRY(std::string bytes, read_bytes(file));
  return column_map_from_text(decoded(std::move(bytes)).text, file.filename().string());
}

std::string to_toml(const ColumnMap& map) {
  std::string toml;
  if (!map.crs.empty()) toml += "crs = " + toml_string(map.crs) + "\n";
  if (!map.fields.empty()) toml += "\n[columns]\n";
  for (const auto& [field, column] : map.fields) {
    toml += field + " = ";
    if (column.unit) {
      toml += "{ column = " + toml_string(column.column) + ", unit = \"" +
              std::string(symbol(*column.unit)) + "\" }\n";
    } else {
      toml += toml_string(column.column) + "\n";
    }
  }
  write_texts(toml, "values", map.values);
  write_texts(toml, "layers", map.layer_kinds);
  return toml;
}

}  // namespace rootstead::io
