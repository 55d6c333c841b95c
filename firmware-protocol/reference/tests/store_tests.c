#include "check.h"
void store_tests(void) { }
