#include "check.h"
void noise_tests(void) { }
