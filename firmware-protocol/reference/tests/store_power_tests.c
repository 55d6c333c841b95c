#include <stdlib.h>
#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "check.h"
#include "host.h"
#include "store_host.h"

/* The supply fails at a write of the new job, and leaves of that octet what it may. Whether the new job is there; the old one is all else that may be. */
static bool is_new_after_power_cut(test_host *host, uint32_t writes, uint8_t left_of, uint8_t left_erased)
{
    native_fail_after_writes(host->memory, writes, left_of, left_erased);
    write_hex(host, "405506406606407706000000");
    host_wait(host, 100);
    native_reset(host->memory, BRIDGE_RESET_POWER_ON);
    host_hello(host, 0x3333);
    CHECK_EQUAL(read_back(host, 0, 2), ANSWER_NONE);
    bool is_old = get_u16(host->stored) == 6 && host->stored[5] == 0x12;
    bool is_new = get_u16(host->stored) == 12 && host->stored[5] == 0x55;
    CHECK(is_old || is_new);
    return is_new;
}

static void a_power_cut_at_any_write_leaves_the_old_job_or_the_new_one(void)
{
    enum { WRITES = 1 + 126 + 12 + 2 + 1 }; /* the first octet erased, the head, the image, the check sequence, the first octet */
    static const struct {
        uint8_t left_of, left_erased;
        int new_jobs; /* with no write cut off; and where the last one is cut off and was whole all the same */
    } leaves[] = {
        {NATIVE_LEFT_OLD, 0x00, 1}, {NATIVE_LEFT_OLD, 0x55, 1}, {NATIVE_LEFT_OLD, 0xFF, 1},
        {NATIVE_LEFT_NEW, 0xF0, 1}, {NATIVE_LEFT_NEW, 0x08, 1}, {NATIVE_LEFT_NEW, 0x00, 2},
    };
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204401304000000"), ANSWER_NONE);
    host_wait(&host, 100);
    CHECK_EQUAL(write_hex(&host, "401205000000"), ANSWER_NONE); /* both slots have been used */
    host_wait(&host, 100);
    void *before = malloc(native_size());
    memcpy(before, host.memory, native_size());
    for (size_t index = 0; index < sizeof leaves / sizeof leaves[0]; index++) {
        int new_jobs = 0;
        for (uint32_t writes = 0; writes <= WRITES; writes++) {
            test_host again = host;
            memcpy(host.memory, before, native_size());
            new_jobs += is_new_after_power_cut(&again, writes, leaves[index].left_of, leaves[index].left_erased);
        }
        CHECK_EQUAL(new_jobs, leaves[index].new_jobs);
    }
    free(before);
    host_close(&host);
}

void store_power_tests(void)
{
    RUN(a_power_cut_at_any_write_leaves_the_old_job_or_the_new_one);
}
