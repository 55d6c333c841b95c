#include "check.h"
void reference_tests(void) { }
