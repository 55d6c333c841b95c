/* What every octet of the line goes through, apart so that it can be made quick. */
#include "fcs16.h"
#include "frame.h"

uint8_t frame_take(frame_decoder *decoder, const uint8_t *octets, uint8_t count)
{
    if (decoder->flags != FRAME_HEARS)
        return 0;
    uint8_t room = (uint8_t)(FRAME_MAX - decoder->length);
    uint8_t *to = decoder->octets + decoder->length;
    uint16_t fcs = decoder->fcs;
    if (count > room)
        count = room;
    uint8_t left = count;
    while (left > 0) {
        uint8_t octet = *octets;
        if (frame_is_special(octet))
            break;
        octets++;
        *to++ = octet;
        fcs = fcs_next(fcs, octet);
        left--;
    }
    uint8_t taken = (uint8_t)(count - left);
    decoder->fcs = fcs;
    decoder->length = (uint8_t)(decoder->length + taken);
    return taken;
}
