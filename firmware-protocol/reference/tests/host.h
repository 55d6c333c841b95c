/* A host at the other end of the native board's line: says messages, hears Welcome, Status, Stored and References. */
#ifndef BRIDGE_HOST_H
#define BRIDGE_HOST_H

#include <stdbool.h>
#include <stdint.h>

#include "../core/frame.h"
#include "../core/words.h"
#include "../core/states.h"

typedef struct {
    uint8_t answer_number, answer, state, cause, inputs;
    uint16_t run_id;
    uint32_t taken, limit, done, cells;
    uint16_t x, y, layer;
    uint8_t head;
    uint8_t expected; /* the number in the header */
} host_status;

typedef struct {
    void *memory;
    frame_decoder decoder;
    uint8_t session, next;
    uint16_t sessions;
    host_status status;
    int statuses, welcomes, storeds, references;
    uint8_t welcome[12];
    uint8_t welcome_number;
    uint8_t stored[64];
    uint8_t stored_length;
    uint8_t known, up; /* of references */
    int32_t counted[3];
    uint32_t states_seen; /* a bit for each state told */
} test_host;

/* A machine as the wire tells of it. */
typedef struct {
    uint8_t axis_bits, axes, heads;
    uint16_t timeout_ms, change_ms;
    uint16_t cells[3];
    struct {
        uint8_t at_max;
        uint32_t pitch_q16, top, acceleration, reference, gap;
        uint16_t backlash;
    } axis[3];
    struct {
        uint8_t is_pen;
        uint16_t first_ms, second_ms;
        int32_t offset[2];
    } head[2];
} host_machine;

/* 16 x 16, two pens, the second 20 mm aside; 80 steps/mm, 5 mm pitch, play. */
extern const host_machine plotter;

/* 16 x 16 x 16, two dot heads; Y's endstop at the far end. */
extern const host_machine gantry_3d;

/* 256 x 256, one pen, no play. */
extern const host_machine wide;

/* A board after power-on, in memory of the host's own; give it back with host_close. */
void host_open(test_host *host, uint8_t reset_reason);
void host_close(test_host *host);

/* Lets time pass, hears what comes. */
void host_wait(test_host *host, uint32_t ms);

/* The same, with a beat every 50 ms, until the state is reached or the time is over; true where it is. */
bool host_wait_for(test_host *host, uint8_t state, uint32_t most_ms);

/* A message as octets of the line, HOST_LINE_MAX at most; the number of them. */
enum { HOST_LINE_MAX = 2 * FRAME_MAX + 4 };
uint32_t host_frame(const test_host *host, uint8_t type, uint8_t number, const uint8_t *body, uint8_t length, uint8_t *line);

void host_send_octets(test_host *host, const uint8_t *octets, uint32_t length);
void host_send(test_host *host, uint8_t type, uint8_t number, const uint8_t *body, uint8_t length);

/* Says a numbered message and gives the answer. */
uint8_t host_say(test_host *host, uint8_t type, const uint8_t *body, uint8_t length);

void host_hello(test_host *host, uint16_t token);
void host_beat(test_host *host);
uint8_t host_command(test_host *host, uint8_t command);
uint8_t host_set_machine(test_host *host, const host_machine *machine);
uint8_t host_set_axis(test_host *host, const host_machine *machine, uint8_t axis);
uint8_t host_set_head(test_host *host, const host_machine *machine, uint8_t head);

/* All of the above, the gantry as it belongs to the machine, and on to Idle. */
void host_ready(test_host *host, const host_machine *machine);

uint8_t host_begin(test_host *host, uint16_t run, uint32_t records);
uint8_t host_records(test_host *host, uint32_t first, const uint8_t *octets, uint8_t length);

/* Begins a run of a job in hex, an image of records, and starts it; streams what does not fit at once and lets waits for the operator
 * go on. The run's milliseconds to
 * the end, in Complete, Stopped or Aborted; 0 where it did not end. */
uint32_t host_run(test_host *host, const host_machine *machine, const char *hex);

/* Cells worked so far, as "a:1,2,0 a:2,2,0". */
void host_worked(const test_host *host, char *text, uint32_t room);

/* Wrongs of the gantry, all together. */
uint32_t host_wrongs(const test_host *host);

#endif
