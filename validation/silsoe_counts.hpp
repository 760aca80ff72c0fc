// Roots counted on the trench faces of four poplars at Silsoe in 2011, summed (Upson 2015, figshare
// 10.6084/m9.figshare.1536770, CC-BY; Upson & Burgess 2013), so that the page is the same whether
// the open file is there or not. tests/engine/roots/silsoe_test.cpp holds these sums against the
// file.
#pragma once

#include <array>

namespace rootstead::validation {

struct SilsoeCounts {
  const char* tree;
  std::array<double, 20> by_metre_and_size;  // five metres outward; 2-5, 5-10, 10-20, > 20 mm
  std::array<double, 8> by_depth;            // layers of 0.2 m
};

inline constexpr std::array<SilsoeCounts, 4> kSilsoeCounts = {{
    {"1CB4",
     {32, 14, 3, 7, 17, 7, 1, 6, 30, 3, 1, 0, 24, 3, 2, 0, 15, 2, 0, 0},
     {46, 46, 30, 16, 10, 5, 9, 5}},
    {"1FB4",
     {43, 15, 5, 2, 32, 6, 1, 2, 16, 2, 0, 2, 20, 3, 1, 0, 23, 1, 0, 0},
     {17, 60, 40, 21, 14, 11, 8, 3}},
    {"2CB4",
     {46, 9, 12, 4, 14, 6, 2, 0, 25, 8, 0, 1, 12, 0, 1, 0, 18, 0, 0, 0},
     {29, 55, 38, 20, 8, 3, 1, 4}},
    {"3FB4",
     {44, 7, 14, 2, 43, 11, 4, 3, 27, 5, 5, 0, 32, 4, 6, 0, 14, 2, 1, 0},
     {61, 62, 42, 32, 15, 3, 7, 2}},
}};

}  // namespace rootstead::validation
