// What watering_after_loss and watering_after_move share. Private to this room.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/base/amount_text.hpp"
#include "engine/water/range_arithmetic.hpp"
#include "engine/water/soil_water.hpp"
#include "engine/water/watering.hpp"

namespace rootstead::water {

struct WaterCase {
  const Tree& tree;
  const Site& site;
  const Tables& tables;
  AmountText text;
  bool monocot = false;
};
WaterCase case_of(const Tree& tree, const Site& site, const Tables& tables);

// What the crown draws, litres a day; nothing where no crown is known.
struct Thirst {
  Range litres_per_day;
  ReferenceDemand reference;
  LandscapeCoefficient coefficient;
  Range crown_m2;
  Status status = Status::assumption;
};
// Adds what has to be said about it to the notes.
std::optional<Thirst> thirst_of(const WaterCase& c, std::optional<int> month, SpeciesWater species,
                                std::vector<Note>& notes);

// The water roots can draw from some ground, and the part that may be used up before the next
// watering.
struct Store {
  AvailableWater soil;
  Range litres;
  Range allowed_litres;
};
Store store_of(const AvailableWater& soil, const Range& cubic_metres, const Tables& tables);

void add_thirst_figures(const Thirst& thirst, std::vector<Figure>& figures);
void add_store_figures(const Store& store, std::vector<FigureInput> inputs, const Tables& tables,
                       std::vector<Figure>& figures);
void add_amount_figures(const WaterAmounts& amounts, Status status, const Tables& tables,
                        std::vector<Figure>& figures);

std::string words_of(const Range& range, int decimals, std::string_view unit);
// "450 L to 1,900 L"
std::string water_words(const WaterCase& c, const Range& litres);
// "every day", "every 3 days"
std::string days_words(double days);

Prescription prescription(const WaterCase& c, std::string text, std::string reason, Citation from);
// Look before you water; mulch. The same after a loss and after a move.
void add_care(const WaterCase& c, std::string_view ground, std::vector<Prescription>& all);

}  // namespace rootstead::water
