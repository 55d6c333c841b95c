/* Reads the files of golden octets: lines of fields separated by " | ", and comments. */
#ifndef BRIDGE_VECTORS_H
#define BRIDGE_VECTORS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

enum { VECTOR_FIELDS = 8, VECTOR_OCTETS = 2048 };

typedef struct {
    FILE *file;
    char line[65536];
    char *field[VECTOR_FIELDS];
    int fields;
    int lines; /* read so far, without comments */
} vector_file;

/* Opens a file of the folder of vectors; a missing one is a failure. */
bool vectors_open(vector_file *vectors, const char *name);

/* The next line; closes the file behind the last. */
bool vectors_next(vector_file *vectors);

long vector_number(const char *text);

/* Octets in hex, "-" for none; their number. */
size_t vector_octets(const char *text, uint8_t *octets);

#endif
