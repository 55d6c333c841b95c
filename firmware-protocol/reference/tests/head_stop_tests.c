#include <string.h>

#include "../core/board.h"
#include "../core/bridge.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "vectors.h"

/* What a port sees of the moments at which a head begins to work, and an e-stop right before the core keeps interrupts out for one. */
static bridge_port watched;
static const bridge_port *real;
static bridge *board_to_stop;
static int locks, stop_at_lock, heads, locks_of_heads[16], works_after_halt;

static uint8_t watched_lock(void *context)
{
    if (++locks == stop_at_lock)
        bridge_e_stop(board_to_stop);
    return real->lock(context);
}

static void watched_head(void *context, uint8_t head, bool is_pen, bool works)
{
    if (works && board_to_stop->halted != CAUSE_NONE)
        works_after_halt++;
    if (works && heads < 16)
        locks_of_heads[heads++] = locks;
    real->head(context, head, is_pen, works);
}

static void run_watched(test_host *host, int stop_at)
{
    uint8_t octets[VECTOR_OCTETS];
    size_t length = vector_octets("40120C605533" "807F00" "500A05" "C00003" "000000", octets);
    host_open(host, BRIDGE_RESET_POWER_ON);
    host_ready(host, &plotter);
    board_to_stop = host->memory;
    real = board_to_stop->port;
    watched = *real;
    watched.lock = watched_lock;
    watched.head = watched_head;
    board_to_stop->port = &watched;
    locks = heads = works_after_halt = 0;
    stop_at_lock = stop_at;
    CHECK_EQUAL(host_begin(host, 1, (uint32_t)length / 3), ANSWER_NONE);
    CHECK_EQUAL(host_records(host, 0, octets, (uint8_t)length), ANSWER_NONE);
    CHECK_EQUAL(host_command(host, COMMAND_START), ANSWER_NONE);
    host_wait_for(host, stop_at == 0 ? STATE_COMPLETE : STATE_ABORTED, 60000);
}

static void an_e_stop_at_the_moment_a_head_begins_to_work_leaves_it_at_rest(void)
{
    test_host host;
    run_watched(&host, 0);
    host_close(&host);
    int moments = heads, at[16];
    memcpy(at, locks_of_heads, sizeof at);
    CHECK(moments >= 3);
    for (int moment = 0; moment < moments; moment++) {
        run_watched(&host, at[moment]);
        CHECK_EQUAL(native_state(host.memory), STATE_ABORTED);
        CHECK_EQUAL(native_head(host.memory, 0) + native_head(host.memory, 1), 0);
        CHECK_EQUAL(works_after_halt, 0);
        CHECK_EQUAL(native_drivers(host.memory), 0);
        host_close(&host);
    }
}

void head_stop_tests(void)
{
    RUN(an_e_stop_at_the_moment_a_head_begins_to_work_leaves_it_at_rest);
}
