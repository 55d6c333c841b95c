#include <stdio.h>
#include <string.h>

#include "../core/frame.h"
#include "../core/receive.h"
#include "check.h"
#include "vectors.h"

static const char *name_of(frame_event event)
{
    static const char *const names[] = {"", "frame", "spoiled", "aborted", "too_long", "too_short", "bad_fcs"};
    return names[event];
}

static void say(char *report, size_t room, const char *word, const frame_decoder *decoder)
{
    size_t used = strlen(report);
    used += (size_t)snprintf(report + used, room - used, "%s%s", used > 0 ? " " : "", word);
    if (decoder == NULL)
        return;
    used += (size_t)snprintf(report + used, room - used, ":");
    for (uint8_t index = 0; index < decoder->length; index++)
        used += (size_t)snprintf(report + used, room - used, "%02x", decoder->octets[index]);
}

/* Octets go through the receive interrupt, its ring and the decoder, the ring emptied after every `batch` octets. */
static void report_of(const uint8_t *octets, size_t length, size_t batch, char *report, size_t room)
{
    bridge_receive receive;
    frame_decoder decoder;
    memset(&receive, 0, sizeof receive);
    memset(&decoder, 0, sizeof decoder);
    report[0] = '\0';
    for (size_t index = 0; index < length; index++) {
        bool stop = receive_octet(&receive, octets[index]);
        bool is_due = (index + 1) % batch == 0 || index + 1 == length;
        if (stop)
            say(report, room, "stop", NULL);
        if (!is_due)
            continue;
        uint8_t most = RECEIVE_FULL;
        frame_event event;
        while ((event = receive_decode(&receive, &decoder, &most)) != FRAME_NONE)
            say(report, room, name_of(event), event == FRAME_GOOD ? &decoder : NULL);
    }
}

static void octets_on_the_line_are_read_as_the_vectors_say(void)
{
    static vector_file lines;
    static char report[8192];
    uint8_t octets[VECTOR_OCTETS];
    if (!vectors_open(&lines, "wire/framing.txt"))
        return;
    while (vectors_next(&lines)) {
        size_t length = vector_octets(lines.field[1], octets);
        report_of(octets, length, 1, report, sizeof report);
        const char *wanted = strcmp(lines.field[2], "-") == 0 ? "" : lines.field[2];
        if (strcmp(report, wanted) != 0)
            printf("%s: %s, not %s\n", lines.field[0], report, wanted);
        CHECK(strcmp(report, wanted) == 0);
    }
    CHECK(lines.lines > 35);
}

/* With more than one octet at a time a stop may be told before a frame that ended before it; the frames themselves are the same. */
static void frames_do_not_depend_on_when_the_ring_is_read(void)
{
    static vector_file lines;
    static char report[8192], other[8192];
    uint8_t octets[VECTOR_OCTETS];
    if (!vectors_open(&lines, "wire/framing.txt"))
        return;
    while (vectors_next(&lines)) {
        size_t length = vector_octets(lines.field[1], octets);
        if (strstr(lines.field[2], "stop") != NULL)
            continue;
        report_of(octets, length, 1, report, sizeof report);
        for (size_t batch = 2; batch <= RECEIVE_FULL; batch += 9) {
            report_of(octets, length, batch, other, sizeof other);
            CHECK(strcmp(report, other) == 0);
        }
    }
}

static size_t send(frame_encoder *encoder, const uint8_t *octets, uint8_t length, uint8_t *line)
{
    size_t count = 0;
    memcpy(encoder->octets, octets, length);
    frame_send(encoder, length);
    while (encoder->length != 0)
        line[count++] = frame_pull(encoder);
    return count;
}

/* The senders' vectors that are no longer than what a board sends. */
static void a_sender_makes_exactly_the_octets_of_the_vectors(void)
{
    static const char *const names[] = {"shortest", "escapes", "escaped_fcs", "check_digits", "no_stop_in_data"};
    static vector_file lines;
    frame_encoder encoder;
    uint8_t octets[VECTOR_OCTETS], frame[VECTOR_OCTETS], line[256];
    int found = 0;
    if (!vectors_open(&lines, "wire/framing.txt"))
        return;
    while (vectors_next(&lines))
        for (size_t index = 0; index < sizeof names / sizeof names[0]; index++) {
            if (strcmp(lines.field[0], names[index]) != 0)
                continue;
            size_t length = vector_octets(lines.field[1], octets);
            size_t content = vector_octets(strchr(lines.field[2], ':') + 1, frame);
            CHECK_EQUAL(send(&encoder, frame, (uint8_t)content, line), length);
            CHECK(memcmp(line, octets, length) == 0);
            found++;
        }
    CHECK_EQUAL(found, 5);
}

static void a_lost_octet_spoils_its_frame_and_no_other(void)
{
    const uint8_t frame[] = {0x7E, 0x82, 0x34, 0x05, 0xF7, 0xF9, 0x7E};
    bridge_receive receive;
    frame_decoder decoder;
    uint8_t most = RECEIVE_FULL;
    frame_event event;
    int good = 0, spoiled = 0;
    memset(&receive, 0, sizeof receive);
    memset(&decoder, 0, sizeof decoder);
    for (int turn = 0; turn < 3; turn++)
        for (size_t index = 0; index < sizeof frame; index++) {
            if (turn == 1 && index == 2)
                receive_error(&receive);
            else
                receive_octet(&receive, frame[index]);
        }
    while ((event = receive_decode(&receive, &decoder, &most)) != FRAME_NONE) {
        good += event == FRAME_GOOD;
        spoiled += event == FRAME_SPOILED;
    }
    CHECK_EQUAL(good, 2);
    CHECK_EQUAL(spoiled, 1);
}

static void a_full_ring_loses_frames_and_never_joins_two(void)
{
    const uint8_t frame[] = {0x7E, 0x82, 0x34, 0x05, 0xF7, 0xF9, 0x7E};
    bridge_receive receive;
    frame_decoder decoder;
    uint8_t most = RECEIVE_FULL;
    frame_event event;
    int good = 0;
    memset(&receive, 0, sizeof receive);
    memset(&decoder, 0, sizeof decoder);
    for (int index = 0; index < 400; index++)
        receive_octet(&receive, frame[index % 7]);
    while ((event = receive_decode(&receive, &decoder, &most)) != FRAME_NONE)
        good += event == FRAME_GOOD;
    CHECK_EQUAL(good, RECEIVE_RING / 7);
    for (size_t index = 0; index < 14; index++)
        receive_octet(&receive, frame[index % 7]);
    most = RECEIVE_FULL;
    while ((event = receive_decode(&receive, &decoder, &most)) != FRAME_NONE) {
        CHECK(event == FRAME_SPOILED || (event == FRAME_GOOD && decoder.length == 3));
        good += event == FRAME_GOOD;
    }
    CHECK_EQUAL(good, RECEIVE_RING / 7 + 2);
}

static void two_7f_are_no_stop_where_an_octet_between_was_misread(void)
{
    bridge_receive receive;
    memset(&receive, 0, sizeof receive);
    CHECK(!receive_octet(&receive, 0x7F));
    receive_error(&receive);
    CHECK(!receive_octet(&receive, 0x7F));
    CHECK(receive_octet(&receive, 0x7F));
}

void frame_tests(void)
{
    RUN(octets_on_the_line_are_read_as_the_vectors_say);
    RUN(frames_do_not_depend_on_when_the_ring_is_read);
    RUN(a_sender_makes_exactly_the_octets_of_the_vectors);
    RUN(a_lost_octet_spoils_its_frame_and_no_other);
    RUN(a_full_ring_loses_frames_and_never_joins_two);
    RUN(two_7f_are_no_stop_where_an_octet_between_was_misread);
}
