#include "engine/rules/figure_arguments.hpp"

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"

namespace rootstead {
namespace {

class Reader {
 public:
  explicit Reader(std::string_view figure) : subject_(figure) {}

  Outcome read(const std::string& key, const std::string& text) {
    if (key == "stem" || key == "girth") return read_stems(key, text);
    if (key.starts_with("crown") && key != "columnar") return read_crown(key, text);
    if (key == "basal") return read_length(key, text, input_.tree.basal_diameter);
    if (key == "height") return read_length(key, text, input_.tree.height);
    if (key == "radius") return read_length(key, text, input_.radius_entered);
    if (key == "distance") return read_length(key, text, input_.distance_entered);
    if (key == "area") return read_area(key, text, input_.area);
    if (key == "surfaced") return read_area(key, text, input_.surfaced);
    if (key == "share") return read_share(key, text);
    if (key == "lean" || key == "slope") return read_angle(key, text);
    return read_word(key, text);
  }

  HandInput finish() {
    Tree& tree = input_.tree;
    if (tree.crown) tree.crown->columnar = columnar_;
    if (input_.radius_entered) input_.radius = input_.radius_entered->length();
    if (input_.distance_entered) input_.distance = input_.distance_entered->length();
    return std::move(input_);
  }

 private:
  Error wrong(const std::string& key, const std::string& text, const std::string& remedy,
              Code code = Code::wrong_use) const {
    return {code, subject_, key + "=" + text + " is not understood", remedy};
  }

  Result<EnteredLength> length_of(const std::string& key, const std::string& text) const {
    const std::string example =
        "write the unit with the number, e.g. " + key + "=1.5m or " + key + "=20in";
    if (const auto number = number_from(text)) {
      return Error{Code::unit_missing, subject_, key + "=" + text + " has no unit", example};
    }
    const auto entered = entered_length_from(text);
    if (!entered) return wrong(key, text, example);
    if (entered->value < 0) return wrong(key, text, "lengths cannot be negative");
    return *entered;
  }

  Outcome read_length(const std::string& key, const std::string& text,
                      std::optional<EnteredLength>& into) const {
    ROOTSTEAD_TRY(into, length_of(key, text));
    return Nothing{};
  }

  // Several stems, each with its unit; a comma parts them, so decimals have a point.
  Outcome read_stems(const std::string& key, const std::string& text) {
    for (const std::string& part : split(text, ',')) {
      Stem stem;
      stem.read = key == "girth" ? Stem::Read::girth : Stem::Read::diameter;
      ROOTSTEAD_TRY(stem.size, length_of(key, part));
      input_.tree.stems.push_back(stem);
    }
    return Nothing{};
  }

  Outcome read_crown(const std::string& key, const std::string& text) {
    ROOTSTEAD_TRY(const EnteredLength radius, length_of(key, text));
    if (!input_.tree.crown) input_.tree.crown.emplace();
    auto& radii = input_.tree.crown->radius;
    constexpr std::string_view kSides = "nesw";
    const auto side = key == "crown" ? std::string_view::npos : kSides.find(key.back());
    if (side == std::string_view::npos)
      radii.fill(radius);
    else
      radii[side] = radius;
    return Nothing{};
  }

  Outcome read_area(const std::string& key, const std::string& text,
                    std::optional<Area>& into) const {
    const auto number = leading_number(text);
    const std::string unit = number ? lower_case(trimmed(number->rest)) : "";
    constexpr double kSquareMetresPerSquareFoot = 0.3048 * 0.3048;
    const std::string example = "write e.g. " + key + "=30m2 or " + key + "=300ft2";
    if (number && unit.empty()) {
      return Error{Code::unit_missing, subject_, key + "=" + text + " has no unit", example};
    }
    if (!number || number->value < 0) return wrong(key, text, example);
    if (unit == "m2")
      into = Area::square_metres(number->value);
    else if (unit == "ft2" || unit == "sqft" || unit == "sq ft")
      into = Area::square_metres(number->value * kSquareMetresPerSquareFoot);
    else
      return wrong(key, text, example, Code::unit_unknown);
    return Nothing{};
  }

  Outcome read_share(const std::string& key, const std::string& text) {
    const auto number = leading_number(text);
    const std::string_view unit = number ? trimmed(number->rest) : "";
    if (!number || (!unit.empty() && unit != "%")) return wrong(key, text, "write e.g. share=10%");
    input_.share = unit == "%" ? number->value / 100 : number->value;
    return Nothing{};
  }

  Outcome read_angle(const std::string& key, const std::string& text) {
    const auto number = leading_number(text);
    const std::string_view unit = number ? trimmed(number->rest) : "";
    if (!number || (!unit.empty() && unit != "deg")) {
      return wrong(key, text, "write degrees, e.g. " + key + "=15deg");
    }
    const Angle angle = Angle::degrees(number->value);
    if (key == "slope")
      input_.slope = angle;
    else
      input_.tree.lean = Lean{angle, {}};
    return Nothing{};
  }

  template <class Value>
  Outcome set(const std::string& key, const std::string& text, const std::optional<Value>& value,
              Value& into, const char* example) const {
    if (!value) return wrong(key, text, std::string("write e.g. ") + key + "=" + example);
    into = *value;
    return Nothing{};
  }

  Outcome read_word(const std::string& key, const std::string& text) {
    Tree& tree = input_.tree;
    if (key == "form") return set(key, text, growth_form_from(text), tree.form, "broadleaf");
    if (key == "stage") return set(key, text, life_stage_from(text), tree.stage, "mature");
    if (key == "condition") return set(key, text, condition_from(text), tree.condition, "good");
    if (key == "tolerance") return set(key, text, tolerance_from(text), input_.tolerance, "good");
    if (key == "columnar") {
      const std::string word = lower_case(text);
      if (word != "yes" && word != "no") return wrong(key, text, "write columnar=yes or no");
      columnar_ = word == "yes";
    }
    if (key == "category") tree.category = text;
    if (key == "species") tree.botanical_name = text;
    return Nothing{};
  }

  std::string subject_;
  HandInput input_;
  bool columnar_ = false;
};

}  // namespace

const std::vector<FigureInput>& hand_keys() {
  static const std::vector<FigureInput> keys{
      {"stem", "stem diameter; several stems parted by commas", "500mm"},
      {"girth", "stem girth, in place of stem", "1.5m"},
      {"basal", "diameter just above the root buttress", "600mm"},
      {"height", "tree height", "15m"},
      {"crown", "crown radius, the same all round", "4m"},
      {"crown_n", "crown radius to the north; also crown_e, crown_s, crown_w", "4m"},
      {"crown_e", "crown radius to the east", "4m"},
      {"crown_s", "crown radius to the south", "4m"},
      {"crown_w", "crown radius to the west", "4m"},
      {"columnar", "upright narrow crown: yes or no", "yes"},
      {"form", "growth form: broadleaf, conifer, palm, other monocot", "broadleaf"},
      {"species", "botanical name", "Pinus sylvestris"},
      {"stage", "life stage: young, semi-mature, mature, over-mature, veteran", "veteran"},
      {"condition", "condition: good, fair, poor, dead", "good"},
      {"category", "retention or quality category", "A"},
      {"tolerance", "tolerance of root loss: good, moderate, poor", "moderate"},
      {"lean", "lean from the vertical, degrees", "15deg"},
      {"area", "area of the zone, in place of its measurements", "113.1m2"},
      {"surfaced", "ground in the zone that is surfaced today", "30m2"},
      {"radius", "radius of the circle", "6m"},
      {"distance", "distance of the line from the stem centre", "3m"},
      {"share", "share of the circle's area", "10%"},
      {"slope", "slope of the ground, degrees", "20deg"},
  };
  return keys;
}

std::vector<FigureInput> hand_keys(const std::vector<std::string>& names) {
  std::vector<FigureInput> chosen;
  for (const FigureInput& key : hand_keys()) {
    if (std::find(names.begin(), names.end(), key.symbol) != names.end()) chosen.push_back(key);
  }
  return chosen;
}

Result<HandInput> read_arguments(std::string_view figure, const FigureArguments& arguments,
                                 const std::vector<FigureInput>& allowed) {
  Reader reader(figure);
  std::vector<FigureInput> given;
  std::vector<std::string> known;
  for (const FigureInput& key : allowed) known.push_back(key.symbol);
  for (const auto& [key, text] : arguments) {
    const auto found =
        std::find_if(allowed.begin(), allowed.end(),
                     [&key = key](const auto& input) { return input.symbol == key; });
    if (found == allowed.end()) {
      return Error{Code::wrong_use, std::string(figure), "there is no input \"" + key + "\" here",
                   suggestion(key, known)};
    }
    ROOTSTEAD_CHECK(reader.read(key, std::string(trimmed(text))));
    given.push_back({key, found->meaning, text});
  }
  HandInput input = reader.finish();
  input.given = std::move(given);
  return input;
}

}  // namespace rootstead
