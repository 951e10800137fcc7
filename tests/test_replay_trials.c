#include "suite.h"
START_TEST(x) {} END_TEST
SUITE("replay_trials", FACT(x))
