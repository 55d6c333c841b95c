#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "store_host.h"
#include "vectors.h"

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

/* Two jobs of two records each, one in each slot; the second is in the second slot, with generation 2. */
static uint8_t *open_with_two_jobs(test_host *host)
{
    host_open(host, BRIDGE_RESET_POWER_ON);
    host_ready(host, &plotter);
    CHECK_EQUAL(write_hex(host, "401104000000"), ANSWER_NONE);
    host_wait(host, 100);
    CHECK_EQUAL(write_hex(host, "402204000000"), ANSWER_NONE);
    host_wait(host, 100);
    return native_lasting(host->memory);
}

static void a_newer_job_that_is_damaged_is_told_and_the_older_one_is_not_run(void)
{
    enum { SECOND = 512 };
    static const uint16_t places[] = {SECOND + 2, SECOND + 3, SECOND + 5, SECOND + STORE_IMAGE + 1, SECOND + STORE_IMAGE + 6};
    for (size_t index = 0; index < sizeof places / sizeof places[0]; index++) {
        test_host host;
        uint8_t *lasting = open_with_two_jobs(&host);
        lasting[places[index]] ^= 0x10;
        CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_STORE_DAMAGED);
        CHECK_EQUAL(begin_stored(&host, 1), ANSWER_STORE_DAMAGED);
        CHECK_EQUAL(host.status.run_id, 0);
        native_reset(host.memory, BRIDGE_RESET_POWER_ON);
        press(&host);
        wait_for_state(&host, STATE_STOPPED);
        press(&host);
        CHECK_EQUAL(native_state(host.memory), STATE_STOPPED);
        CHECK_EQUAL(native_cause(host.memory), CAUSE_STORE_DAMAGED);
        host_close(&host);
    }
}

static void the_next_job_takes_the_place_of_one_that_is_damaged(void)
{
    test_host host;
    uint8_t *lasting = open_with_two_jobs(&host);
    lasting[512 + STORE_IMAGE + 1] ^= 0x10;
    CHECK_EQUAL(write_hex(&host, "403304000000"), ANSWER_NONE);
    CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
    CHECK_EQUAL(host.stored[5], 0x33);
    lasting[STORE_IMAGE + 1] ^= 0x10; /* the job before is not missed */
    CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
    CHECK_EQUAL(host.stored[5], 0x33);
    CHECK_EQUAL(write_hex(&host, "404404000000"), ANSWER_NONE);
    CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
    CHECK_EQUAL(host.stored[5], 0x44);
    host_close(&host);
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

static uint8_t vast_memory[4096];

static uint8_t read_vast(void *context, uint16_t address)
{
    (void)context;
    return vast_memory[address];
}

static void write_vast(void *context, uint16_t address, uint8_t octet)
{
    (void)context;
    vast_memory[address] = octet;
}

static bool is_never_busy(void *context)
{
    (void)context;
    return false;
}

/* 256 records 16 777 216 times more: 2^32, which is 0 to whoever counts with 32 bits. */
static void a_count_of_records_that_32_bits_do_not_hold_is_refused(void)
{
    enum { SIZE = 7, RECORDS = 256 };
    static uint8_t image[SIZE * (RECORDS + 2)];
    test_host host;
    host_machine vast = gantry_3d;
    vast.axis_bits = 12;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &vast);
    bridge *board = host.memory;
    bridge_port port = *board->port;
    port.lasting_bytes = sizeof vast_memory;
    port.lasting_read = read_vast;
    port.lasting_write = write_vast;
    port.lasting_busy = is_never_busy;
    board->port = &port;
    for (int index = 0; index < RECORDS; index++)
        image[SIZE * index] = 0x20;
    memcpy(image + SIZE * RECORDS, "\xA0\x00\x00\xFF\xFF\xFF\xFF", SIZE);
    CHECK_EQUAL(write_image(&host, image, sizeof image), ANSWER_BAD_RECORD);
    memcpy(image + SIZE * RECORDS, "\xA0\x00\x00\xFF\x00\x98\x95", SIZE); /* 39 062 times: above 10 million */
    CHECK_EQUAL(write_image(&host, image, sizeof image), ANSWER_BAD_RECORD);
    image[SIZE * RECORDS + 6]--;
    CHECK_EQUAL(write_image(&host, image, sizeof image), ANSWER_NONE);
    host_close(&host);
}

/* What is written of the machine is of one machine: a part that is told anew drops the job, before its check sequence and not after. */
static void a_machine_that_is_told_anew_drops_the_job_that_is_being_written(void)
{
    static const uint32_t times_ms[] = {0, 100, 300, 1000};
    host_machine other = plotter;
    other.axis[1].pitch_q16 = 401u << 16;
    for (size_t index = 0; index < sizeof times_ms / sizeof times_ms[0]; index++) {
        test_host host;
        uint8_t body[5] = {0, 3, 0, 0, 0};
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, &plotter);
        CHECK_EQUAL(write_hex(&host, "401204"), ANSWER_NONE);
        CHECK_EQUAL(say_patiently(&host, MESSAGE_STORE_BEGIN, body, 2), ANSWER_NONE);
        host_wait(&host, times_ms[index]);
        CHECK_EQUAL(host_set_axis(&host, &other, 1), ANSWER_NONE);
        body[1] = 0;
        CHECK_EQUAL(say_patiently(&host, MESSAGE_STORE_DATA, body, 5), ANSWER_WRONG_STATE);
        CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
        CHECK_EQUAL(host.stored[5], 0x12);
        CHECK_EQUAL(write_hex(&host, "405604"), ANSWER_NONE);
        CHECK_EQUAL(host_set_axis(&host, &plotter, 1), ANSWER_NONE); /* its end is being written */
        CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
        CHECK_EQUAL(host.stored[5], 0x56);
        host_close(&host);
    }
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
    CHECK_EQUAL(host_say(&host, MESSAGE_BEGIN_STORED, body, 2), ANSWER_STORE_BLANK);
    host_close(&host);
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
    case MESSAGE_REFERENCE_READ:
        return ANSWER_NONE;
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
        if (frame[0] == MESSAGE_STORED || frame[0] == MESSAGE_REFERENCES) {
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
    CHECK_EQUAL(lines.lines, 10);
}

void store_tests(void)
{
    RUN(golden_messages_of_the_store_are_understood);
    RUN(a_job_is_stored_and_read_back);
    RUN(stores_without_a_good_job_are_refused);
    RUN(a_newer_job_that_is_damaged_is_told_and_the_older_one_is_not_run);
    RUN(the_next_job_takes_the_place_of_one_that_is_damaged);
    RUN(a_job_for_another_machine_is_foreign);
    RUN(images_that_are_no_job_are_not_committed);
    RUN(an_image_of_too_many_records_is_not_committed);
    RUN(a_count_of_records_that_32_bits_do_not_hold_is_refused);
    RUN(a_machine_that_is_told_anew_drops_the_job_that_is_being_written);
    RUN(writing_keeps_its_order);
    RUN(a_controller_without_lasting_memory_has_no_store);
}
