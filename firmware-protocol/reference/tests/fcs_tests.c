#include <stdlib.h>

#include "../core/fcs16.h"
#include "check.h"
#include "vectors.h"

static uint16_t fcs_of(const uint8_t *octets, size_t length)
{
    uint16_t fcs = FCS_START;
    for (size_t index = 0; index < length; index++)
        fcs = fcs_update(fcs, octets[index]);
    return fcs;
}

static void the_sequence_is_that_of_the_vectors(void)
{
    static vector_file lines;
    uint8_t octets[VECTOR_OCTETS];
    if (!vectors_open(&lines, "wire/fcs.txt"))
        return;
    while (vectors_next(&lines)) {
        size_t length = vector_octets(lines.field[1], octets);
        CHECK_EQUAL((uint16_t)~fcs_of(octets, length), strtoul(lines.field[2], NULL, 16));
    }
    CHECK_EQUAL(lines.lines, 6);
}

/* RFC 1662, appendix C.2: the remainder over octets and sequence is F0B8. */
static void the_remainder_of_a_good_frame_is_f0b8(void)
{
    uint8_t octets[] = {0x31, 0x32, 0x33, 0x34, 0x35, 0x36, 0x37, 0x38, 0x39, 0x6E, 0x90};
    CHECK_EQUAL(fcs_of(octets, sizeof octets), FCS_GOOD);
}

static uint16_t shifted(uint16_t fcs, uint8_t octet)
{
    fcs ^= octet;
    for (int bit = 0; bit < 8; bit++)
        fcs = (uint16_t)((fcs & 1) ? (fcs >> 1) ^ 0x8408 : fcs >> 1);
    return fcs;
}

static void folding_eight_shifts_changes_nothing(void)
{
    bool same = true;
    for (uint32_t fcs = 0; fcs <= 0xFFFF; fcs += 7)
        for (uint32_t octet = 0; octet <= 0xFF; octet++)
            same = same && fcs_update((uint16_t)fcs, (uint8_t)octet) == shifted((uint16_t)fcs, (uint8_t)octet);
    CHECK(same);
}

void fcs_tests(void)
{
    RUN(the_sequence_is_that_of_the_vectors);
    RUN(the_remainder_of_a_good_frame_is_f0b8);
    RUN(folding_eight_shifts_changes_nothing);
}
