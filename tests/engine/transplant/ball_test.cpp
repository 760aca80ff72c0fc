#include "engine/transplant/ball.hpp"
#include <gtest/gtest.h>
