// What is wrong with a JSON text by api/schema.json: the part of JSON Schema that is used there. A
// keyword that is not known here is itself a fault, so that nothing goes unchecked.
#pragma once

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

namespace rootstead::test {

class SchemaCheck {
 public:
  using Json = nlohmann::ordered_json;
  using Faults = std::vector<std::string>;

  explicit SchemaCheck(Json whole) : whole_(std::move(whole)) {}
  static SchemaCheck of_file(const std::string& path) {
    std::ifstream file(path);
    return SchemaCheck(Json::parse(file));
  }

  // Faults of an answer of 200 to `method` on `path`, or of a request, as the schema writes them.
  Faults of_answer(const std::string& path, const std::string& method, const Json& body) const {
    return of(body, part({"paths", path, method, "responses", "200", "content", "application/json",
                          "schema"}));
  }
  Faults of_request(const std::string& path, const std::string& method, const Json& body) const {
    return of(body, part({"paths", path, method, "requestBody", "content", "application/json",
                          "schema"}));
  }
  Faults of(const Json& value, const Json& schema, const std::string& at = "$") const {
    Faults faults;
    check(value, schema, at, faults);
    return faults;
  }
  Json named(const std::string& name) const { return part({"components", "schemas", name}); }

 private:
  // Null where there is none.
  Json part(const std::vector<std::string>& keys) const {
    const Json* found = &whole_;
    for (const std::string& key : keys) {
      if (!found->is_object() || !found->contains(key)) return nullptr;
      found = &(*found)[key];
    }
    return *found;
  }

  static bool is(const Json& value, const std::string& type) {
    if (type == "object") return value.is_object();
    if (type == "array") return value.is_array();
    if (type == "string") return value.is_string();
    if (type == "boolean") return value.is_boolean();
    if (type == "null") return value.is_null();
    if (type == "number") return value.is_number();
    return type == "integer" && value.is_number() &&
           std::floor(value.get<double>()) == value.get<double>();
  }

  void check(const Json& value, const Json& schema, const std::string& at, Faults& faults) const {
    static const std::set<std::string> told = {"description", "summary", "title", "format"};
    if (!schema.is_object()) return faults.push_back(at + ": there is no schema for it");
    for (const auto& [word, wanted] : schema.items()) {
      if (told.count(word) > 0 || word == "properties") continue;
      if (word == "$ref") {
        check(value, whole_.at(Json::json_pointer(wanted.get<std::string>().substr(1))), at,
              faults);
      } else if (word == "type") {
        check_type(value, wanted, at, faults);
      } else if (word == "enum") {
        if (std::find(wanted.begin(), wanted.end(), value) == wanted.end())
          faults.push_back(at + ": " + value.dump() + " is none of " + wanted.dump());
      } else if (word == "oneOf") {
        check_one_of(value, wanted, at, faults);
      } else if (word == "required") {
        for (const Json& key : wanted)
          if (value.is_object() && !value.contains(key.get<std::string>()))
            faults.push_back(at + ": has no " + key.get<std::string>());
      } else if (word == "additionalProperties") {
        // with the properties, below
      } else if (word == "items") {
        for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
          check(value[i], wanted, at + "[" + std::to_string(i) + "]", faults);
      } else if (word == "minItems" || word == "maxItems") {
        const bool least = word == "minItems";
        const auto count = wanted.get<std::size_t>();
        if (value.is_array() && (least ? value.size() < count : value.size() > count))
          faults.push_back(at + ": " + std::to_string(value.size()) + " items, " + word + " " +
                           wanted.dump());
      } else {
        faults.push_back(at + ": the check does not know " + word);
      }
    }
    if (value.is_object()) check_keys(value, schema, at, faults);
  }

  static void check_type(const Json& value, const Json& wanted, const std::string& at,
                         Faults& faults) {
    const bool fits =
        wanted.is_array()
            ? std::any_of(wanted.begin(), wanted.end(),
                          [&](const Json& type) { return is(value, type.get<std::string>()); })
            : is(value, wanted.get<std::string>());
    if (!fits) faults.push_back(at + ": is " + value.type_name() + ", not " + wanted.dump());
  }

  void check_one_of(const Json& value, const Json& choices, const std::string& at,
                    Faults& faults) const {
    Faults last;
    int fitting = 0;
    for (const Json& choice : choices) {
      Faults found = of(value, choice, at);
      found.empty() ? void(++fitting) : void(last = std::move(found));
    }
    if (fitting != 1)
      faults.push_back(at + ": fits " + std::to_string(fitting) + " of the choices" +
                       (last.empty() ? "" : "; " + last.front()));
  }

  void check_keys(const Json& value, const Json& schema, const std::string& at,
                  Faults& faults) const {
    const Json known = schema.value("properties", Json::object());
    for (const auto& [key, part] : value.items()) {
      const std::string place = at + "." + key;
      if (known.contains(key)) {
        check(part, known[key], place, faults);
      } else if (schema.contains("additionalProperties")) {
        const Json& others = schema["additionalProperties"];
        if (others.is_object())
          check(part, others, place, faults);
        else if (!others.get<bool>())
          faults.push_back(place + ": is no key of it");
      }
    }
  }

  Json whole_;
};

}  // namespace rootstead::test
