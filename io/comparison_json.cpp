#include "io/comparison_json.hpp"

namespace rootstead::io {
namespace {

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json();
}

Json range_or_null(const std::optional<Range>& range) {
  return range ? to_json(*range) : Json();
}

Json word_or_null(const std::optional<Action>& action) {
  return action ? Json(std::string(to_text(*action))) : Json();
}

Json thing_json(const ThingChange& thing) {
  Json fields = Json::array();
  for (const FieldChange& field : thing.fields)
    fields.push_back({{"field", field.field}, {"before", field.before}, {"after", field.after}});
  return {{"sort", std::string(to_text(thing.sort))},
          {"id", thing.id},
          {"name", thing.name},
          {"how", std::string(to_text(thing.how))},
          {"moved_m", thing.moved ? Json(thing.moved->metres()) : Json()},
          {"fields", fields}};
}

Json answer_json(const AnswerChange& answer) {
  return {{"before", range_or_null(answer.before)},
          {"after", range_or_null(answer.after)},
          {"trend", std::string(to_text(answer.trend))}};
}

Json tree_json(const TreeChange& tree) {
  return {
      {"id", tree.tree},
      {"absorbing_loss", answer_json(tree.health)},
      {"anchorage_kept", answer_json(tree.stability)},
      {"verdict", {{"before", word_or_null(tree.before)}, {"after", word_or_null(tree.after)}}}};
}

Json limit_json(const LimitChange& limit) {
  return {{"tree", limit.tree},
          {"rule", limit.rule},
          {"zone", limit.zone},
          {"limit", limit.limit},
          {"newly_passed", limit.newly_passed},
          {"before", or_null(limit.before)},
          {"after", or_null(limit.after)},
          {"threshold", limit.threshold},
          {"triggers", limit.triggers}};
}

Json list_of(const auto& changes, auto told) {
  Json list = Json::array();
  for (const auto& change : changes) list.push_back(told(change));
  return list;
}

}  // namespace

Json to_json(const Comparison& changes) {
  return {{"things", list_of(changes.things, thing_json)},
          {"trees", list_of(changes.trees, tree_json)},
          {"trees_same", changes.trees_same},
          {"limits", list_of(changes.limits, limit_json)},
          {"rule", trend_rule()}};
}

}  // namespace rootstead::io
