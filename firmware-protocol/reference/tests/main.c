#include <stdio.h>
#include <string.h>

#include "check.h"

const char *vectors_folder = "../vectors";

static int checks, failures, passed, failed;
static const char *current = "";

void check_that(bool holds, const char *what, const char *file, int line)
{
    checks++;
    if (holds)
        return;
    failures++;
    printf("%s:%d: in %s: not so: %s\n", file, line, current, what);
}

void check_equal(long long is, long long wanted, const char *what, const char *file, int line)
{
    checks++;
    if (is == wanted)
        return;
    failures++;
    printf("%s:%d: in %s: %s is %lld, not %lld\n", file, line, current, what, is, wanted);
}

void run_test(void (*test)(void), const char *name)
{
    current = name;
    int before = failures;
    test();
    if (failures == before)
        passed++;
    else
        failed++;
}

int main(int count, char **arguments)
{
    if (count > 1)
        vectors_folder = arguments[1];
    fcs_tests();
    frame_tests();
    link_tests();
    state_tests();
    record_tests();
    path_tests();
    ramp_tests();
    steps_tests();
    message_tests();
    reference_tests();
    run_tests();
    acts_tests();
    stop_tests();
    head_stop_tests();
    stop_order_tests();
    store_tests();
    store_power_tests();
    stored_run_tests();
    jog_tests();
    noise_tests();
    printf("%d checks\n%d passed, %d failed\n", checks, passed, failed);
    return failures == 0 ? 0 : 1;
}
