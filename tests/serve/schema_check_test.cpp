// The check itself finds what is wrong, so that an answer that passes it is right.
#include "tests/support/schema_check.hpp"

#include "tests/serve/a_standing.hpp"

namespace rootstead::test {
namespace {

using Json = SchemaCheck::Json;

const SchemaCheck& contract() {
  static const SchemaCheck schema =
      SchemaCheck::of_file((source_dir() / "api/schema.json").string());
  return schema;
}

std::size_t faults_of(const Json& value, const std::string& name) {
  return contract().of(value, contract().named(name)).size();
}

TEST(SchemaCheck, TakesWhatIsRight) {
  EXPECT_EQ(faults_of(Json::parse(R"({"name":"a","text":"b"})"), "Named"), 0U);
  EXPECT_EQ(faults_of(Json::parse("[1,2.5]"), "Position"), 0U);
  EXPECT_EQ(faults_of(Json::parse(R"({"work":"W","text":"t","before":null,
      "after":{"low":0,"best":1,"high":2},"removes_verdict":true})"),
                      "Remedy"),
            0U);
}

TEST(SchemaCheck, FindsWhatIsWrong) {
  EXPECT_EQ(faults_of(Json::parse(R"({"name":"a"})"), "Named"), 1U) << "a key is missing";
  EXPECT_EQ(faults_of(Json::parse(R"({"name":"a","text":"b","more":1})"), "Named"), 1U);
  EXPECT_EQ(faults_of(Json::parse(R"({"name":"a","text":7})"), "Named"), 1U) << "another type";
  EXPECT_EQ(faults_of(Json::parse("[1,2,3]"), "Position"), 1U) << "too many";
  EXPECT_EQ(faults_of(Json::parse(R"([1,"2"])"), "Position"), 1U) << "deep inside";
  EXPECT_GE(faults_of(Json::parse(R"({"work":"W","text":"t","before":4,"after":null,
      "removes_verdict":true})"),
                      "Remedy"),
            1U)
      << "none of the choices";
  EXPECT_GE(faults_of(Json::parse(R"({"version":"v","title":"","demo":false,
      "system":{"code":"","name":""},"units":"imperial","trees":[],"zones":[],"works":[],
      "barriers":[],"cautions":[],"evidence":[],"boundary":[],"gates":[]})"),
                      "Site"),
            1U)
      << "a word that is not in the list";
}

TEST(SchemaCheck, OwnsUpToWhatItDoesNotKnow) {
  const Json schema = {{"type", "number"}, {"multipleOf", 2}};
  EXPECT_EQ(contract().of(4, schema).size(), 1U);
  EXPECT_EQ(contract().of_answer("/api/none", "get", {}).size(), 1U);
}

}  // namespace
}  // namespace rootstead::test
