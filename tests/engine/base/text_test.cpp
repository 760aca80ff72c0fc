#include "engine/base/text.hpp"

#include "engine/base/result.hpp"
#include "engine/base/source.hpp"

namespace rootstead {
namespace {

TEST(Text, NumbersAreRoundedHalfAwayFromZero) {
  EXPECT_EQ(fixed_number(2.5, 0), "3");
  EXPECT_EQ(fixed_number(-2.5, 0), "-3");
  EXPECT_EQ(fixed_number(113.0973, 1), "113.1");
  EXPECT_EQ(fixed_number(-0.004, 2), "0.00");
}

TEST(Text, TheShortestNumberHasNoTail) {
  EXPECT_EQ(shortest_number(0.1), "0.1");
  EXPECT_EQ(shortest_number(500), "500");
  EXPECT_EQ(shortest_number(100000), "100000");
  EXPECT_EQ(shortest_number(-0.0), "0");
}

TEST(Text, AWholeTextIsANumberOrNothing) {
  EXPECT_EQ(number_from(" 1,5 "), 1.5);
  EXPECT_EQ(number_from("+3"), 3.0);
  EXPECT_FALSE(number_from("3 m"));
  EXPECT_FALSE(number_from(""));
  EXPECT_FALSE(number_from("1,000,000"));
  EXPECT_FALSE(number_from("inf"));
  EXPECT_FALSE(number_from("nan"));
}

TEST(Text, SplitKeepsEmptyParts) {
  EXPECT_EQ(split("a;;b;", ';'), (std::vector<std::string>{"a", "", "b", ""}));
  EXPECT_EQ(joined(split("a;;b;", ';'), ";"), "a;;b;");
}

TEST(Error, IsOneSentenceWithWhereWhatAndWhatToDo) {
  const Error error{Code::value_invalid, "survey.csv row 12", "the diameter is negative",
                    "enter it as a positive number"};
  EXPECT_EQ(error.sentence(),
            "survey.csv row 12: the diameter is negative; enter it as a positive number.");
}

TEST(Status, WordsReadBack) {
  for (const auto status :
       {Status::published, Status::common_practice, Status::memory, Status::assumption}) {
    EXPECT_EQ(status_from(to_text(status)), status);
  }
  EXPECT_FALSE(status_from("certain"));
}

TEST(Status, AFigureIsAsWeakAsItsWeakestPart) {
  EXPECT_EQ(weaker(Status::published, Status::memory), Status::memory);
  EXPECT_EQ(weaker(Status::assumption, Status::memory), Status::assumption);
}

}  // namespace
}  // namespace rootstead
