/* crash.h - leaves the terminal usable when the program dies of a fault. */
#ifndef KIT_CRASH_H
#define KIT_CRASH_H

/* Remembers how the terminal is set, before curses changes it. */
void crash_remember(void);

/* Catches SIGSEGV, SIGBUS, SIGFPE, SIGILL and SIGABRT on a stack of their own: restores the terminal and lets the signal end the
 * process as it would have. Between these two calls only. */
void crash_guard(void);
void crash_unguard(void);

#endif
