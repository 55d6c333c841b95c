#include "frame.h"

#include "fcs16.h"

static frame_event judge(const frame_decoder *decoder)
{
    if (!(decoder->flags & FRAME_HEARS))
        return FRAME_NONE;
    if (decoder->flags & FRAME_IS_SPOILED)
        return FRAME_SPOILED;
    if (decoder->flags & FRAME_ESCAPED)
        return FRAME_ABORTED;
    if (decoder->flags & FRAME_IS_LONG)
        return FRAME_TOO_LONG;
    if (decoder->length == 0)
        return FRAME_NONE;
    if (decoder->length < FRAME_MIN)
        return FRAME_TOO_SHORT;
    return decoder->fcs == FCS_GOOD ? FRAME_GOOD : FRAME_BAD_FCS;
}

static frame_event close_frame(frame_decoder *decoder)
{
    frame_event event = judge(decoder);
    decoder->fcs = FCS_START;
    decoder->flags = FRAME_HEARS;
    if (event == FRAME_GOOD) {
        decoder->flags |= FRAME_STANDS;
        decoder->length = (uint8_t)(decoder->length - FRAME_FCS);
    } else {
        decoder->length = 0;
    }
    return event;
}

static void store(frame_decoder *decoder, uint8_t octet)
{
    if (decoder->length == FRAME_MAX) {
        decoder->flags |= FRAME_IS_LONG;
        return;
    }
    decoder->octets[decoder->length++] = octet;
    decoder->fcs = fcs_next(decoder->fcs, octet);
}

frame_event frame_push(frame_decoder *decoder, uint8_t octet)
{
    if (decoder->flags & FRAME_STANDS) {
        decoder->flags = FRAME_HEARS;
        decoder->length = 0;
    }
    if (!frame_is_special(octet) && !(decoder->flags & FRAME_ESCAPED)) {
        store(decoder, octet);
    } else if (octet == FRAME_FLAG) {
        return close_frame(decoder);
    } else if (octet == FRAME_RESERVED) {
        decoder->flags = (uint8_t)((decoder->flags | FRAME_IS_SPOILED) & ~FRAME_ESCAPED);
    } else if (decoder->flags & FRAME_ESCAPED) {
        decoder->flags = (uint8_t)(decoder->flags & ~FRAME_ESCAPED);
        store(decoder, octet ^ FRAME_XOR);
    } else {
        decoder->flags |= FRAME_ESCAPED;
    }
    return FRAME_NONE;
}

void frame_send(frame_encoder *encoder, uint8_t length)
{
    uint16_t fcs = FCS_START;
    for (uint8_t index = 0; index < length; index++)
        fcs = fcs_next(fcs, encoder->octets[index]);
    encoder->octets[length] = (uint8_t)~fcs;
    encoder->octets[length + 1] = (uint8_t)(~fcs >> 8);
    encoder->length = (uint8_t)(length + FRAME_FCS);
    encoder->next = 0;
    encoder->place = 0;
}

uint8_t frame_pull(frame_encoder *encoder)
{
    if (encoder->place == 0) {
        encoder->place = 1;
        return FRAME_FLAG;
    }
    if (encoder->next == encoder->length) {
        encoder->length = 0;
        return FRAME_FLAG;
    }
    uint8_t octet = encoder->octets[encoder->next];
    bool reserved = frame_is_special(octet);
    if (reserved && encoder->place == 1) {
        encoder->place = 2;
        return FRAME_ESCAPE;
    }
    encoder->next++;
    encoder->place = 1;
    return reserved ? octet ^ FRAME_XOR : octet;
}
