/* The one board that the interrupts and the main loop share, and its port's parts that main.c puts together. */
#ifndef BRIDGE_CONTROLLER_H
#define BRIDGE_CONTROLLER_H

#include "../../core/bridge.h"

extern bridge board;

#endif
