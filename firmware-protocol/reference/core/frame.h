/* Frames on the line (SPEC.md, section 2): octets in, frames out, and the other way round. */
#ifndef BRIDGE_FRAME_H
#define BRIDGE_FRAME_H

#include <stdbool.h>
#include <stdint.h>

enum {
    FRAME_FLAG = 0x7E,
    FRAME_ESCAPE = 0x7D,
    FRAME_RESERVED = 0x7F,
    FRAME_XOR = 0x20,
    FRAME_MIN = 5,
    FRAME_MAX = 64,
    FRAME_FCS = 2
};

static inline bool frame_is_special(uint8_t octet)
{
    return (uint8_t)(octet - FRAME_ESCAPE) <= FRAME_RESERVED - FRAME_ESCAPE;
}

typedef enum { FRAME_NONE, FRAME_GOOD, FRAME_SPOILED, FRAME_ABORTED, FRAME_TOO_LONG, FRAME_TOO_SHORT, FRAME_BAD_FCS } frame_event;

enum {
    FRAME_HEARS = 0x01,    /* a flag has been seen since the reset */
    FRAME_STANDS = 0x02,   /* a good frame is there to be read */
    FRAME_ESCAPED = 0x04,
    FRAME_IS_SPOILED = 0x08,
    FRAME_IS_LONG = 0x10
};

typedef struct {
    uint8_t octets[FRAME_MAX]; /* after FRAME_GOOD: type, session, number, body */
    uint8_t length;            /* after FRAME_GOOD: without the check sequence */
    uint16_t fcs;
    uint8_t flags; /* FRAME_HEARS and what is the matter with the frame */
} frame_decoder;

/* Takes one octet; anything but FRAME_NONE ends a frame. A good frame stands until the next octet. */
frame_event frame_push(frame_decoder *decoder, uint8_t octet);

/* Takes octets as frame_push would while they are plain ones within a frame that has room, and gives how many. frame_push takes the next. */
uint8_t frame_take(frame_decoder *decoder, const uint8_t *octets, uint8_t count);

/* One frame on its way out: filled by the caller, drained octet by octet. */
enum { FRAME_OUT_MAX = 33 }; /* header and the longest body that a board sends */

typedef struct {
    uint8_t octets[FRAME_OUT_MAX + FRAME_FCS];
    uint8_t length; /* with the check sequence; 0 where nothing is on its way */
    uint8_t next;
    uint8_t place; /* 0 opening flag, 1 content, 2 second half of an escape */
} frame_encoder;

/* Begins to send octets[0 to length - 1] with their check sequence. */
void frame_send(frame_encoder *encoder, uint8_t length);

/* The next octet for the line; only while length is not 0. */
uint8_t frame_pull(frame_encoder *encoder);

#endif
