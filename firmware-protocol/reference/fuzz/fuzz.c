/* The fuzzer's way in. Without a fuzzing compiler, seeded random scripts: before each one the command that plays it again is written
 * to the file that the first argument names. */
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
static void note(const char *path, unsigned seed)
{
    FILE *file = fopen(path, "w");
    if (file == NULL)
        return;
    fprintf(file, "out/fuzz out/fuzz-again %u 1\n", seed);
    fclose(file);
}

int main(int count, char **arguments)
{
    static uint8_t script[4096];
    const char *path = count > 1 ? arguments[1] : "fuzz-again";
    unsigned first = count > 2 ? (unsigned)atoi(arguments[2]) : 1;
    unsigned many = count > 3 ? (unsigned)atoi(arguments[3]) : 300;
    for (unsigned seed = first; seed < first + many; seed++) {
        note(path, seed);
        srand(seed);
        for (size_t index = 0; index < sizeof script; index++)
            script[index] = (uint8_t)(rand() >> 7);
        for (size_t index = 1; index < sizeof script; index += 13)
            script[index] %= 14;
        noise_play(script, 64 + (unsigned)rand() % (sizeof script - 64));
    }
    printf("%u scripts\n", many);
    return 0;
}
#endif
