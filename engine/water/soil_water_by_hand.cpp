// What water a soil holds, and how much of it a crop may use.
#include "engine/base/text.hpp"
#include "engine/water/soil_water.hpp"
#include "engine/water/water_by_hand.hpp"

namespace rootstead::water_by_hand {
namespace {

HandFigure depletion() {
  return {{"water.depletion",
           "",
           "share of the available water that may be used without stress, at a day's demand",
           {{"share", "of the table, at 5 mm a day", "0.5"}, {"demand", "of the crop", "7mm/day"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{
                part("", depletion_share(v.in("share", ""), v.in("demand", "mm/day")), "",
                     "p = p_table + 0.04 (5 - ET_c), 0.1 to 0.8", fao("Table 22, note"))};
          }};
}

HandFigure total_available() {
  return {{"water.total-available",
           "mm",
           "water that roots can take from a depth of soil",
           {{"field-capacity", "share of the volume", "25%"},
            {"wilting", "share of the volume", "12%"},
            {"depth", "of the roots", "1m"},
            {"share", "that may be used without stress", "0.5"},
            {"depleted", "used up already", "0.08m"}}},
          {"share", "depleted"},
          [](const HandValues& v) -> Answer {
            const double total = total_available_mm(v.in("field-capacity", ""), v.in("wilting", ""),
                                                    v.in("depth", "m"));
            if (!(total > 0))
              return refused("water.total-available", "this soil holds nothing for roots",
                             "the field capacity must be above the wilting point");
            const double share = v.in("share", "", 0.5);
            if (!(share > 0 && share < 1))
              return refused("water.total-available", "the share is none", "enter e.g. 50 %");
            std::vector<Figure> all{part("water.total-available.total", total, "mm",
                                         "TAW = 1000 (FC - WP) z", fao("equation 82")),
                                    part("water.total-available.readily", share * total, "mm",
                                         "RAW = p TAW", fao("equation 83"))};
            if (v.has("depleted"))
              all.push_back(part("water.total-available.stress",
                                 stress_factor(v.in("depleted", "mm"), total, share), "",
                                 "K_s = (TAW - D) / (TAW - RAW), 0 to 1", fao("equation 84")));
            return all;
          }};
}

HandFigure available(const Tables& tables) {
  return {{"water.available",
           "mm/m",
           "water that roots can take, by texture: low, middle and high of the row",
           {{"texture", "by the names of soil survey", "silt loam"}}},
          {},
          [&tables](const HandValues& v) -> Answer {
            const auto row = available_water(v.word("texture"), tables);
            if (!row)
              return Error{Code::unknown_name, "water.available",
                           "there is no row for \"" + v.word("texture") + "\"",
                           "the rows are " + joined(available_water_textures(), ", ")};
            Figure figure =
                part("", row->mm_per_m.best, "mm/m", "table row: " + row->texture, row->from);
            figure.range = row->mm_per_m;
            return std::vector{figure};
          }};
}

HandFigure contents() {
  return {{"water.soil-contents",
           "",
           "water contents of a soil by its particles",
           {{"sand", "share by mass", "20%"},
            {"clay", "share by mass", "20%"},
            {"organic-matter", "share by mass", "2.5%"}}},
          {},
          [](const HandValues& v) -> Answer {
            ROOTSTEAD_TRY(const WaterContents w, saxton_rawls(v.in("sand", ""), v.in("clay", ""),
                                                              v.in("organic-matter", "")));
            const auto from = [](std::string place) {
              return Citation{"saxton-rawls-2006", std::move(place), Status::published};
            };
            const std::string n = "water.soil-contents.";
            return std::vector{
                part(n + "wilting", w.wilting, "", "at 1500 kPa", from("equation 1")),
                part(n + "field-capacity", w.field_capacity, "", "at 33 kPa", from("equation 2")),
                part(n + "saturation", w.saturation, "", "saturated", from("equation 5")),
                part(n + "available", w.field_capacity - w.wilting, "", "field capacity - wilting",
                     from("equations 1 and 2"))};
          }};
}

HandFigure crop(const Tables& tables) {
  return {{"water.crop",
           "",
           "rooting depth, depletion share and crop coefficients of a crop of trees or turf",
           {{"name", "of the row", "conifers"}}},
          {},
          [&tables](const HandValues& v) -> Answer {
            std::vector<std::string> names;
            for (const CropRow& row : crop_rows(tables)) {
              names.push_back(row.name);
              if (row.name != v.word("name")) continue;
              const std::string n = "water.crop.";
              Figure depth = part(n + "root-depth", row.root_depth_m.best, "m",
                                  "greatest rooting depth", row.from);
              depth.range = row.root_depth_m;
              std::vector<Figure> all{
                  depth, part(n + "depletion", row.depletion, "", "p at 5 mm/day", row.from)};
              const auto add = [&](const char* name, const std::optional<double>& kc) {
                if (kc) all.push_back(part(n + name, *kc, "", "K_c", row.from));
              };
              add("initial", row.kc_initial);
              add("middle", row.kc_middle);
              add("end", row.kc_end);
              return all;
            }
            return Error{Code::unknown_name, "water.crop",
                         "there is no row for \"" + v.word("name") + "\"",
                         "the rows are " + joined(names, ", ")};
          }};
}

}  // namespace

std::vector<HandFigure> soil_water_figures(const Tables& tables) {
  return {depletion(), total_available(), available(tables), contents(), crop(tables)};
}

}  // namespace rootstead::water_by_hand
