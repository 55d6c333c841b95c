/* What was said before a STOP and waits in the receive ring when it comes, and what is said behind it. */
#include <stdlib.h>
#include <string.h>

#include "../core/board.h"
#include "../core/bridge.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"

enum { STOP_OCTETS = 2, ROOM = HOST_LINE_MAX + STOP_OCTETS };

static const uint8_t stop[STOP_OCTETS] = {FRAME_RESERVED, FRAME_RESERVED};
static const uint8_t flag = FRAME_FLAG;

/* The receive interrupt with no turn of the main loop between octets. */
static void receive(test_host *host, const uint8_t *octets, uint32_t length)
{
    for (uint32_t index = 0; index < length; index++)
        bridge_receive_octet(host->memory, octets[index]);
}

static void turn(test_host *host)
{
    bridge_poll(host->memory, (uint32_t)(native_now(host->memory) / 1000));
}

static uint32_t command_frame(test_host *host, uint8_t command, uint8_t *line)
{
    return host_frame(host, MESSAGE_COMMAND, host->next, &command, 1, line);
}

/* A board in a state in which a command that makes it move, or lets it, is accepted. */
static void open_for(test_host *host, uint8_t command)
{
    uint8_t records[] = {0xC2, 0x00, 0x00, 0x40, 0x12, 0x04, 0x00, 0x00, 0x00}; /* waits for the operator first */
    host_open(host, BRIDGE_RESET_POWER_ON);
    host_ready(host, &plotter);
    switch (command) {
    case COMMAND_CLEAR:
        CHECK_EQUAL(host_command(host, COMMAND_ABORT), ANSWER_NONE);
        CHECK(host_wait_for(host, STATE_ABORTED, 100));
        break;
    case COMMAND_RESET:
        CHECK_EQUAL(host_command(host, COMMAND_STOP), ANSWER_NONE);
        CHECK(host_wait_for(host, STATE_STOPPED, 100));
        break;
    default:
        CHECK_EQUAL(host_begin(host, 1, 3), ANSWER_NONE);
        CHECK_EQUAL(host_records(host, 0, records, sizeof records), ANSWER_NONE);
        if (command == COMMAND_START)
            break;
        CHECK_EQUAL(host_command(host, COMMAND_START), ANSWER_NONE);
        CHECK(host_wait_for(host, STATE_HELD, 1000));
        break;
    }
}

static void check_at_rest(test_host *host)
{
    uint32_t pulses = native_pulses(host->memory);
    host_wait(host, 30);
    CHECK_EQUAL(native_state(host->memory), STATE_ABORTED);
    CHECK_EQUAL(native_drivers(host->memory), 0);
    CHECK_EQUAL(native_head(host->memory, 0), 0);
    CHECK_EQUAL(native_pulses(host->memory), pulses);
    CHECK_EQUAL(host_wrongs(host), 0);
}

/* Any split of a command and a STOP over three turns of the loop. */
static void a_stop_outdoes_a_command_that_came_before_it(uint8_t command)
{
    test_host host;
    uint8_t line[ROOM];
    open_for(&host, command);
    uint32_t length = command_frame(&host, command, line);
    memcpy(line + length, stop, STOP_OCTETS);
    length += STOP_OCTETS;
    void *before = malloc(native_size());
    memcpy(before, host.memory, native_size());
    for (uint32_t first = 0; first <= length; first++)
        for (uint32_t second = first; second <= length; second++) {
            memcpy(host.memory, before, native_size());
            receive(&host, line, first);
            turn(&host);
            receive(&host, line + first, second - first);
            turn(&host);
            receive(&host, line + second, length - second);
            turn(&host);
            check_at_rest(&host);
        }
    free(before);
    host_close(&host);
}

static void a_stop_outdoes_a_clear_that_came_before_it(void)
{
    a_stop_outdoes_a_command_that_came_before_it(COMMAND_CLEAR);
}

static void a_stop_outdoes_a_reset_that_came_before_it(void)
{
    a_stop_outdoes_a_command_that_came_before_it(COMMAND_RESET);
}

static void a_stop_outdoes_a_start_that_came_before_it(void)
{
    a_stop_outdoes_a_command_that_came_before_it(COMMAND_START);
}

static void a_stop_outdoes_an_unhold_that_came_before_it(void)
{
    a_stop_outdoes_a_command_that_came_before_it(COMMAND_UNHOLD);
}

/* At every place of the ring: octets are counted modulo its size. */
static void a_clear_behind_a_stop_clears(void)
{
    test_host host;
    uint8_t line[ROOM];
    open_for(&host, COMMAND_CLEAR);
    for (int place = 0; place < RECEIVE_RING; place++) {
        uint32_t length = command_frame(&host, COMMAND_CLEAR, line);
        receive(&host, line, length);
        receive(&host, stop, STOP_OCTETS);
        turn(&host);
        check_at_rest(&host);
        host.next++;
        length = command_frame(&host, COMMAND_CLEAR, line);
        receive(&host, stop, STOP_OCTETS);
        receive(&host, line, length);
        turn(&host);
        CHECK_EQUAL(native_drivers(host.memory), 1);
        host_wait(&host, 5);
        CHECK_EQUAL(native_state(host.memory), STATE_STOPPED);
        host.next++;
        CHECK_EQUAL(host_command(&host, COMMAND_ABORT), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_ABORTED, 100));
        for (int filler = place % 8; filler >= 0; filler--) {
            receive(&host, &flag, 1);
            turn(&host);
        }
    }
    host_close(&host);
}

/* The ring has no room left for the STOP itself. */
static void a_stop_that_the_ring_has_no_room_for_outdoes_a_clear_in_it(void)
{
    for (int room = 0; room <= STOP_OCTETS; room++) {
        test_host host;
        uint8_t line[ROOM];
        open_for(&host, COMMAND_CLEAR);
        uint32_t length = command_frame(&host, COMMAND_CLEAR, line);
        receive(&host, line, length);
        for (uint32_t index = length; index < (uint32_t)(RECEIVE_FULL - room); index++)
            receive(&host, &flag, 1);
        receive(&host, stop, STOP_OCTETS);
        turn(&host);
        check_at_rest(&host);
        host.next++;
        host_beat(&host); /* its frame is spoiled where octets were lost before it */
        host_wait(&host, 5);
        CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_STOPPED, 100));
        CHECK_EQUAL(native_drivers(host.memory), 1);
        host_close(&host);
    }
}

/* A port whose receive interrupt brings a STOP as the main loop calls it, wherever interrupts are let in. */
static bridge_port watched;
static const bridge_port *real;
static test_host *watched_host;
static int moments, stop_at_moment, locks;

static void let_in(void)
{
    if (locks == 0 && ++moments == stop_at_moment)
        receive(watched_host, stop, STOP_OCTETS);
}

static uint8_t watched_lock(void *context)
{
    let_in();
    locks++;
    return real->lock(context);
}

static void watched_unlock(void *context, uint8_t before)
{
    real->unlock(context, before);
    locks--;
    let_in();
}

static uint8_t watched_inputs(void *context)
{
    let_in();
    return real->inputs(context);
}

static uint8_t watched_room(void *context)
{
    let_in();
    return real->transmit_room(context);
}

/* How often interrupts were let in while a Clear was carried out. */
static int clear_with_stop_at(int moment)
{
    test_host host;
    uint8_t line[ROOM];
    open_for(&host, COMMAND_CLEAR);
    bridge *board = host.memory;
    watched_host = &host;
    real = board->port;
    watched = *real;
    watched.lock = watched_lock;
    watched.unlock = watched_unlock;
    watched.inputs = watched_inputs;
    watched.transmit_room = watched_room;
    board->port = &watched;
    moments = locks = 0;
    stop_at_moment = moment;
    receive(&host, line, command_frame(&host, COMMAND_CLEAR, line));
    turn(&host);
    turn(&host);
    int all = moments;
    if (moment > 0)
        check_at_rest(&host);
    else
        CHECK_EQUAL(native_drivers(host.memory), 1);
    host_close(&host);
    return all;
}

static void a_stop_at_any_moment_of_a_clear_leaves_the_drivers_off(void)
{
    int all = clear_with_stop_at(0);
    CHECK(all >= 6);
    for (int moment = 1; moment <= all; moment++)
        clear_with_stop_at(moment);
}

void stop_order_tests(void)
{
    RUN(a_stop_outdoes_a_clear_that_came_before_it);
    RUN(a_stop_outdoes_a_reset_that_came_before_it);
    RUN(a_stop_outdoes_a_start_that_came_before_it);
    RUN(a_stop_outdoes_an_unhold_that_came_before_it);
    RUN(a_clear_behind_a_stop_clears);
    RUN(a_stop_that_the_ring_has_no_room_for_outdoes_a_clear_in_it);
    RUN(a_stop_at_any_moment_of_a_clear_leaves_the_drivers_off);
}
