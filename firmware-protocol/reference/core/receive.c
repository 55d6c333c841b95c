#include "receive.h"

#include "order.h"

static bool put(bridge_receive *receive, uint8_t octet)
{
    uint8_t tail = receive->tail;
    if ((uint8_t)(tail - receive->head) == RECEIVE_FULL)
        return false;
    receive->ring[tail] = octet;
    KEEP_ORDER();
    receive->tail = (uint8_t)(tail + 1);
    return true;
}

/* Where octets are missing, a bare 7F takes their place: it spoils the frame that they were in, and nothing else. */
static void keep(bridge_receive *receive, uint8_t octet)
{
    if (receive->lost && !put(receive, FRAME_RESERVED))
        return;
    receive->lost = false;
    if (!put(receive, octet))
        receive->lost = true;
}

bool receive_octet(bridge_receive *receive, uint8_t octet)
{
    bool stop = octet == FRAME_RESERVED && receive->before == FRAME_RESERVED;
    receive->before = octet;
    keep(receive, octet);
    if (stop) {
        receive->stop_end = receive->tail;
        receive->stop_is_ahead = true;
    }
    return stop;
}

void receive_error(bridge_receive *receive)
{
    receive->before = 0;
    receive->lost = true;
}

static uint8_t least(uint8_t left, uint8_t right)
{
    return left < right ? left : right;
}

/* The mark is cleared before the places are compared, not after: a STOP that comes in between sets it again. */
static void pass_stop(bridge_receive *receive)
{
    if (!receive->stop_is_ahead)
        return;
    receive->stop_is_ahead = false;
    if (receive->head != receive->stop_end)
        receive->stop_is_ahead = true;
}

frame_event receive_decode(bridge_receive *receive, frame_decoder *decoder, uint8_t *most)
{
    frame_event event = FRAME_NONE;
    while (event == FRAME_NONE) {
        pass_stop(receive);
        uint8_t head = receive->head;
        uint16_t to_end = (uint16_t)(RECEIVE_RING - head);
        uint8_t there = least((uint8_t)(receive->tail - head), *most);
        if (there == 0)
            break;
        KEEP_ORDER();
        uint8_t taken = frame_take(decoder, receive->ring + head, (uint8_t)(there < to_end ? there : to_end));
        if (taken == 0) {
            taken = 1;
            event = frame_push(decoder, receive->ring[head]);
        }
        KEEP_ORDER();
        receive->head = (uint8_t)(head + taken);
        *most = (uint8_t)(*most - taken);
    }
    return event;
}
