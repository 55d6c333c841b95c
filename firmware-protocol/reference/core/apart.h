/* A function that is called from several places, or seldom, and so is not to be copied into its callers: flash is scarce. */
#ifndef BRIDGE_APART_H
#define BRIDGE_APART_H

#ifdef __GNUC__
#define APART __attribute__((noinline))
#else
#define APART
#endif

#endif
