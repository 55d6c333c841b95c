#include "states.h"

uint8_t state_after(uint8_t state, uint8_t command)
{
    bool is_down = state == STATE_ABORTING || state == STATE_ABORTED;
    bool is_stopped = state == STATE_STOPPED || state == STATE_STOPPING || state == STATE_CLEARING;
    bool is_executing = state == STATE_EXECUTE;
    bool is_suspended = state == STATE_SUSPENDED;
    switch (command) {
    case COMMAND_RESET:
        return state == STATE_STOPPED || state == STATE_COMPLETE ? STATE_RESETTING : STATE_NONE;
    case COMMAND_START:
        return state == STATE_IDLE ? STATE_STARTING : STATE_NONE;
    case COMMAND_STOP:
        return is_down || is_stopped ? STATE_NONE : STATE_STOPPING;
    case COMMAND_HOLD:
        return is_executing || is_suspended ? STATE_HOLDING : STATE_NONE;
    case COMMAND_UNHOLD:
        return state == STATE_HELD ? STATE_UNHOLDING : STATE_NONE;
    case COMMAND_SUSPEND:
        return is_executing ? STATE_SUSPENDING : STATE_NONE;
    case COMMAND_UNSUSPEND:
        return is_suspended ? STATE_UNSUSPENDING : STATE_NONE;
    case COMMAND_ABORT:
        return is_down ? STATE_NONE : STATE_ABORTING;
    case COMMAND_CLEAR:
        return state == STATE_ABORTED ? STATE_CLEARING : STATE_NONE;
    case COMMAND_COMPLETE:
        return is_executing ? STATE_COMPLETING : STATE_NONE;
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
