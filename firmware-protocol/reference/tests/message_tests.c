#include "check.h"
void message_tests(void) { }
