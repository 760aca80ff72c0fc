// Stress below loads, tyres and tracks.
#include <cmath>

#include "engine/soil/soil_by_hand.hpp"
#include "engine/soil/stress.hpp"
#include "engine/soil/traffic.hpp"

namespace rootstead::soil_by_hand {
namespace {

const FigureInput kLoad{"load", "load", "10kN"}, kDepth{"depth", "depth below it", "0.5m"};
const FigureInput kFactor{"concentration", "concentration factor: 3 elastic, 4 dry, 5 moist, 6 wet",
                          "4"};

Result<int> factor_of(const std::string& name, const HandValues& given, int otherwise) {
  const double factor = given.in("concentration", "", otherwise);
  if (factor < 1 || factor > 12 || factor != std::floor(factor))
    return not_in(name, "the concentration factor is no whole number from 1 to 12",
                  "write 3, 4, 5 or 6");
  return static_cast<int>(factor);
}

HandFigure point(const std::string& name, int otherwise, const Citation& from) {
  const bool elastic = otherwise == kElastic;
  Inputs inputs = {kLoad, kDepth, {"offset", "distance sideways", "0.25m"}};
  if (!elastic) inputs.push_back(kFactor);
  return {{name, "kPa",
           elastic ? "stress below a point load on elastic ground"
                   : "stress below a point load on soil",
           inputs},
          {"offset"},
          [=](const HandValues& given) -> Answer {
            if (auto fault = below_zero(name, given, {{"load", "kN"}, {"depth", "m"}}))
              return *std::move(fault);
            int nu = otherwise;
            if (!elastic) {
              ROOTSTEAD_TRY(nu, factor_of(name, given, otherwise));
            }
            const Pressure stress = point_stress(given.in("load", "kN"), metres_in(given, "offset"),
                                                 metres_in(given, "depth"), nu);
            return std::vector{one(stress.kilopascals(), "kPa",
                                   elastic ? "3 P z^3 / (2 pi R^5)" : "nu P cos^nu / (2 pi R^2)",
                                   from)};
          }};
}

HandFigure circle() {
  return {{"soil.circle-stress",
           "kPa",
           "stress on the axis below a uniform circle",
           {{"pressure", "pressure on the circle", "100kPa"},
            {"radius", "radius", "0.25m"},
            kDepth,
            kFactor}},
          {"concentration"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.circle-stress";
            if (auto fault =
                    below_zero(name, given, {{"pressure", "kPa"}, {"radius", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            ROOTSTEAD_TRY(const int nu, factor_of(name, given, kElastic));
            const Pressure stress =
                circle_stress(Pressure::kilopascals(given.in("pressure", "kPa")),
                              metres_in(given, "radius"), metres_in(given, "depth"), nu);
            return std::vector{one(stress.kilopascals(), "kPa", "p (1 - (z / sqrt(z^2 + a^2))^nu)",
                                   {"froehlich-1934", "circle on the axis", Status::published})};
          }};
}

HandFigure newmark() {
  return {{"soil.newmark",
           "",
           "share of the surface pressure below a corner of a uniform rectangle",
           {{"width", "side of the rectangle", "1m"},
            {"length", "other side", "2m"},
            {"depth", "depth below the corner", "1m"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.newmark", given,
                                        {{"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            const double share = corner_influence(
                metres_in(given, "width"), metres_in(given, "length"), metres_in(given, "depth"));
            return std::vector{one(share, "", "Newmark, m = B / z, n = L / z",
                                   {"newmark-1935", "corner of a rectangle", Status::memory})};
          }};
}

HandFigure two_to_one() {
  return {{"soil.two-to-one",
           "kPa",
           "stress below a rectangle, spread at one sideways for two down",
           {{"load", "load", "20kN"},
            {"width", "side", "0.25m"},
            {"length", "other side", "0.4m"},
            kDepth}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault =
                    below_zero("soil.two-to-one", given,
                               {{"load", "kN"}, {"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            const Pressure stress =
                two_to_one_stress(given.in("load", "kN"), metres_in(given, "width"),
                                  metres_in(given, "length"), metres_in(given, "depth"));
            return std::vector{one(stress.kilopascals(), "kPa",
                                   "Q / ((B + z)(L + z)); low on the axis for z < B",
                                   {"two-to-one", "", Status::memory})};
          }};
}

HandFigure layer() {
  return {{"soil.two-to-one-layer",
           "m",
           "layer that spreads a square load down to a pressure",
           {{"load", "load", "10kN"},
            {"width", "side of the square", "0.25m"},
            {"allowed", "pressure below the layer", "50kPa"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.two-to-one-layer", given,
                                        {{"load", "kN"}, {"width", "m"}, {"allowed", "kPa"}}))
              return *std::move(fault);
            const Length needed =
                two_to_one_layer(given.in("load", "kN"), metres_in(given, "width"),
                                 Pressure::kilopascals(given.in("allowed", "kPa")));
            return std::vector{one(needed.metres(), "m", "sqrt(Q / p) - B, not below 0",
                                   {"two-to-one", "", Status::memory})};
          }};
}

HandFigure rectangle() {
  return {{"soil.rectangle-stress",
           "kPa",
           "stress below the centre of a uniform rectangle: a wheel, a track or a stiff mat",
           {{"load", "load", "20kN"},
            {"width", "side", "1.2m"},
            {"length", "other side", "2.4m"},
            kDepth,
            kFactor}},
          {"concentration"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.rectangle-stress";
            if (auto fault = below_zero(
                    name, given, {{"load", "kN"}, {"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            ROOTSTEAD_TRY(const int nu, factor_of(name, given, kElastic));
            const Contact contact{given.in("load", "kN"), metres_in(given, "width"),
                                  metres_in(given, "length")};
            const Pressure stress = rectangle_stress(contact.pressure(), contact.width,
                                                     contact.length, metres_in(given, "depth"), nu);
            return std::vector{
                one(stress.kilopascals(), "kPa", "4 Q / (B L) I(B/2z, L/2z)",
                    {"newmark-1935", "four corners; Froehlich's factor above 3", Status::memory})};
          }};
}

HandFigure tyre() {
  return {{"soil.tyre-contact",
           "kPa",
           "greatest stress under a tyre and the length of its footprint",
           {{"pressure", "tyre pressure", "160kPa"},
            {"recommended", "pressure recommended for this load", "160kPa"},
            {"load", "wheel load", "30kN"},
            {"width", "tyre width", "0.6m"},
            {"diameter", "tyre diameter", "1.6m"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.tyre-contact", given,
                                        {{"pressure", "kPa"},
                                         {"recommended", "kPa"},
                                         {"load", "kN"},
                                         {"width", "m"},
                                         {"diameter", "m"}}))
              return *std::move(fault);
            const TyreContact contact = tyre_contact(
                given.in("pressure", "kPa"), given.in("recommended", "kPa"), given.in("load", "kN"),
                metres_in(given, "width"), metres_in(given, "diameter"));
            const Citation from{"keller-2005", "", Status::published};
            return std::vector{named("soil.tyre-contact.greatest",
                                     one(contact.greatest.kilopascals(), "kPa",
                                         "34.4 + 1.13 p + 0.72 F - 33.4 ln(p / p_rec)", from)),
                               named("soil.tyre-contact.length",
                                     one(contact.length.metres(), "m",
                                         "0.47 + 0.11 d^2 - 0.16 ln(p / p_rec)", from)),
                               named("soil.tyre-contact.exponent",
                                     one(contact.exponent, "", "2.1 (w d)^2 + 2", from))};
          }};
}

HandFigure ground_pressure() {
  return {{"soil.ground-pressure",
           "kPa",
           "mean pressure of a machine on its tracks or wheels",
           {{"mass", "gross mass", "8t"},
            {"width", "of one contact", "0.45m"},
            {"length", "of one contact", "2.2m"},
            {"contacts", "tracks or wheels", "2"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault =
                    below_zero("soil.ground-pressure", given,
                               {{"mass", "kg"}, {"width", "m"}, {"length", "m"}, {"contacts", ""}}))
              return *std::move(fault);
            constexpr double kGravity = 9.80665;
            const double area =
                given.in("contacts", "") * given.in("width", "m") * given.in("length", "m");
            return std::vector{one(given.in("mass", "kg") * kGravity / area / 1000, "kPa",
                                   "m g / (n w l)",
                                   {"mat-hire-pressures", "weight over area", Status::published})};
          }};
}

}  // namespace

std::vector<HandFigure> stress_figures() {
  return {point("soil.boussinesq", kElastic, {"boussinesq-1885", "point load", Status::published}),
          point("soil.soehne", 4, {"froehlich-1934", "point load", Status::published}),
          circle(),
          newmark(),
          two_to_one(),
          layer(),
          rectangle(),
          tyre(),
          ground_pressure()};
}

}  // namespace rootstead::soil_by_hand
