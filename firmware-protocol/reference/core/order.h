/* What is written before this is written before what comes after it, as an interrupt on the same core sees it. */
#ifndef BRIDGE_ORDER_H
#define BRIDGE_ORDER_H

#ifdef __GNUC__
#define KEEP_ORDER() __asm__ volatile("" ::: "memory")
#else
#error "Say here how this compiler is kept from moving memory accesses."
#endif

#endif
