/* The way in of clang's fuzzer. */
#include "../tests/noise.h"

int LLVMFuzzerTestOneInput(const uint8_t *script, size_t length);

int LLVMFuzzerTestOneInput(const uint8_t *script, size_t length)
{
    noise_play(script, length);
    return 0;
}
