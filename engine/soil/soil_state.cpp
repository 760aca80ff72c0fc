#include "engine/soil/soil_state.hpp"

#include <algorithm>

#include "engine/base/amount_text.hpp"
#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

class LayerStudy {
 public:
  LayerStudy(const SoilLayer& layer, Length top, SoilTexture of_site, const Tables& tables,
             std::string_view table)
      : layer_(layer), of_site_(of_site), tables_(tables), table_(table) {
    state_.top = top;
    state_.bottom = layer.bottom.length();
  }

  Result<LayerState> run() {
    ROOTSTEAD_CHECK(texture());
    if (layer_.bulk_density) {
      pores();
      ROOTSTEAD_CHECK(density());
    } else if (layer_.air_filled) {
      air(*layer_.air_filled, "as entered", Status::published);
    }
    if (layer_.resistance) resistance();
    return std::move(state_);
  }

 private:
  Outcome texture() {
    if (layer_.sand && layer_.silt && layer_.clay) {
      ROOTSTEAD_TRY(Figure figure,
                    texture_figure({*layer_.sand, *layer_.silt, *layer_.clay}, SandLimit::usda));
      state_.texture = texture_class_from(figure.word);
      state_.figures.push_back(std::move(figure));
      return Nothing{};
    }
    const SoilTexture word = layer_.texture == SoilTexture::unknown ? of_site_ : layer_.texture;
    state_.texture = typical_class(word);
    state_.texture_assumed = state_.texture.has_value();
    return Nothing{};
  }

  FigureInput density_input() const {
    return {"rho", "bulk density", fixed_number(*layer_.bulk_density, 2) + " g/cm3"};
  }

  void pores() {
    state_.figures.push_back({"soil.porosity",
                              porosity(*layer_.bulk_density),
                              "",
                              {},
                              {density_input()},
                              "1 - rho / 2.65",
                              {"soil-physics", "", Status::published},
                              {}});
    if (layer_.air_filled) {
      air(*layer_.air_filled, "as entered", Status::published);
    } else if (layer_.water) {
      air(air_filled(*layer_.bulk_density, *layer_.water), "1 - rho / 2.65 - water",
          Status::published);
    }
  }

  void air(double share, std::string formula, Status status) {
    const Parameter& enough = tables_.parameter("air.enough_share");
    Figure figure{"soil.air-filled",
                  share,
                  "",
                  {},
                  {input_from(enough, "enough")},
                  std::move(formula),
                  {"soil-physics", "", status},
                  {}};
    figure.word = share < enough.best ? "poor aeration" : "air enough";
    figure.from.status = weaker(status, enough.from.status);
    state_.figures.push_back(std::move(figure));
  }

  Outcome density() {
    if (!state_.texture) return Nothing{};
    state_.readings = density_readings(*layer_.bulk_density, *state_.texture, tables_);
    // A table may have no row for the class: then the others still stand side by side.
    if (!table_.empty() && density_limit(tables_, table_, *state_.texture) == nullptr)
      return Nothing{};
    ROOTSTEAD_TRY(const DensityLimits limits, density_limits(*state_.texture, tables_, table_));
    state_.density = density_verdict(*layer_.bulk_density, limits);
    const auto add = [&](std::string name, double value) {
      state_.figures.push_back({std::move(name),
                                value,
                                "g/cm3",
                                {},
                                {{"texture", "class", std::string(to_text(*state_.texture))}},
                                limits.used,
                                limits.from,
                                {}});
    };
    add("soil.density-watch", limits.watch);
    add("soil.density-stop", limits.stop);
    return Nothing{};
  }

  void resistance() {
    const Parameter& stop = tables_.parameter("soil.resistance_stop");
    const Parameter& easy = tables_.parameter("soil.resistance_easy");
    Figure figure{"soil.resistance",
                  *layer_.resistance,
                  "MPa",
                  {},
                  {input_from(easy, "easy"), input_from(stop, "stop")},
                  "2 MPa (300 psi) is a severe restriction; from 2 to 3 MPa roots stop",
                  stop.from,
                  {}};
    figure.word = *layer_.resistance >= stop.low   ? "roots are severely hindered"
                  : *layer_.resistance > easy.best ? "roots are slowed"
                                                   : "roots pass";
    state_.figures.push_back(std::move(figure));
  }

  const SoilLayer& layer_;
  SoilTexture of_site_;
  const Tables& tables_;
  std::string_view table_;
  LayerState state_;
};

bool readings_disagree(const LayerState& layer) {
  return std::any_of(layer.readings.begin(), layer.readings.end(), [&](const auto& reading) {
    return reading.verdict != layer.readings.front().verdict;
  });
}

class StateWriter {
 public:
  explicit StateWriter(UnitSystem units) : text_{units} {}

  void add(LayerState layer) {
    const std::string where =
        "the soil from " + text_.length(layer.top) + " to " + text_.length(layer.bottom);
    if (layer.texture_assumed)
      note(NoteCode::texture_assumed, where,
           "its class is taken as " + std::string(to_text(*layer.texture)) +
               " from the plain word of the survey; sand, silt and clay would tell");
    if (readings_disagree(layer)) tables_disagree(layer, where);
    if (layer.density == DensityVerdict::stopped) loosen(layer, where);
    state.layers.push_back(std::move(layer));
  }

  SoilState state;

 private:
  void note(NoteCode code, const std::string& where, std::string text) {
    state.notes.push_back({code, where, std::move(text)});
  }

  void tables_disagree(const LayerState& layer, const std::string& where) {
    std::vector<std::string> said;
    for (const DensityReading& reading : layer.readings)
      said.push_back(reading.row.table + " " + std::string(to_text(reading.verdict)));
    note(NoteCode::density_tables_disagree, where,
         "published tables differ on its density: " + joined(said, ", "));
  }

  void loosen(const LayerState& layer, const std::string& where) {
    const bool deep = layer.bottom > Length::metres(0.3);
    std::string reason = "It is so dense that roots stop by the limits used.";
    if (deep)
      reason +=
          " Building sites are dense to 0.3 to 0.8 m: loosening the top alone does "
          "not reach it.";
    state.prescriptions.push_back(
        {"soil", "", "",
         "Loosen " + where +
             " between the roots by air or by hand before planting or watering; "
             "never by machine over roots.",
         std::move(reason), layer.figures,
         deep ? Citation{"randrup-1997", "17 sites", Status::published}
              : Citation{"rootstead", "docs/methods/soil.md", Status::assumption}});
  }

  AmountText text_;
};

}  // namespace

Result<SoilState> soil_state(const Soil& soil, const Tables& tables, std::string_view table,
                             UnitSystem units) {
  const auto known = density_tables(tables);
  if (!table.empty() && std::find(known.begin(), known.end(), table) == known.end())
    return Error{Code::unknown_name, "soil",
                 "there is no table of densities \"" + std::string(table) + "\"",
                 suggestion(table, known)};
  StateWriter writer(units);
  Length top;
  for (const SoilLayer& layer : soil.layers) {
    ROOTSTEAD_TRY(LayerState state, LayerStudy(layer, top, soil.texture, tables, table).run());
    top = state.bottom;
    writer.add(std::move(state));
  }
  return std::move(writer.state);
}

}  // namespace rootstead
