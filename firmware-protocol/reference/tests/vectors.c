#include "vectors.h"

#include <stdlib.h>
#include <string.h>

#include "check.h"

bool vectors_open(vector_file *vectors, const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", vectors_folder, name);
    vectors->file = fopen(path, "r");
    vectors->lines = 0;
    CHECK(vectors->file != NULL);
    return vectors->file != NULL;
}

static void split(vector_file *vectors)
{
    char *rest = vectors->line;
    vectors->fields = 0;
    while (rest != NULL && vectors->fields < VECTOR_FIELDS) {
        char *end = strstr(rest, " | ");
        vectors->field[vectors->fields++] = rest;
        if (end != NULL)
            *end = '\0';
        rest = end == NULL ? NULL : end + 3;
    }
}

bool vectors_next(vector_file *vectors)
{
    while (fgets(vectors->line, sizeof vectors->line, vectors->file) != NULL) {
        vectors->line[strcspn(vectors->line, "\r\n")] = '\0';
        if (vectors->line[0] == '#' || vectors->line[0] == '\0')
            continue;
        split(vectors);
        vectors->lines++;
        return true;
    }
    fclose(vectors->file);
    return false;
}

long vector_number(const char *text)
{
    return strtol(text, NULL, 10);
}

size_t vector_octets(const char *text, uint8_t *octets)
{
    size_t count = 0;
    if (text[0] == '-')
        return 0;
    for (; text[0] != '\0' && text[1] != '\0' && count < VECTOR_OCTETS; text += 2) {
        char pair[3] = {text[0], text[1], '\0'};
        octets[count++] = (uint8_t)strtoul(pair, NULL, 16);
    }
    return count;
}
