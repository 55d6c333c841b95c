#include <stdio.h>
#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "vectors.h"

static uint16_t fcs_of(const uint8_t *octets, size_t length)
{
    uint16_t fcs = 0xFFFF;
    for (size_t index = 0; index < length; index++) {
        fcs ^= octets[index];
        for (int bit = 0; bit < 8; bit++)
            fcs = (uint16_t)((fcs & 1) ? (fcs >> 1) ^ 0x8408 : fcs >> 1);
    }
    return (uint16_t)~fcs;
}

/* Says a message again for as long as the store is busy. */
static uint8_t say_patiently(test_host *host, uint8_t type, const uint8_t *body, uint8_t length)
{
    uint8_t answer = ANSWER_STORE_BUSY;
    for (int turn = 0; turn < 400 && answer == ANSWER_STORE_BUSY; turn++) {
        answer = host_say(host, type, body, length);
        if (answer == ANSWER_STORE_BUSY)
            host_wait(host, 10);
    }
    return answer;
}

static uint8_t write_image(test_host *host, const uint8_t *image, uint16_t length)
{
    uint8_t body[60];
    put_u16(body, length);
    uint8_t answer = say_patiently(host, MESSAGE_STORE_BEGIN, body, 2);
    for (uint16_t offset = 0; offset < length && answer == ANSWER_NONE; offset = (uint16_t)(offset + 55)) {
        uint8_t count = (uint8_t)(length - offset < 55 ? length - offset : 55);
        memcpy(put_u16(body, offset), image + offset, count);
        answer = say_patiently(host, MESSAGE_STORE_DATA, body, (uint8_t)(2 + count));
    }
    put_u16(body, fcs_of(image, length));
    return answer == ANSWER_NONE ? say_patiently(host, MESSAGE_STORE_COMMIT, body, 2) : answer;
}

static uint8_t write_hex(test_host *host, const char *hex)
{
    static uint8_t image[VECTOR_OCTETS];
    return write_image(host, image, (uint16_t)vector_octets(hex, image));
}

static uint8_t begin_stored(test_host *host, uint16_t run)
{
    uint8_t body[2];
    put_u16(body, run);
    return say_patiently(host, MESSAGE_BEGIN_STORED, body, 2);
}

static uint8_t read_back(test_host *host, uint16_t offset, uint8_t count)
{
    uint8_t body[3];
    put_u8(put_u16(body, offset), count);
    return say_patiently(host, MESSAGE_STORE_READ, body, 3);
}

/* One press of the start button. */
static void press(test_host *host)
{
    native_set_start(host->memory, 0);
    native_advance(host->memory, 100000);
    native_set_start(host->memory, 1);
    native_advance(host->memory, 100000);
    native_set_start(host->memory, 0);
    native_advance(host->memory, 100000);
}

static void wait_for_state(test_host *host, uint8_t state)
{
    for (int turn = 0; turn < 6000 && native_state(host->memory) != state; turn++)
        native_advance(host->memory, 10000);
    CHECK_EQUAL(native_state(host->memory), state);
}

static void run_by_button(test_host *host)
{
    native_reset(host->memory, BRIDGE_RESET_POWER_ON);
    press(host);
    wait_for_state(host, STATE_STOPPED);
    press(host);
    wait_for_state(host, STATE_IDLE);
    press(host);
    wait_for_state(host, STATE_COMPLETE);
}

static void a_job_is_stored_and_read_back(void)
{
    test_host host;
    static uint8_t image[256];
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    for (int index = 0; index < 85; index++)
        memcpy(image + 3 * index, "\x40\x12\x04", 3);
    CHECK_EQUAL(write_image(&host, image, 256), ANSWER_NONE);
    for (uint16_t offset = 0; offset < 256; offset = (uint16_t)(offset + 16)) {
        CHECK_EQUAL(read_back(&host, offset, 16), ANSWER_NONE);
        CHECK_EQUAL(host.stored_length, 20);
        CHECK_EQUAL(get_u16(host.stored), 256);
        CHECK_EQUAL(get_u16(host.stored + 2), offset);
        CHECK(memcmp(host.stored + 4, image + offset, 16) == 0);
    }
    CHECK_EQUAL(read_back(&host, 250, 7), ANSWER_BAD_VALUE);
    CHECK_EQUAL(read_back(&host, 0, 27), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host.storeds, 16);
    host_close(&host);
}

static void a_stored_job_runs_with_again_and_without_a_line(void)
{
    test_host host;
    static char text[2000];
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "443301" "A00001" "447301" "A00000" "000000"), ANSWER_NONE);
    CHECK_EQUAL(begin_stored(&host, 99), ANSWER_NONE);
    CHECK_EQUAL(host.status.run_id, 99);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    for (int ms = 0; ms < 20000 && host.status.state != STATE_COMPLETE; ms++)
        host_wait(&host, 1); /* no beat: a stored run needs no host */
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(host.status.done, 6); /* `again` unrolled, and the end */
    host_worked(&host, text, sizeof text);
    CHECK(strcmp(text, "a:3,3,0 a:3,4,0 a:3,3,0 a:3,4,0 a:3,3,0 a:3,4,0 a:7,3,0 a:7,4,0 a:7,3,0 a:7,4,0") == 0);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_full_store_needs_no_end(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401200" "401300"), ANSWER_NONE);
    CHECK_EQUAL(begin_stored(&host, 1), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 10000));
    CHECK_EQUAL(host.status.done, 2);
    CHECK_EQUAL(native_worked(host.memory), 2);
    host_close(&host);
}

static void the_start_button_runs_it_with_no_host(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &gantry_3d);
    CHECK_EQUAL(write_hex(&host, "401204" "715522" "000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    run_by_button(&host);
    CHECK_EQUAL(native_worked(host.memory), 5 + 9);
    CHECK_EQUAL(native_cause(host.memory), CAUSE_JOB_COMPLETE);
    CHECK_EQUAL(host_wrongs(&host), 0);
    press(&host);
    wait_for_state(&host, STATE_IDLE);
    press(&host);
    wait_for_state(&host, STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 28);
    host_close(&host);
}

static void each_press_is_one_command_and_a_stuck_button_is_none(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    native_set_start(host.memory, 1);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    native_advance(host.memory, 1000000);
    CHECK_EQUAL(native_state(host.memory), STATE_ABORTED);
    press(&host);
    wait_for_state(&host, STATE_STOPPED);
    uint32_t pulses = native_pulses(host.memory);
    native_advance(host.memory, 1000000);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    native_set_start(host.memory, 1);
    native_advance(host.memory, 10000);
    native_set_start(host.memory, 0); /* a bounce */
    native_advance(host.memory, 500000);
    CHECK_EQUAL(native_state(host.memory), STATE_STOPPED);
    native_set_e_stop(host.memory, 1);
    native_advance(host.memory, 10000);
    press(&host);
    CHECK_EQUAL(native_state(host.memory), STATE_ABORTED);
    host_close(&host);
}

static void with_a_host_the_button_is_only_told(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    native_set_start(host.memory, 1);
    host_beat(&host);
    host_wait(&host, 200);
    CHECK_EQUAL(host.status.inputs & BRIDGE_INPUT_START, BRIDGE_INPUT_START);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    native_set_start(host.memory, 0);
    host_close(&host);
}

static void a_held_stored_run_goes_on_at_the_next_press(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204C20000401304000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    for (int turn = 0; turn < 3; turn++) {
        press(&host);
        native_advance(host.memory, 20000000);
    }
    CHECK_EQUAL(native_state(host.memory), STATE_HELD);
    CHECK_EQUAL(native_cause(host.memory), CAUSE_OPERATOR_WAIT);
    press(&host);
    wait_for_state(&host, STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 10);
    host_close(&host);
}

/* Whatever is in the store that is no job for this machine, the board says so and nothing moves. */
static void a_store_is_refused(uint8_t wanted, uint8_t cause, int change)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204000000"), ANSWER_NONE);
    host_wait(&host, 100);
    uint8_t *lasting = native_lasting(host.memory);
    if (change == 0)
        memset(lasting, 0, 1024);
    else if (change == 1)
        memset(lasting, 0xFF, 1024);
    else if (change == 2)
        lasting[STORE_IMAGE + 1] ^= 0x10;
    else if (change == 3)
        memcpy(lasting, "some other text", 15);
    else if (change == 4)
        lasting[4] = 0xFF;
    else
        lasting[2] = 2;
    CHECK_EQUAL(read_back(&host, 0, 1), wanted);
    CHECK_EQUAL(begin_stored(&host, 1), wanted);
    CHECK_EQUAL(host.status.run_id, 0);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    press(&host);
    wait_for_state(&host, STATE_STOPPED);
    uint32_t pulses = native_pulses(host.memory);
    press(&host);
    CHECK_EQUAL(native_state(host.memory), STATE_STOPPED);
    CHECK_EQUAL(native_cause(host.memory), cause);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    host_close(&host);
}

static void stores_without_a_good_job_are_refused(void)
{
    a_store_is_refused(ANSWER_STORE_BLANK, CAUSE_STORE_BLANK, 0);
    a_store_is_refused(ANSWER_STORE_BLANK, CAUSE_STORE_BLANK, 1);
    a_store_is_refused(ANSWER_STORE_DAMAGED, CAUSE_STORE_DAMAGED, 2);
    a_store_is_refused(ANSWER_STORE_FOREIGN, CAUSE_STORE_FOREIGN, 3);
    a_store_is_refused(ANSWER_STORE_DAMAGED, CAUSE_STORE_DAMAGED, 4);
    a_store_is_refused(ANSWER_STORE_FOREIGN, CAUSE_STORE_FOREIGN, 5);
}

static void a_job_for_another_machine_is_foreign(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    CHECK_EQUAL(host_command(&host, COMMAND_ABORT), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_ABORTED, 100));
    host_ready(&host, &wide);
    CHECK_EQUAL(begin_stored(&host, 1), ANSWER_STORE_FOREIGN);
    host_close(&host);
}

static void images_that_are_no_job_are_not_committed(void)
{
    static const char *const bad[] = {"40120440", "E00000000000", "401200A00100000000", "A00000000000", "401200A00000A00000000000", "000000", "40"};
    static const uint8_t answers[] = {ANSWER_NONE, ANSWER_BAD_RECORD, ANSWER_BAD_RECORD, ANSWER_BAD_RECORD, ANSWER_BAD_RECORD, ANSWER_NONE, ANSWER_BAD_RECORD};
    for (size_t index = 0; index < sizeof answers; index++) {
        test_host host;
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, &plotter);
        CHECK_EQUAL(write_hex(&host, bad[index]), answers[index]);
        host_close(&host);
    }
}

static void an_image_of_too_many_records_is_not_committed(void)
{
    test_host host;
    host_machine vast = gantry_3d;
    vast.axis_bits = 12;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &vast);
    CHECK_EQUAL(write_hex(&host, "20000000000000" "A0000000FFFFFF" "00000000000000"), ANSWER_BAD_RECORD); /* 16 777 217 */
    CHECK_EQUAL(write_hex(&host, "20000000000000" "A0000000900000" "00000000000000"), ANSWER_NONE);
    host_close(&host);
}

static void writing_keeps_its_order(void)
{
    test_host host;
    uint8_t body[60] = {0, 6};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_NO_SETUP);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_WRONG_STATE);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_COMMIT, body, 2), ANSWER_WRONG_STATE);
    body[0] = 0x7F;
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_STORE_FULL);
    body[0] = 0;
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_NONE);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_STORE_BUSY);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_STORE_BUSY);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_READ, body, 3), ANSWER_BAD_VALUE);
    host_wait(&host, 1000);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_INDEX_MISMATCH);
    memcpy(body, "\x00\x00\x40\x12\x04\x00\x00\x00\x00", 9);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 9), ANSWER_STORE_FULL);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 2), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_NONE);
    host_wait(&host, 100);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_COMMIT, body, 2), ANSWER_INDEX_MISMATCH);
    body[1] = 3;
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_NONE);
    host_wait(&host, 100);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_COMMIT, body, 2), ANSWER_STORE_DAMAGED);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_COMMIT, body, 3), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 3), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host_say(&host, MESSAGE_BEGIN_STORED, body, 3), ANSWER_BAD_VALUE);
    body[1] = 1;
    CHECK_EQUAL(host_say(&host, MESSAGE_BEGIN_STORED, body, 2), ANSWER_STORE_BUSY);
    host_close(&host);
}

/* The power fails at the 1st, 2nd, 3rd ... write of the new job: there is the old job or the new one, never a mixture. */
static void a_power_cut_at_any_write_leaves_the_old_job_or_the_new_one(void)
{
    uint8_t octets[2] = {0};
    int old_jobs = 0, new_jobs = 0;
    for (uint32_t writes = 0; writes < 160; writes += writes < 120 ? 13 : 1) {
        test_host host;
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, &plotter);
        CHECK_EQUAL(write_hex(&host, "401204401304000000"), ANSWER_NONE);
        host_wait(&host, 100);
        CHECK_EQUAL(write_hex(&host, "401205000000"), ANSWER_NONE); /* both slots have been used */
        host_wait(&host, 100);
        native_fail_after_writes(host.memory, writes);
        write_hex(&host, "405506406606407706000000");
        host_wait(&host, 1000);
        native_reset(host.memory, BRIDGE_RESET_POWER_ON);
        host_hello(&host, 0x3333);
        CHECK_EQUAL(read_back(&host, 0, 2), ANSWER_NONE);
        memcpy(octets, host.stored + 4, 2);
        bool is_old = get_u16(host.stored) == 6 && octets[1] == 0x12;
        bool is_new = get_u16(host.stored) == 12 && octets[1] == 0x55;
        CHECK(is_old || is_new);
        old_jobs += is_old;
        new_jobs += is_new;
        host_close(&host);
    }
    CHECK(old_jobs > 10);
    CHECK(new_jobs > 5);
}

static void a_controller_without_lasting_memory_has_no_store(void)
{
    static uint8_t body[3] = {0, 6, 1};
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    bridge *board = host.memory;
    bridge_port port = *board->port;
    port.lasting_bytes = 0;
    board->port = &port;
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_STORE_FULL);
    CHECK_EQUAL(host_say(&host, MESSAGE_STORE_READ, body, 3), ANSWER_STORE_BLANK);
    CHECK_EQUAL(begin_stored(&host, 1), ANSWER_STORE_BLANK);
    host_hello(&host, 0x1235);
    CHECK_EQUAL(get_u16(host.welcome + 8), 0);
    host_close(&host);
}

static uint8_t wanted_answer(uint8_t type)
{
    switch (type) {
    case MESSAGE_STORE_BEGIN:
        return ANSWER_NO_SETUP;
    case MESSAGE_STORE_READ:
        return ANSWER_STORE_BLANK;
    case MESSAGE_JOG:
        return ANSWER_UNKNOWN_MESSAGE; /* that of the messages before it: jog has no answer */
    default:
        return ANSWER_WRONG_STATE;
    }
}

static void golden_messages_of_the_store_are_understood(void)
{
    static vector_file lines;
    uint8_t frame[VECTOR_OCTETS], octets[VECTOR_OCTETS], line[256];
    if (!vectors_open(&lines, "wire/store-jog.txt"))
        return;
    while (vectors_next(&lines)) {
        test_host host;
        size_t length = vector_octets(lines.field[1], frame);
        size_t count = vector_octets(lines.field[2], octets);
        if (frame[0] == MESSAGE_STORED) {
            frame_encoder encoder;
            size_t sent = 0;
            memcpy(encoder.octets, frame, length);
            frame_send(&encoder, (uint8_t)length);
            while (encoder.length != 0)
                line[sent++] = frame_pull(&encoder);
            CHECK(sent == count && memcmp(line, octets, count) == 0);
            continue;
        }
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_hello(&host, 0x1234);
        for (uint8_t number = 0; number != frame[2]; number++) {
            host_send(&host, 0x7F, number, NULL, 0);
            host_wait(&host, 1);
        }
        int before = host.statuses;
        host_send_octets(&host, octets, (uint32_t)count);
        host_wait(&host, 5);
        CHECK_EQUAL(host.statuses, before + 1);
        CHECK_EQUAL(host.status.answer, wanted_answer(frame[0]));
        CHECK_EQUAL(host.status.expected, frame[2] + (frame[0] != MESSAGE_JOG));
        host_close(&host);
    }
    CHECK_EQUAL(lines.lines, 8);
}

void store_tests(void)
{
    RUN(golden_messages_of_the_store_are_understood);
    RUN(a_job_is_stored_and_read_back);
    RUN(a_stored_job_runs_with_again_and_without_a_line);
    RUN(a_full_store_needs_no_end);
    RUN(the_start_button_runs_it_with_no_host);
    RUN(each_press_is_one_command_and_a_stuck_button_is_none);
    RUN(with_a_host_the_button_is_only_told);
    RUN(a_held_stored_run_goes_on_at_the_next_press);
    RUN(stores_without_a_good_job_are_refused);
    RUN(a_job_for_another_machine_is_foreign);
    RUN(images_that_are_no_job_are_not_committed);
    RUN(an_image_of_too_many_records_is_not_committed);
    RUN(writing_keeps_its_order);
    RUN(a_power_cut_at_any_write_leaves_the_old_job_or_the_new_one);
    RUN(a_controller_without_lasting_memory_has_no_store);
}
