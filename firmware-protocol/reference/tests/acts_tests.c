#include "check.h"
void acts_tests(void) { }
