/* A test is a function; a check that does not hold says where and is counted. */
#ifndef BRIDGE_CHECK_H
#define BRIDGE_CHECK_H

#include <stdbool.h>

extern const char *vectors_folder;

void check_that(bool holds, const char *what, const char *file, int line);
void check_equal(long long is, long long wanted, const char *what, const char *file, int line);
void run_test(void (*test)(void), const char *name);

#define CHECK(what) check_that((what), #what, __FILE__, __LINE__)
#define CHECK_EQUAL(is, wanted) check_equal((long long)(is), (long long)(wanted), #is, __FILE__, __LINE__)
#define RUN(test) run_test(test, #test)

/* Each file of tests. */
void acts_tests(void);
void fcs_tests(void);
void frame_tests(void);
void jog_tests(void);
void link_tests(void);
void message_tests(void);
void path_tests(void);
void ramp_tests(void);
void record_tests(void);
void reference_tests(void);
void run_tests(void);
void state_tests(void);
void steps_tests(void);
void stop_tests(void);
void head_stop_tests(void);
void stop_order_tests(void);
void store_tests(void);
void store_power_tests(void);
void stored_run_tests(void);
void noise_tests(void);

#endif
