/* States and commands of ISA-TR88.00.02 (2015 edition), as SPEC.md, section 7, lists them. */
#ifndef BRIDGE_STATES_H
#define BRIDGE_STATES_H

#include <stdbool.h>
#include <stdint.h>

enum {
    STATE_NONE = 0,
    STATE_CLEARING = 1,
    STATE_STOPPED = 2,
    STATE_STARTING = 3,
    STATE_IDLE = 4,
    STATE_SUSPENDED = 5,
    STATE_EXECUTE = 6,
    STATE_STOPPING = 7,
    STATE_ABORTING = 8,
    STATE_ABORTED = 9,
    STATE_HOLDING = 10,
    STATE_HELD = 11,
    STATE_UNHOLDING = 12,
    STATE_SUSPENDING = 13,
    STATE_UNSUSPENDING = 14,
    STATE_RESETTING = 15,
    STATE_COMPLETING = 16,
    STATE_COMPLETE = 17
};

enum {
    COMMAND_RESET = 1,
    COMMAND_START = 2,
    COMMAND_STOP = 3,
    COMMAND_HOLD = 4,
    COMMAND_UNHOLD = 5,
    COMMAND_SUSPEND = 6,
    COMMAND_UNSUSPEND = 7,
    COMMAND_ABORT = 8,
    COMMAND_CLEAR = 9,
    COMMAND_COMPLETE = 10
};

/* The state that a command leads to, STATE_NONE where it is not accepted. */
uint8_t state_after(uint8_t state, uint8_t command);

/* The state that follows by itself when what a state does is complete, STATE_NONE where it stays. */
uint8_t state_completed(uint8_t state);

/* Whether a state is left by itself once what it does is done. Execute is not: it is left with the run's last record. */
bool state_is_acting(uint8_t state);

#endif
