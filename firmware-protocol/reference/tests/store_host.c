#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "store_host.h"
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

uint8_t say_patiently(test_host *host, uint8_t type, const uint8_t *body, uint8_t length)
{
    uint8_t answer = ANSWER_STORE_BUSY;
    for (int turn = 0; turn < 400 && answer == ANSWER_STORE_BUSY; turn++) {
        answer = host_say(host, type, body, length);
        if (answer == ANSWER_STORE_BUSY)
            host_wait(host, 10);
    }
    return answer;
}

uint8_t write_image(test_host *host, const uint8_t *image, uint16_t length)
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

uint8_t write_hex(test_host *host, const char *hex)
{
    static uint8_t image[VECTOR_OCTETS];
    return write_image(host, image, (uint16_t)vector_octets(hex, image));
}

uint8_t begin_stored(test_host *host, uint16_t run)
{
    uint8_t body[2];
    put_u16(body, run);
    return say_patiently(host, MESSAGE_BEGIN_STORED, body, 2);
}

uint8_t read_back(test_host *host, uint16_t offset, uint8_t count)
{
    uint8_t body[3];
    put_u8(put_u16(body, offset), count);
    return say_patiently(host, MESSAGE_STORE_READ, body, 3);
}

void press(test_host *host)
{
    native_set_start(host->memory, 0);
    native_advance(host->memory, 100000);
    native_set_start(host->memory, 1);
    native_advance(host->memory, 100000);
    native_set_start(host->memory, 0);
    native_advance(host->memory, 100000);
}

void wait_for_state(test_host *host, uint8_t state)
{
    for (int turn = 0; turn < 6000 && native_state(host->memory) != state; turn++)
        native_advance(host->memory, 10000);
    CHECK_EQUAL(native_state(host->memory), state);
}

void run_by_button(test_host *host)
{
    native_reset(host->memory, BRIDGE_RESET_POWER_ON);
    press(host);
    wait_for_state(host, STATE_STOPPED);
    press(host);
    wait_for_state(host, STATE_IDLE);
    press(host);
    wait_for_state(host, STATE_COMPLETE);
}
