#include <gtest/gtest.h>

#include <cstdlib>

// Properties run from one seed, so that a red run tells of the change and not of the dice;
// `./dev explore` runs them from fresh ones.
int main(int argc, char** argv) {
  setenv("RC_PARAMS", "seed=20261128", 0);
  ::testing::InitGoogleTest(&argc, argv);
  return RUN_ALL_TESTS();
}
