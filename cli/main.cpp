#include "cli/app.hpp"

int main(int argc, char** argv) {
  return rootstead::cli::run(argc, argv);
}
