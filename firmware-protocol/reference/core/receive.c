#include "receive.h"

#include "frame.h"
#include "order.h"

static bool put(bridge_receive *receive, uint8_t octet)
{
    uint8_t tail = receive->tail;
    if ((uint8_t)(tail - receive->head) == RECEIVE_RING)
        return false;
    receive->ring[tail & (RECEIVE_RING - 1)] = octet;
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
    return stop;
}

void receive_error(bridge_receive *receive)
{
    receive->before = 0;
    receive->lost = true;
}

bool receive_take(bridge_receive *receive, uint8_t *octet)
{
    uint8_t head = receive->head;
    if (head == receive->tail)
        return false;
    *octet = receive->ring[head & (RECEIVE_RING - 1)];
    KEEP_ORDER();
    receive->head = (uint8_t)(head + 1);
    return true;
}
