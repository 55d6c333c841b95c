#include "queue.h"

#include <stddef.h>
#include <string.h>

void queue_add(bridge_queue *queue, const uint8_t *octets, uint8_t length)
{
    uint8_t place = (uint8_t)((queue->first + queue->count) & (QUEUE_RECORDS - 1));
    memcpy(queue->octets[place], octets, length);
    queue->count++;
}

const uint8_t *queue_take(bridge_queue *queue)
{
    if (queue->count == 0)
        return NULL;
    const uint8_t *taken = queue->octets[queue->first];
    queue->first = (uint8_t)((queue->first + 1) & (QUEUE_RECORDS - 1));
    queue->count--;
    return taken;
}

void queue_clear(bridge_queue *queue)
{
    queue->first = 0;
    queue->count = 0;
}
