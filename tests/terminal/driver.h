/* driver.h - drives a full-screen program as a person would: keys go in through a pseudo-terminal, the screen is read back
 * through a terminal emulator (libvterm).
 *
 * Nothing sleeps. After keys, driver_settle waits until the program has taken them and waits for more, which the kernel
 * tells (/proc/PID/syscall); where it does not, until no byte has come for 50 ms. For what happens in its own time (a start,
 * a resize, a timer) wait for the text that must come.
 */
#ifndef TESTS_DRIVER_H
#define TESTS_DRIVER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

struct driver;

struct driver_options {
    int rows, cols;
    const char *term;       /* TERM; NULL: xterm-256color */
    const char *locale;     /* LC_ALL; NULL: C.UTF-8 */
    const char *const *env; /* more "NAME=value", closed by NULL; may be NULL */
    bool blind;             /* bytes are counted and not shown to the emulator, which takes time: for measuring */
};

/* Starts argv[0] with its own HOME-less, fixed environment (TZ=UTC0, ESCDELAY unset). NULL if it cannot be started. */
struct driver *driver_open(const char *const argv[], const struct driver_options *options);

/* Hangs up, waits, kills if need be, frees. */
void driver_close(struct driver *driver);

/* Keys: plain text, and names in angle brackets: <Enter> <Esc> <Tab> <S-Tab> <Up> <Down> <Left> <Right> <Home> <End> <PgUp>
 * <PgDn> <Del> <BS> <F1>..<F12> <C-x> <M-x> <lt>. Then settles. False if the program ended or did not settle in 5 s. */
bool driver_keys(struct driver *driver, const char *keys);

/* Bytes as they are (a paste, broken UTF-8), then settles. */
bool driver_bytes(struct driver *driver, const void *bytes, size_t n);

/* A click at a cell, in the SGR form, then settles. */
bool driver_click(struct driver *driver, int row, int col);

bool driver_settle(struct driver *driver, int most_ms);

/* Until the text stands somewhere on the screen; false after most_ms. */
bool driver_wait(struct driver *driver, const char *text, int most_ms);

/* Until the text stands nowhere on it any more. */
bool driver_wait_gone(struct driver *driver, const char *text, int most_ms);

/* Where a text stands; false if it does not. row and col may be NULL. */
bool driver_find(struct driver *driver, const char *text, int *row, int *col);

/* One row as text without trailing blanks. */
void driver_row(struct driver *driver, int row, char *out, size_t size);

struct driver_cell {
    char text[24];
    int width;
    bool bold, reverse, underline, coloured; /* coloured: not the default foreground */
    int colour;                              /* of the foreground, as the terminal counts them; -1: the default */
};
struct driver_cell driver_cell(struct driver *driver, int row, int col);

/* The whole screen, a row a line. */
void driver_print(struct driver *driver, FILE *out);

void driver_resize(struct driver *driver, int rows, int cols);
void driver_signal(struct driver *driver, int number);

/* True when the program has ended within most_ms; *status is as waitpid gives it. */
bool driver_ended(struct driver *driver, int most_ms, int *status);

/* What the terminal is left like. */
struct driver_state {
    bool alternate, cursor_shown, mouse, paste;
    bool canonical, echo, signals; /* of the line discipline */
};
struct driver_state driver_state(struct driver *driver);

/* Bytes that the program has sent so far. */
uint64_t driver_sent(struct driver *driver);

/* Microseconds from its start, or from the last keys if there were any, to when the last bytes that it sent were read. */
double driver_latency_us(struct driver *driver);

/* The program has sent this byte sequence at some time. */
bool driver_sent_raw(struct driver *driver, const char *sequence);

int driver_pid(struct driver *driver);

#endif
