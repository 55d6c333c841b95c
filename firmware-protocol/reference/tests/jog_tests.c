#include "check.h"
void jog_tests(void) { }
