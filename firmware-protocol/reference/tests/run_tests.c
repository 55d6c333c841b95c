#include "check.h"
void run_tests(void) { }
