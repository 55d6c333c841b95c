#include "link.h"

/* RFC 1982, section 3, with 8 bits; exactly half the circle apart is undefined there and later here. */
static bool is_earlier(uint8_t left, uint8_t right)
{
    return (uint8_t)(left - right) > 128;
}

bool link_open(bridge_link *link, uint16_t token)
{
    if (link->is_open && link->token == token)
        return false;
    link->token = token;
    link->expected = 0;
    link->is_open = true;
    link->gap = false;
    return true;
}

bool link_holds(const bridge_link *link, uint8_t session)
{
    return link->is_open && (uint8_t)link->token == session;
}

link_verdict link_accept(bridge_link *link, uint8_t number)
{
    if (number == link->expected) {
        link->expected++;
        link->gap = false;
        return LINK_NEW;
    }
    if (is_earlier(number, link->expected))
        return LINK_DUPLICATE;
    link->gap = true;
    return LINK_GAP;
}

void link_hear_next(bridge_link *link, uint8_t next)
{
    uint8_t ahead = (uint8_t)(next - link->expected);
    if (ahead > 0 && ahead < 128)
        link->gap = true;
}
