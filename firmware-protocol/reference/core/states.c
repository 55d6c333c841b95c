#include "states.h"

#define IN(state) ((uint32_t)1 << (state))

static bool is_in(uint8_t state, uint32_t states)
{
    return ((states >> state) & 1) != 0;
}

uint8_t state_after(uint8_t state, uint8_t command)
{
    const uint32_t down = IN(STATE_ABORTING) | IN(STATE_ABORTED);
    const uint32_t at_rest = down | IN(STATE_STOPPED) | IN(STATE_STOPPING) | IN(STATE_CLEARING);
    switch (command) {
    case COMMAND_RESET:
        return is_in(state, IN(STATE_STOPPED) | IN(STATE_COMPLETE)) ? STATE_RESETTING : STATE_NONE;
    case COMMAND_START:
        return state == STATE_IDLE ? STATE_STARTING : STATE_NONE;
    case COMMAND_STOP:
        return is_in(state, at_rest) ? STATE_NONE : STATE_STOPPING;
    case COMMAND_HOLD:
        return is_in(state, IN(STATE_EXECUTE) | IN(STATE_SUSPENDED)) ? STATE_HOLDING : STATE_NONE;
    case COMMAND_UNHOLD:
        return state == STATE_HELD ? STATE_UNHOLDING : STATE_NONE;
    case COMMAND_SUSPEND:
        return state == STATE_EXECUTE ? STATE_SUSPENDING : STATE_NONE;
    case COMMAND_UNSUSPEND:
        return state == STATE_SUSPENDED ? STATE_UNSUSPENDING : STATE_NONE;
    case COMMAND_ABORT:
        return is_in(state, down) ? STATE_NONE : STATE_ABORTING;
    case COMMAND_CLEAR:
        return state == STATE_ABORTED ? STATE_CLEARING : STATE_NONE;
    case COMMAND_COMPLETE:
        return state == STATE_EXECUTE ? STATE_COMPLETING : STATE_NONE;
    default:
        return STATE_NONE;
    }
}

uint8_t state_completed(uint8_t state)
{
    switch (state) {
    case STATE_CLEARING:
    case STATE_STOPPING:
        return STATE_STOPPED;
    case STATE_STARTING:
    case STATE_UNHOLDING:
    case STATE_UNSUSPENDING:
        return STATE_EXECUTE;
    case STATE_EXECUTE:
        return STATE_COMPLETING;
    case STATE_ABORTING:
        return STATE_ABORTED;
    case STATE_HOLDING:
        return STATE_HELD;
    case STATE_SUSPENDING:
        return STATE_SUSPENDED;
    case STATE_RESETTING:
        return STATE_IDLE;
    case STATE_COMPLETING:
        return STATE_COMPLETE;
    default:
        return STATE_NONE;
    }
}

bool state_is_acting(uint8_t state)
{
    return state != STATE_EXECUTE && state_completed(state) != STATE_NONE;
}
