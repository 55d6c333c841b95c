#include "frame.h"

#include "fcs16.h"

static void open_frame(frame_decoder *decoder)
{
    decoder->length = 0;
    decoder->fcs = FCS_START;
    decoder->hears = true;
    decoder->escaped = false;
    decoder->spoiled = false;
    decoder->too_long = false;
}

static frame_event judge(frame_decoder *decoder)
{
    if (decoder->spoiled)
        return FRAME_SPOILED;
    if (decoder->escaped)
        return FRAME_ABORTED;
    if (decoder->too_long)
        return FRAME_TOO_LONG;
    if (decoder->length == 0)
        return FRAME_NONE;
    if (decoder->length < FRAME_MIN)
        return FRAME_TOO_SHORT;
    return decoder->fcs == FCS_GOOD ? FRAME_GOOD : FRAME_BAD_FCS;
}

static frame_event close_frame(frame_decoder *decoder)
{
    frame_event event = decoder->hears ? judge(decoder) : FRAME_NONE;
    uint8_t length = decoder->length;
    open_frame(decoder);
    decoder->stands = event == FRAME_GOOD;
    if (decoder->stands)
        decoder->length = (uint8_t)(length - FRAME_FCS);
    return event;
}

static void store(frame_decoder *decoder, uint8_t octet)
{
    if (decoder->length == FRAME_MAX) {
        decoder->too_long = true;
        return;
    }
    decoder->octets[decoder->length++] = octet;
    decoder->fcs = fcs_update(decoder->fcs, octet);
}

frame_event frame_push(frame_decoder *decoder, uint8_t octet)
{
    if (decoder->stands) {
        decoder->stands = false;
        decoder->length = 0;
    }
    if (octet == FRAME_FLAG)
        return close_frame(decoder);
    if (octet == FRAME_RESERVED) {
        decoder->spoiled = true;
        decoder->escaped = false;
    } else if (decoder->escaped) {
        decoder->escaped = false;
        store(decoder, octet ^ FRAME_XOR);
    } else if (octet == FRAME_ESCAPE) {
        decoder->escaped = true;
    } else {
        store(decoder, octet);
    }
    return FRAME_NONE;
}

void frame_send(frame_encoder *encoder, uint8_t length)
{
    uint16_t fcs = FCS_START;
    for (uint8_t index = 0; index < length; index++)
        fcs = fcs_update(fcs, encoder->octets[index]);
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
    bool reserved = octet == FRAME_ESCAPE || octet == FRAME_FLAG || octet == FRAME_RESERVED;
    if (reserved && encoder->place == 1) {
        encoder->place = 2;
        return FRAME_ESCAPE;
    }
    encoder->next++;
    encoder->place = 1;
    return reserved ? octet ^ FRAME_XOR : octet;
}
