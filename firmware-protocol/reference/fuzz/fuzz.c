/* The fuzzer's way in. Without a fuzzing compiler, seeded random scripts. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "../tests/noise.h"

#ifdef BRIDGE_LIBFUZZER
int LLVMFuzzerTestOneInput(const uint8_t *script, size_t length);

int LLVMFuzzerTestOneInput(const uint8_t *script, size_t length)
{
    noise_play(script, length);
    return 0;
}
#else
int main(int count, char **arguments)
{
    static uint8_t script[4096];
    unsigned first = count > 1 ? (unsigned)atoi(arguments[1]) : 1;
    unsigned many = count > 2 ? (unsigned)atoi(arguments[2]) : 300;
    for (unsigned seed = first; seed < first + many; seed++) {
        srand(seed);
        for (size_t index = 0; index < sizeof script; index++)
            script[index] = (uint8_t)(rand() >> 7);
        for (size_t index = 1; index < sizeof script; index += 13)
            script[index] %= 14;
        fprintf(stderr, "\rseed %u (again with: out/fuzz %u 1)", seed, seed);
        noise_play(script, 64 + (unsigned)rand() % (sizeof script - 64));
    }
    fprintf(stderr, "\n%u scripts\n", many);
    return 0;
}
#endif
